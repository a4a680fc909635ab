package checker_test

import (
	"testing"

	"warmby/sim"
	"warmby/sim/checker"
)

const (
	sec    = sim.Second
	minute = sim.Minute
)

// The tasks of camp.
const (
	unpack = iota
	tramp
	set
	light
)

// camp is a drill worked out on paper, with its timeline. Three people; Bo
// may light the stove.
//
//	0:00  everybody is at the centre of camp and free
//	1:00  the sled arrives: Ada unpacks the shovels (no skills, first of roster)
//	2:00  two shovels: Ada and Cy are called to tramp, a minute's walk away
//	3:00  they begin. e_2 = round(10^6 2^0.9) = 1866066 and both have pace 1,
//	      so 10 person-minutes take ceil(600000e6 / 1866066) = 321533 ms
//	8:21.533  the floor is left to set for 5 min, by nobody
//	13:21.533 Bo is called to light the heater, walks a minute,
//	14:21.533 and takes 3 min, and a mishap adds 30 s
//	17:51.533 finish
func camp() *sim.Timeline {
	d := &sim.Drill{
		Spots:  []sim.Spot{{Name: "camp", In: -1}, {Name: "tent", Walk: 1 * minute, In: -1}},
		Skills: []string{"stove"},
		People: []sim.Person{{Name: "Ada", Pace: 1000}, {Name: "Bo", Pace: 1000, Skills: 1}, {Name: "Cy", Pace: 1000}},
		Tools:  []sim.Tool{{Name: "shovel"}},
		Loads:  []sim.Load{{Name: "sled"}},
		Items:  []sim.Item{{Name: "shovels", Brings: []sim.Bring{{Tool: 0, Stove: -1, Count: 2}}}},
		Tasks: []sim.Task{
			{Name: "unpack shovels", Kind: sim.Takes, Crew: sim.Crew{Min: 1, Max: 1}, Item: 0},
			{Name: "tramp", Kind: sim.Work, Crew: sim.Crew{Min: 1, Max: 3}, Teamwork: .9, Joinable: true, Item: -1, Spot: 1,
				Needs: []int{0}, Tools: []sim.ToolNeed{{Tool: 0, Each: true, Count: 1}}},
			{Name: "set", Kind: sim.Takes, Item: -1, Spot: 1, After: []sim.After{{Task: tramp}}},
			{Name: "light", Kind: sim.Takes, Crew: sim.Crew{Min: 1, Max: 1}, Roles: []sim.Role{{Skill: 0, Count: 1}}, Item: -1, Spot: 1,
				After: []sim.After{{Task: set}}},
		},
		Milestones: []sim.Milestone{{Name: "floor", When: []int{set}}, {Name: sim.FinishName, When: []int{unpack, tramp, set, light}}},
	}
	d = d.Under(sim.Order{})
	const done = 180*sec + 321_533
	const lit = done + 5*minute
	const end = lit + 4*minute + 30*sec
	tl := &sim.Timeline{
		Drill: d,
		Luck: &sim.Luck{Amount: []sim.Time{1 * minute, 10 * minute, 5 * minute, 3 * minute}, Mishap: []sim.Time{0, 0, 0, 30 * sec},
			Mishaps: []int{0, 0, 0, 1}, Person: make([]sim.Time, 3), Load: []sim.Time{1 * minute}},
		Tasks: []sim.TaskTimes{
			{Called: 60 * sec, Start: 60 * sec, Worked: 120 * sec, End: 120 * sec, People: []int{0}, Unit: -1},
			{Called: 120 * sec, Start: 180 * sec, Worked: done, End: done, People: []int{0, 2}, Unit: -1},
			{Called: done, Start: done, Worked: lit, End: lit, Unit: -1},
			{Called: lit, Start: lit + 1*minute, Worked: end - 30*sec, End: end, People: []int{1}, Unit: -1},
		},
		People: [][]sim.Stretch{
			{idle(0, 60*sec, 0), work(60*sec, 120*sec, unpack, 0), walk(120*sec, 180*sec, tramp, 0, 1), work(180*sec, done, tramp, 1), idle(done, end, 1)},
			{idle(0, lit, 0), walk(lit, lit+1*minute, light, 0, 1), work(lit+1*minute, end, light, 1)},
			{idle(0, 120*sec, 0), walk(120*sec, 180*sec, tramp, 0, 1), work(180*sec, done, tramp, 1), idle(done, end, 1)},
		},
		End: end,
	}
	tl.SetMilestones()
	return tl
}

func idle(from, to sim.Time, spot int) sim.Stretch {
	return sim.Stretch{What: sim.Free, From: from, To: to, Task: -1, Lookout: -1, Spot: spot, Origin: spot}
}

func work(from, to sim.Time, task, spot int) sim.Stretch {
	return sim.Stretch{What: sim.Working, From: from, To: to, Task: task, Lookout: -1, Spot: spot, Origin: spot}
}

func ready(from, to sim.Time, task, spot int) sim.Stretch {
	return sim.Stretch{What: sim.Ready, From: from, To: to, Task: task, Lookout: -1, Spot: spot, Origin: spot}
}

func walk(from, to sim.Time, task, origin, spot int) sim.Stretch {
	return sim.Stretch{What: sim.Walking, From: from, To: to, Task: task, Lookout: -1, Spot: spot, Origin: origin}
}

func stand(from, to sim.Time, place, spot int) sim.Stretch {
	return sim.Stretch{What: sim.Watching, From: from, To: to, Task: -1, Place: place, Spot: spot, Origin: spot}
}

func relieve(from, to sim.Time, place, origin, spot int) sim.Stretch {
	return sim.Stretch{What: sim.Walking, From: from, To: to, Task: -1, Place: place, Spot: spot, Origin: origin}
}

// broken is a good timeline with one thing wrong, and the rule that must
// catch it.
type broken struct {
	what string
	do   func(tl *sim.Timeline)
	rule string
}

// mustCatch breaks fresh copies of a good timeline one by one.
func mustCatch(t *testing.T, good func() *sim.Timeline, list []broken) {
	t.Helper()
	clean(t, good())
	for _, b := range list {
		t.Run(b.what, func(t *testing.T) {
			tl := good()
			b.do(tl)
			found := checker.Check(tl)
			for _, v := range found {
				if v.Rule == b.rule {
					return
				}
			}
			t.Errorf("Check found %v, want something against the rule %q", found, b.rule)
		})
	}
}

func clean(t *testing.T, tl *sim.Timeline) {
	t.Helper()
	for _, v := range checker.Check(tl) {
		t.Errorf("good timeline: %v", v)
	}
}

func TestCampWorkedOutByHandIsClean(t *testing.T) { clean(t, camp()) }

func TestPiecesOfACampAreChecked(t *testing.T) {
	mustCatch(t, camp, []broken{
		{"a gap", func(tl *sim.Timeline) { tl.People[0][1].From += 1 }, "contiguous"},
		{"an overlap", func(tl *sim.Timeline) { tl.People[1][1].From -= 1 }, "contiguous"},
		{"a stretch of no length", func(tl *sim.Timeline) {
			tl.People[1] = append([]sim.Stretch{idle(0, 0, 0)}, tl.People[1]...)
		}, "contiguous"},
		{"an end before the drill's", func(tl *sim.Timeline) { tl.People[2][3].To -= 1 }, "contiguous"},
		{"an arrival later than told", func(tl *sim.Timeline) { tl.Luck.Person[1] = 5 }, "contiguous"},
		{"a dropped walk", func(tl *sim.Timeline) {
			tl.People[2][0].To = 180 * sec
			tl.People[2] = append(tl.People[2][:1], tl.People[2][2:]...)
		}, "where"},
		{"a short walk", func(tl *sim.Timeline) { tl.People[1][1].To -= 1; tl.People[1][2].From -= 1 }, "walk"},
		{"a wrong origin", func(tl *sim.Timeline) { tl.People[1][1].Origin = 1 }, "where"},
		{"a free stretch elsewhere", func(tl *sim.Timeline) { tl.People[0][4].Spot, tl.People[0][4].Origin = 0, 0 }, "where"},
		{"work at a wrong spot", func(tl *sim.Timeline) { tl.People[0][1].Spot = 1 }, "where"},
		{"ready although work has begun", func(tl *sim.Timeline) { tl.People[1][2].What = sim.Ready }, "present"},
		{"a task called although nothing happens then", func(tl *sim.Timeline) {
			tl.Tasks[unpack].Called -= 1
			tl.People[0][0].To -= 1
			tl.People[0][1].From -= 1
		}, "instant"},
		{"work before the start", func(tl *sim.Timeline) { tl.Tasks[light].Start += 1 }, "start"},
		{"work outside start and end", func(tl *sim.Timeline) { tl.Tasks[light].Start += 1 }, "present"},
		{"one who leaves early", func(tl *sim.Timeline) {
			tl.People[2][2].To -= 5 * sec
			tl.People[2][3].From -= 5 * sec
		}, "follows"},
		{"a call before the load", func(tl *sim.Timeline) { tl.Luck.Load[0] += 1 }, "after"},
		{"a call before the item", func(tl *sim.Timeline) { tl.Tasks[unpack].End += 1 }, "after"},
		{"a call before what it comes after", func(tl *sim.Timeline) { tl.Tasks[set].End += 1 }, "after"},
		{"a lag not waited for", func(tl *sim.Timeline) { tl.Drill.Tasks[light].After[0].Lag = 1 }, "after"},
		{"nobody with the skill", func(tl *sim.Timeline) { tl.Drill.People[1].Skills = 0 }, "roles"},
		{"a skill asked of all", func(tl *sim.Timeline) { tl.Drill.Tasks[unpack].All = 1 }, "skills"},
		{"more than the maximum", func(tl *sim.Timeline) { tl.Drill.Tasks[tramp].Crew.Max = 1 }, "crew"},
		{"fewer than the minimum", func(tl *sim.Timeline) { tl.Drill.Tasks[tramp].Crew.Min = 3 }, "crew"},
		{"people for one that needs nobody", func(tl *sim.Timeline) { tl.Drill.Tasks[light].Crew, tl.Drill.Tasks[light].Roles = sim.Crew{}, nil }, "crew"},
		{"a listed person who was not there", func(tl *sim.Timeline) { tl.Tasks[light].People = []int{0, 1} }, "people"},
		{"one left off the list", func(tl *sim.Timeline) { tl.Tasks[tramp].People = []int{2} }, "people"},
		{"a list out of order", func(tl *sim.Timeline) { tl.Tasks[tramp].People = []int{2, 0} }, "people"},
		{"too few shovels", func(tl *sim.Timeline) { tl.Drill.Items[0].Brings[0].Count = 1 }, "tools"},
		{"a stove for a task without", func(tl *sim.Timeline) { tl.Tasks[tramp].Unit = 0 }, "stoves"},
		{"work that ends 1 ms late", func(tl *sim.Timeline) { tl.Luck.Amount[tramp] -= 2 }, "end"},
		{"work that ends 1 ms early", func(tl *sim.Timeline) { tl.Luck.Amount[tramp] += 2 }, "end"},
		{"a slower pace", func(tl *sim.Timeline) { tl.Drill.People[2].Pace = 999 }, "end"},
		{"a wait that ends 1 ms late", func(tl *sim.Timeline) { tl.Luck.Amount[set] -= 1 }, "end"},
		{"a mishap left out", func(tl *sim.Timeline) { tl.Luck.Mishap[light] = 0 }, "end"},
		{"a mishap that begins late", func(tl *sim.Timeline) { tl.Tasks[light].Worked += 1 }, "worked"},
		{"a milestone too early", func(tl *sim.Timeline) { tl.Milestones[0] -= 1 }, "milestone"},
		{"a finish that leaves one out", func(tl *sim.Timeline) { tl.Milestones[1] = tl.Milestones[0] }, "milestone"},
		{"an end after the last task", func(tl *sim.Timeline) {
			tl.End += 1
			for p := range tl.People {
				tl.People[p][len(tl.People[p])-1].To += 1
			}
		}, "end"},
		{"an index out of range", func(tl *sim.Timeline) { tl.People[0][1].Task = 9 }, "shape"},
		{"a list too short", func(tl *sim.Timeline) { tl.Tasks = tl.Tasks[1:] }, "shape"},
		{"no luck", func(tl *sim.Timeline) { tl.Luck = nil }, "shape"},
	})
}

func TestChoicesInACampAreChecked(t *testing.T) {
	mustCatch(t, camp, []broken{
		{"the wrong person unpacks", func(tl *sim.Timeline) {
			tl.People[0], tl.People[2] = tl.People[2], tl.People[0]
			tl.Tasks[unpack].People = []int{2}
		}, "choice"},
		{"one with more skills is taken", func(tl *sim.Timeline) {
			tl.Drill.People[0].Skills = 1
		}, "choice"},
		{"a tool left unused", func(tl *sim.Timeline) { tl.Drill.Items[0].Brings[0].Count = 3 }, "choice"},
		{"one who might have joined", func(tl *sim.Timeline) {
			tl.Drill.Tools[0].Count, tl.Luck.Person[1], tl.People[1][0].From = 1, 121*sec, 121*sec
		}, "join"},
		{"a task left undone", func(tl *sim.Timeline) {
			// Bo sits idle for a second although the heater may be lit.
			tl.Tasks[light].Called += sec
			tl.Tasks[light].Start += sec
			tl.Tasks[light].Worked += sec
			tl.Tasks[light].End += sec
			tl.People[1][0].To += sec
			tl.People[1][1].From += sec
			tl.People[1][1].To += sec
			tl.People[1][2].From += sec
			tl.End += sec
			for p := range tl.People {
				tl.People[p][len(tl.People[p])-1].To += sec
			}
			tl.SetMilestones()
		}, "idle"},
		{"a group that has not got the task", func(tl *sim.Timeline) {
			tl.Drill.Groups[0].Sequence = []int{unpack, tramp, set}
		}, "called"},
		{"a crew of another group", func(tl *sim.Timeline) {
			tl.Drill.Groups[0].People = []int{0, 1}
			tl.Drill.Groups = append(tl.Drill.Groups, sim.Group{Name: "other", People: []int{2}})
		}, "choice"},
		{"called by the wrong one of two groups", func(tl *sim.Timeline) {
			other := tl.Drill.Groups[0]
			other.Name, other.People = "other", nil
			tl.Drill.Groups = append(tl.Drill.Groups, other)
			tl.Tasks[set].Group = 1
		}, "group"},
		{"an in-turn scan that goes on", func(tl *sim.Timeline) {
			// Before everything stands a task that may not start yet.
			tl.Drill.Groups[0] = sim.Group{People: []int{0, 1, 2}, Sequence: []int{light, unpack, tramp, set}, InTurn: true}
		}, "called"},
	})
}
