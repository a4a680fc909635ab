package search

import (
	"cmp"
	"math"
	"slices"
)

// archive is all that has been played on enough runs and is worth keeping: the
// Pareto front of all that counts, and a few orders that are nearly as good. How
// many runs are enough grows with the search. An order that was ever the best is
// kept until that number grows, and is then compared anew. So a longer search, on
// its own runs, never has a worse answer than a shorter one.
type archive struct {
	*game
	runs int
	list []*candidate
	seen map[uint64]bool // what has been tried around it, by hashOf
}

const (
	// leastRuns and mostRuns are on how many runs orders are compared at the
	// beginning of a search, and at most.
	leastRuns, mostRuns = 16, 1024
	// perRun is how many evaluations of a search there are for each of these runs.
	perRun = 100
	// mostKept is how many orders of a front an archive keeps, and runnersUp how
	// many behind the best of each objective.
	mostKept, runnersUp = 48, 6
)

// doubling returns the power of two at or below some number, within bounds.
func doubling(n, least, most int) int {
	runs := least
	for 2*runs <= min(n, most) {
		runs *= 2
	}
	return runs
}

// enough is how many runs are enough after so many evaluations.
func enough(played int64) int { return doubling(int(played/perRun), leastRuns, mostRuns) }

// drafted is in how many runs a plan is tried first after so many evaluations:
// about ten for many plans do better than more for fewer (F. Ballestin, Journal of
// Scheduling 10 (2007), as quoted by others), until plans are as near to each
// other as luck takes them in ten runs.
func drafted(played int64) int { return doubling(int(math.Sqrt(float64(played))/8), 4, 128) }

// margin returns a width as a share of evenings.
func (g *game) margin(width float64, runs int) float64 {
	most := 0.0
	for _, l := range g.limits {
		most = max(most, math.Sqrt(l.odds*(1-l.odds)/float64(max(1, runs))))
	}
	return width * most
}

// add takes in a candidate that has met enough runs, unless another does the
// same. It reports whether it did.
func (a *archive) add(c *candidate) bool {
	if len(a.lucks) > 0 && c.runs() < a.runs || slices.Contains(a.list, c) {
		return false
	}
	for k, o := range a.list {
		if a.same(o, c) {
			if c.own && !o.own {
				c.led, c.vector = o.led, o.vector
				a.list[k] = c // better known
			}
			return false
		}
	}
	c.vector = a.vectorOf(c)
	a.list = append(a.list, c)
	return true
}

// vectorOf returns what orders are compared by: the aims and, for each limit, how
// much is missing to keep it with the widest margin.
func (a *archive) vectorOf(c *candidate) (v []float64) {
	e, runs := a.met(c)
	for _, aim := range a.o.Aims {
		most := 0.0
		for in := range int(a.cases()) {
			value, _ := a.aimIn(aim, e, in, runs, 0)
			most = max(most, value)
		}
		v = append(v, most)
	}
	for k := range a.limits {
		short := 0.0
		for in := range int(a.cases()) {
			more, _ := a.shortOf(&a.limits[k], e, in, runs, 0, a.margin(rigours[len(rigours)-1].width, runs))
			short += more
		}
		v = append(v, short)
	}
	return v
}

// met returns the evenings by which the archive judges a candidate.
func (a *archive) met(c *candidate) (*evenings, int) {
	if len(a.lucks) == 0 {
		return c.usual(), 1
	}
	return &c.evenings, a.runs
}

// front returns the Pareto front of the archive.
func (a *archive) front() (out []*candidate) {
	var values [][]float64
	for _, c := range a.list {
		values = append(values, c.vector)
	}
	for i, c := range a.list {
		if !dominated(values, i) {
			out = append(out, c)
		}
	}
	return out
}

// best returns the candidates, the best first by a heading.
func (a *archive) best(h heading) []*candidate {
	scores := map[*candidate]score{}
	for _, c := range a.list {
		e, runs := a.met(c)
		scores[c] = a.scored(a.strict(h, runs), e, runs)
	}
	list := slices.Clone(a.list)
	slices.SortStableFunc(list, func(x, y *candidate) int {
		sx, sy := scores[x], scores[y]
		return cmp.Or(cmp.Compare(sx.total, sy.total), cmp.Compare(sx.mean, sy.mean), cmp.Compare(sx.rest, sy.rest))
	})
	return list
}

// trim drops what is not worth keeping.
func (a *archive) trim(headings []heading) {
	keep := map[*candidate]bool{}
	for _, c := range spaced(a.front(), mostKept) {
		keep[c] = true
	}
	for _, h := range headings {
		for k, c := range a.best(h) {
			if k == 0 {
				c.led = true
			}
			if k < runnersUp {
				keep[c] = true
			}
		}
	}
	a.list = slices.DeleteFunc(a.list, func(c *candidate) bool { return !keep[c] && !c.led })
}

// grow plays all that is kept on more runs. It reports whether it could.
func (a *archive) grow(players []*player, runs int) bool {
	if runs <= a.runs || len(a.lucks) == 0 {
		return true
	}
	if len(a.affordable(a.list, runs, 0)) < len(a.list) {
		return false
	}
	a.each(players, len(a.list), func(p *player, k int) { p.run(a.list[k], runs) })
	if a.ctx.Err() != nil {
		return false
	}
	a.runs = runs
	list := a.list
	a.list = nil
	for _, c := range list {
		c.led = false
		a.add(c)
	}
	return true
}

// spaced returns no more than some candidates of a front, evenly spread from one
// end by the first aim to the other.
func spaced(list []*candidate, most int) (out []*candidate) {
	if len(list) <= most {
		return list
	}
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b *candidate) int { return slices.Compare(a.vector, b.vector) })
	for k := range most {
		out = append(out, list[k*(len(list)-1)/(most-1)])
	}
	return out
}
