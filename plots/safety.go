package plots

import (
	"cmp"
	"slices"
	"strings"

	"warmby/sim"
)

// safetySteps writes out the steps on which safety hangs, in the sequence in which
// they are done: layers put on, fire lit and put out, and what must come before a
// fire or changes the air of a shelter (vents, alarm, flue). A bar may show no more
// of such a step than a number; here it always stands with its name, when and by
// whom. It is empty when a drill has none.
func safetySteps(tl *sim.Timeline, a axis) string {
	var steps []int
	for i := range tl.Drill.Tasks {
		if isSafetyStep(tl.Drill, i) && tl.Tasks[i].Start != sim.Never {
			steps = append(steps, i)
		}
	}
	if len(steps) == 0 {
		return ""
	}
	slices.SortStableFunc(steps, func(x, y int) int { return cmp.Compare(tl.Tasks[x].Start, tl.Tasks[y].Start) })
	var parts []string
	for _, i := range steps {
		text := clean(tl.Drill.Tasks[i].Name) + " " + a.when(tl.Tasks[i].Start)
		var who []string
		for _, p := range tl.Tasks[i].People {
			who = append(who, clean(tl.Drill.People[p].Name))
		}
		if len(who) > 0 {
			text += " (" + strings.Join(who, ", ") + ")"
		}
		parts = append(parts, text)
	}
	return "Safety steps: " + strings.Join(parts, "; ") + "."
}

// isSafetyStep reports whether safety hangs on a task.
func isSafetyStep(d *sim.Drill, task int) bool {
	t := &d.Tasks[task]
	if t.LayersOn || len(t.PutsOut) > 0 || t.Kind == sim.Warm {
		return true
	}
	for _, m := range t.Makes {
		if m.AirChanges != nil {
			return true
		}
	}
	// What a fire comes after, and what this comes after: the lighting, and the
	// vents, the flue and the alarm before it.
	for i := range d.Tasks {
		if d.Tasks[i].Kind != sim.Warm {
			continue
		}
		for _, lit := range d.Tasks[i].After {
			if lit.Task == task || comesAfter(d, lit.Task, task) && d.Tasks[task].Kind == sim.Takes && !t.Unloads() {
				return true
			}
		}
	}
	return false
}

// comesAfter reports whether a task names another in its after.
func comesAfter(d *sim.Drill, task, other int) bool {
	return slices.ContainsFunc(d.Tasks[task].After, func(a sim.After) bool { return a.Task == other })
}
