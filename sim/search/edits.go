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
	Anchor int      // for Moves: the task next to which it now stands; -1 for none
	After  bool     // for Moves: after the anchor, else before it
	Crew   sim.Crew // for Crews: the new one
}

// edits lists the changes that make one plan of another.
func (g *game) edits(from, to *plan) (list []Edit) {
	if !slices.Equal(from.groups, to.groups) || !slices.Equal(from.of, to.of) || !slices.Equal(from.has, to.has) {
		list = append(list, Edit{Kind: Splits, Task: -1, Anchor: -1})
	}
	for i := range from.crews {
		if from.crews[i] != to.crews[i] {
			list = append(list, Edit{Kind: Crews, Task: i, Anchor: -1, Crew: to.crews[i]})
		}
	}
	stay := make([]bool, len(to.list))
	for _, i := range unmoved(to.list, from.list) {
		stay[i] = true
	}
	was := places(from.list)
	for k, i := range to.list {
		if stay[i] {
			continue
		}
		beside := func(j int) bool { return stay[j] && to.has[i]&to.has[j] != 0 } // in a group with it
		e := Edit{Kind: Moves, Task: i, Anchor: -1}
		if next := slices.IndexFunc(to.list[k:], beside); next >= 0 {
			e.Anchor = to.list[k+next]
		}
		for l := k - 1; l >= 0; l-- {
			if j := to.list[l]; beside(j) {
				if e.Anchor < 0 || was[j] > was[i] { // it has moved back, past this one
					e.Anchor, e.After = j, true
				}
				break
			}
		}
		list = append(list, e)
	}
	return list
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
