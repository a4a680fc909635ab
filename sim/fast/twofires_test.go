package fast_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/internal/drills"
	"warmby/sim/reference"
)

// A drill stops where a warm-up that needs nobody lights a second stove in a
// shelter: who comes free at that moment joins nothing any more. The engine once
// sent joiners still.
func TestNobodyJoinsOnceTwoFiresBurnInAShelter(t *testing.T) {
	stove := sim.Stove{Count: 1, Power: 10, Efficiency: 0.5}
	warm := func(name string, stove int, after ...sim.After) sim.Task {
		return sim.Task{Name: name, Kind: sim.Warm, Warm: &sim.Warming{Stove: stove, To: 30}, After: after, Item: -1}
	}
	d := &sim.Drill{
		Spots:    []sim.Spot{{In: -1}},
		People:   []sim.Person{{Name: "Aila", Pace: 1000}, {Name: "Berend", Pace: 1000}},
		Shelters: []sim.Shelter{{Name: "tent", Volume: 20, Skin: 30, U: 3, AirChanges: 1}},
		Stoves:   []sim.Stove{stove, stove},
		Tasks: []sim.Task{
			warm("burn", 0),
			{Name: "dig", Kind: sim.Work, Amount: drills.Fixed(sim.Hour), Teamwork: 1, Crew: sim.Crew{Min: 1, Max: 2}, Joinable: true, Item: -1},
			{Name: "look", Kind: sim.Takes, Amount: drills.Fixed(5 * sim.Minute), Crew: sim.Crew{Min: 1, Max: 1}, Who: []int{1}, Item: -1},
			warm("burn another", 1, sim.After{Task: 2}),
		},
		Milestones: []sim.Milestone{{Name: sim.FinishName, When: []int{0, 1, 2, 3}, By: sim.Never}},
	}
	d.Stoves[0].Name, d.Stoves[1].Name = "one", "two"
	d = d.Under(sim.Order{Groups: []sim.Group{{People: []int{0, 1}, Sequence: []int{0, 2, 1, 3}}}})
	want, w := reference.Play(d, draw.Usual(d)), fast.Compile(d).Worker()
	got := w.Timeline(draw.Usual(d))
	if want.Stops == nil || len(want.Tasks[1].People) != 1 {
		t.Fatalf("the drill does not test this: it stops at %v with %v on the digging", want.Stops, want.Tasks[1].People)
	}
	if diff := cmp.Diff(want.Tasks, got.Tasks); diff != "" {
		t.Errorf("(-reference +fast):\n%s", diff)
	}
	if diff := cmp.Diff(want.Stopped(), w.Stopped(draw.Usual(d))); diff != "" {
		t.Errorf("why it stops (-reference +fast):\n%s", diff)
	}
}
