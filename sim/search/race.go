package search

import (
	"cmp"
	"math"
	"slices"

	"warmby/sim/stats"
)

// The race under common luck: every order is held against a rival in the same
// runs, few at first, and falls out as soon as it is behind (paired differences;
// after T. Homem-de-Mello and others on common random numbers in search, and Kim
// and Nelson's sequential screening). About ten runs tell most of them.
var laps = []int{4, 12, 48, 192}

// behindBy returns how many standard errors one is behind another in some runs;
// infinitely many when luck has no part in it.
func (g *game) behindBy(h heading, c, o *candidate, runs int) float64 {
	a, b := g.weigh(h, &c.evenings, runs), g.weigh(h, &o.evenings, runs)
	d := differ(a.value, b.value, a.influence, b.influence)
	if d.error == 0 {
		if d.mean == 0 {
			return 0
		}
		return math.Inf(int(math.Copysign(1, d.mean)))
	}
	return d.mean / d.error
}

// prove plays some candidates in as many runs as the archive judges by. Those that
// fall behind a rival by more standard errors than some fall out on the way;
// without a rival none do. What may no longer be played falls out, too.
func (a *archive) prove(players []*player, h heading, list []*candidate, rival *candidate, slack float64) []*candidate {
	if len(a.lucks) == 0 {
		return list
	}
	h = a.strict(h, a.runs)
	for _, runs := range append(slices.DeleteFunc(slices.Clone(laps), func(n int) bool { return n >= a.runs }), a.runs) {
		list = a.affordable(list, runs, 0)
		a.each(players, len(list), func(p *player, k int) { p.run(list[k], runs) })
		if a.ctx.Err() != nil {
			return nil
		}
		if rival == nil || runs == a.runs {
			continue
		}
		list = slices.DeleteFunc(slices.Clone(list), func(c *candidate) bool { return a.behindBy(h, c, rival, runs) > slack })
	}
	return list
}

// farBehind is how far one may be behind a rival with usual values, as a share, and
// still be tried in drawn runs. Of what small changes win in 256 runs nineteen parts
// of twenty are won by those that are no farther behind, and a third to two thirds of
// all changes are farther behind.
const farBehind = 0.01

// hopeless reports whether one is far behind another with usual values, which all
// have been played with.
func (g *game) hopeless(h heading, c, o *candidate) bool {
	return g.weigh(h, c.usual(), 1).value > g.weigh(h, o.usual(), 1).value+farBehind
}

// climbers is how many changes are tried at a time, on any number of workers.
const climbers = 16

// climb looks for better orders around those in the archive by small changes,
// each tried in the same runs, with so many drills.
func (a *archive) climb(players []*player, headings []heading, budget int64, m *mover) {
	for end := a.played.Load() + budget; a.played.Load()+climbers*a.cases() <= min(end, a.limit) && a.ctx.Err() == nil; {
		h := headings[m.random.IntN(len(headings))]
		best := a.best(h)
		best = slices.DeleteFunc(best, func(c *candidate) bool { return c.plan == nil })
		if len(best) == 0 {
			return
		}
		parent := best[min(len(best)-1, m.random.IntN(4))]
		var plans []*plan
		for range climbers {
			p := parent.plan.clone()
			for range 1 + m.random.IntN(2) {
				m.change(p)
			}
			plans = append(plans, p)
		}
		a.tryOut(players, h, parent, plans)
		a.report(a.milestoneShown(best[0]))
	}
}

// tryOut takes in those of some plans that hold their own against a rival.
func (a *archive) tryOut(players []*player, h heading, rival *candidate, plans []*plan) {
	tried := make([]*candidate, len(plans))
	a.each(players, len(tried), func(p *player, k int) { tried[k] = p.try(h, plans[k]) })
	var list []*candidate
	for _, c := range tried {
		if c == nil || a.seen[hashOf(c)] {
			continue
		}
		if a.seen[hashOf(c)] = true; !a.hopeless(h, c, rival) {
			list = append(list, c)
		}
	}
	for _, c := range a.prove(players, h, list, rival, 0.5) {
		a.add(c)
	}
}

// same reports whether two candidates reach all milestones at the same moments
// in all runs both have met.
func (g *game) same(a, b *candidate) bool {
	if a.times == nil || b.times == nil {
		return slices.Equal(a.milestones, b.milestones)
	}
	for m := range a.times {
		n := min(len(a.times[m]), len(b.times[m]))
		if !slices.Equal(a.times[m][:n], b.times[m][:n]) {
			return false
		}
	}
	return true
}

// holm adjusts the p values of a family so that each can be held against the
// level by itself.
func holm(ps []float64) []float64 {
	order := make([]int, len(ps))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(ps[a], ps[b]) })
	out, high := make([]float64, len(ps)), 0.0
	for k, i := range order {
		high = max(high, math.Min(1, ps[i]*float64(len(ps)-k)))
		out[i] = high
	}
	return out
}

// level is that of intervals and of what is told apart.
const level = stats.Level
