package search

import (
	"slices"
)

// Win is one change, or several that only win together, to the best of the
// scenario's own orders. The list of them is cumulative: each is made on top of
// those before it, and all on top of the order named in the result. So a team may
// take the first two and leave the rest.
type Win struct {
	Edits []Edit
	// Gain is what it wins on top of those before it, and Total what all up to it
	// win, in the first aim.
	Gain, Total Gain
	// Regroups says what is in other groups, of the same names; nothing where the
	// groups are others.
	Regroups []Regroup

	found *candidate
}

// Regroup is a person or a task that is in other groups than before.
type Regroup struct {
	Person, Task int // -1 for the other kind
	Groups       []string
}

// regroups lists what is in other groups of the same names: people, then tasks.
// Unloading stands in all groups or in none.
func (g *game) regroups(from, to *plan) (list []Regroup) {
	if !slices.EqualFunc(from.groups, to.groups, func(a, b squad) bool { return a.name == b.name }) {
		return nil
	}
	for who, k := range to.of {
		if from.of[who] != k {
			list = append(list, Regroup{who, -1, []string{to.groups[k].name}})
		}
	}
	was, is := from.able(g.d), to.able(g.d)
	for i := range is {
		if was[i] == is[i] || g.d.Tasks[i].Unloads() || g.d.Tasks[i].Each != "" {
			continue
		}
		r := Regroup{Person: -1, Task: i}
		for k := range to.groups {
			if is[i]>>k&1 == 1 {
				r.Groups = append(r.Groups, to.groups[k].name)
			}
		}
		list = append(list, r)
	}
	return list
}

const (
	// mostWins is how many are told at most, and leastWin which part of all that is
	// won one must win to be told by itself.
	mostWins = 5
	leastWin = 0.08
	// winRuns is on how many runs they are chosen.
	winRuns = 64
)

// findWins looks for the few changes to one of the scenario's own orders that win
// most of what another order wins. It goes from the other back: of all changes the
// one is taken back that costs least, then of the rest, until none is left. What
// goes last wins most. (Going forward would miss changes that only win together.)
func (x *exploration) findWins(from, to *candidate, budget int64) []Win {
	if from.plan == nil || to.plan == nil || to.own {
		return nil
	}
	runs := min(winRuns, x.archive.runs)
	if len(x.lucks) == 0 {
		runs = 0
	}
	left := x.edits(from.plan, to.plan)
	n := int64(len(left))
	for runs > 8 && n*(n+1)/2*int64(1+runs)*x.cases() > budget {
		runs /= 2
	}
	if n == 0 || n*(n+1)/2*int64(1+runs)*x.cases() > budget {
		return nil
	}
	path, kept := []*candidate{to}, [][]Edit{left}
	for len(left) > 1 && x.ctx.Err() == nil {
		at, c := x.cheapest(from.plan, to.plan, left, runs)
		if c == nil {
			return nil
		}
		left = without(left, at)
		path, kept = append(path, c), append(kept, left)
	}
	if x.ctx.Err() != nil {
		return nil
	}
	p := x.players[0]
	p.run(from, runs)
	p.run(to, runs)
	slices.Reverse(path)
	slices.Reverse(kept)
	return x.steps(from, path, kept, runs)
}

// cheapest returns which of some changes it costs least to take back, and what is
// then left.
func (x *exploration) cheapest(from, to *plan, edits []Edit, runs int) (at int, best *candidate) {
	tried := make([]*candidate, len(edits))
	x.each(x.players, len(edits), func(p *player, k int) {
		if tried[k] = p.try(x.goals[0], combine(from, to, without(edits, k), false)); tried[k] != nil {
			p.run(tried[k], runs)
		}
	})
	for k, c := range tried {
		if c != nil && (best == nil || x.on(c, runs) < x.on(best, runs)) {
			at, best = k, c
		}
	}
	return at, best
}

// on is what the first objective makes of some runs of an order; with usual values
// for none.
func (x *exploration) on(c *candidate, runs int) float64 {
	if runs == 0 {
		return x.weigh(x.goals[0], c.usual(), 1).value
	}
	return x.weigh(x.goals[0], &c.evenings, runs).value
}

// steps cuts a path from one order to another, of one change more each time, into
// wins.
func (x *exploration) steps(from *candidate, path []*candidate, kept [][]Edit, runs int) (wins []Win) {
	at, done := x.on(from, runs), []Edit(nil)
	least := leastWin * (at - x.on(path[len(path)-1], runs))
	for k, c := range path {
		if v := x.on(c, runs); len(wins) < mostWins && least > 0 && v <= at-least {
			w := Win{found: c}
			for _, e := range kept[k] {
				if !slices.Contains(done, e) {
					w.Edits = append(w.Edits, e)
				}
			}
			wins, at, done = append(wins, w), v, kept[k]
		}
	}
	return wins
}
