package cold

import (
	"math"
	"slices"

	"warmby/sim"
)

// Peak is the worst of one person's cold account.
type Peak struct {
	Debt     float64  // the most heat lost at any moment, Wh/m2
	At       sim.Time // when
	PassedAt sim.Time // the first moment at which the debt reaches [HeatLimit]; Never if it does not
	Known    bool     // false where [Account] says why there is no account
}

// Meter reads what matters most of the account of cold off many timelines of
// one drill: to the same bits as [Account] and, once it has met the weather and
// the work of the drill, without memory and in some ten nanoseconds for each
// stretch of a person's time. What the heat balance depends on is numbered, and
// the balance looked up. A Meter belongs to one goroutine.
type Meter struct {
	frame
	people  []wearer
	known   []bool // by person
	doings  []int  // what people do: index of the metabolic rate
	rates   []float64
	clothes []float64
	airs    int         // how many surroundings there are: the open, each spot and each warm-up
	stored  [][]float64 // by weather case, step and surroundings: by rate and clothes; NaN when not known yet
	offset  []int       // by weather case: how many steps those before it have
	first   int         // that of the timeline that is read

	watchingAt int // where in doings lookouts begin
	warmAt     int // where among the surroundings warm-ups begin
}

// wearer is the index of what a person wears: on the march or at the halt, damp
// or dry.
type wearer [2][2]int

// What people do, before the lookouts.
const (
	standing  = iota
	walking   // anywhere
	workingAt // and after it, by task
)

// NewMeter returns a meter for the timelines of a drill.
func NewMeter(d *sim.Drill) *Meter {
	m := &Meter{warmAt: 1 + len(d.Spots), airs: 1 + len(d.Spots) + len(d.Tasks), watchingAt: workingAt + len(d.Tasks)}
	number := func(list *[]float64, v float64) int {
		if i := slices.Index(*list, v); i >= 0 {
			return i
		}
		*list = append(*list, v)
		return len(*list) - 1
	}
	does := func(rate float64) { m.doings = append(m.doings, number(&m.rates, rate)) }
	does(Standing)
	does(Rate(sim.Moderate))
	for i := range d.Tasks {
		does(Rate(TaskEffort(&d.Tasks[i])))
	}
	for i := range d.Lookouts {
		does(WatchRate(d.Lookouts[i].Effort))
	}
	for i := range d.People {
		p := &d.People[i]
		m.people = append(m.people, wearer{
			{number(&m.clothes, worn(p.March, p.Damp)), number(&m.clothes, p.March)},
			{number(&m.clothes, worn(p.Halt, p.Damp)), number(&m.clothes, p.Halt)},
		})
	}
	steps := 0
	for w := range max(1, len(d.Weather)) {
		m.cases = append(m.cases, d.Steps(w))
		m.offset = append(m.offset, steps)
		steps += len(m.cases[w])
	}
	m.stored = make([][]float64, steps*m.airs)
	for _, why := range refusals(d) {
		m.known = append(m.known, why == "")
	}
	return m
}

// Peaks appends the worst of each person's account, in roster order, to peaks
// and returns it.
func (m *Meter) Peaks(tl *sim.Timeline, peaks []Peak) []Peak {
	m.read(tl)
	m.first = m.offset[tl.Luck.Weather]
	for who := range tl.People {
		if !m.known[who] {
			peaks = append(peaks, Peak{PassedAt: sim.Never})
			continue
		}
		peaks = append(peaks, m.peak(who))
	}
	return peaks
}

func (m *Meter) peak(who int) Peak {
	peak := Peak{PassedAt: sim.Never, Known: true}
	stretches := m.tl.People[who]
	if len(stretches) == 0 {
		return peak
	}
	peak.At = stretches[0].From
	var p part
	debt := 0.0
	for i := range stretches {
		s := &stretches[i]
		for from := s.From; from < s.To; {
			m.next(&p, s, from)
			stored := m.balance(who, s, &p)
			if p.warm >= 0 {
				stored = max(0, stored)
			}
			before := debt
			debt = max(0, before-float64(stored*hours(p.to-from)))
			if peak.PassedAt == sim.Never && debt >= HeatLimit {
				peak.PassedAt = min(p.to, from+after(before, stored))
			}
			if debt > peak.Debt {
				peak.Debt, peak.At = debt, p.to
			}
			from = p.to
		}
	}
	return peak
}

// balance returns [Balance] for a part of a person's stretch.
func (m *Meter) balance(who int, s *sim.Stretch, p *part) float64 {
	// No branches: nobody foresees what people do next.
	air, doing, halt, dry := 1+s.Spot, standing, 0, 0
	task, lookout := workingAt+s.Task, m.watchingAt+s.Lookout
	if s.What == sim.Walking {
		air, doing = 0, walking // in the open
	}
	if s.What == sim.Working {
		doing = task
	}
	if s.What == sim.Watching {
		doing = lookout
	}
	if p.warm >= 0 {
		air = m.warmAt + p.warm
	}
	if p.halt {
		halt = 1
	}
	if p.dry {
		dry = 1
	}
	clothes := m.people[who][halt][dry]
	row := (m.first+p.step)*m.airs + air
	if m.stored[row] == nil {
		all := make([]float64, len(m.rates)*len(m.clothes))
		for i := range all {
			all[i] = math.NaN()
		}
		m.stored[row] = all
	}
	rate := m.doings[doing]
	v := &m.stored[row][rate*len(m.clothes)+clothes]
	if math.IsNaN(*v) {
		*v = Balance(Body{M: m.rates[rate]}, Clothing{Clo: m.clothes[clothes]}, m.ambient(s, p))
	}
	return *v
}
