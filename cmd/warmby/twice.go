package main

import (
	"fmt"
	"slices"

	"warmby/sim"
	"warmby/sim/fast"
)

// differs plays a drill a second time, with the other engine and the same
// luck, and says in which task the two part; "" when they tell the same story.
func differs(tl *sim.Timeline) string {
	again := fast.Compile(tl.Drill).Worker().Timeline(tl.Luck)
	if (again.Stops == nil) != (tl.Stops == nil) {
		return "one of them comes to a stop, and the other does not"
	}
	for i, t := range tl.Tasks {
		if a := again.Tasks[i]; a.Called != t.Called || a.Start != t.Start || a.End != t.End || !slices.Equal(a.People, t.People) {
			return fmt.Sprintf("task %q from %s to %s in one engine, from %s to %s in the other", tl.Drill.Tasks[i].Name,
				sim.Clock(t.Start), sim.Clock(t.End), sim.Clock(a.Start), sim.Clock(a.End))
		}
	}
	for i := range tl.People {
		if !slices.Equal(tl.People[i], again.People[i]) {
			return fmt.Sprintf("what %s does", tl.Drill.People[i].Name)
		}
	}
	return ""
}
