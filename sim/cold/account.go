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

	Peak   float64  // the most heat lost at any moment, Wh/m2
	PeakAt sim.Time // when
	// PassedAt is the first moment at which the debt reaches [HeatLimit];
	// Never if it does not.
	PassedAt sim.Time
	// RelieveBy is the moment by which somebody should take over: PassedAt or,
	// for one who is losing heat when the drill ends, the moment at which the
	// debt would reach the limit if nothing changed. Never when there is none.
	RelieveBy sim.Time

	// Outings are the times spent outdoors without a break, in sequence.
	Outings []Outing
	Longest int // index of the longest outing, the first of equals; -1 without any

	Skin // the worst of the person's time outdoors
}

// Margin returns what is left to the limit at the peak, in Wh/m2; below 0
// when the limit is passed.
func (p *Person) Margin() float64 { return HeatLimit - p.Peak }

// Entry is a stretch of a person's time over which nothing changes.
type Entry struct {
	From, To sim.Time
	What     sim.Activity
	Task     int // as in sim.Stretch; -1 for none
	Lookout  int // as in sim.Stretch; -1 for none
	Spot     int // where; where to when walking
	Indoors  bool
	M        float64 // metabolic rate, W/m2
	Clo      float64 // basic insulation, less what damp takes
	Air      float64 // degrees C
	Wind     float64 // at the body, m/s
	S        float64 // heat stored, W/m2; below 0 is lost
	Debt     float64 // heat lost and not yet won back at To, Wh/m2
}

// Account adds up the cold that each person of a drill takes, in roster
// order. Without weather, and for people whose clothing is unset, there is no
// account, and Why says so.
//
// See the package's doc for what is added up and what it means.
func Account(tl *sim.Timeline) []Person {
	a := newBooks(tl)
	people := make([]Person, len(tl.Drill.People))
	for i := range people {
		people[i] = a.person(i)
	}
	return people
}

// Kept reports whether there is an account of anybody in a drill.
func Kept(d *sim.Drill) bool { return slices.Contains(refusals(d), "") }

// refusals says of each person of a drill why no account can be kept, whatever is
// played; "" where it can.
func refusals(d *sim.Drill) []string {
	b := &books{}
	b.steps = d.Steps(0)
	var list []string
	for i := range d.People {
		list = append(list, b.refuse(&d.People[i]))
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

func newBooks(tl *sim.Timeline) *books {
	b := &books{stored: map[state]float64{}}
	b.read(tl)
	return b
}

// refuse returns why a person has no account, or "".
func (b *books) refuse(p *sim.Person) string {
	switch {
	case len(b.steps) == 0 || !b.steps[0].Weather:
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

// person walks through the stretches of one person.
func (b *books) person(who int) Person {
	p := &b.tl.Drill.People[who]
	acc := Person{Name: p.Name, Why: b.refuse(p), PassedAt: sim.Never, RelieveBy: sim.Never, Longest: -1, Skin: noSkin("never outdoors")}
	if acc.Why != "" {
		acc.Skin = noSkin(acc.Why)
		return acc
	}
	var part part
	for i := range b.tl.People[who] {
		s := &b.tl.People[who][i]
		for from := s.From; from < s.To; {
			b.next(&part, s, from)
			e := b.entry(p, s, from, &part)
			acc.add(e)
			acc.feel(e, b.weather(e))
			from = e.To
		}
	}
	acc.close()
	return acc
}

// entry returns the account's entry for a part of a stretch.
func (b *books) entry(p *sim.Person, s *sim.Stretch, from sim.Time, part *part) Entry {
	e := Entry{From: from, To: part.to, What: s.What, Task: s.Task, Lookout: s.Lookout, Spot: s.Spot,
		M: StretchRate(b.tl.Drill, *s), Clo: p.March, Indoors: part.warm >= 0}
	if part.halt {
		e.Clo = p.Halt
	}
	if !part.dry {
		e.Clo = worn(e.Clo, p.Damp)
	}
	in := b.ambient(s, part)
	e.Air, e.Wind = in.Air, in.Wind
	e.S = b.balance(state{e.M, e.Clo, in})
	if e.Indoors {
		e.S = max(0, e.S)
	}
	return e
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

// add enters an entry, whose debt it works out.
func (p *Person) add(e Entry) {
	before := 0.0
	if n := len(p.Ledger); n > 0 {
		before = p.Ledger[n-1].Debt
	}
	e.Debt = max(0, before-float64(e.S*hours(e.To-e.From)))
	if p.PassedAt == sim.Never && e.Debt >= HeatLimit {
		p.PassedAt = min(e.To, e.From+after(before, e.S))
	}
	if len(p.Ledger) == 0 {
		p.PeakAt = e.From
	}
	if e.Debt > p.Peak {
		p.Peak, p.PeakAt = e.Debt, e.To
	}
	p.Ledger = append(p.Ledger, e)
}

// close works out what follows from the whole ledger.
func (p *Person) close() {
	p.RelieveBy = p.PassedAt
	if n := len(p.Ledger); n > 0 && p.RelieveBy == sim.Never {
		last := p.Ledger[n-1]
		if t := after(last.Debt, last.S); t != sim.Never {
			p.RelieveBy = last.To + t
		}
	}
	for i := range p.Outings {
		if p.Longest < 0 || p.Outings[i].Length() > p.Outings[p.Longest].Length() {
			p.Longest = i
		}
		p.Outings[i].judge()
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
