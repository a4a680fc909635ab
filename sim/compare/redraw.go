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

// What total effects may cost for one drill: so many times at most chances are
// drawn anew, each time in so many runs that differ by it. So it does not grow
// with the number of tasks.
const (
	redraws     = 64
	redrawnRuns = 250
)

// worthTelling is the share of a variance from which on a group of chances is
// looked into.
const worthTelling = 0.01

// redrawn is some chances that were drawn anew at the same time.
type redrawn struct {
	chances []*chance
	total   []stats.VarianceShare // by milestone asked for
	most    float64               // the largest of them
}

// drawAnew works out total effects: of chances that matter alone each by itself,
// of the others in groups, since the total effect of a group is at least that of
// each of its members. Groups that matter are halved until none does or there have
// been enough: sequential bifurcation, a sieve for few important factors among
// many (B. Bettonvil and J. P. C. Kleijnen, Identifying the important factors in
// simulation models with many factors, Tilburg University, 1994), here with the
// total effects of groups.
func (s *sharer) drawAnew(ctx context.Context, list []*chance) error {
	if !slices.ContainsFunc(s.split, func(one *split) bool { return one.shares != nil }) {
		return nil
	}
	for run := range min(redrawnRuns, len(s.Times[0])) {
		s.lucks = append(s.lucks, new(sim.Luck))
		s.sampler.Run(s.b.Seed, run, s.lucks[run])
	}
	round := s.begin(list)
	for spent := 0; len(round) > 0; {
		spent += len(round)
		if err := each(ctx, s.b.Workers, len(round), func(i int) { s.draw(round[i]) }); err != nil {
			return err
		}
		s.groups = append(s.groups, round...)
		round = s.halve((redraws - spent) / 2)
	}
	return nil
}

// begin returns the first groups: what matters alone by itself, the most of it
// first, and all the rest together.
func (s *sharer) begin(list []*chance) (round []*redrawn) {
	for i, c := range list {
		for _, one := range s.split {
			c.most = max(c.most, one.first[i].Value)
		}
	}
	rest := slices.Clone(list)
	slices.SortStableFunc(rest, func(a, b *chance) int { return cmp.Compare(b.most, a.most) })
	for len(rest) > 0 && rest[0].most >= worthTelling && len(round) < redraws/2 {
		round, rest = append(round, &redrawn{chances: rest[:1]}), rest[1:]
	}
	if len(rest) > 0 {
		round = append(round, &redrawn{chances: rest})
	}
	return round
}

// halve takes out of the groups those that matter most, so many at most, and
// returns their halves.
func (s *sharer) halve(most int) (round []*redrawn) {
	slices.SortStableFunc(s.groups, func(a, b *redrawn) int { return cmp.Compare(b.most, a.most) })
	s.groups = slices.DeleteFunc(s.groups, func(g *redrawn) bool {
		n := len(g.chances)
		if n == 1 || g.most < worthTelling || len(round) >= 2*most {
			return false
		}
		round = append(round, &redrawn{chances: g.chances[:n/2]}, &redrawn{chances: g.chances[n/2:]})
		return true
	})
	return round
}

// draw plays runs with nothing but the chances of a group drawn anew, the first
// ones until so many as are wanted have come to differ by it: a mishap that is rare
// is the same in most, and these need not be played.
func (s *sharer) draw(g *redrawn) {
	var factors []draw.Factor
	for _, c := range g.chances {
		factors = append(factors, c.factors...)
	}
	places, u := draw.PlacesOf(factors), make([]float64, len(factors))
	other := s.b.Seed ^ uint64(draw.KeyOf("drawn anew", ""))
	again := make([][]float64, len(s.milestones))
	w, luck, usual, result := s.program.Worker(), new(sim.Luck), new(sim.Luck), new(fast.Result)
	for run, played := 0, 0; run < len(s.Times[0]) && played < redrawnRuns; run++ {
		for i := range factors {
			u[i] = factors[i].Uniform(draw.StartOf(other, uint64(run)))
		}
		s.sampler.RunGiven(s.b.Seed, run, places, u, luck)
		differs := !luck.Equal(s.luckIn(run, usual))
		if differs {
			w.Play(luck, result)
			played++
		}
		for k, milestone := range s.milestones {
			at := s.Times[milestone][run]
			if differs {
				at = result.Milestones[milestone]
			}
			again[k] = append(again[k], float64(at))
		}
	}
	for k, one := range s.split {
		g.total = append(g.total, one.total(again[k]))
		g.most = max(g.most, g.total[k].Value)
	}
}

// luckIn returns the luck of a run as it is, which may be written into what is
// given.
func (s *sharer) luckIn(run int, into *sim.Luck) *sim.Luck {
	if run < len(s.lucks) {
		return s.lucks[run]
	}
	s.sampler.Run(s.b.Seed, run, into)
	return into
}

// total returns the total effect of what was drawn anew, by the milestone of the
// runs then.
func (s *split) total(again []float64) stats.VarianceShare {
	switch {
	case s.shares == nil:
		return stats.VarianceShare{Why: s.why}
	case slices.Contains(again, float64(sim.Never)):
		return stats.VarianceShare{Why: "never reached when drawn anew"}
	}
	return s.shares.Total(s.y, again)
}

// luckOf puts together the shares of one milestone.
func (s *sharer) luckOf(k int, list []*chance) Luck {
	one := s.split[k]
	luck := Luck{Runs: len(s.Times[0]), Redrawn: min(redrawnRuns, len(s.Times[0])), Explained: stats.VarianceShare{Why: one.why}}
	if one.shares != nil {
		luck.Explained = one.shares.Explained()
	}
	for i, c := range list {
		c.First, c.Total = one.first[i], stats.VarianceShare{Why: cmp.Or(one.why, "drawn anew with others")}
	}
	for _, g := range s.groups {
		if len(g.chances) == 1 {
			g.chances[0].Total = g.total[k]
			continue
		}
		together := Together{Total: g.total[k]}
		for _, c := range g.chances {
			together.Chances = append(together.Chances, c.Chance)
		}
		luck.Together = append(luck.Together, together)
	}
	for _, c := range list {
		luck.Chances = append(luck.Chances, c.Chance)
	}
	slices.SortStableFunc(luck.Chances, func(a, b Chance) int { return compareShares(b, a) })
	slices.SortStableFunc(luck.Together, func(a, b Together) int { return cmp.Compare(b.Total.Value, a.Total.Value) })
	return luck
}
