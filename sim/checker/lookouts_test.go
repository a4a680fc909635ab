package checker_test

import (
	"testing"

	"warmby/sim"
)

// tended is a drill in which somebody stays with a fire from when it is lit until
// it is put out, and may be called to put it out.
//
//	0:00  Ada lights it, for 2 min; Bo and Cy are free
//	2:00  the fire wants somebody: Ada, first of the roster, who is there
//	7:00  the relief is due: Bo, who walks a minute
//	8:00  Bo stands, Ada is free
//	9:00  the wait of 9 min is over: the fire is put out by Bo, who counts as free
//	      for it and is the only one who may; the lookout ends
//	11:00 it is out
func tended() *sim.Timeline {
	d := &sim.Drill{
		Spots:  []sim.Spot{{Name: "camp", In: -1}, {Name: "fire", Walk: 1 * minute, In: -1}},
		People: []sim.Person{{Name: "Ada", Pace: 1000, Begin: 1}, {Name: "Bo", Pace: 1000}, {Name: "Cy", Pace: 1000}},
		Tasks: []sim.Task{
			{Name: "light", Kind: sim.Takes, Crew: sim.Crew{Min: 1, Max: 1}, Who: []int{0}, Item: -1, Spot: 1},
			{Name: "wait", Kind: sim.Takes, Item: -1},
			{Name: "put out", Kind: sim.Takes, Crew: sim.Crew{Min: 1, Max: 1}, Who: []int{1}, Item: -1, Spot: 1, After: []sim.After{{Task: 1}}},
		},
		Lookouts: []sim.Lookout{{Name: "by the fire", Places: 1, FromTasks: []int{0}, UntilTasks: []int{2}, Relief: 5 * minute, Spot: 1,
			Who: []int{0, 1, 2}}},
		Milestones: []sim.Milestone{{Name: sim.FinishName, When: []int{0, 1, 2}}},
	}
	tl := &sim.Timeline{
		Drill: d.Under(sim.Order{}),
		Luck: &sim.Luck{Amount: []sim.Time{2 * minute, 9 * minute, 2 * minute}, Mishap: make([]sim.Time, 3), Mishaps: make([]int, 3),
			Person: make([]sim.Time, 3)},
		Tasks: []sim.TaskTimes{
			{Worked: 120 * sec, End: 120 * sec, People: []int{0}, Unit: -1},
			{Worked: 540 * sec, End: 540 * sec, Unit: -1},
			{Called: 540 * sec, Start: 540 * sec, Worked: 660 * sec, End: 660 * sec, People: []int{1}, Unit: -1},
		},
		People: [][]sim.Stretch{
			{work(0, 120*sec, 0, 1), stand(120*sec, 480*sec, 0, 1), idle(480*sec, 660*sec, 1)},
			{idle(0, 420*sec, 0), relieve(420*sec, 480*sec, 0, 0, 1), stand(480*sec, 540*sec, 0, 1), work(540*sec, 660*sec, 2, 1)},
			{idle(0, 660*sec, 0)},
		},
		End: 660 * sec,
	}
	tl.SetMilestones()
	return tl
}

func TestLookoutsThatBeginAndEndWithTasksAreChecked(t *testing.T) {
	mustCatch(t, tended, []broken{
		{"nobody at first", func(tl *sim.Timeline) { tl.People[0][1] = idle(120*sec, 480*sec, 1) }, "relief"},
		{"it begins with another task", func(tl *sim.Timeline) { tl.Drill.Lookouts[0].FromTasks = []int{1} }, "lookout"},
		{"it begins with both", func(tl *sim.Timeline) { tl.Drill.Lookouts[0].FromTasks = []int{0, 1} }, "lookout"},
		{"it begins at a time before", func(tl *sim.Timeline) { tl.Drill.Lookouts[0].FromTasks = nil }, "relief"},
		{"reliefs that count from the arrival", func(tl *sim.Timeline) {
			tl.Drill.Lookouts[0].FromTasks, tl.Drill.Lookouts[0].From = nil, minute
		}, "relief"},
		{"it ended at a time before", func(tl *sim.Timeline) {
			tl.Drill.Lookouts[0].UntilTasks, tl.Drill.Lookouts[0].Until = nil, 7*minute
		}, "lookout"},
		{"who stands there is free too late", func(tl *sim.Timeline) {
			tl.Drill.Lookouts[0].UntilTasks, tl.Drill.Lookouts[0].Until = nil, 8*minute+30*sec
		}, "lookout"},
		{"called from a lookout that goes on", func(tl *sim.Timeline) { tl.Drill.Lookouts[0].UntilTasks = nil }, "called"},
		{"who stands there is not called", func(tl *sim.Timeline) {
			tl.Tasks[2] = sim.TaskTimes{Called: sim.Never, Start: sim.Never, Worked: sim.Never, End: sim.Never, Group: -1, Unit: -1}
			tl.End = 540 * sec
			tl.People[0][2].To, tl.People[2][0].To = tl.End, tl.End
			tl.People[1] = tl.People[1][:3]
			tl.SetMilestones()
		}, "idle"},
	})
}

// calledOnArrival is tended with a wait of 8 min, so that the relief is called to put
// the fire out at the very moment of coming: he stands there for no time.
func calledOnArrival() *sim.Timeline {
	tl := tended()
	tl.Luck.Amount[1] = 8 * minute
	tl.Tasks[1].Worked, tl.Tasks[1].End = 480*sec, 480*sec
	tl.Tasks[2].Called, tl.Tasks[2].Start, tl.Tasks[2].Worked, tl.Tasks[2].End = 480*sec, 480*sec, 600*sec, 600*sec
	tl.People[0][2].To = 600 * sec
	tl.People[1] = []sim.Stretch{idle(0, 420*sec, 0), relieve(420*sec, 480*sec, 0, 0, 1), work(480*sec, 600*sec, 2, 1)}
	tl.People[2][0].To = 600 * sec
	tl.End = 600 * sec
	tl.SetMilestones()
	return tl
}

func TestAReliefCalledAwayOnArrivalIsChecked(t *testing.T) {
	never := sim.TaskTimes{Called: sim.Never, Start: sim.Never, Worked: sim.Never, End: sim.Never, Group: -1, Unit: -1}
	mustCatch(t, calledOnArrival, []broken{
		{"who stood there stays", func(tl *sim.Timeline) { tl.People[0] = []sim.Stretch{tl.People[0][0], stand(120*sec, 600*sec, 0, 1)} }, "lookout"},
		{"he stands there and is not called", func(tl *sim.Timeline) {
			tl.Tasks[2], tl.End = never, 500*sec
			tl.People[0][2].To, tl.People[2][0].To = 500*sec, 500*sec
			tl.People[1] = append(tl.People[1][:2], stand(480*sec, 500*sec, 0, 1))
			tl.SetMilestones()
		}, "idle"},
		{"called although it ends nothing", func(tl *sim.Timeline) { tl.Drill.Lookouts[0].UntilTasks = nil }, "called"},
		{"he was on the way to no place", func(tl *sim.Timeline) { tl.People[1][1] = walk(420*sec, 480*sec, 2, 0, 1) }, "relief"},
	})
}
