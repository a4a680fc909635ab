package bound

import (
	"cmp"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/internal/drills"
)

// By hand: dig, 10 min, and serve, 10 min after it, are the longest chain, 20
// min; both need the one shovel. So does the wall, 6 min, which therefore cannot
// go on beside either: 26 min. A lag between the two makes the chain longer and
// takes as much of the wall: 26 again, until all of it fits. When the wall
// cannot begin before the 12th minute, a lag from the 10th to the 14th holds 2
// of its 6 min: 24 + 4.
func TestCriticalSequenceByHand(t *testing.T) {
	for name, c := range map[string]struct {
		lag, before, want sim.Time
	}{
		"nothing beside": {0, 0, 26}, "lag": {4, 0, 26}, "long lag": {6, 0, 26}, "longer lag": {7, 0, 27}, "lag and head": {4, 12, 28},
	} {
		d := &sim.Drill{Spots: []sim.Spot{{In: -1}}, Tools: []sim.Tool{{Name: "shovel", Count: 1}}}
		task := func(minutes sim.Time, shovels int, after ...sim.After) {
			task := sim.Task{Kind: sim.Takes, Amount: draw.Fixed(float64(minutes * sim.Minute)), Item: -1, After: after}
			if shovels > 0 {
				task.Tools = []sim.ToolNeed{{Tool: 0, Count: shovels}}
			}
			d.Tasks = append(d.Tasks, task)
		}
		task(10, 1)
		task(10, 1, sim.After{Task: 0, Lag: c.lag * sim.Minute})
		task(c.before, 0)
		task(6, 1, sim.After{Task: 2})
		d.Milestones = []sim.Milestone{{Name: sim.FinishName, When: []int{0, 1, 2, 3}, By: sim.Never}}
		b, luck := New(d), draw.Usual(d)
		b.measure(luck)
		b.supply = nil // the work by itself says as much or more
		if got := b.milestone(0); got != c.want*sim.Minute {
			t.Errorf("%s: %s, want %d min", name, sim.Clock(got), c.want)
		}
	}
}

// By hand, with two shovels: a job with both, 6 min, comes after 4 min of waiting and
// before 4 min of it, so that 14 min is the longest chain. Wherever a job with one, 10 min,
// lies in these, 6 min of it are in the 6 min in the middle: 18 shovel minutes for two
// shovels, 9 min instead of 6.
func TestSharpBoundByHand(t *testing.T) {
	d := &sim.Drill{Spots: []sim.Spot{{In: -1}}, Tools: []sim.Tool{{Name: "shovel", Count: 2}}}
	task := func(minutes sim.Time, shovels int, after ...sim.After) {
		task := sim.Task{Kind: sim.Takes, Amount: draw.Fixed(float64(minutes * sim.Minute)), Item: -1, After: after}
		if shovels > 0 {
			task.Tools = []sim.ToolNeed{{Tool: 0, Count: shovels}}
		}
		d.Tasks = append(d.Tasks, task)
	}
	task(4, 0)
	task(6, 2, sim.After{Task: 0})
	task(4, 0, sim.After{Task: 1})
	task(10, 1)
	d.Milestones = []sim.Milestone{{Name: sim.FinishName, When: []int{0, 1, 2, 3}, By: sim.Never}}
	b, luck := New(d), draw.Usual(d)
	b.measure(luck)
	b.rows = nil
	for i, shovels := range []float64{0, 2, 0, 1} {
		b.rows = append(b.rows, row{[]sim.Time{0, 4, 10, 0}[i] * sim.Minute, []sim.Time{10, 4, 0, 0}[i] * sim.Minute, b.length[i], shovels * float64(b.length[i]), shovels})
	}
	slices.SortFunc(b.rows, func(x, y row) int { return cmp.Compare(y.behind, x.behind) })
	if got, want := b.between(2, 14*sim.Minute), 17*sim.Minute; got != want {
		t.Errorf("%s, want %s", sim.Clock(got), sim.Clock(want))
	}
}

// On any drill, with any luck, no milestone comes before its bound.
func TestBoundsHoldOnAnyDrill(t *testing.T) {
	tight := 0
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Any(t)
		if rapid.IntRange(0, 3).Draw(t, "impossible") == 0 {
			d = drills.Impossible(t, d)
		}
		p := fast.Compile(d)
		w, b := p.Worker(), New(d)
		var r fast.Result
		var at []sim.Time
		for run := range 4 {
			luck := draw.Run(d, 3, run)
			if run == 0 {
				luck = draw.Usual(d)
			}
			w.Play(luck, &r)
			first := b.Of(luck, nil)
			at = b.Sharp(luck, at)
			for m := range at {
				if at[m] < first[m] {
					t.Errorf("run %d: the sharp bound of %s is %s, the other %s", run, d.Milestones[m].Name, sim.Clock(at[m]), sim.Clock(first[m]))
				}
				if at[m] > r.Milestones[m] {
					t.Errorf("run %d: %s at %s, before its bound %s", run, d.Milestones[m].Name, sim.Clock(r.Milestones[m]), sim.Clock(at[m]))
				}
				if at[m] == r.Milestones[m] && at[m] > 0 {
					tight++
				}
			}
		}
	})
	if tight == 0 {
		t.Error("no bound was ever reached: the test says nothing")
	}
}
