package search

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"warmby/sim"
)

// island is an evolutionary search: a population of plans. Two at a time have a
// child, which pushes out the worst. Plans are scored with usual values or, when
// there are runs, by the same handful of drawn runs for all. Islands know nothing
// of each other, so that each may have a goroutine of its own. An island is visited
// again and again, and goes on where it was left.
type island struct {
	*player
	heading
	m          *mover
	random     *rand.Rand
	runs       int   // 0 for usual values
	budget     int64 // drills it may play at this visit
	stale      int   // children since the last that changed anything for the better
	population []*candidate
	seen       map[uint64]bool
	best       *candidate
}

const (
	islandSize = 36
	// patience is after how many children that change nothing for the better
	// an island begins anew, but for its best.
	patience = 400
)

func (g *game) newIsland(h heading, random *rand.Rand) *island {
	return &island{heading: h, m: newMover(g.d, g.bounds, random), random: random, seen: map[uint64]bool{}}
}

// visit lets an island go on, in so many runs; others will judge it in more.
func (is *island) visit(p *player, starts []*candidate, runs, judged int, budget int64) {
	is.player, is.budget, is.heading = p, budget, p.strict(is.heading, judged)
	is.lengthen(runs)
	for _, s := range starts {
		if !is.goesOn() {
			break
		}
		is.take(is.own(s))
	}
	if len(is.population) == 0 {
		return // nothing that can be played to begin with
	}
	for is.goesOn() {
		if len(is.population) < islandSize {
			is.fill()
		}
		for ; is.goesOn() && is.stale < patience; is.stale++ {
			if is.admit(is.child()) {
				is.stale = -1
			}
		}
		if is.stale >= patience {
			is.population, is.stale = []*candidate{is.best}, 0
		}
	}
}

// lengthen scores the population on more runs.
func (is *island) lengthen(runs int) {
	if runs == is.runs {
		return
	}
	is.runs = runs
	if len(is.population) == 0 {
		return
	}
	slices.SortStableFunc(is.population, byScore)
	is.population = is.affordablePart(runs)
	for _, c := range is.population {
		is.budget -= int64(runs-c.runs()) * is.cases()
		is.run(c, runs)
		c.score = is.rough(c, runs)
	}
	slices.SortStableFunc(is.population, byScore)
	if is.best = nil; len(is.population) > 0 {
		is.best = is.population[0]
	}
}

// affordablePart returns the first of the population that may be played on so many
// runs, with half of the budget.
func (is *island) affordablePart(runs int) []*candidate {
	left := is.budget / 2
	for k, c := range is.population {
		if left -= int64(runs-c.runs()) * is.cases(); left < 0 {
			return is.population[:k]
		}
	}
	return is.population
}

// ranked returns candidates, the best first, each once.
func ranked(list []*candidate) (out []*candidate) {
	seen := map[*candidate]bool{}
	for _, c := range list {
		if !seen[c] {
			seen[c] = true
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, byScore)
	return out
}

func byScore(a, b *candidate) int {
	return cmp.Or(cmp.Compare(a.score.total, b.score.total), cmp.Compare(a.score.mean, b.score.mean), cmp.Compare(a.score.rest, b.score.rest))
}

func (is *island) goesOn() bool { return is.budget >= is.cost() && is.ctx.Err() == nil }

// cost is how many drills a plan may take.
func (is *island) cost() int64 { return int64(1+is.runs) * is.cases() }

// own returns a candidate that others may have, too, for the island alone.
func (is *island) own(c *candidate) *candidate {
	own := *c
	own.evenings = evenings{}
	own.score = is.scored(is.heading, c.usual(), 1)
	return &own
}

// fill adds changed copies of the population.
func (is *island) fill() {
	from := slices.DeleteFunc(slices.Clone(is.population), func(c *candidate) bool { return c.plan == nil })
	for tries := 0; len(from) > 0 && len(is.population) < islandSize && tries < 4*islandSize && is.goesOn(); tries++ {
		p := from[tries%len(from)].plan.clone()
		for range 1 + is.random.IntN(6) {
			is.m.change(p)
		}
		is.admit(p)
	}
}

// child makes a plan of two, or of one, and changes it a little. It is not its
// mother over again.
func (is *island) child() *plan {
	mother, father := is.choose(), is.choose()
	p := mother.plan.clone()
	if mother != father && is.random.IntN(3) > 0 {
		p = is.m.cross(mother.plan, father.plan)
	}
	for range is.random.IntN(3) {
		is.m.change(p)
	}
	if p.equal(mother.plan) {
		is.m.change(p)
	}
	return p
}

// choose is a tournament of two.
func (is *island) choose() *candidate {
	a, b := is.population[is.random.IntN(len(is.population))], is.population[is.random.IntN(len(is.population))]
	if b.score.less(a.score) {
		return b
	}
	return a
}

// admit tries a plan and takes it in, if it is worth it. It reports whether the
// island is the better for it.
func (is *island) admit(pl *plan) bool {
	defer func() { is.report(is.soonest()) }()
	is.budget -= is.cases()
	c := is.try(is.heading, pl)
	return c != nil && is.take(c)
}

// take takes in a candidate unless it does what another did, or is the worst of
// all. It reports whether the island is the better for it.
func (is *island) take(c *candidate) bool {
	h := hashOf(c)
	if is.seen[h] || c.plan == nil {
		return false
	}
	full, worst := len(is.population) >= islandSize, 0
	for k := range is.population {
		if is.population[worst].score.less(is.population[k].score) {
			worst = k
		}
	}
	if is.runs > 0 && !is.drafted(c, full, worst) {
		return false
	}
	if full && !c.score.less(is.population[worst].score) {
		return false
	}
	is.seen[h] = true
	if is.best == nil || c.score.less(is.best.score) {
		is.best = c
	}
	if !full {
		is.population = append(is.population, c)
		return true
	}
	is.population[worst] = c
	return true
}

// drafted plays a candidate in the runs of the island. It gives up, and reports
// false, on one that is far behind the worst with usual values, or behind it in a
// quarter of these runs.
func (is *island) drafted(c *candidate, full bool, worst int) bool {
	if full && is.hopeless(is.heading, c, is.population[worst]) {
		return false
	}
	if quarter := is.runs / 4; full && quarter >= 4 {
		is.budget -= int64(quarter) * is.cases()
		is.run(c, quarter)
		if is.behindBy(is.heading, c, is.population[worst], quarter) > 0.5 {
			return false
		}
	}
	is.budget -= int64(is.runs-c.runs()) * is.cases()
	is.run(c, is.runs)
	c.score = is.rough(c, is.runs)
	return true
}

// rough scores a candidate by the runs of the island.
func (is *island) rough(c *candidate, runs int) score {
	if runs == 0 {
		return is.scored(is.heading, c.usual(), 1)
	}
	return is.scored(is.heading, &c.evenings, runs)
}

// soonest returns the moment of the first aim under the best order.
func (is *island) soonest() sim.Time {
	if is.best == nil {
		return sim.Never
	}
	return is.milestoneShown(is.best)
}

// hashOf tells orders apart by what they do with usual values.
func hashOf(c *candidate) uint64 {
	return hashTimes(c.start) ^ 3*hashTimes(c.end) ^ 5*hashTimes(c.milestones)
}

func hashTimes(xs []sim.Time) uint64 {
	h := uint64(0x9e3779b97f4a7c15)
	for _, x := range xs {
		h = (h ^ uint64(x)) * 0xff51afd7ed558ccd
		h ^= h >> 32
	}
	return h
}
