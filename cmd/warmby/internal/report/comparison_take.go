package report

import (
	"slices"
	"strings"

	"warmby/sim/compare"
)

// goal is something that orders may be taken for, and the orders that are best
// at it: the first of them, and those that cannot be told from it.
type goal struct {
	what      string
	milestone int // -1 for all well
	best      []int
}

// goals lists what orders may be taken for: that all is well, then the
// milestones that it is about at which not all are level: in time most often, or
// soonest where there is no target or none is ever in time. Those in time least
// often come first.
func (c Comparison) goals(w *Bout) (list []goal) {
	if best := w.mostOftenWell(); best != nil {
		columns := c.wellColumns(w)
		list = append(list, goal{columns[len(columns)-1].head, -1, best})
	}
	for _, k := range byUrgency(w, c.Primary) {
		m := c.Primary[k]
		best := compare.MostOftenInTime(w.Played, m)
		if best == nil {
			best = w.best(m)
		}
		if len(best) < len(w.Played) { // else it decides nothing
			list = append(list, goal{c.Drill.Milestones[m].Name, m, best})
		}
	}
	return list
}

// hardlyEver is the share of runs under which all is so seldom well that no order
// is taken for it.
const hardlyEver = 0.05

// mostOftenWell returns the orders in which all is well most often; nil when it
// hardly ever is.
func (w *Bout) mostOftenWell() []int {
	best := compare.MostOftenWell(w.Well)
	if best == nil || w.Well[best[0]].All.Value < hardlyEver {
		return nil
	}
	return best
}

// best returns the orders that are soonest at a milestone: the first of the
// ranking, and those that cannot be told from it.
func (w *Bout) best(m int) []int {
	ranking := w.Ranking(m)
	out := ranking[:1:1]
	for _, i := range ranking[1:] {
		if w.level(m, ranking[0], i) {
			out = append(out, i)
		}
	}
	return out
}

// level reports whether two orders cannot be told apart at a milestone. Where
// one of them does not always get there, there is no mean to go by, and they are
// level only if they are equal in all that is told.
func (w *Bout) level(m, a, b int) bool {
	match := w.Between(m, a, b)
	if match.Diff.Mean.OK() {
		return match.Level()
	}
	x, y := &w.Odds[m][a], &w.Odds[m][b]
	return x.Never.Count == y.Never.Count && x.Quantiles[compare.NineOfTen].Value == y.Quantiles[compare.NineOfTen].Value
}

// pick is an order to be taken for some goals, with those that are level with it
// in all of them.
type pick struct {
	order int
	goals []goal
	level []int
}

// mostPicks is how many orders are named: more is no advice.
const mostPicks = 3

// picks chooses as few orders as are best at the goals: the one that is best at
// most of them, the first goal among them, and so on for the rest.
func picks(goals []goal) (list []pick) {
	for len(goals) > 0 && len(list) < mostPicks {
		p := pick{order: -1}
		covered := 0
		for _, i := range goals[0].best {
			if n := covers(i, goals); n > covered {
				p.order, covered = i, n
			}
		}
		var rest []goal
		p.level = slices.Clone(goals[0].best)
		for _, g := range goals {
			if !slices.Contains(g.best, p.order) {
				rest = append(rest, g)
				continue
			}
			p.goals = append(p.goals, g)
			p.level = slices.DeleteFunc(p.level, func(i int) bool { return !slices.Contains(g.best, i) })
		}
		list, goals = append(list, p), rest
	}
	return list
}

func covers(order int, goals []goal) (n int) {
	for _, g := range goals {
		if slices.Contains(g.best, order) {
			n++
		}
	}
	return n
}

// named lists the orders that are to be taken for something.
func (c Comparison) named(w *Bout) (list []int) {
	for _, p := range picks(c.goals(w)) {
		list = append(list, p.order)
	}
	return list
}

// take says which order to take for what, and which are level in that.
func (c Comparison) take(w *Bout) Sentence {
	var parts, level []Sentence
	for _, p := range picks(c.goals(w)) {
		if len(p.level) == len(w.Played) {
			parts = nil
			break
		}
		var what []string
		for _, g := range p.goals {
			what = append(what, g.what)
		}
		parts = append(parts, Say("{} for {}", w.order(p.order), strings.Join(what, ", ")))
		if len(p.level) > 1 {
			level = append(level, w.orders(p.level))
		}
	}
	if parts == nil {
		var all []int
		for i := range w.Played {
			all = append(all, i)
		}
		return Say("Level: {}. These {} do not tell which to take.", w.orders(all), c.site().Many)
	}
	s := Say("Take {}.", Join(parts, "; "))
	if seldom := c.seldomWell(w); !seldom.IsEmpty() {
		s = Say("{} {}", seldom, s)
	}
	if level != nil {
		s = Say("{} Level: {}.", s, Join(level, "; "))
	}
	return s
}

// seldomWell says so where all is hardly ever well with any order.
func (c Comparison) seldomWell(w *Bout) Sentence {
	if w.Well[0].All == nil || w.mostOftenWell() != nil {
		return nil
	}
	columns := c.wellColumns(w)
	if compare.MostOftenWell(w.Well) == nil {
		return Say("{} in no {}.", capital(columns[len(columns)-1].head), singular(c.site().Many))
	}
	return Say("{} in hardly any {}.", capital(columns[len(columns)-1].head), singular(c.site().Many))
}

// orders names some orders.
func (w *Bout) orders(list []int) Sentence {
	var names []Sentence
	for _, i := range slices.Sorted(slices.Values(list)) {
		names = append(names, Say("{}", w.order(i)))
	}
	return Listed(names)
}
