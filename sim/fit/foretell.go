package fit

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/stats"
)

// lengths puts lengths of tasks into a luck: those of one set of parameters,
// with a day and an evening drawn.
func (p *Posterior) lengths(l *sim.Luck, k int, s source, factors []float64) {
	d := &p.Draws[k]
	day := d.Day * s.normal()
	for j, x := range factors {
		day += d.Factor[j] * x
	}
	for i, law := range p.Model.Laws {
		y := d.Level[i] + d.Spread[i]*s.normal()
		if law.Work {
			y += day
		}
		l.Amount[law.Task] = sim.Milliseconds(math.Exp(y))
	}
}

// Usual returns the luck that is foretold as usual: the middle of what each
// length may be, no mishap, and of all else what is usual by the file.
func (f *Fitted) Usual(d *sim.Drill, factors []float64) *sim.Luck {
	l := quiet(d, draw.Usual(d))
	for i, law := range f.Model.Laws {
		l.Amount[law.Task] = sim.Milliseconds(f.Next(i, factors).Quantile(0.5))
	}
	return l
}

// Coming returns the factors of a drill to come: those of the last one for
// learning, once more; none of the others.
func (f *Fitted) Coming() []float64 {
	var x []float64
	for _, one := range f.Factors {
		next := 0.0
		if one.Kind == LearningCurve {
			next = slices.Max(one.Values)
		}
		x = append(x, next)
	}
	return x
}

// mishaps puts mishaps into a luck, with chances drawn from what is known of
// them; how long each takes is as the file has it, moved to what is planned.
func (f *Fitted) mishaps(l *sim.Luck, s source) {
	for _, c := range f.Chances {
		chance, most := c.Quantile(s.uniform()), 1
		m := f.Drill.Tasks[c.Task].Mishap
		if m != nil {
			most = m.AtMost
		}
		times, adds := 0, 0.0
		for times < most && s.uniform() < chance {
			times++
			add := float64(c.Adds)
			if m != nil && m.Adds.Usual() > 0 {
				add *= m.Adds.Quantile(s.uniform()) / m.Adds.Usual()
			}
			adds += add
		}
		if c.Then {
			l.MishapsThen[c.Task], l.MishapThen[c.Task] = times, sim.Milliseconds(adds)
			continue
		}
		l.SetMishaps(c.Task, times, sim.Milliseconds(adds))
	}
}

// Foretold is when the milestones of a drill are to be expected.
type Foretold struct {
	Milestones []stats.Sorted // by milestone, each run a moment
}

// ForetoldRuns is how many runs a prediction is made of.
const ForetoldRuns = 1000

// Foretell plays a drill of the scenario (an order, conditions) with what the
// log leaves open: in every run another set of parameters, a day, lengths,
// mishaps; in every part of the runs another efficiency of stoves that were
// fitted. Factors are those of the drill to come; nil counts all as 0.
func (f *Fitted) Foretell(d *sim.Drill, factors []float64, runs int, seed uint64) *Foretold {
	parts := 1
	if len(f.Stoves) > 0 {
		parts = stoveParts
	}
	t := &teller{f: f, factors: factors, runs: runs, seed: seed, moments: make([][]sim.Time, len(d.Milestones))}
	for k := range parts {
		from, to := k*runs/parts, (k+1)*runs/parts
		t.tell(f.burning(d, k, parts), from, to)
	}
	return sorted(t.moments)
}

// stoveParts is in how many parts runs have another efficiency of stoves.
const stoveParts = 8

// teller plays the runs of a prediction.
type teller struct {
	f       *Fitted
	factors []float64
	runs    int
	seed    uint64
	moments [][]sim.Time
}

func (t *teller) tell(d *sim.Drill, from, to int) {
	worker, sampler := fast.Compile(d).Worker(), draw.NewSampler(d)
	var luck sim.Luck
	var res fast.Result
	for run := from; run < to; run++ {
		s := newSource(t.seed, 10_000+run)
		sampler.Run(t.seed, run, &luck)
		// draws a long way apart, so that each part has all of the chain
		t.f.lengths(&luck, int(uint64(run)*7919%uint64(len(t.f.Draws))), s, t.factors)
		t.f.mishaps(&luck, s)
		worker.Play(&luck, &res)
		for m, at := range res.Milestones {
			t.moments[m] = append(t.moments[m], at)
		}
	}
}

// burning returns a drill with stoves as the k-th of some parts of what the log
// leaves open has them.
func (f *Fitted) burning(d *sim.Drill, k, parts int) *sim.Drill {
	if parts == 1 {
		return d
	}
	out := *d
	out.Stoves = slices.Clone(d.Stoves)
	for i, s := range f.Stoves {
		place := (k*(2*i+1) + i) % parts // stoves apart from each other
		z := distuv.UnitNormal.Quantile((float64(place) + 0.5) / float64(parts))
		out.Stoves[s.Stove].Efficiency = s.at(z)
	}
	return &out
}

func sorted(moments [][]sim.Time) *Foretold {
	out := &Foretold{}
	for _, m := range moments {
		out.Milestones = append(out.Milestones, stats.SortedOf(m))
	}
	return out
}

// Certain returns the fit as if its middle values were the truth: what it
// foretells is luck alone.
func (f *Fitted) Certain() *Fitted {
	k := len(f.Model.Laws)
	mean := Draw{Level: make([]float64, k), Spread: make([]float64, k), Worth: make([]float64, k),
		Factor: make([]float64, len(f.Factors)), Pace: make([]float64, f.Model.People), Days: make([]float64, f.Model.Drills)}
	for i := range f.Model.Laws {
		mean.Level[i] = f.Over(0.5, func(d *Draw) float64 { return d.Level[i] })
		mean.Spread[i] = f.Over(0.5, func(d *Draw) float64 { return d.Spread[i] })
	}
	for j := range mean.Factor {
		mean.Factor[j] = f.Over(0.5, func(d *Draw) float64 { return d.Factor[j] })
	}
	mean.Day = f.Over(0.5, func(d *Draw) float64 { return d.Day })
	g, p := *f, *f.Posterior
	p.Draws = []Draw{mean}
	g.Posterior = &p
	g.Stoves, g.Chances = nil, nil
	for _, s := range f.Stoves {
		s.Low, s.High = s.Plan, s.Plan
		g.Stoves = append(g.Stoves, s)
	}
	for _, c := range f.Chances { // as good as known
		c.A, c.B = 1e6*c.Mean(), 1e6*(1-c.Mean())
		g.Chances = append(g.Chances, c)
	}
	return &g
}

// ByFile plays a drill with the lengths of the file alone.
func ByFile(d *sim.Drill, runs int, seed uint64) *Foretold {
	worker := fast.Compile(d).Worker()
	var res fast.Result
	moments := make([][]sim.Time, len(d.Milestones))
	for run := range runs {
		worker.Run(seed, run, &res)
		for m, at := range res.Milestones {
			moments[m] = append(moments[m], at)
		}
	}
	return sorted(moments)
}
