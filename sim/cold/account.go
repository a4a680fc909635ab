package cold

import (
	"fmt"
	"math"
	"slices"

	"warmby/sim"
)

// Person is the cold account of one person along a drill.
type Person struct {
	Name   string
	Why    string // why there is no account; "" when there is one
	Ledger []Entry
	// Casualty says that there is no account because the person is one.
	Casualty bool
	// Until is when the person was hurt: the account ends there, and says nothing
	// of what comes after. Never for who is not hurt.
	Until sim.Time

	Peak   float64  // the most heat lost at any moment, Wh/m2
	PeakAt sim.Time // when
	// PassedAt is the first moment at which the debt reaches [HeatLimit];
	// Never if it does not.
	PassedAt sim.Time
	// Verdict is where the person stands against the limit; Least and Most are the
	// peaks with a metabolic rate 20 % higher and lower, from which it follows.
	Verdict     Verdict
	Least, Most float64
	// RelieveBy is the moment by which somebody should take over: PassedAt or,
	// for one who is losing heat when the drill ends, the moment at which the
	// debt would reach the limit if nothing changed; no later than the work/warm-up
	// schedule allows an outing, then BySchedule. Never when there is none.
	RelieveBy  sim.Time
	BySchedule bool

	// Sweats is what the person sweats at, the most first; Sweat is the sum, g.
	Sweats []Sweat
	Sweat  float64

	// Outings are the times spent outdoors without a break, in sequence.
	Outings []Outing
	Longest int // index of the longest outing, the first of equals; -1 without any

	Skin // the worst of the person's time outdoors
}

// Margin returns what is left to the limit at the peak, in Wh/m2; below 0
// when the limit is passed. It is no more exact than the metabolic rate: see
// Verdict.
func (p *Person) Margin() float64 { return HeatLimit - p.Peak }

// Entry is a stretch of a person's time over which nothing changes.
type Entry struct {
	From, To sim.Time
	What     sim.Activity
	Task     int  // as in sim.Stretch; -1 for none
	Lookout  int  // as in sim.Stretch; -1 for none
	Spot     int  // where; where to when walking
	Indoors  bool // whether in a shelter that is, or was, warmed
	Shelter  int  // which; -1 outdoors
	// GoneIn says that the person was free and has gone into a warm shelter, or is
	// on the way there or back: the timeline has him free at a spot all the while.
	GoneIn   bool
	Halt     bool    // whether what is worn at the halt is worn
	Damp     bool    // whether damp takes its share of it
	M        float64 // metabolic rate, W/m2
	Clo      float64 // basic insulation, less what damp takes
	Air      float64 // degrees C; inside in whole degrees, 10 for all above
	Wind     float64 // at the body, m/s
	Humidity float64 // of the air, 0 to 1
	S        float64 // heat stored, W/m2; below 0 is lost
	Debt     float64 // heat lost and not yet won back at To, Wh/m2
	Sweat    float64 // g
}

// Account adds up the cold that each person of a drill takes, in roster
// order. Without weather, for people whose clothing is unset, for casualties and
// where a formula is out of its range there is no account, and Why says so.
//
// See the package's doc for what is added up and what it means.
func Account(tl *sim.Timeline) []Person {
	b := &books{frame: newFrame(tl.Drill, 1), stored: map[state]float64{}}
	b.read(tl)
	people := make([]Person, len(tl.Drill.People))
	for i := range people {
		people[i] = b.person(i)
	}
	judge(tl, people)
	return people
}

// Kept reports whether there is an account of anybody in a drill, as far as can be
// said before it is played.
func Kept(d *sim.Drill) bool { return slices.Contains(refusals(d), "") }

// refusals says of each person of a drill why no account can be kept, whatever is
// played; "" where it can.
func refusals(d *sim.Drill) []string {
	steps := d.Steps(0)
	var list []string
	for i := range d.People {
		list = append(list, refuse(&d.People[i], steps))
	}
	return list
}

// books is what the accounts of one drill share.
type books struct {
	frame
	stored map[state]float64
}

// state is all that the balance depends on.
type state struct {
	m, clo float64
	in     Ambient
}

// ForACasualty is why there is no account of a casualty.
const ForACasualty = "no account: it does not hold for a casualty; insulate, shelter, watch"

// refuse returns why a person has no account, or "".
func refuse(p *sim.Person, steps []sim.Step) string {
	switch {
	case p.Casualty:
		return ForACasualty
	case len(steps) == 0 || !steps[0].Weather:
		return "no account: the scenario has no weather"
	case !(p.March > 0) && !(p.Halt > 0):
		return fmt.Sprintf("no account: the clothing of %q is not given", p.Name)
	case !(p.March > 0):
		return fmt.Sprintf("no account: what %q wears on the march is not given", p.Name)
	case !(p.Halt > 0):
		return fmt.Sprintf("no account: what %q wears at the halt is not given", p.Name)
	}
	return ""
}

// outOfRange returns why the balance has no value in clothing of so many clo, or
// "".
func outOfRange(clo float64, in Ambient, inside bool) string {
	switch {
	case !inside && in.Air > 0:
		return "no account: air over 0 C outdoors, where snow melts and rain may fall: the balance knows no wet clothing"
	case clo < leastClo:
		return fmt.Sprintf("no account: clothing under %.1f clo, where the balance begins", leastClo)
	case in.Wind > mostWind:
		return fmt.Sprintf("no account: more than %d m/s at the body, where the balance ends", mostWind)
	}
	return ""
}

// leastClo is where the clothing of the standard begins. From memory.
const leastClo = 0.3

// person walks through the stretches of one person.
func (b *books) person(who int) Person {
	p := &b.drill.People[who]
	acc := Person{Name: p.Name, Why: refuse(p, b.steps), Casualty: p.Casualty, Until: b.ends(who), PassedAt: sim.Never, RelieveBy: sim.Never,
		Longest: -1, Skin: noSkin("never outdoors")}
	if acc.Why != "" {
		acc.Skin = noSkin(acc.Why)
		return acc
	}
	stretches := b.tl.People[who]
	sum := tally{peak: Peak{PassedAt: sim.Never}}
	if len(stretches) > 0 {
		sum.peak.At = stretches[0].From
	}
	part := b.start(who)
	for i := range stretches {
		s := &stretches[i]
		b.begin(&part, s)
		for from := s.From; from < part.until; from = part.to {
			b.next(&part, from)
			e, why := b.entry(s, from, &part)
			if why != "" {
				return Person{Name: p.Name, Why: why, Until: acc.Until, PassedAt: sim.Never, RelieveBy: sim.Never, Longest: -1, Skin: noSkin(why)}
			}
			over := sum.over(e.From, e.To, e.S)
			sum.add(e.From, e.To, e.S)
			if e.Debt = sum.debt; !e.Indoors || !part.does.gentle {
				e.Sweat = sweat(over)
			}
			acc.Ledger = append(acc.Ledger, e)
			acc.feel(e, b.weather(e, &part))
		}
	}
	acc.Peak, acc.PeakAt, acc.PassedAt = sum.peak.Debt, sum.peak.At, sum.peak.PassedAt
	acc.sweats()
	acc.close()
	return acc
}

// entry returns the account's entry for a part of a stretch, or why there is no
// account.
func (b *books) entry(s *sim.Stretch, from sim.Time, part *part) (e Entry, why string) {
	in := b.ambient(part)
	e = Entry{From: from, To: part.to, What: s.What, Task: s.Task, Lookout: s.Lookout, Spot: s.Spot,
		Indoors: part.shelter >= 0, Shelter: part.shelter, GoneIn: part.gone, Halt: part.halt == 1, Damp: part.damp == 1,
		M: part.does.rate, Clo: b.clothes(part), Air: in.Air, Wind: in.Wind, Humidity: in.Humidity}
	if part.gone {
		v := &b.visits[part.who][part.visit]
		if e.Spot = v.Spot; part.does == &b.doings[walking] {
			e.What = sim.Walking
		}
		if from >= v.Out { // on the way back
			e.Spot = s.Spot
		}
	}
	if why = outOfRange(e.Clo, in, e.Indoors); why == "" {
		e.S = b.balance(state{e.M, e.Clo, in})
	}
	return e, why
}

// balance is [Balance], remembered: a drill meets few different states.
func (b *books) balance(k state) float64 {
	s, ok := b.stored[k]
	if !ok {
		s = Balance(Body{M: k.m}, Clothing{Clo: k.clo}, k.in)
		b.stored[k] = s
	}
	return s
}

// close works out what follows from the whole ledger.
func (p *Person) close() {
	p.RelieveBy = p.PassedAt
	n := len(p.Ledger)
	if n > 0 && p.RelieveBy == sim.Never && p.Until == sim.Never {
		last := p.Ledger[n-1]
		if t := after(last.Debt, last.S); t != sim.Never {
			p.RelieveBy = last.To + t
		}
	}
	for i := range p.Outings {
		o := &p.Outings[i]
		if p.Longest < 0 || o.Length() > p.Outings[p.Longest].Length() {
			p.Longest = i
		}
		o.judge()
		// One that goes on at the end goes on as it is.
		open := n > 0 && o.To == p.Ledger[n-1].To
		if by := o.From + o.Allowed.Most; o.Allowed.Most > 0 && by < p.RelieveBy && (by < o.To || open && p.RelieveBy != sim.Never) {
			p.RelieveBy, p.BySchedule = by, true
		}
	}
}

// after returns how long it takes from a debt in Wh/m2 to the limit while S
// W/m2 are stored, rounded up to a millisecond; Never when it does not get
// there within about three years.
func after(debt, s float64) sim.Time {
	if debt >= HeatLimit {
		return 0
	}
	ms := (HeatLimit - debt) / -s * float64(sim.Hour)
	if !(s < 0) || ms > 1e11 {
		return sim.Never
	}
	// An integral number of milliseconds should not become one more because
	// of the last bits.
	return sim.Time(math.Ceil(ms - 1e-6))
}

func hours(t sim.Time) float64 { return float64(t) / float64(sim.Hour) }
