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
	known   []bool   // by person
	wears   [][4]int // by person, march or halt, dry or damp: index of the clothes
	rates   []float64
	clothes []float64
	airs    int         // how many surroundings there are: the open, each spot and each degree inside
	stored  [][]float64 // by weather case, step and surroundings: by rate and clothes; NaN when not known yet
	offset  []int       // by weather case: how many steps those before it have
	first   int         // that of the timeline that is read
	coldest int         // the whole degree with which those inside begin
}

// NewMeter returns a meter for the timelines of a drill.
func NewMeter(d *sim.Drill) *Meter { return newMeter(d, 1) }

// newMeter returns a meter for metabolic rates times a factor.
func newMeter(d *sim.Drill, factor float64) *Meter {
	m := &Meter{frame: newFrame(d, factor), coldest: lowest(d)}
	m.airs = 1 + len(d.Spots) + 10 - m.coldest + 1
	for i := range d.People {
		p := &d.People[i]
		var wears [4]int
		for k, clo := range []float64{p.March, worn(p.March, p.Damp), p.Halt, worn(p.Halt, p.Damp)} {
			wears[k] = number(&m.clothes, clo)
		}
		m.wears = append(m.wears, wears)
	}
	for i := range m.doings {
		does := &m.doings[i]
		does.row = number(&m.rates, does.rate) * len(m.clothes)
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
	p, wears := m.start(who), &m.wears[who]
	for i := range stretches {
		s := &stretches[i]
		m.begin(&p, s)
		for from := s.From; from < p.until; from = p.to {
			m.next(&p, from)
			stored := m.balance(&p, wears[p.wears()])
			if stored > math.MaxFloat64 {
				return Peak{PassedAt: sim.Never}
			}
			sum.add(from, p.to, stored)
		}
	}
	return sum.peak
}

// balance returns [Balance] for a part of a person's stretch in some clothes;
// infinite where it has no value.
func (m *Meter) balance(p *part, clothes int) float64 {
	air := (m.first+p.step)*m.airs + 1 + p.spot // in the open: the spot -1
	if p.shelter >= 0 {
		air += len(m.spots) + p.degrees - m.coldest - p.spot
	}
	row := m.stored[air]
	if row == nil {
		row = m.newRow(air)
	}
	at := p.does.row + clothes
	if math.IsNaN(row[at]) {
		row[at] = m.workOut(p, at)
	}
	return row[at]
}

// wears returns which of his four clothes a person wears.
func (p *part) wears() int { return (2*p.halt + p.damp) & 3 }

// newRow makes room for what is stored in air in which nobody was before.
func (m *Meter) newRow(air int) []float64 {
	row := make([]float64, len(m.rates)*len(m.clothes))
	for i := range row {
		row[i] = math.NaN()
	}
	m.stored[air] = row
	return row
}

// workOut is balance for a metabolic rate and clothes that are met for the first
// time in such air.
func (m *Meter) workOut(p *part, at int) float64 {
	rate, clo, in := m.rates[at/len(m.clothes)], m.clothes[at%len(m.clothes)], m.ambient(p)
	if outOfRange(clo, in, p.shelter >= 0) != "" {
		return math.Inf(1)
	}
	return Balance(Body{M: rate}, Clothing{Clo: clo}, in)
}

// tally adds up one person's heat.
type tally struct {
	debt float64 // heat lost and not yet won back, Wh/m2
	peak Peak
}

// over returns what is over of a stretch of time in which the body stores S W/m2
// when nothing is left to win back, in Wh/m2.
func (t *tally) over(from, to sim.Time, stored float64) float64 {
	return max(0, float64(stored*hours(to-from))-t.debt)
}

// add enters a stretch of time in which the body stores S W/m2.
func (t *tally) add(from, to sim.Time, stored float64) {
	if t.debt == 0 && stored >= 0 {
		return // nothing to win back
	}
	before := t.debt
	if t.debt = before - float64(stored*hours(to-from)); t.debt < 0 {
		t.debt = 0
	}
	if t.debt >= HeatLimit && t.peak.PassedAt == sim.Never {
		t.peak.PassedAt = min(to, from+after(before, stored))
	}
	if t.debt > t.peak.Debt {
		t.peak.Debt, t.peak.At = t.debt, to
	}
}
