package fast_test

import (
	"testing"

	"warmby/sim"
	"warmby/sim/fast"
	"warmby/sim/internal/drills"
)

// A task that stops the scan of a group in turn no longer does once another
// group has called it: what stands behind it starts at the same instant. The
// engine once looked again only when something had come free, and so too late.
func TestTaskCalledElsewhereNoLongerStopsTheScan(t *testing.T) {
	d := &sim.Drill{
		Spots:  []sim.Spot{{In: -1}},
		People: []sim.Person{{Name: "Aila", Pace: 1000}, {Name: "Berend", Pace: 1000}, {Name: "Caro", Pace: 1000}},
		Tasks: []sim.Task{
			{Name: "haul", Kind: sim.Takes, Amount: drills.Fixed(10 * sim.Minute), Crew: sim.Crew{Min: 2, Max: 2}, Item: -1},
			{Name: "dig", Kind: sim.Takes, Amount: drills.Fixed(5 * sim.Minute), Crew: sim.Crew{Min: 1, Max: 1}, Item: -1},
		},
		Milestones: []sim.Milestone{{Name: sim.FinishName, When: []int{0, 1}, By: sim.Never}},
	}
	p := fast.Compile(d.Under(sim.Order{Groups: []sim.Group{
		{Name: "one", People: []int{0}, Sequence: []int{0, 1}, InTurn: true},
		{Name: "two", People: []int{1, 2}, Sequence: []int{0}},
	}}))
	var r fast.Result
	p.Worker().Usual(&r)
	if r.Start[0] != 0 || r.Start[1] != 0 {
		t.Errorf("haul starts at %s and dig at %s, want both on arrival", sim.Clock(r.Start[0]), sim.Clock(r.Start[1]))
	}
}
