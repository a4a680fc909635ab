package cold

import (
	"math"

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
	rate    []int  // by doing: index of the metabolic rate
	rates   []float64
	clothes []float64
	airs    int         // how many surroundings there are: the open, each spot and each degree inside
	stored  [][]float64 // by weather case, step and surroundings: by rate and clothes; NaN when not known yet
	offset  []int       // by weather case: how many steps those before it have
	first   int         // that of the timeline that is read
	coldest int         // the whole degree with which those inside begin
}

// wearer is the index of what a person wears: on the march or at the halt, damp
// or dry.
type wearer [2][2]int

// NewMeter returns a meter for the timelines of a drill.
func NewMeter(d *sim.Drill) *Meter { return newMeter(d, 1) }

// newMeter returns a meter for metabolic rates times a factor.
func newMeter(d *sim.Drill, factor float64) *Meter {
	m := &Meter{frame: newFrame(d, factor), coldest: lowest(d)}
	m.airs = 1 + len(d.Spots) + 10 - m.coldest + 1
	for _, does := range m.doings {
		m.rate = append(m.rate, number(&m.rates, does.rate))
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
		peak := Peak{PassedAt: sim.Never}
		if m.known[who] {
			peak = m.peak(who)
		}
		peaks = append(peaks, peak)
	}
	return peaks
}

func (m *Meter) peak(who int) Peak {
	stretches := m.tl.People[who]
	sum := tally{peak: Peak{PassedAt: sim.Never, Known: true}}
	if len(stretches) > 0 {
		sum.peak.At = stretches[0].From
	}
	p, until := startPart(), m.until(who)
	for i := range stretches {
		s := &stretches[i]
		for from := s.From; from < s.To; from = p.to {
			m.next(&p, who, s, from)
			if from >= until {
				return sum.peak
			}
			p.to = min(p.to, until)
			stored := m.balance(who, &p)
			if math.IsInf(stored, 1) {
				return Peak{PassedAt: sim.Never}
			}
			sum.add(from, p.to, stored)
		}
	}
	return sum.peak
}

// balance returns [Balance] for a part of a person's stretch; infinite where it
// has no value.
func (m *Meter) balance(who int, p *part) float64 {
	air, halt, dry := 1+p.spot, 0, 0 // in the open: the spot -1
	if p.shelter >= 0 {
		air = 1 + len(m.drill.Spots) + p.degrees - m.coldest
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
	rate := m.rate[p.doing]
	v := &m.stored[row][rate*len(m.clothes)+clothes]
	if math.IsNaN(*v) {
		clo, in := m.clothes[clothes], m.ambient(p)
		*v = math.Inf(1)
		if outOfRange(clo, in, p.shelter >= 0) == "" {
			*v = Balance(Body{M: m.rates[rate]}, Clothing{Clo: clo}, in)
		}
	}
	return *v
}

// tally adds up one person's heat.
type tally struct {
	debt float64 // heat lost and not yet won back, Wh/m2
	peak Peak
}

// add enters a stretch of time in which the body stores S W/m2, and returns what
// of it is over when nothing is left to win back, in Wh/m2.
func (t *tally) add(from, to sim.Time, stored float64) (over float64) {
	before, gained := t.debt, float64(stored*hours(to-from))
	t.debt = max(0, before-gained)
	if t.peak.PassedAt == sim.Never && t.debt >= HeatLimit {
		t.peak.PassedAt = min(to, from+after(before, stored))
	}
	if t.debt > t.peak.Debt {
		t.peak.Debt, t.peak.At = t.debt, to
	}
	return max(0, gained-before)
}
