package search

import (
	"cmp"
	"slices"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// BestAt returns the order that is best at an aim, by index; the first of
// equals. With one aim it is the order found.
func (r *Result) BestAt(aim int) Found {
	return slices.MinFunc(r.Orders, func(a, b Found) int { return cmp.Compare(a.Value[aim], b.Value[aim]) })
}

// CasesJudged is in how many cases orders were judged; others are left out.
func (r *Result) CasesJudged() (n int) {
	for _, c := range r.Cases {
		if c.Why == "" {
			n++
		}
	}
	return n
}

// NothingBetter reports whether an order is the order to beat, or as good as it
// at an aim and not one that the scenario has.
func (r *Result) NothingBetter(f Found, aim int) bool {
	if f.Gain[aim].Why != "" || f.Gain[aim].Value != 0 {
		return false
	}
	own := f.Known != "" && f.Known == r.Before.Known
	return own || f.Known == "" && r.Before.Value[aim] == f.Value[aim]
}

// PercentAbove returns by how many percent of the bound an order is above it at
// an aim. A bound under a millisecond counts as one.
func (r *Result) PercentAbove(f Found, aim int) float64 {
	return 100 * (f.Value[aim] - r.Bound[aim]) / max(r.Bound[aim], 1)
}

// MainChanges is what an order changes, as [Result.Changes], without unpacking:
// tasks that a milestone other than the finish names come first.
func (r *Result) MainChanges(f Found) []Change {
	changes := slices.DeleteFunc(r.Changes(f), func(c Change) bool { return r.Drill.Tasks[c.Task].Unloads() })
	named := func(task int) int {
		for _, m := range r.Drill.Milestones[:len(r.Drill.Milestones)-1] {
			if slices.Contains(m.When, task) {
				return 0
			}
		}
		return 1
	}
	slices.SortStableFunc(changes, func(a, b Change) int { return cmp.Compare(named(a.Task), named(b.Task)) })
	return changes
}

// OverLimit returns who passes the cold limit under an order with usual values,
// by their places in the roster; nobody when the drill cannot be played so.
func OverLimit(d *sim.Drill, o sim.Order) (over []int) {
	program := fast.Compile(d.Under(o))
	tl := program.Worker().Timeline(draw.Usual(d))
	return cold.PastLimit(cold.Account(tl))
}
