package search

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"warmby/sim"
)

// island is an evolutionary search: a population of plans, of which two at a time
// have a child that pushes out the worst. Plans are scored with usual values or,
// when there are runs, by the same handful of drawn runs for all (about ten for
// many plans do better than more for fewer; F. Ballestin, Journal of Scheduling
// 10 (2007), as quoted by others). Islands know
// nothing of each other, so that each may have a goroutine of its own.
type island struct {
	*player
	w          objective
	m          *mover
	random     *rand.Rand
	runs       int   // 0 for usual values
	budget     int64 // drills it may play
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

// evolve searches from some candidates on and returns what it ends with, the
// best first.
func (p *player) evolve(w objective, starts []*candidate, runs int, budget int64, random *rand.Rand) []*candidate {
	is := &island{player: p, w: w, m: newMover(p.d, p.bounds, random), random: random, runs: runs, budget: budget, seen: map[uint64]bool{}}
	for k, s := range starts {
		// Broken off, or at an end, too, there must be something; but no run
		// more may be played than is allowed.
		if runs == 0 || is.budget >= is.cost() && (k < 4 || is.goesOn()) {
			is.take(is.own(s))
		}
	}
	if len(is.population) == 0 {
		return nil // nothing that can be played to begin with
	}
	kept := slices.Clone(is.population)
	for is.goesOn() {
		is.fill(starts)
		for stale := 0; is.goesOn() && stale < patience; stale++ {
			if is.admit(is.child()) {
				stale = 0
			}
		}
		kept = append(kept, is.population...)
		is.population = []*candidate{is.best}
	}
	return ranked(kept)
}

// ranked returns candidates with usual values, the best first, each once.
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
	return cmp.Or(cmp.Compare(a.score.fails, b.score.fails), cmp.Compare(a.score.aim, b.score.aim), cmp.Compare(a.score.mean, b.score.mean), cmp.Compare(a.score.rest, b.score.rest))
}

func (is *island) goesOn() bool { return is.budget >= is.cost() && is.ctx.Err() == nil }

// cost is how many drills a plan may take.
func (is *island) cost() int64 { return is.player.cost() + int64(is.runs)*is.cases() }

// own returns a candidate that others may have, too, for the island alone.
func (is *island) own(c *candidate) *candidate {
	own := *c
	own.times = nil
	own.score = is.scoreOf(is.w, c.milestones)
	own.score.fails += c.chill * float64(sim.Minute)
	return &own
}

// fill adds changed copies of the starts.
func (is *island) fill(starts []*candidate) {
	for tries := 0; len(is.population) < islandSize && tries < 4*islandSize && is.goesOn(); tries++ {
		p := starts[tries%len(starts)].plan.clone()
		for range 1 + is.random.IntN(6) {
			is.m.change(p)
		}
		is.admit(p)
	}
}

// child makes a plan of two, or of one, and changes it a little.
func (is *island) child() *plan {
	mother, father := is.choose(), is.choose()
	p := mother.plan.clone()
	if mother != father && is.random.IntN(3) > 0 {
		p = is.m.cross(mother.plan, father.plan)
	}
	for range is.random.IntN(3) {
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
	c := is.try(is.w, pl)
	return c != nil && is.take(c)
}

// take takes in a candidate unless it does what another did, or is the worst of
// all. It reports whether the island is the better for it.
func (is *island) take(c *candidate) bool {
	h := hashTimes(c.start) ^ 3*hashTimes(c.end) ^ 5*hashTimes(c.milestones)
	if is.seen[h] {
		return false
	}
	if is.runs > 0 {
		is.budget -= int64(is.runs) * is.cases()
		is.run(c, is.runs)
		c.score = is.rough(is.w, c, is.runs)
	}
	full, worst := len(is.population) >= islandSize, 0
	for k := range is.population {
		if is.population[worst].score.less(is.population[k].score) {
			worst = k
		}
	}
	if full && !c.score.less(is.population[worst].score) {
		return false
	}
	if is.o.ColdLimit && (is.runs > 0 || !c.warmed) { // else the score has it
		if !c.warmed {
			is.budget -= is.cases()
		}
		if is.keepWarm(c); full && !c.score.less(is.population[worst].score) {
			return false
		}
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

// soonest returns the moment of the first aim under the best order.
func (is *island) soonest() sim.Time {
	if is.best == nil {
		return sim.Never
	}
	return is.best.milestones[is.o.Aims[0].Milestone]
}

func hashTimes(xs []sim.Time) uint64 {
	h := uint64(0x9e3779b97f4a7c15)
	for _, x := range xs {
		h = (h ^ uint64(x)) * 0xff51afd7ed558ccd
		h ^= h >> 32
	}
	return h
}
