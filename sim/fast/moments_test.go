package fast_test

import (
	"slices"
	"testing"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/internal/drills"
	"warmby/sim/reference"
)

// Whoever has just been relieved may be called to another lookout as soon as
// anything happens anywhere, be it only that the first of a crew comes to where
// it is to work: one event stands for the whole crew otherwise.
func TestFirstOfACrewToComeIsAMomentForLookouts(t *testing.T) {
	at := func(walk sim.Time) sim.Spot { return sim.Spot{Walk: walk, In: -1} }
	d := &sim.Drill{
		Spots: []sim.Spot{at(0), at(2 * sim.Minute), at(2 * sim.Minute)},
		People: []sim.Person{
			{Name: "Aila", Pace: 1000}, {Name: "Berend", Pace: 1000},
			{Name: "Caro", Pace: 1000}, {Name: "Dana", Pace: 1000, Skills: sim.SkillSet(0).With(0)},
		},
		Tasks: []sim.Task{
			{Name: "fetch", Kind: sim.Takes, Amount: drills.Fixed(7 * sim.Minute), Crew: sim.Crew{Min: 1, Max: 1}, All: sim.SkillSet(0).With(0), Item: -1, Spot: 1},
			{Name: "haul", Kind: sim.Takes, Amount: drills.Fixed(5 * sim.Minute), Crew: sim.Crew{Min: 2, Max: 2}, Item: -1, Spot: 2, After: []sim.After{{Task: 0}}},
		},
		Lookouts: []sim.Lookout{
			{Name: "north", Places: 1, Relief: 10 * sim.Minute, Who: []int{0, 1}},
			{Name: "south", Places: 1, Relief: 10 * sim.Minute, Who: []int{0}},
		},
		Milestones: []sim.Milestone{{Name: sim.FinishName, When: []int{0, 1}, By: sim.Never}},
	}
	d = d.Under(sim.Order{Groups: []sim.Group{
		{Name: "haulers", People: []int{2, 3}, Sequence: []int{0, 1}},
		{Name: "lookouts", People: []int{0, 1}},
	}})
	p := fast.Compile(d)
	luck := draw.Usual(d)
	got := p.Worker().Timeline(luck)
	want := reference.Play(d, luck)
	south := func(tl *sim.Timeline) sim.Time {
		k := slices.IndexFunc(tl.People[0], func(s sim.Stretch) bool { return s.What == sim.Watching && s.Lookout == 1 })
		if k < 0 {
			return sim.Never
		}
		return tl.People[0][k].From
	}
	if south(got) != 11*sim.Minute || south(want) != 11*sim.Minute {
		t.Errorf("fast calls Aila south at %s, reference at %s, want 0:11:00", sim.Clock(south(got)), sim.Clock(south(want)))
	}
}
