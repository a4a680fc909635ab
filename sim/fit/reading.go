package fit

import (
	"math"

	"warmby/sim"
	"warmby/sim/draw"
)

// Numbers are values of all that a log tells of: lengths, the day, mishaps and
// stoves.
type Numbers struct {
	lengths map[string]sim.Distribution // by task
	day     sim.Distribution
	mishaps map[string]*sim.Mishap // by task
	stoves  map[string]float64     // efficiency, by stove
}

// numbers returns one set of values. Chance gives each chance of a mishap its
// quantile, and far how far each stove is from its plan in standard deviations.
func (f *Fitted) numbers(d *Draw, chance func(Chance) float64, far func() float64) *Numbers {
	n := &Numbers{map[string]sim.Distribution{}, nil, map[string]*sim.Mishap{}, map[string]float64{}}
	coming := f.Coming()
	for i, law := range f.Model.Laws {
		level := d.Level[i]
		if law.Work {
			for j, x := range coming {
				level += float64(d.Factor[j] * x)
			}
		}
		n.lengths[f.Drill.Tasks[law.Task].Name] = logNormal(math.Exp(level), d.Spread[i])
	}
	n.day = logNormal(1, d.Day)
	for _, c := range f.Chances {
		task := &f.Drill.Tasks[c.Task]
		if c.Then {
			n.mishaps[task.Name].Then = chance(c)
			continue
		}
		n.mishaps[task.Name] = mishapOf(task.Mishap, chance(c), c.Adds)
	}
	for _, s := range f.Stoves {
		n.stoves[f.Drill.Stoves[s.Stove].Name] = s.at(far())
	}
	return n
}

// logNormal returns a law by its median and the standard deviation of its
// logarithm.
func logNormal(median, sigma float64) sim.Distribution {
	law, err := draw.LogNormal(median, math.Exp(sigma))
	if err != nil {
		panic("fit: " + err.Error()) // levels and spreads are finite
	}
	return law
}

// mishapOf returns a mishap with another chance, and additions moved to what is
// planned.
func mishapOf(of *sim.Mishap, chance float64, adds sim.Time) *sim.Mishap {
	if of == nil {
		return &sim.Mishap{Chance: chance, Adds: draw.Fixed(float64(adds)), AtMost: 1}
	}
	out := *of
	if usual := of.Adds.Usual(); usual > 0 {
		out.Adds = scaled{of.Adds, float64(adds) / usual}
	}
	out.Chance = chance
	return &out
}

// scaled is a law of which every value is so many times as large.
type scaled struct {
	sim.Distribution
	by float64
}

func (s scaled) Quantile(p float64) float64 { return s.by * s.Distribution.Quantile(p) }
func (s scaled) Usual() float64             { return s.by * s.Distribution.Usual() }

// Learnt are numbers of a scenario that come from a log, and what it leaves open
// of them.
type Learnt struct {
	file, settled *Numbers
	readings      []*Numbers
}

// Learnt returns what the log says of the scenario, with so many readings of
// what it leaves open.
func (f *Fitted) Learnt(readings int) *Learnt {
	l := &Learnt{file: f.inFile()}
	certain := f.Certain()
	l.settled = certain.numbers(&certain.Draws[0], Chance.Mean, func() float64 { return 0 })
	for k := range readings {
		s := newSource(f.options.Seed, 50_000+k)
		l.readings = append(l.readings, f.numbers(&f.Draws[k*len(f.Draws)/readings],
			func(c Chance) float64 { return c.Quantile(s.uniform()) }, s.normal))
	}
	return l
}

// inFile are the numbers that the file has itself.
func (f *Fitted) inFile() *Numbers {
	n := &Numbers{map[string]sim.Distribution{}, f.Drill.Day, map[string]*sim.Mishap{}, map[string]float64{}}
	for i := range f.Drill.Tasks {
		t := &f.Drill.Tasks[i]
		n.lengths[t.Name], n.mishaps[t.Name] = t.Amount, t.Mishap
	}
	for _, s := range f.Drill.Stoves {
		n.stoves[s.Name] = s.Efficiency
	}
	return n
}

// Settle returns a drill of the scenario with what the log says taken for true:
// the middle of what it leaves open. Where the drill has another value than the
// file, as in a what-if, that stays.
func (l *Learnt) Settle(d *sim.Drill) *sim.Drill { return l.settled.instead(l.file, d) }

// Readings returns a settled drill with other values that the log leaves open,
// a drill for each. Played in turns they foretell as [Fitted.Foretell] does.
func (l *Learnt) Readings(d *sim.Drill) []*sim.Drill {
	out := make([]*sim.Drill, len(l.readings))
	for k, n := range l.readings {
		out[k] = n.instead(l.settled, d)
	}
	return out
}

// instead returns a drill with these numbers wherever it has those.
func (n *Numbers) instead(those *Numbers, d *sim.Drill) *sim.Drill {
	out := *d
	out.Tasks = append([]sim.Task(nil), d.Tasks...)
	out.Stoves = append([]sim.Stove(nil), d.Stoves...)
	for i := range out.Tasks {
		t := &out.Tasks[i]
		if own, ok := n.lengths[t.Name]; ok && sameLaw(t.Amount, those.lengths[t.Name]) {
			t.Amount = own
		}
		if own, ok := n.mishaps[t.Name]; ok && sameMishap(t.Mishap, those.mishaps[t.Name]) {
			t.Mishap = own
		}
	}
	for i := range out.Stoves {
		s := &out.Stoves[i]
		if own, ok := n.stoves[s.Name]; ok && s.Efficiency == those.stoves[s.Name] {
			s.Efficiency = own
		}
	}
	if sameLaw(out.Day, those.day) {
		out.Day = n.day
	}
	return &out
}

// sameLaw reports whether two laws are alike at three places; nil is as nil only.
func sameLaw(a, b sim.Distribution) bool {
	if a == nil || b == nil {
		return a == nil && b == nil
	}
	for _, q := range []float64{0.1, 0.5, 0.9} {
		if a.Quantile(q) != b.Quantile(q) {
			return false
		}
	}
	return true
}

func sameMishap(a, b *sim.Mishap) bool {
	if a == nil || b == nil {
		return a == nil && b == nil
	}
	if (a.When == nil) != (b.When == nil) || a.When != nil && (*a.When != *b.When || a.Then != b.Then) {
		return false
	}
	return a.Chance == b.Chance && a.AtMost == b.AtMost && sameLaw(a.Adds, b.Adds)
}
