package search

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"warmby/sim/stats"
)

// The race under common luck: every order still in it is played in the same
// runs, and those that are behind beyond what luck explains fall out early
// (paired differences; after T. Homem-de-Mello and others on common random
// numbers in search, and Kim and Nelson's sequential screening). About ten runs
// tell most of them.
var raceLaps = []struct {
	runs, keep int
	behind     float64 // standard errors
}{{12, 40, 3}, {40, 20, 2.5}, {120, 10, 2.5}, {searchRuns, 6, 2}}

// searchRuns is how many runs the search has for itself.
const searchRuns = 300

// standing is a candidate with what an objective makes of it.
type standing struct {
	*candidate
	fails, value float64
	influence    []float64
}

// rank returns some candidates that have been played in so many runs, the best
// first.
func (g *game) rank(w objective, list []*candidate, runs int) []standing {
	var all []standing
	for _, c := range list {
		if c.times == nil || len(c.times[0]) < runs {
			continue // interrupted
		}
		s := standing{candidate: c, fails: g.fails(c, runs) + c.chill}
		s.value, s.influence = g.value(w, c, runs)
		all = append(all, s)
	}
	slices.SortStableFunc(all, func(a, b standing) int {
		return cmp.Or(cmp.Compare(a.fails, b.fails), cmp.Compare(a.value, b.value), cmp.Compare(a.score.rest, b.score.rest))
	})
	return all
}

// race returns those of some candidates that come through all laps, the best
// first. Broken off, or when no more may be played, it returns the last lap's in
// their sequence.
func (g *game) race(players []*player, w objective, list []*candidate) []*candidate {
	for _, lap := range raceLaps {
		in := g.affordable(list, lap.runs, 0)
		if len(in) < 2 {
			return list
		}
		list = in
		g.each(players, len(list), func(p *player, k int) { p.run(list[k], lap.runs) })
		if g.ctx.Err() != nil {
			return list
		}
		ranked := g.rank(w, list, lap.runs)
		list = list[:0:0]
		keep := max(3, min(lap.keep, lap.keep*g.o.Evaluations/DefaultEvaluations)) // fewer in a small search
		for _, s := range ranked {
			if len(list) < keep && !g.behind(s, ranked[0], lap.behind) {
				list = append(list, s.candidate)
			}
		}
	}
	return list
}

// behind reports whether one is behind another by more standard errors than
// some.
func (g *game) behind(s, best standing, errors float64) bool {
	if s.fails > best.fails+0.2 {
		return true
	}
	d := differ(s.value, best.value, s.influence, best.influence)
	return d.mean > errors*d.error
}

// climb looks for a better order around the best of some by small changes, each
// tried in the same runs. It returns all that were the best for a while, the
// last first.
func (g *game) climb(players []*player, w objective, from []*candidate, random *rand.Rand) []*candidate {
	if len(from) == 0 || from[0].runs() < searchRuns {
		return from
	}
	best := from
	m := newMover(g.d, g.bounds, random)
	seen := map[uint64]bool{}
	for misses := 0; g.left() > 0 && g.ctx.Err() == nil && misses < 200; misses++ {
		var plans []*plan
		for range climbers {
			parent := best[min(len(best)-1, random.IntN(3))]
			if parent.plan == nil {
				parent = best[0]
			}
			if parent.plan == nil {
				return best
			}
			p := parent.plan.clone()
			for range 1 + random.IntN(2) {
				m.change(p)
			}
			plans = append(plans, p)
		}
		found := g.tryOut(players, w, best[0], plans, seen)
		if len(found) > 0 {
			best = append(found[:1:1], best...)
			misses = 0
		}
		g.report(best[0].milestones[g.o.Aims[0].Milestone])
	}
	return best
}

// climbers is how many changes are tried at a time, on any number of workers.
const climbers = 16

// tryOut returns those of some plans that are better than a candidate in all
// runs of the search, the best first. Most are dropped long before.
func (g *game) tryOut(players []*player, w objective, best *candidate, plans []*plan, seen map[uint64]bool) []*candidate {
	tried := make([]*candidate, min(int64(len(plans)), g.left()/g.cases()))
	g.each(players, len(tried), func(p *player, k int) { tried[k] = p.try(w, plans[k]) })
	var list []*candidate
	for _, c := range tried {
		if c == nil {
			continue
		}
		if h := hashTimes(c.start) ^ 3*hashTimes(c.end) ^ 5*hashTimes(c.milestones); !seen[h] {
			seen[h] = true
			list = append(list, c)
		}
	}
	for _, runs := range []int{4, 12, 48, searchRuns} {
		list = g.affordable(list, runs, g.cost()-g.cases())
		g.each(players, len(list), func(p *player, k int) {
			if p.run(list[k], runs); runs == searchRuns {
				p.keepWarm(list[k])
			}
		})
		ranked := g.rank(w, append(list, best), runs)
		list = nil
		at := slices.IndexFunc(ranked, func(s standing) bool { return s.candidate == best })
		if at < 0 {
			return nil
		}
		for k, s := range ranked {
			if s.candidate == best {
				continue
			}
			if runs < searchRuns && !g.behind(s, ranked[at], 0.5) || runs == searchRuns && k < at {
				list = append(list, s.candidate)
			}
		}
	}
	if len(list) > 0 && g.same(list[0], best) {
		return nil
	}
	return list
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
