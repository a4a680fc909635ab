package search

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
)

// The search goes in rounds, each as long as a sixteenth of all before it. What it
// does depends on how much has been played and not on how much may be. So a longer
// search begins as a shorter one does and only goes on.
const (
	shortestRound = 120
	roundShare    = 16
	// islandsEach is how many islands each heading has, on any number of workers.
	islandsEach = 2
	// arrivals is how many orders of an island race into the archive in a round.
	arrivals = 3
	// laid is which part of the evaluations is laid by for making what is found
	// easier to remember.
	laid = 0.2
)

// shore is an island with its nursery, in which plans are tried with usual values
// only: that is quick, and most plans are bad in any luck.
type shore struct {
	heading
	goal     int
	nursery  *island
	island   *island
	plain    *rand.Rand
	mentored map[*candidate]bool // of the nursery, those that the island has seen
	sent     map[*candidate]bool // of the island, those that have raced
}

// exploration is a search under way.
type exploration struct {
	*game
	players  []*player
	goals    []heading
	headings []heading
	shores   []*shore
	archive  *archive
	mover    *mover
	starts   []*candidate
	own      []*candidate // the scenario's own
	plain    bool         // whether forward-backward improvement may help
	rounds   int
}

func (g *game) explore(players []*player, starts, own []*candidate) *exploration {
	x := &exploration{game: g, players: players, goals: g.goals(), starts: starts, own: own, plain: true,
		archive: &archive{game: g, runs: leastRuns, seen: map[uint64]bool{}}}
	x.headings = g.headings()
	stream := func(n int) *rand.Rand { return rand.New(rand.NewPCG(searchSeed(g.o.Seed), uint64(n))) }
	for k := range islandsEach * len(x.headings) {
		h := x.headings[k%len(x.headings)]
		x.shores = append(x.shores, &shore{heading: h, goal: k % len(x.goals), nursery: g.newIsland(h, stream(3*k)), island: g.newIsland(h, stream(3*k+1)),
			plain: stream(3*k + 2), mentored: map[*candidate]bool{}, sent: map[*candidate]bool{}})
	}
	x.mover = newMover(g.d, g.bounds, stream(1_000_000))
	if g.o.Runs > 0 {
		g.drawLucks(mostRuns)
	}
	return x
}

// round goes on for one round. It reports whether it could.
func (x *exploration) round() bool {
	budget := max(shortestRound*x.cases(), x.played.Load()/roundShare)
	if x.left() < budget || x.ctx.Err() != nil {
		return false
	}
	defer func() { x.rounds++ }()
	if !x.archive.grow(x.players, enough(x.played.Load()/x.cases())) {
		return false
	}
	x.visit(budget * 6 / 10)
	x.land()
	if x.o.Runs > 0 {
		x.archive.climb(x.players, x.headings, budget*4/10, x.mover)
	}
	x.archive.trim(x.headings)
	return true
}

// visit lets all islands go on, with an equal part of a budget each.
func (x *exploration) visit(budget int64) {
	each, runs, judged := budget/int64(len(x.shores)), drafted(x.played.Load()/x.cases()), x.archive.runs
	x.each(x.players, len(x.shores), func(p *player, k int) {
		s := x.shores[k]
		from := x.startsOf(k)
		share := each
		if x.plain && x.rounds%4 == 1 {
			if pl, made := x.serial(s.goal, share/2, s.plain); pl != nil {
				if share -= int64(made); share >= x.cases() {
					share -= x.cases()
					if c := p.try(s.heading, pl); c != nil {
						from = append([]*candidate{c}, from...)
					}
				}
			}
		}
		if x.o.Runs == 0 {
			s.island.visit(p, from, 0, judged, share)
			return
		}
		s.nursery.visit(p, from, 0, judged, share/8)
		s.island.visit(p, fresh(ranked(s.nursery.population), s.mentored, 4), runs, judged, share*7/8)
	})
}

// startsOf returns what an island starts from: those of the first half from
// everything, those of the second each from one of the scenario's own orders, so
// that none is lost because another is good sooner.
func (x *exploration) startsOf(k int) []*candidate {
	switch {
	case x.rounds > 0:
		return nil
	case k < len(x.shores)/2:
		return x.starts
	}
	own := slices.DeleteFunc(slices.Clone(x.own), func(c *candidate) bool { return c.plan == nil })
	if len(own) == 0 {
		return x.starts
	}
	k %= len(own)
	return own[k : k+1]
}

// fresh returns the first of some candidates that have not been seen, as many as
// asked for.
func fresh(list []*candidate, seen map[*candidate]bool, most int) (out []*candidate) {
	for _, c := range list {
		if len(out) < most && !seen[c] {
			seen[c] = true
			out = append(out, c)
		}
	}
	return out
}

// land races the best of each island into the archive.
func (x *exploration) land() {
	if x.rounds == 0 {
		for _, c := range x.archive.prove(x.players, x.headings[0], x.own, nil, 0) {
			x.archive.add(c)
		}
	}
	for _, s := range x.shores {
		list := fresh(ranked(s.island.population), s.sent, arrivals)
		if x.o.Runs > 0 {
			var rival *candidate
			if best := x.archive.best(s.heading); len(best) > 0 {
				rival = best[0]
			}
			for k, c := range list { // the island goes on with its own
				own := *c
				own.times, own.chills = cloned(c.times), cloned(c.chills)
				list[k] = &own
			}
			list = x.archive.prove(x.players, s.heading, list, rival, 2)
		}
		for _, c := range list {
			x.archive.add(c)
		}
	}
}

func cloned[T any](lists [][]T) (out [][]T) {
	for _, l := range lists {
		out = append(out, slices.Clone(l))
	}
	return out
}

// search returns what is worth judging, the best first, the scenario's own
// orders last.
func (g *game) search(players []*player, before *candidate) []*candidate {
	own := g.ownOrders(players[0], before)
	x := g.setOut(players, own)
	x.exploreAll(laid)
	found := x.settle(x.chosen(), own)
	for _, c := range own {
		if !slices.Contains(found, c) {
			found = append(found, c)
		}
	}
	return g.distinct(found)
}

// settle makes what was found easier to remember, and says what wins most in it.
func (x *exploration) settle(found, own []*candidate) []*candidate {
	if len(found) == 0 || x.ctx.Err() != nil {
		return found
	}
	if len(x.o.Aims) > 1 {
		return append(found, x.remember(found, x.left())...)
	}
	x.archive.prove(x.players, x.headings[0], own, nil, 0)
	at := slices.MinFunc(own, func(a, b *candidate) int { return cmp.Compare(x.worth(a), x.worth(b)) })
	few := min(len(found), len(x.headings))
	plain := x.remember(found[:few], x.left()/2)
	found = append(append(slices.Clone(found[:few]), plain...), found[few:]...)
	best := found[0]
	for _, c := range plain {
		if c != nil && x.burdenOf(c).less(x.burdenOf(best)) && x.taken(best, c) {
			best = c
		}
	}
	x.wins, x.winsOn = x.findWins(at, best, x.left()), at
	for _, w := range x.wins {
		found = append(found, w.found)
	}
	return found
}

// worth is what the first objective makes of an order on the runs of the archive
// or, of one that has not met them, with usual values.
func (x *exploration) worth(c *candidate) float64 {
	if e, runs := x.archive.met(c); e.runs() >= runs {
		return x.weigh(x.goals[0], e, runs).value
	}
	return math.Inf(1)
}

// taken reports whether an order may stand for another that is harder to remember.
func (x *exploration) taken(from, c *candidate) bool {
	return x.worth(c) <= x.worth(from)+mostSteps*x.step(x.goals[0])
}

// setOut returns an exploration from all that there is to start from.
func (g *game) setOut(players []*player, own []*candidate) *exploration {
	starts := g.starts(players, own)
	alone := g.serialAlone()
	if alone != nil {
		if c := players[0].try(g.goals()[0], alone); c != nil {
			starts = append([]*candidate{c}, starts...)
		}
	}
	x := g.explore(players, starts, own)
	x.plain = alone == nil
	return x
}

// exploreAll goes on for as many rounds as it may, and lays a part of the
// evaluations by.
func (x *exploration) exploreAll(by float64) {
	if !x.plain { // nearly all has been played, and nothing finds more
		by = 0.8
	}
	x.limit = x.played.Load() + int64(float64(x.left())*(1-by))
	for x.round() {
	}
	x.limit = int64(x.o.Evaluations)
}

// mostJudged is how many orders of a front are judged.
const mostJudged = 24

// chosen returns what is worth judging of all that was found.
func (x *exploration) chosen() (found []*candidate) {
	if len(x.archive.list) == 0 { // too few drills for a round
		return ranked(x.starts)[:min(len(x.starts), runnersUp)]
	}
	if len(x.o.Aims) > 1 {
		return spaced(x.archive.front(), mostJudged)
	}
	var rest []*candidate
	for _, h := range x.headings {
		best := x.archive.best(h)
		found, rest = append(found, best[0]), append(rest, best[1:min(len(best), runnersUp)]...)
	}
	return x.distinct(append(found, rest...))
}
