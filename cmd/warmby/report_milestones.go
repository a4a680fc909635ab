package main

import (
	"fmt"

	"warmby/sim"
	"warmby/sim/heat"
)

// milestonesText writes the milestones against their targets.
func milestonesText(tl *sim.Timeline) string {
	d := tl.Drill
	rows := [][]string{{"", "since arrival", "clock", "target", ""}}
	for i, m := range d.Milestones {
		at := tl.Milestones[i]
		target, verdict := "", ""
		if m.By != sim.Never {
			target = "by " + byText(d, m)
			switch {
			case at == sim.Never:
				verdict = "missed: never"
			case at > m.By:
				verdict = "missed by " + sim.Clock(at-m.By)
			case at == m.By:
				verdict = "met to the second"
			default:
				verdict = "met, " + sim.Clock(m.By-at) + " to spare"
			}
		} else if m.ByText != "" {
			target = "by " + m.ByText
			verdict = "it does not get dark"
		}
		clock := ""
		if at != sim.Never {
			clock = clockUp(d, at)
		}
		rows = append(rows, []string{m.Name, sim.Clock(at), clock, target, verdict})
	}
	return table("  ", rows, 1)
}

// byText writes a target both as it was asked for and on the clock.
func byText(d *sim.Drill, m sim.Milestone) string {
	clock := clockOf(d, m.By)
	switch {
	case m.ByText == "dark" && clock != "":
		return "dark (" + clock + ")"
	case m.ByText == "dark":
		return "dark (" + sim.Clock(m.By) + ")"
	case clock != "":
		return clock + " (" + sim.Clock(m.By) + ")"
	}
	return sim.Clock(m.By)
}

// whyMilestone says in a sentence why a milestone was reached when it was, or
// why it never was.
func whyMilestone(tl *sim.Timeline, milestone int) string {
	last := -1
	for _, t := range tl.Drill.Milestones[milestone].When {
		if last < 0 || tl.Tasks[t].End > tl.Tasks[last].End {
			last = t
		}
	}
	if last < 0 {
		return "it names no task"
	}
	if tl.Tasks[last].End != sim.Never {
		return fmt.Sprintf("%q ended last, %s after arrival", tl.Drill.Tasks[last].Name, sim.Clock(tl.Tasks[last].End))
	}
	for i := range tl.Drill.Tasks {
		if why := whyNeverWarm(tl, i); why != "" {
			return why
		}
	}
	return fmt.Sprintf("%q never ends", tl.Drill.Tasks[last].Name)
}

// whyNeverWarm says of a warm-up that never gets there what the stove can
// hold and what was asked; "" for any other task.
func whyNeverWarm(tl *sim.Timeline, task int) string {
	t := &tl.Drill.Tasks[task]
	if t.Kind != sim.Warm || tl.Tasks[task].Start == sim.Never || tl.Tasks[task].Worked != sim.Never {
		return ""
	}
	in := heat.Outlook(tl, task)
	return fmt.Sprintf("%q: %s can hold %.1f C in %s at %.1f C outside; %.1f C were asked for",
		t.Name, tl.Drill.Stoves[t.Warm.Stove].Name, in.Holds(), tl.Drill.Shelters[t.Warm.Shelter].Name, in.Air, t.Warm.To)
}
