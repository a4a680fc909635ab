package checker_test

import (
	"testing"

	"warmby/sim"
)

// oneLookout is a drill with one lookout, a minute away, relieved every 5 minutes
// while a wait of 12 minutes lasts: Ada at 0:00, Bo at 5:00, Cy at 10:00.
func oneLookout() *sim.Timeline {
	d := &sim.Drill{
		Spots:      []sim.Spot{{Name: "camp", In: -1}, {Name: "post", Walk: 1 * minute, In: -1}},
		People:     []sim.Person{{Name: "Ada", Pace: 1000}, {Name: "Bo", Pace: 1000}, {Name: "Cy", Pace: 1000}},
		Tasks:      []sim.Task{{Name: "wait", Kind: sim.Takes, Item: -1}},
		Lookouts:   []sim.Lookout{{Name: "north post", Places: 1, Relief: 5 * minute, Spot: 1, Who: []int{0, 1, 2}}},
		Milestones: []sim.Milestone{{Name: sim.FinishName, When: []int{0}}},
	}
	tl := &sim.Timeline{
		Drill: d.Under(sim.Order{}),
		Luck:  &sim.Luck{Amount: []sim.Time{12 * minute}, Mishap: make([]sim.Time, 1), Mishaps: make([]int, 1), Person: make([]sim.Time, 3)},
		Tasks: []sim.TaskTimes{{Worked: 12 * minute, End: 12 * minute, Unit: -1}},
		People: [][]sim.Stretch{
			{relieve(0, 60*sec, 0, 0, 1), stand(60*sec, 360*sec, 0, 1), idle(360*sec, 720*sec, 1)},
			{idle(0, 300*sec, 0), relieve(300*sec, 360*sec, 0, 0, 1), stand(360*sec, 660*sec, 0, 1), idle(660*sec, 720*sec, 1)},
			{idle(0, 600*sec, 0), relieve(600*sec, 660*sec, 0, 0, 1), stand(660*sec, 720*sec, 0, 1)},
		},
		End: 12 * minute,
	}
	tl.SetMilestones()
	return tl
}

func TestReliefIsChecked(t *testing.T) {
	mustCatch(t, oneLookout, []broken{
		{"one who leaves before the relief is there", func(tl *sim.Timeline) {
			tl.People[0][1].To = 300 * sec
			tl.People[0][2].From = 300 * sec
		}, "lookout"},
		{"one who stays after it", func(tl *sim.Timeline) {
			tl.People[0][1].To = 400 * sec
			tl.People[0][2].From = 400 * sec
		}, "lookout"},
		{"the next but one is called", func(tl *sim.Timeline) { tl.People[1], tl.People[2] = tl.People[2], tl.People[1] }, "relief"},
		{"no relief at all", func(tl *sim.Timeline) {
			tl.People[1] = []sim.Stretch{idle(0, 720*sec, 0)}
			tl.People[2] = []sim.Stretch{idle(0, 720*sec, 0)}
			tl.People[0] = []sim.Stretch{relieve(0, 60*sec, 0, 0, 1), stand(60*sec, 720*sec, 0, 1)}
		}, "relief"},
		{"one who may not stand there", func(tl *sim.Timeline) { tl.Drill.Lookouts[0].Who = []int{0, 2} }, "lookout"},
		{"a call before its time", func(tl *sim.Timeline) { tl.Drill.Lookouts[0].From = 1 }, "lookout"},
		{"reliefs further apart", func(tl *sim.Timeline) { tl.Drill.Lookouts[0].Relief = 6 * minute }, "relief"},
		{"a lookout without relief that is relieved", func(tl *sim.Timeline) { tl.Drill.Lookouts[0].Relief = 0 }, "instant"},
		{"a second place left vacant", func(tl *sim.Timeline) { tl.Drill.Lookouts[0].Places = 2 }, "relief"},
		{"a walk that leads to no place", func(tl *sim.Timeline) { tl.People[0][1] = idle(60*sec, 360*sec, 1) }, "lookout"},
		{"a second relief while one is on the way", func(tl *sim.Timeline) {
			tl.People[2] = []sim.Stretch{idle(0, 330*sec, 0), relieve(330*sec, 390*sec, 0, 0, 1), stand(390*sec, 720*sec, 0, 1)}
		}, "lookout"},
	})
}

// overtaken is a drill in which a relief arrives at the next relief time and
// is relieved there and then by one who needs no walk. Ada walks 5 minutes to a
// task of no length, and 5 back to the lookout in camp, which is owed somebody
// from 5:00 on and again at 10:00. At 11:00 the drill ends.
func overtaken() *sim.Timeline {
	d := &sim.Drill{
		Spots:  []sim.Spot{{Name: "camp", In: -1}, {Name: "hill", Walk: 5 * minute, In: -1}},
		People: []sim.Person{{Name: "Ada", Pace: 1000}, {Name: "Bo", Pace: 1000}},
		Tasks: []sim.Task{
			{Name: "wait", Kind: sim.Takes, Item: -1},
			{Name: "look", Kind: sim.Takes, Crew: sim.Crew{Min: 1, Max: 1}, Item: -1, Spot: 1},
		},
		Lookouts:   []sim.Lookout{{Name: "fire", Places: 1, From: 5 * minute, Relief: 5 * minute, Who: []int{0, 1}}},
		Milestones: []sim.Milestone{{Name: sim.FinishName, When: []int{0, 1}}},
	}
	tl := &sim.Timeline{
		Drill: d.Under(sim.Order{}),
		Luck:  &sim.Luck{Amount: []sim.Time{11 * minute, 0}, Mishap: make([]sim.Time, 2), Mishaps: make([]int, 2), Person: make([]sim.Time, 2)},
		Tasks: []sim.TaskTimes{
			{Worked: 11 * minute, End: 11 * minute, Unit: -1},
			{Start: 5 * minute, Worked: 5 * minute, End: 5 * minute, People: []int{0}, Unit: -1},
		},
		People: [][]sim.Stretch{
			{walk(0, 300*sec, 1, 0, 1), work(300*sec, 300*sec, 1, 1), relieve(300*sec, 600*sec, 0, 1, 0), idle(600*sec, 660*sec, 0)},
			{idle(0, 600*sec, 0), stand(600*sec, 660*sec, 0, 0)},
		},
		End: 11 * minute,
	}
	tl.SetMilestones()
	return tl
}

func TestReliefRelievedOnArrivalIsChecked(t *testing.T) {
	mustCatch(t, overtaken, []broken{
		{"one who stands although the next is there", func(tl *sim.Timeline) { tl.People[0][3] = stand(600*sec, 660*sec, 0, 0) }, "lookout"},
		{"the place is owed no other", func(tl *sim.Timeline) {
			tl.People[0][3] = stand(600*sec, 660*sec, 0, 0)
			tl.People[1] = []sim.Stretch{idle(0, 660*sec, 0)}
		}, "relief"},
		{"nobody takes over", func(tl *sim.Timeline) { tl.People[1] = []sim.Stretch{idle(0, 660*sec, 0)} }, "relief"},
		{"work of no length left out", func(tl *sim.Timeline) {
			p := tl.People[0]
			tl.People[0] = []sim.Stretch{p[0], p[2], p[3]}
		}, "people"},
		{"a relief although nothing happens then", func(tl *sim.Timeline) {
			tl.People[1][0].To -= 1
			tl.People[1][1].From -= 1
		}, "instant"},
	})
}

// pulled is a drill in which somebody leaves work for a lookout.
//
// All three dig, 30 person-minutes with teamwork 1, so at a rate of 3. At
// 5:00 half is done and the lookout is owed somebody; nobody is free, so Bo, the
// first of those who may stand there, is pulled. Two do the other half in
// 7:30.
func pulled() *sim.Timeline {
	d := &sim.Drill{
		Spots:  []sim.Spot{{Name: "camp", In: -1}, {Name: "post", Walk: 1 * minute, In: -1}},
		People: []sim.Person{{Name: "Ada", Pace: 1000}, {Name: "Bo", Pace: 1000}, {Name: "Cy", Pace: 1000}},
		Tasks: []sim.Task{{Name: "dig", Kind: sim.Work, Crew: sim.Crew{Min: 2, Max: 3}, Teamwork: 1, Joinable: true, Item: -1,
			Tools: []sim.ToolNeed{{Tool: 0, Count: 1, Each: true}}}},
		Tools:      []sim.Tool{{Name: "shovel", Count: 3}},
		Lookouts:   []sim.Lookout{{Name: "north post", Places: 1, From: 5 * minute, Spot: 1, Who: []int{1, 2}, IfNobody: sim.Pull}},
		Milestones: []sim.Milestone{{Name: sim.FinishName, When: []int{0}}},
	}
	tl := &sim.Timeline{
		Drill: d.Under(sim.Order{}),
		Luck:  &sim.Luck{Amount: []sim.Time{30 * minute}, Mishap: make([]sim.Time, 1), Mishaps: make([]int, 1), Person: make([]sim.Time, 3)},
		Tasks: []sim.TaskTimes{{Worked: 750 * sec, End: 750 * sec, People: []int{0, 1, 2}, Unit: -1}},
		People: [][]sim.Stretch{
			{work(0, 750*sec, 0, 0)},
			{work(0, 300*sec, 0, 0), relieve(300*sec, 360*sec, 0, 0, 1), stand(360*sec, 750*sec, 0, 1)},
			{work(0, 750*sec, 0, 0)},
		},
		End: 750 * sec,
	}
	tl.SetMilestones()
	return tl
}

func TestPullingIsChecked(t *testing.T) {
	mustCatch(t, pulled, []broken{
		{"the wrong one is pulled", func(tl *sim.Timeline) { tl.People[1], tl.People[2] = tl.People[2], tl.People[1] }, "relief"},
		{"one who could not be spared", func(tl *sim.Timeline) { tl.Drill.Tasks[0].Crew.Min = 3 }, "relief"},
		{"pulled although the lookout waits", func(tl *sim.Timeline) { tl.Drill.Lookouts[0].IfNobody = sim.Wait }, "relief"},
		{"pulled from what is not joinable", func(tl *sim.Timeline) { tl.Drill.Tasks[0].Joinable = false }, "relief"},
		{"as if all had stayed", func(tl *sim.Timeline) {
			tl.Tasks[0].Worked, tl.Tasks[0].End, tl.End = 600*sec, 600*sec, 600*sec
			for p := range tl.People {
				tl.People[p][len(tl.People[p])-1].To = 600 * sec
			}
			tl.SetMilestones()
		}, "end"},
		{"off to nowhere", func(tl *sim.Timeline) {
			tl.People[1] = []sim.Stretch{work(0, 300*sec, 0, 0), idle(300*sec, 750*sec, 0)}
		}, "follows"},
	})
}

// joined is a drill in which somebody joins and it grows dark.
//
//	0:00  Ada fetches for 2 min; Bo is called to dig, walks 1 min, begins 1:00
//	2:00  Ada is free. Bo alone would be done at 11:00, so Ada goes and is
//	      there at 3:00; until then 2 person-minutes are done
//	4:00  2 more are done; dark, 150 %: floor(2e6 * 2000 / (2 * 1500)) =
//	      1333333, so the other 6 take ceil(360000e6 / 1333333) = 270001 ms
func joined() *sim.Timeline {
	d := &sim.Drill{
		Spots:  []sim.Spot{{Name: "camp", In: -1}, {Name: "tent", Walk: 1 * minute, In: -1}},
		People: []sim.Person{{Name: "Ada", Pace: 1000}, {Name: "Bo", Pace: 1000}},
		Tasks: []sim.Task{
			{Name: "fetch", Kind: sim.Takes, Crew: sim.Crew{Min: 1, Max: 1}, Item: -1},
			{Name: "dig", Kind: sim.Work, Crew: sim.Crew{Min: 1, Max: 2}, Teamwork: 1, Joinable: true, Item: -1, Spot: 1,
				Slowed: []sim.Slowdown{{When: sim.Condition{Kind: sim.Dark}, To: ratio(3, 2)}}},
		},
		Light:      []sim.Light{{At: 0}, {At: 4 * minute, Dark: true}},
		Milestones: []sim.Milestone{{Name: sim.FinishName, When: []int{0, 1}}},
	}
	const end = 240*sec + 270_001
	tl := &sim.Timeline{
		Drill: d.Under(sim.Order{}),
		Luck:  &sim.Luck{Amount: []sim.Time{2 * minute, 10 * minute}, Mishap: make([]sim.Time, 2), Mishaps: make([]int, 2), Person: make([]sim.Time, 2)},
		Tasks: []sim.TaskTimes{
			{Worked: 120 * sec, End: 120 * sec, People: []int{0}, Unit: -1},
			{Start: 60 * sec, Worked: end, End: end, People: []int{0, 1}, Unit: -1},
		},
		People: [][]sim.Stretch{
			{work(0, 120*sec, 0, 0), walk(120*sec, 180*sec, 1, 0, 1), work(180*sec, end, 1, 1)},
			{walk(0, 60*sec, 1, 0, 1), work(60*sec, end, 1, 1)},
		},
		End: end,
	}
	tl.SetMilestones()
	return tl
}

func TestJoiningAndConditionsAreChecked(t *testing.T) {
	mustCatch(t, joined, []broken{
		{"a joiner to what is not joinable", func(tl *sim.Timeline) { tl.Drill.Tasks[1].Joinable = false }, "joins"},
		{"one who would come too late", func(tl *sim.Timeline) { tl.Luck.Amount[1] = 2 * minute }, "joins"},
		{"one who has not the skill asked of all", func(tl *sim.Timeline) {
			tl.Drill.Skills = []string{"stove"}
			tl.Drill.People[1].Skills, tl.Drill.Tasks[1].All = 1, 1
		}, "skills"},
		{"nobody joins", func(tl *sim.Timeline) { tl.People[0] = []sim.Stretch{work(0, 120*sec, 0, 0), idle(120*sec, tl.End, 0)} }, "join"},
		{"a joiner beyond the maximum", func(tl *sim.Timeline) { tl.Drill.Tasks[1].Crew.Max = 1 }, "crew"},
		{"dark a moment later", func(tl *sim.Timeline) { tl.Drill.Light[1].At += 10 }, "end"},
		{"dark but with lights", func(tl *sim.Timeline) { tl.Drill.Site.Lights = true }, "end"},
		{"another factor", func(tl *sim.Timeline) { tl.Drill.Tasks[1].Slowed[0].To = ratio(1501, 1000) }, "end"},
		{"another teamwork", func(tl *sim.Timeline) { tl.Drill.Tasks[1].Teamwork = .9 }, "end"},
		{"ready once work has begun", func(tl *sim.Timeline) {
			p := tl.People[0]
			tl.People[0] = []sim.Stretch{p[0], p[1], ready(180*sec, 200*sec, 1, 1), work(200*sec, tl.End, 1, 1)}
		}, "present"},
	})
}
