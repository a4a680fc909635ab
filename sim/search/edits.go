package search

import (
	"slices"

	"warmby/sim"
)

// Kind says what a change to an order is about.
type Kind int

const (
	Moves  Kind = iota // a task stands elsewhere
	Crews              // a task has another crew
	Splits             // people and tasks are in other groups, or these go by other rules
)

// Edit is one change to an order.
type Edit struct {
	Kind   Kind
	Task   int      // for Moves and Crews; else -1
	Anchor int      // for Moves: the task before or after which it now stands; -1 for none
	After  bool     // for Moves: after the anchor, else before it; without an anchor it stands nowhere any more
	Crew   sim.Crew // for Crews: the new one
}

// edits lists the changes that make one plan of another. Of unloading that is named
// in one of them only, that is a change by itself, where all else about groups is the
// same.
func (g *game) edits(from, to *plan) (list []Edit) {
	named := make([]bool, len(to.list)) // in one of them only
	regrouped := !slices.Equal(from.groups, to.groups) || !slices.Equal(from.of, to.of)
	for i := range named {
		named[i] = g.d.Tasks[i].Unloads() && (from.has[i] == 0) != (to.has[i] == 0)
		regrouped = regrouped || from.has[i] != to.has[i] && !named[i]
	}
	if regrouped {
		clear(named)
		list = append(list, Edit{Kind: Splits, Task: -1, Anchor: -1})
	}
	for i := range from.crews {
		if from.crews[i] != to.crews[i] {
			list = append(list, Edit{Kind: Crews, Task: i, Anchor: -1, Crew: to.crews[i]})
		}
	}
	stay := make([]bool, len(to.list))
	for _, i := range unmoved(to.list, from.list) {
		stay[i] = !named[i]
	}
	for k, i := range to.list {
		switch {
		case named[i] && to.has[i] == 0:
			list = append(list, Edit{Kind: Moves, Task: i, Anchor: -1, After: true})
		case !stay[i]:
			list = append(list, g.moved(from, to, k, stay))
		}
	}
	return list
}

// moved tells where the task at a place of a plan stands, beside one of those in its
// groups that stay: the nearest that it has passed or, of these, the nearest that is
// not the part of one person.
func (g *game) moved(from, to *plan, k int, stay []bool) Edit {
	i, was := to.list[k], places(from.list)
	e := Edit{Kind: Moves, Task: i, Anchor: -1}
	nearest := func(list []int, passed func(j int) bool) int {
		best := -1
		for _, j := range list {
			if !stay[j] || to.has[i]&to.has[j] == 0 || passed != nil && !passed(j) {
				continue
			}
			if g.d.Tasks[j].Each == "" {
				return j
			}
			if best < 0 {
				best = j
			}
		}
		return best
	}
	ahead := slices.Clone(to.list[:k])
	slices.Reverse(ahead)
	if e.Anchor = nearest(to.list[k+1:], func(j int) bool { return was[j] < was[i] }); e.Anchor >= 0 {
		return e
	}
	if e.Anchor = nearest(ahead, func(j int) bool { return was[j] > was[i] }); e.Anchor >= 0 {
		e.After = true
		return e
	}
	if e.Anchor = nearest(to.list[k+1:], nil); e.Anchor < 0 {
		e.Anchor = nearest(ahead, nil)
		e.After = e.Anchor >= 0
	}
	return e
}

// combine makes some of the changes from one plan to another: with all of them it
// is the other. A task that moves goes before the one that it stands before in the
// other or, when behind is set, after the one that it stands after: with tasks
// between them that do not move, that is not the same.
func combine(from, to *plan, edits []Edit, behind bool) *plan {
	p := from.clone()
	moves := make([]bool, len(p.list))
	for _, e := range edits {
		switch e.Kind {
		case Moves:
			moves[e.Task] = true
			if (p.has[e.Task] == 0) != (to.has[e.Task] == 0) {
				p.has[e.Task] = to.has[e.Task] // unloading that is named in one only
			}
		case Crews:
			p.crews[e.Task] = to.crews[e.Task]
		case Splits:
			p.of, p.has, p.groups = slices.Clone(to.of), slices.Clone(to.has), slices.Clone(to.groups)
		}
	}
	stay := make([]bool, len(p.list))
	for _, i := range unmoved(to.list, from.list) {
		stay[i] = true
	}
	p.list = slices.DeleteFunc(p.list, func(i int) bool { return moves[i] })
	there := func(i int) bool { return stay[i] || moves[i] }
	if behind {
		at := 0
		for _, i := range to.list {
			if moves[i] {
				p.list = slices.Insert(p.list, at, i)
			}
			if there(i) {
				at = slices.Index(p.list, i) + 1
			}
		}
		return p
	}
	at := len(p.list)
	for _, i := range slices.Backward(to.list) {
		if moves[i] {
			p.list = slices.Insert(p.list, at, i)
		}
		if there(i) {
			at = slices.Index(p.list, i)
		}
	}
	return p
}

// without returns a list of changes without one.
func without(edits []Edit, k int) []Edit { return slices.Delete(slices.Clone(edits), k, k+1) }
