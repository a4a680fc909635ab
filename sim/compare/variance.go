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

// Luck is how the variance of one milestone is shared by what is drawn.
type Luck struct {
	// Chances are told by falling shares. Few of them have a total of their own: see
	// [Luck.Together].
	Chances []Chance
	// Together are the chances that were drawn anew with others, in groups: the
	// total of a group is no less than that of any of its members.
	Together []Together
	// Explained is how much of the variance the first orders hold together; the
	// rest is in how chances work on each other.
	Explained stats.VarianceShare
	// Runs is behind first orders, Redrawn behind totals: at least so many.
	Runs, Redrawn int
}

// Chance is one thing that is left to luck: the length of a task, its mishaps
// all together, when a person or a load arrives, the day, that of a person, the weather.
type Chance struct {
	Name, Purpose string // as in [draw.Factor]
	First, Total  stats.VarianceShare
}

// Together is some chances that were drawn anew at the same time.
type Together struct {
	Chances []Chance // without totals
	Total   stats.VarianceShare
}

// chance is the numbers that make one thing.
type chance struct {
	Chance
	factors []draw.Factor
	added   []sim.Time // by run, what mishaps add; nil for another chance
	bins    []int      // by run, in which class of its values it is
	most    float64    // its largest first order at any milestone asked for
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

// ShareLuck works out how each thing that is drawn shares in the variance of some
// milestones of each drill that was played: by drill, then by milestone asked for.
func ShareLuck(ctx context.Context, played []*Played, milestones []int, b Batch) ([][]Luck, error) {
	out := make([][]Luck, len(played))
	for i, p := range played {
		s := &sharer{Played: p, milestones: milestones, b: b, program: fast.Compile(p.Drill), sampler: draw.NewSampler(p.Drill)}
		var err error
		if out[i], err = s.work(ctx); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// sharer shares out the luck of one drill.
type sharer struct {
	*Played
	milestones []int
	b          Batch
	program    *fast.Program
	sampler    *draw.Sampler
	split      []*split    // by milestone asked for
	lucks      []*sim.Luck // of the first runs
	groups     []*redrawn
}

func (s *sharer) work(ctx context.Context) ([]Luck, error) {
	list := chancesOf(s.sampler.Factors(s.Drill))
	runs := len(s.Times[0])
	s.split = make([]*split, len(s.milestones))
	for k := range s.split {
		s.split[k] = splitOf(s.Times[s.milestones[k]])
	}
	if runs >= stats.VarianceRuns {
		if err := s.drawMishaps(ctx, list, runs); err != nil {
			return nil, err
		}
		if err := each(ctx, s.b.Workers, len(list), func(i int) { list[i].bins = s.classes(list[i], runs) }); err != nil {
			return nil, err
		}
	}
	if err := each(ctx, s.b.Workers, len(s.split), func(k int) { s.split[k].firsts(list) }); err != nil {
		return nil, err
	}
	if err := s.drawAnew(ctx, list); err != nil {
		return nil, err
	}
	out := make([]Luck, len(s.split))
	for k := range out {
		out[k] = s.luckOf(k, list)
	}
	return out, nil
}

// split is the variance of one milestone, to be shared out.
type split struct {
	shares *stats.Shares // nil where there are none
	why    string        // there are none
	y      []float64     // the milestone, by run
	first  []stats.VarianceShare
}

// splitOf returns the variance of a milestone, given by run.
func splitOf(times []sim.Time) *split {
	s := new(split)
	for _, t := range times {
		s.y = append(s.y, float64(t))
	}
	if s.shares = stats.NewShares(s.y); s.shares != nil && !slices.Contains(times, sim.Never) {
		return s
	}
	switch s.shares = nil; {
	case slices.Contains(times, sim.Never):
		s.why = "never reached in some run"
	case len(times) < stats.VarianceRuns:
		s.why = "too few runs"
	default:
		s.why = "always the same"
	}
	return s
}

// firsts works out the first orders of all chances.
func (s *split) firsts(list []*chance) {
	for _, c := range list {
		first := stats.VarianceShare{Why: s.why}
		if s.shares != nil {
			first = s.shares.First(c.bins)
		}
		s.first = append(s.first, first)
	}
}

// compareShares puts what moves a milestone less before what moves it more.
func compareShares(a, b Chance) int {
	return cmp.Compare(max(a.First.Value, a.Total.Value), max(b.First.Value, b.Total.Value))
}

// classes says in which class of its values a chance is in each run.
func (s *sharer) classes(c *chance, runs int) []int {
	if c.added != nil {
		return mishapClasses(c.added)
	}
	bin := make([]int, runs)
	f := &c.factors[0]
	even := float64(min(20, max(4, runs/25)))
	for run := range bin {
		u := f.Uniform(draw.StartOf(s.b.Seed, uint64(run)))
		if c.Purpose == draw.ForWeather {
			bin[run] = int(f.Value(u))
		} else {
			bin[run] = int(even * u)
		}
	}
	return bin
}

// drawMishaps draws once for all chances what mishaps add in each run.
func (s *sharer) drawMishaps(ctx context.Context, list []*chance, runs int) error {
	var mishaps []*chance
	for _, c := range list {
		if c.Purpose == draw.ForMishap {
			c.added = make([]sim.Time, runs)
			mishaps = append(mishaps, c)
		}
	}
	if len(mishaps) == 0 {
		return nil
	}
	return each(ctx, s.b.Workers, (runs+chunk-1)/chunk, func(job int) {
		luck := new(sim.Luck)
		for run := job * chunk; run < min(runs, (job+1)*chunk); run++ {
			s.sampler.Run(s.b.Seed, run, luck)
			for _, c := range mishaps {
				task := c.factors[0].At
				c.added[run] = luck.Mishap[task]
				if luck.MishapThen != nil { // those that happen with the condition only add less than those that always do
					c.added[run] += luck.MishapThen[task]
				}
			}
		}
	})
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
