package bound

import (
	"testing"

	"warmby/sim"
	"warmby/sim/draw"
)

// tooled returns a drill of tasks that each hold so many of one kind of tool.
func tooled(tools []sim.Tool, tasks ...sim.Task) *sim.Drill {
	d := &sim.Drill{Spots: []sim.Spot{{In: -1}}, Tools: tools, Tasks: tasks}
	finish := sim.Milestone{Name: sim.FinishName, By: sim.Never}
	for i := range tasks {
		finish.When = append(finish.When, i)
	}
	d.Milestones = []sim.Milestone{finish}
	return d
}

func holds(minutes sim.Time, tool, count int, after ...sim.After) sim.Task {
	return sim.Task{Kind: sim.Takes, Amount: draw.Fixed(float64(minutes * sim.Minute)), Item: -1, After: after,
		Tools: []sim.ToolNeed{{Tool: tool, Count: count}}}
}

// By hand: two logs are sawn, 2 and 1 min, and then split, 2 and 1 min; there is one saw
// and one axe. The axe lies idle for 1 min at the start at least, the saw for as long at
// the end: 4 min. For that the long log would have to be sawn first, as else it is split
// by the 5th minute only, and the short one first, as else it is sawn by the 3rd minute
// only and split, behind the long one, by the 5th. So it takes 5 min.
func TestRefutedBoundByHand(t *testing.T) {
	d := tooled([]sim.Tool{{Name: "saw", Count: 1}, {Name: "axe", Count: 1}},
		holds(2, 0, 1), holds(1, 0, 1), holds(2, 1, 1, sim.After{Task: 0}), holds(1, 1, 1, sim.After{Task: 1}))
	b, luck := New(d), draw.Usual(d)
	if got := b.Of(luck, nil)[0]; got != 4*sim.Minute {
		t.Errorf("at a glance %s, want 4 min", sim.Clock(got))
	}
	if got := b.Sharp(luck, nil)[0]; got != 5*sim.Minute {
		t.Errorf("%s, want 5 min", sim.Clock(got))
	}
}

// By hand: to be done by the 10th minute a task of 8 min that holds two of four shovels
// is at work from the 2nd minute to the 8th for certain, and another of 8 min too. One
// of 2 min with one shovel then lies before or after that; behind one of 1 min, after.
func TestWhatIsAtWorkForCertainIsPassed(t *testing.T) {
	d := tooled([]sim.Tool{{Name: "shovel", Count: 4}}, holds(8, 0, 2), holds(8, 0, 2), holds(1, 0, 1), holds(2, 0, 1, sim.After{Task: 2}))
	b := New(d)
	b.measure(draw.Usual(d))
	b.milestone(0)
	n, at := &b.aims[0], 10*sim.Minute
	if !b.passCores(n, &b.supply[0], at) || b.head[3] != 8*sim.Minute {
		t.Errorf("the last task starts from %s on, want 8 min", sim.Clock(b.head[3]))
	}
	if b.head[2] != 0 {
		t.Errorf("the task before it starts from %s on, want 0", sim.Clock(b.head[2]))
	}
}
