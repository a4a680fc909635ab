package search

import (
	"cmp"
	"slices"

	"warmby/sim"
)

// Change is what is different about a task under a found order, with usual
// values.
type Change struct {
	Task  int
	Later sim.Time // by how much it ends later; below 0 sooner
	// Anchor is a task that it has passed: it started before the anchor and now
	// starts after it, or the other way round. -1 when it has passed none.
	Anchor int
	After  bool // now after the anchor
}

// Changes returns what is different about the tasks under a found order, compared
// with the order to beat, the greatest change first. Tasks that end within a minute
// of the same moment are left out.
func (r *Result) Changes(f Found) []Change {
	var list []Change
	for i := range r.Drill.Tasks {
		was, is := r.Before.End[i], f.End[i]
		if was == sim.Never || is == sim.Never {
			continue
		}
		if c := (Change{Task: i, Later: is - was, Anchor: -1}); c.Later > sim.Minute || c.Later < -sim.Minute {
			c.Anchor, c.After = r.anchor(f, i)
			list = append(list, c)
		}
	}
	slices.SortStableFunc(list, func(a, b Change) int {
		return cmp.Compare(max(b.Later, -b.Later), max(a.Later, -a.Later))
	})
	return list
}

// anchor returns the task that a task has passed and that milestones hang on
// most: one that a milestone names if any, else the nearest in time.
func (r *Result) anchor(f Found, task int) (anchor int, after bool) {
	named := make([]bool, len(r.Drill.Tasks))
	for _, m := range r.Drill.Milestones[:len(r.Drill.Milestones)-1] {
		for _, i := range m.When {
			named[i] = true
		}
	}
	later := f.Start[task] > r.Before.Start[task]
	anchor = -1
	better := func(a, b int) bool {
		if named[a] != named[b] {
			return named[a]
		}
		distance := func(i int) sim.Time { return max(f.Start[i]-f.Start[task], f.Start[task]-f.Start[i]) }
		return distance(a) < distance(b)
	}
	for i := range r.Drill.Tasks {
		if i == task || r.Drill.Tasks[i].Unloads() {
			continue
		}
		wasBefore, isBefore := r.Before.Start[task] <= r.Before.Start[i], f.Start[task] <= f.Start[i]
		if later && wasBefore && !isBefore || !later && !wasBefore && isBefore {
			if anchor < 0 || better(i, anchor) {
				anchor = i
			}
		}
	}
	return anchor, later
}
