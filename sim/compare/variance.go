package compare

import (
	"cmp"
	"context"
	"slices"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/stats"
)

// redrawnRuns is in how many runs at most each thing that is drawn is drawn anew.
const redrawnRuns = 250

// Luck is how the variance of one milestone is shared by what is drawn.
type Luck struct {
	Chances []Chance
	// Explained is how much of the variance the first orders hold together; the
	// rest is in how chances work on each other.
	Explained stats.VarianceShare
	// Runs is behind first orders, Redrawn behind totals.
	Runs, Redrawn int
}

// Chance is one thing that is left to luck: the length of a task, its mishaps
// all together, when a person or a load arrives, the day, that of a person, the weather.
type Chance struct {
	Name, Purpose string // as in [draw.Factor]
	First, Total  stats.VarianceShare
}

// chance is the numbers that make one thing.
type chance struct {
	Chance
	factors []draw.Factor
	again   [][]float64 // by milestone asked for, then run: with these drawn anew; nil when one is never reached
}

// chancesOf puts the factors of a drill together: those of one task's mishaps
// are one chance.
func chancesOf(factors []draw.Factor) []*chance {
	var list []*chance
	for _, f := range factors {
		purpose := f.Purpose
		if purpose == draw.ForMishapAdds {
			purpose = draw.ForMishap
		}
		i := slices.IndexFunc(list, func(c *chance) bool { return c.Name == f.Name && c.Purpose == purpose })
		if i < 0 {
			i = len(list)
			list = append(list, &chance{Chance: Chance{Name: f.Name, Purpose: purpose}})
		}
		list[i].factors = append(list[i].factors, f)
	}
	return list
}

// shares works out how each chance shares in the variance of the milestones.
func (m *mover) shares(ctx context.Context) ([]Luck, error) {
	sampler := draw.NewSampler(m.Drill)
	list := chancesOf(sampler.Factors(m.Drill))
	runs := len(m.Times[0])
	bins := make([][]int, len(list))
	enough := runs >= stats.VarianceRuns
	err := each(ctx, m.b.Workers, len(list), func(i int) {
		if enough {
			bins[i] = m.classes(list[i], sampler, runs)
			m.drawAnew(list[i], sampler)
		}
	})
	out := make([]Luck, len(m.milestones))
	for k := range out {
		out[k] = m.luckOf(k, list, bins)
	}
	return out, err
}

// luckOf works out the shares of one milestone.
func (m *mover) luckOf(k int, list []*chance, bins [][]int) Luck {
	times := m.Times[m.milestones[k]]
	luck := Luck{Runs: len(times), Redrawn: min(redrawnRuns, len(times))}
	none := stats.VarianceShare{Why: "too few runs"}
	var shares *stats.Shares
	var y []float64
	switch {
	case slices.Contains(times, sim.Never):
		none.Why = "never reached in some run"
	case len(times) >= stats.VarianceRuns:
		for _, t := range times {
			y = append(y, float64(t))
		}
		if shares = stats.NewShares(y); shares == nil {
			none.Why = "always the same"
		}
	}
	luck.Explained = none
	for i, c := range list {
		c.First, c.Total = none, none
		if shares != nil {
			c.First = shares.First(bins[i])
			if c.Total.Why = "never reached when drawn anew"; c.again[k] != nil {
				c.Total = shares.Total(y, c.again[k])
			}
		}
		luck.Chances = append(luck.Chances, c.Chance)
	}
	if shares != nil {
		luck.Explained = shares.Explained()
	}
	slices.SortStableFunc(luck.Chances, func(a, b Chance) int { return compareShares(b, a) })
	return luck
}

// compareShares puts what moves a milestone less before what moves it more.
func compareShares(a, b Chance) int {
	return cmp.Compare(max(a.First.Value, a.Total.Value), max(b.First.Value, b.Total.Value))
}

// classes says in which class of its values a chance is in each run.
func (m *mover) classes(c *chance, sampler *draw.Sampler, runs int) []int {
	bin := make([]int, runs)
	f := &c.factors[0]
	even := float64(min(20, max(4, runs/25)))
	var added []sim.Time
	luck := new(sim.Luck)
	for run := range bin {
		from := draw.StartOf(m.b.Seed, uint64(run))
		switch c.Purpose {
		case draw.ForWeather:
			bin[run] = int(f.Value(f.Uniform(from)))
		case draw.ForMishap:
			sampler.Run(m.b.Seed, run, luck)
			added = append(added, luck.Mishap[f.At])
			if luck.MishapThen != nil { // those that happen with the condition only add less than those that always do
				added[run] += luck.MishapThen[f.At]
			}
		default:
			bin[run] = int(even * f.Uniform(from))
		}
	}
	if added != nil {
		return mishapClasses(added)
	}
	return bin
}

// mishapClasses is 0 where mishaps add nothing, and else a quarter of those
// where they do, by how much.
func mishapClasses(added []sim.Time) []int {
	var some []sim.Time
	for _, t := range added {
		if t > 0 {
			some = append(some, t)
		}
	}
	slices.Sort(some)
	bin := make([]int, len(added))
	for i, t := range added {
		if t > 0 {
			at, _ := slices.BinarySearch(some, t)
			bin[i] = 1 + 4*at/len(some)
		}
	}
	return bin
}

// drawAnew plays the first runs with nothing but one chance drawn anew.
func (m *mover) drawAnew(c *chance, sampler *draw.Sampler) {
	places, u := draw.PlacesOf(c.factors), make([]float64, len(c.factors))
	other := m.b.Seed ^ uint64(draw.KeyOf("drawn anew", ""))
	c.again = make([][]float64, len(m.milestones))
	reached := make([]bool, len(m.milestones))
	for k := range reached {
		reached[k] = true
	}
	w, luck, r := m.program.Worker(), new(sim.Luck), new(fast.Result)
	for run := range min(redrawnRuns, len(m.Times[0])) {
		for i := range c.factors {
			u[i] = c.factors[i].Uniform(draw.StartOf(other, uint64(run)))
		}
		sampler.RunGiven(m.b.Seed, run, places, u, luck)
		w.Play(luck, r)
		for k, milestone := range m.milestones {
			if r.Milestones[milestone] == sim.Never {
				reached[k] = false
				continue
			}
			c.again[k] = append(c.again[k], float64(r.Milestones[milestone]))
		}
	}
	for k := range reached {
		if !reached[k] {
			c.again[k] = nil
		}
	}
}
