package checker_test

import (
	"testing"

	"warmby/sim"
)

// The tasks of beside.
const (
	lighting = iota
	sewing
	patching
)

// beside is a drill in which somebody stays with a fire unless somebody works there.
// Fire and bench are in one tent, a minute from camp each.
//
//	0:00  Ada lights the fire, for 2 min; Bo and Cy are free
//	2:00  the fire wants somebody: Ada, who is there. A minute later Cy is called to
//	      sew at the bench
//	4:00  he begins: nobody is wanted, and Ada is free
//	6:00  he has done: the fire wants somebody again. Ada is nearer than Cy
//	11:00 her relief is due, 5 min after she took it over: Bo, who walks a minute; Cy
//	      would walk two
//	11:30 Cy begins to patch at the bench, Ada is free
//	12:00 Bo is there and nobody is wanted: he is free
//	13:00 Cy has done
func beside() *sim.Timeline {
	one := sim.Crew{Min: 1, Max: 1}
	d := &sim.Drill{
		Spots:    []sim.Spot{{Name: "camp", In: -1}, {Name: "fire", Walk: 1 * minute}, {Name: "bench", Walk: 1 * minute}},
		Shelters: []sim.Shelter{{Name: "tent"}},
		People:   []sim.Person{{Name: "Ada", Pace: 1000, Begin: 1}, {Name: "Bo", Pace: 1000}, {Name: "Cy", Pace: 1000}},
		Tasks: []sim.Task{
			{Name: "light", Kind: sim.Takes, Crew: one, Who: []int{0}, Item: -1, Spot: 1},
			{Name: "sew", Kind: sim.Takes, Crew: one, Who: []int{2}, Item: -1, Spot: 2, After: []sim.After{{Task: lighting, Lag: 1 * minute}}},
			{Name: "patch", Kind: sim.Takes, Crew: one, Who: []int{2}, Item: -1, Spot: 2, After: []sim.After{{Task: sewing, Lag: 330 * sec}}},
		},
		Lookouts:   []sim.Lookout{{Name: "by the fire", Places: 1, FromTasks: []int{0}, UnlessWorked: true, Relief: 5 * minute, Spot: 1, Who: []int{0, 1, 2}}},
		Milestones: []sim.Milestone{{Name: sim.FinishName, When: []int{lighting, sewing, patching}}},
	}
	tl := &sim.Timeline{
		Drill: d.Under(sim.Order{}),
		Luck:  sure(3, 2*minute, 2*minute, 90*sec),
		Tasks: []sim.TaskTimes{
			{Worked: 120 * sec, End: 120 * sec, People: []int{0}, Unit: -1},
			{Called: 180 * sec, Start: 240 * sec, Worked: 360 * sec, End: 360 * sec, People: []int{2}, Unit: -1},
			{Called: 690 * sec, Start: 690 * sec, Worked: 780 * sec, End: 780 * sec, People: []int{2}, Unit: -1},
		},
		People: [][]sim.Stretch{
			{work(0, 120*sec, lighting, 1), stand(120*sec, 240*sec, 0, 1), idle(240*sec, 360*sec, 1), stand(360*sec, 690*sec, 0, 1), idle(690*sec, 780*sec, 1)},
			{idle(0, 660*sec, 0), relieve(660*sec, 720*sec, 0, 0, 1), idle(720*sec, 780*sec, 1)},
			{idle(0, 180*sec, 0), walk(180*sec, 240*sec, sewing, 0, 2), work(240*sec, 360*sec, sewing, 2), idle(360*sec, 690*sec, 2), work(690*sec, 780*sec, patching, 2)},
		},
		End: 780 * sec,
	}
	tl.SetMilestones()
	return tl
}

// sure is the luck of so many people who are there from the start, and of tasks of
// these lengths without mishaps.
func sure(people int, amounts ...sim.Time) *sim.Luck {
	n := len(amounts)
	return &sim.Luck{Amount: amounts, Mishap: make([]sim.Time, n), Mishaps: make([]int, n), Person: make([]sim.Time, people)}
}

func TestLookoutsThatNeedNobodyWhileSomebodyWorksThereAreChecked(t *testing.T) {
	mustCatch(t, beside, []broken{
		{"one who stands there although work has begun", func(tl *sim.Timeline) {
			p := tl.People[0]
			tl.People[0] = []sim.Stretch{p[0], stand(120*sec, 690*sec, 0, 1), p[4]}
		}, "lookout"},
		{"as if it needed somebody all the time", func(tl *sim.Timeline) { tl.Drill.Lookouts[0].UnlessWorked = false }, "lookout"},
		{"as if the bench were in no tent", func(tl *sim.Timeline) { tl.Drill.Spots[2].In = -1 }, "lookout"},
		{"nobody when the work has ended", func(tl *sim.Timeline) {
			p := tl.People[0]
			tl.People[0] = []sim.Stretch{p[0], p[1], idle(240*sec, 780*sec, 1)}
			tl.People[1] = []sim.Stretch{idle(0, 780*sec, 0)}
		}, "relief"},
		{"one who is not the nearest when the work has ended", func(tl *sim.Timeline) {
			tl.People[0][2].To = 780 * sec
			tl.People[0] = tl.People[0][:3]
			tl.People[1] = []sim.Stretch{idle(0, 360*sec, 0), relieve(360*sec, 420*sec, 0, 0, 1), stand(420*sec, 690*sec, 0, 1), idle(690*sec, 780*sec, 1)}
		}, "relief"},
		{"a relief who is not the nearest", func(tl *sim.Timeline) {
			tl.People[1] = []sim.Stretch{idle(0, 780*sec, 0)}
			tl.People[2] = append(tl.People[2][:3], idle(360*sec, 660*sec, 2), relieve(660*sec, 780*sec, 0, 2, 1))
			tl.Tasks[patching] = sim.TaskTimes{Called: sim.Never, Start: sim.Never, Worked: sim.Never, End: sim.Never, Group: -1, Unit: -1}
			tl.SetMilestones()
		}, "relief"},
		{"a relief that counts from when the lookout began", func(tl *sim.Timeline) {
			tl.People[0][3].To, tl.People[0][4].From = 480*sec, 480*sec
			tl.People[1] = []sim.Stretch{idle(0, 420*sec, 0), relieve(420*sec, 480*sec, 0, 0, 1), stand(480*sec, 690*sec, 0, 1), idle(690*sec, 780*sec, 1)}
		}, "instant"},
		{"no relief", func(tl *sim.Timeline) { tl.People[1] = []sim.Stretch{idle(0, 780*sec, 0)} }, "relief"},
		{"one who takes the place on arrival although somebody works there", func(tl *sim.Timeline) { tl.People[1][2] = stand(720*sec, 780*sec, 0, 1) }, "lookout"},
	})
}

// stoked is a drill in which somebody is called from a lookout to work beside it.
//
//	0:00  Ada stays with the fire
//	4:00  she is called to stoke the stove at the bench, where she alone may, and
//	      walks two minutes; from then on the fire wants nobody
//	7:00  she has done. Bo, who is nearer than she, walks a minute to the fire
//	8:00  he stands there
//	9:00  the wait is over
func stoked() *sim.Timeline {
	d := &sim.Drill{
		Spots:    []sim.Spot{{Name: "camp", In: -1}, {Name: "fire", Walk: 1 * minute}, {Name: "bench", Walk: 1 * minute}},
		Shelters: []sim.Shelter{{Name: "tent"}},
		People:   []sim.Person{{Name: "Ada", Pace: 1000, Begin: 1}, {Name: "Bo", Pace: 1000}},
		Tasks: []sim.Task{
			{Name: "pause", Kind: sim.Takes, Item: -1},
			{Name: "stoke", Kind: sim.Takes, Crew: sim.Crew{Min: 1, Max: 1}, Who: []int{0}, Item: -1, Spot: 2, After: []sim.After{{Task: 0}}},
			{Name: "wait", Kind: sim.Takes, Item: -1},
		},
		Lookouts:   []sim.Lookout{{Name: "by the fire", Places: 1, UnlessWorked: true, Spot: 1, Who: []int{0, 1}}},
		Milestones: []sim.Milestone{{Name: sim.FinishName, When: []int{0, 1, 2}}},
	}
	tl := &sim.Timeline{
		Drill: d.Under(sim.Order{}),
		Luck:  sure(2, 4*minute, 1*minute, 9*minute),
		Tasks: []sim.TaskTimes{
			{Worked: 240 * sec, End: 240 * sec, Unit: -1},
			{Called: 240 * sec, Start: 360 * sec, Worked: 420 * sec, End: 420 * sec, People: []int{0}, Unit: -1},
			{Worked: 540 * sec, End: 540 * sec, Unit: -1},
		},
		People: [][]sim.Stretch{
			{stand(0, 240*sec, 0, 1), walk(240*sec, 360*sec, 1, 1, 2), work(360*sec, 420*sec, 1, 2), idle(420*sec, 540*sec, 2)},
			{idle(0, 420*sec, 0), relieve(420*sec, 480*sec, 0, 0, 1), stand(480*sec, 540*sec, 0, 1)},
		},
		End: 540 * sec,
	}
	tl.SetMilestones()
	return tl
}

func TestCallsFromALookoutToWorkBesideItAreChecked(t *testing.T) {
	mustCatch(t, stoked, []broken{
		{"another takes the place at once", func(tl *sim.Timeline) {
			tl.People[1] = []sim.Stretch{idle(0, 240*sec, 0), relieve(240*sec, 300*sec, 0, 0, 1), stand(300*sec, 360*sec, 0, 1), idle(360*sec, 540*sec, 1)}
		}, "relief"},
		{"nobody when she has done", func(tl *sim.Timeline) { tl.People[1] = []sim.Stretch{idle(0, 540*sec, 0)} }, "relief"},
		{"called from a lookout that needs her", func(tl *sim.Timeline) { tl.Drill.Lookouts[0].UnlessWorked = false }, "called"},
		{"called away from it to work elsewhere", func(tl *sim.Timeline) { tl.Drill.Spots[2].In = -1 }, "called"},
		{"she is not called", func(tl *sim.Timeline) {
			tl.Tasks[1] = sim.TaskTimes{Called: sim.Never, Start: sim.Never, Worked: sim.Never, End: sim.Never, Group: -1, Unit: -1}
			tl.People[0] = []sim.Stretch{stand(0, 540*sec, 0, 1)}
			tl.People[1] = []sim.Stretch{idle(0, 540*sec, 0)}
			tl.SetMilestones()
		}, "idle"},
	})
}

// givenUp is a drill in which a place is given up until its relief is due: Ada, the
// only one who may stand there, arrives after 2 min, and stands there from 5:00 on.
func givenUp() *sim.Timeline {
	d := &sim.Drill{
		Spots:      []sim.Spot{{Name: "camp", In: -1}},
		People:     []sim.Person{{Name: "Ada", Pace: 1000}},
		Tasks:      []sim.Task{{Name: "wait", Kind: sim.Takes, Item: -1}},
		Lookouts:   []sim.Lookout{{Name: "by the fire", Places: 1, UnlessWorked: true, Relief: 5 * minute, IfNobody: sim.Skip, Who: []int{0}}},
		Milestones: []sim.Milestone{{Name: sim.FinishName, When: []int{0}}},
	}
	tl := &sim.Timeline{
		Drill:  d.Under(sim.Order{}),
		Luck:   sure(1, 8*minute),
		Tasks:  []sim.TaskTimes{{Worked: 480 * sec, End: 480 * sec, Unit: -1}},
		People: [][]sim.Stretch{{idle(120*sec, 300*sec, 0), stand(300*sec, 480*sec, 0, 0)}},
		End:    480 * sec,
	}
	tl.Luck.Person[0] = 2 * minute
	tl.SetMilestones()
	return tl
}

func TestPlacesGivenUpUntilTheirReliefAreChecked(t *testing.T) {
	mustCatch(t, givenUp, []broken{
		{"taken as soon as somebody is free", func(tl *sim.Timeline) { tl.People[0] = []sim.Stretch{stand(120*sec, 480*sec, 0, 0)} }, "relief"},
		{"given up for longer", func(tl *sim.Timeline) { tl.Drill.Lookouts[0].Relief = 7 * minute }, "instant"},
		{"given up for good", func(tl *sim.Timeline) { tl.People[0] = []sim.Stretch{idle(120*sec, 480*sec, 0)} }, "relief"},
		{"given up although it waits for somebody", func(tl *sim.Timeline) { tl.Drill.Lookouts[0].IfNobody = sim.Wait }, "relief"},
	})
}

// letGo is a drill in which somebody takes a place and is let go within the instant:
// Ada, the first of the roster, stays with the fire, which is nowhere to walk to, and
// Bo begins to sew beside it. So Ada is free there, and not in camp, until he has
// done.
func letGo() *sim.Timeline {
	d := &sim.Drill{
		Spots:  []sim.Spot{{Name: "camp", In: -1}, {Name: "fire", In: -1}},
		People: []sim.Person{{Name: "Ada", Pace: 1000}, {Name: "Bo", Pace: 1000}},
		Tasks: []sim.Task{
			{Name: "sew", Kind: sim.Takes, Crew: sim.Crew{Min: 1, Max: 1}, Who: []int{1}, Item: -1, Spot: 1},
			{Name: "wait", Kind: sim.Takes, Item: -1},
		},
		Lookouts:   []sim.Lookout{{Name: "by the fire", Places: 1, UnlessWorked: true, Spot: 1, Who: []int{0, 1}}},
		Milestones: []sim.Milestone{{Name: sim.FinishName, When: []int{0, 1}}},
	}
	tl := &sim.Timeline{
		Drill: d.Under(sim.Order{}),
		Luck:  sure(2, 2*minute, 3*minute),
		Tasks: []sim.TaskTimes{{Worked: 120 * sec, End: 120 * sec, People: []int{1}, Unit: -1}, {Worked: 180 * sec, End: 180 * sec, Unit: -1}},
		People: [][]sim.Stretch{
			{idle(0, 120*sec, 1), stand(120*sec, 180*sec, 0, 1)},
			{work(0, 120*sec, 0, 1), idle(120*sec, 180*sec, 1)},
		},
		End: 180 * sec,
	}
	tl.SetMilestones()
	return tl
}

func TestWhereThoseAreWhoWereLetGoAtOnceIsChecked(t *testing.T) {
	mustCatch(t, letGo, []broken{
		{"as if she had never gone there", func(tl *sim.Timeline) { tl.People[0][0] = idle(0, 120*sec, 0) }, "where"},
		{"as if she stood there all the time", func(tl *sim.Timeline) { tl.People[0] = []sim.Stretch{stand(0, 180*sec, 0, 1)} }, "relief"},
	})
}
