package search

import (
	"slices"

	"warmby/sim"
)

// Burden says how much there is to remember of an order, for people who know the
// scenario's own orders. One of these is no burden.
type Burden struct {
	Groups   int // beyond the first
	Lends    int // how often a group gives its people to another
	Shared   int // tasks that stand with several groups
	Narrowed int // crews
	InTurn   int // groups that wait for a task that may not start
	Named    int // unloadings that stand in a sequence
	Moved    int // the fewest tasks that stand elsewhere than in the nearest of the scenario's own orders
	Turned   int // pairs of tasks that are the other way round there
}

// Weight is the burden as one number. A group weighs most: it needs a leader.
func (b Burden) Weight() int {
	return 10*b.Groups + 3*b.Narrowed + 2*(b.Lends+b.Moved+b.InTurn) + b.Shared + b.Named
}

// less compares by weight, then by pairs turned.
func (b Burden) less(o Burden) bool {
	if b.Weight() != o.Weight() {
		return b.Weight() < o.Weight()
	}
	return b.Turned < o.Turned
}

// Pair is two tasks, and which comes first.
type Pair struct{ First, Then int }

// burdenOf weighs a candidate.
func (g *game) burdenOf(c *candidate) (b Burden) {
	if c.plan == nil || c.own {
		return b
	}
	b.Groups = len(c.plan.groups) - 1
	for k, s := range c.plan.groups {
		if s.inTurn {
			b.InTurn++
		}
		for t := range c.plan.groups {
			if t != k && s.then>>t&1 == 1 {
				b.Lends++
			}
		}
	}
	for i, has := range c.plan.has {
		if has&(has-1) != 0 && !g.d.Tasks[i].Unloads() {
			b.Shared++
		}
		if has != 0 && g.d.Tasks[i].Unloads() {
			b.Named++
		}
		if c.plan.crews[i] != g.d.Tasks[i].Crew {
			b.Narrowed++
		}
	}
	if near := g.nearest(c.plan); near != nil {
		list := g.named(c.plan)
		b.Moved = len(list) - len(unmoved(list, near.list))
		b.Turned = turned(list, near.list)
	}
	return b
}

// named returns the list of a plan without unloading that it does not name.
func (g *game) named(p *plan) (list []int) {
	for _, i := range p.list {
		if p.has[i] != 0 {
			list = append(list, i)
		}
	}
	return list
}

// nearest returns the one of the scenario's own orders that has the fewest pairs
// the other way round than a plan; nil when none can be held as a plan.
func (g *game) nearest(p *plan) (near *plan) {
	least, list := 0, g.named(p)
	for _, own := range g.known {
		if n := turned(list, own.list); near == nil || n < least {
			near, least = own, n
		}
	}
	return near
}

// places returns where each task stands in a list.
func places(list []int) []int {
	at := make([]int, len(list))
	for k, i := range list {
		at[i] = k
	}
	return at
}

// turned counts the pairs of a list that stand the other way round in another,
// which has all tasks.
func turned(list, other []int) (n int) {
	at := places(other)
	for k, i := range list {
		for _, j := range list[:k] {
			if at[j] > at[i] {
				n++
			}
		}
	}
	return n
}

// unmoved returns the most tasks of a list that stand in the same sequence in
// another (the longest rising subsequence), the first such in the list.
func unmoved(list, other []int) (stay []int) {
	at := places(other)
	length, before := make([]int, len(list)), make([]int, len(list))
	last := -1
	for k, i := range list {
		length[k], before[k] = 1, -1
		for j := range k {
			if at[list[j]] < at[i] && length[j]+1 > length[k] {
				length[k], before[k] = length[j]+1, j
			}
		}
		if last < 0 || length[k] > length[last] {
			last = k
		}
	}
	for ; last >= 0; last = before[last] {
		stay = append(stay, list[last])
	}
	slices.Reverse(stay)
	return stay
}

// turnedPairs lists the pairs that all of the scenario's own orders have the other
// way round, without those that follow from others. Two tasks that the scenario
// itself puts one after the other are no pair.
func (g *game) turnedPairs(c *candidate) (pairs []Pair) {
	if c.plan == nil || c.own || len(g.known) == 0 {
		return nil
	}
	n := len(g.d.Tasks)
	list, broken := g.named(c.plan), make([]bool, n*n)
	for k, first := range list {
		for _, then := range list[k+1:] {
			broken[first*n+then] = g.allTurn(first, then)
		}
	}
	follows := func(k, l int) bool { // from pairs with one that stands between
		for _, mid := range list[k+1 : l] {
			if broken[list[k]*n+mid] || broken[mid*n+list[l]] {
				return true
			}
		}
		return false
	}
	for k := range list {
		for l := k + 1; l < len(list); l++ {
			if broken[list[k]*n+list[l]] && !follows(k, l) {
				pairs = append(pairs, Pair{list[k], list[l]})
			}
		}
	}
	return pairs
}

// allTurn reports whether all of the scenario's own orders have two tasks the
// other way round.
func (g *game) allTurn(first, then int) bool {
	return !slices.ContainsFunc(g.known, func(own *plan) bool {
		for _, i := range own.list {
			if i == first || i == then {
				return i == first
			}
		}
		return true
	})
}

// peopleOf returns by person what each works on in a timeline, in sequence.
func peopleOf(tl *sim.Timeline) [][]int {
	out := make([][]int, len(tl.People))
	for who, all := range tl.People {
		for _, s := range all {
			if n := len(out[who]); s.What == sim.Working && (n == 0 || out[who][n-1] != s.Task) {
				out[who] = append(out[who], s.Task)
			}
		}
	}
	return out
}
