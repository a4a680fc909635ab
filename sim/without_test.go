package sim_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/internal/drills"
)

// minutes is a fixed length.
func minutes(n float64) sim.Distribution { return drills.Fixed(n * 60000) }

// evening is: unpack box; dig (10 min), wall after dig + 2 min (30 min), drink
// after wall + 3 min and after the start of wall (5 min); one person.
func evening() *sim.Drill {
	d := &sim.Drill{
		Spots:  []sim.Spot{{Name: "centre", In: -1}},
		People: []sim.Person{{Name: "Aila", Pace: 1000}, {Name: "Berend", Pace: 1000}},
		Loads:  []sim.Load{{Name: "pulk", Crew: sim.Crew{Min: 1, Max: 1}}},
		Items:  []sim.Item{{Name: "box"}},
	}
	task := func(name string, length float64, after ...sim.After) {
		d.Tasks = append(d.Tasks, sim.Task{Name: name, Kind: sim.Takes, Amount: minutes(length),
			Crew: sim.Crew{Min: 1, Max: 1}, Item: -1, After: after})
	}
	task("unpack box", 1)
	d.Tasks[0].Item = 0
	task("dig", 10)
	task("wall", 30, sim.After{Task: 1, Lag: 2 * sim.Minute})
	task("drink", 5, sim.After{Task: 2, Lag: 3 * sim.Minute}, sim.After{Task: 2, FromStart: true, Lag: 3 * sim.Minute}, sim.After{Task: 0})
	d.Milestones = []sim.Milestone{
		{Name: "walled", When: []int{2}, By: sim.Never},
		{Name: "hot drink", When: []int{2, 3}, By: sim.Never},
		{Name: sim.FinishName, When: []int{0, 1, 2, 3}, By: sim.Never},
	}
	return d.Under(sim.Order{Name: "drink last", Groups: []sim.Group{{Sequence: []int{1, 2, 3}}}})
}

func TestWithoutHandsOnWhatATaskCameAfter(t *testing.T) {
	d := evening()
	before := evening()
	out := d.Without(2)
	if diff := cmp.Diff(before, d); diff != "" {
		t.Errorf("the drill itself has changed:\n%s", diff)
	}
	var names []string
	for _, task := range out.Tasks {
		names = append(names, task.Name)
	}
	if diff := cmp.Diff([]string{"unpack box", "dig", "drink"}, names); diff != "" {
		t.Errorf("tasks:\n%s", diff)
	}
	// Both lags added up, once; unpacking still first.
	want := []sim.After{{Task: 1, Lag: 5 * sim.Minute}, {Task: 0}}
	if diff := cmp.Diff(want, out.Tasks[2].After); diff != "" {
		t.Errorf("what drink comes after:\n%s", diff)
	}
	var when [][]int
	for _, m := range out.Milestones {
		when = append(when, m.When)
	}
	if diff := cmp.Diff([][]int{nil, {2}, {0, 1, 2}}, when); diff != "" {
		t.Errorf("milestones:\n%s", diff)
	}
	if diff := cmp.Diff([]int{0, 1, 2}, out.Groups[0].Sequence); diff != "" {
		t.Errorf("sequence:\n%s", diff)
	}
	if out.Groups[0].Lead != 1 {
		t.Errorf("lead = %d, want 1: the unloading still stands before the sequence", out.Groups[0].Lead)
	}
}

// By hand: dig 0-10 and unpacking 0-1, the lags 10-15, drink 15-20 instead of
// dig 0-10, wall 12-42, drink 45-50.
func TestWithoutPlaysAsIfTheTaskWereNothing(t *testing.T) {
	for _, c := range []struct {
		d    *sim.Drill
		want sim.Time
	}{{evening(), 50 * sim.Minute}, {evening().Without(2), 20 * sim.Minute}} {
		p := fast.Compile(c.d)
		var r fast.Result
		p.Worker().Usual(&r)
		if got := r.Milestones[1]; got != c.want {
			t.Errorf("%d tasks: hot drink at %s, want %s", len(c.d.Tasks), sim.Clock(got), sim.Clock(c.want))
		}
	}
}

// Every task that is left draws what it drew before.
func TestWithoutKeepsTheLuckOfTheOthers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Any(t)
		if len(d.Tasks) == len(d.Items) {
			return
		}
		task := rapid.IntRange(len(d.Items), len(d.Tasks)-1).Draw(t, "task")
		all, left := draw.Run(d, 7, 3), draw.Run(d.Without(task), 7, 3)
		amounts := append(append([]sim.Time(nil), all.Amount[:task]...), all.Amount[task+1:]...)
		if diff := cmp.Diff(amounts, append([]sim.Time(nil), left.Amount...)); diff != "" {
			t.Errorf("lengths drawn:\n%s", diff)
		}
		if diff := cmp.Diff(all.Person, left.Person); diff != "" {
			t.Errorf("arrivals drawn:\n%s", diff)
		}
	})
}

// Leaving out any task of any drill that can be played gives one that an engine
// takes.
func TestWithoutGivesADrillThatPlays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Any(t)
		if len(d.Tasks) == len(d.Items) || sim.Possible(d) != nil {
			return
		}
		task := rapid.IntRange(len(d.Items), len(d.Tasks)-1).Draw(t, "task")
		out := d.Without(task)
		p := fast.Compile(out)
		var r fast.Result
		p.Worker().Run(1, 0, &r) // may come to a stop, but must not panic
		if r.Milestones != nil && len(r.End) != len(d.Tasks)-1 {
			t.Errorf("%d tasks played, want %d", len(r.End), len(d.Tasks)-1)
		}
	})
}

func TestWithoutRefusesUnloading(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("leaving out the unloading of an item does not panic")
		}
	}()
	evening().Without(0)
}
