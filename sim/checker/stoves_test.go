package checker_test

import (
	"math/big"
	"testing"

	"warmby/sim"
	"warmby/sim/checker"
	"warmby/sim/heat"
)

// The tasks of rewarmed.
const (
	first = iota
	putOut
	again
	warmer
	tea
)

// rewarmed is a drill in which a tent is warmed to 10 C and its stove put out
// after 3 minutes. Five minutes later it is warmed again from what warmth is left,
// and then to 15 C by a warm-up that takes the stove over. Last comes a pot on it.
// There are two stoves, so each must choose. Nothing needs anybody.
func rewarmed() *sim.Timeline {
	warm := func(to float64, people int, after ...sim.After) sim.Task {
		return sim.Task{Kind: sim.Warm, Warm: &sim.Warming{To: to, People: people}, Item: -1, Spot: 1, After: after}
	}
	d := &sim.Drill{
		Site:   sim.Site{SnowTemperature: -10},
		Spots:  []sim.Spot{{Name: "camp", In: -1}, {Name: "inside", In: 0}},
		People: []sim.Person{{Name: "Ada", Pace: 1000}},
		Stoves: []sim.Stove{{Name: "heater", Count: 2, Power: 6000, Efficiency: .65, HoldsPots: true, ToPots: .4}},
		Shelters: []sim.Shelter{{Name: "tent", Volume: 15, Skin: 25, U: 5, AirChanges: 2, Contents: 60000},
			{Name: "hut", Volume: 15, Skin: 25, U: 5, AirChanges: 2, Contents: 60000}},
		Tasks: []sim.Task{
			warm(10, 2),
			{Kind: sim.Takes, Item: -1, Spot: 1, PutsOut: []int{0}, After: []sim.After{{Task: first}}},
			warm(10, 3, sim.After{Task: putOut, Lag: 5 * minute}),
			warm(15, 0, sim.After{Task: again}),
			{Kind: sim.Melt, Melt: &sim.Melting{Water: big.NewRat(1, 1), To: 40}, Item: -1, After: []sim.After{{Task: warmer}}},
		},
		Weather:    []sim.WeatherCase{{Weight: 1, Rows: []sim.WeatherRow{{Air: -20, Humidity: .8}}}},
		Milestones: []sim.Milestone{{Name: sim.FinishName, When: []int{first, putOut, again, warmer, tea}}},
	}
	for k, name := range []string{"warm", "put out", "warm again", "warm more", "tea"} {
		d.Tasks[k].Name = name
	}
	terms := func(fire heat.Fire, people, to float64) heat.Terms {
		return heat.Terms{Shelter: d.Shelters[0], Outside: -20, People: people * heat.PersonPower, Fire: fire, Stove: 6000, To: to}
	}
	b := heat.Start(0, 0, terms(heat.Unlit, 0, 0))
	b.Change(0, terms(heat.Full, 2, 10))
	one := b.Reaches(10)
	b.Change(one, terms(heat.Keeping, 2, 10))
	b.Change(one+3*minute, terms(heat.Out, 2, 0))
	b.Change(one+8*minute, terms(heat.Full, 3, 10))
	two := b.Reaches(10)
	b.Change(two, terms(heat.Full, 0, 15))
	three := b.Reaches(15)
	end := three + heat.Melt(&d.Site, &d.Stoves[0], d.Tasks[tea].Melt).Time
	between := func(from, to sim.Time, unit int) sim.TaskTimes {
		return sim.TaskTimes{Called: from, Start: from, Worked: to, End: to, Unit: unit}
	}
	tl := &sim.Timeline{
		Drill: d.Under(sim.Order{}),
		Luck: &sim.Luck{Amount: []sim.Time{0, 3 * minute, 0, 0, 0}, Mishap: make([]sim.Time, 5), Mishaps: make([]int, 5),
			Person: make([]sim.Time, 1)},
		Tasks: []sim.TaskTimes{between(0, one, 0), between(one, one+3*minute, -1), between(one+8*minute, two, 0),
			between(two, three, 0), between(three, end, 0)},
		People: [][]sim.Stretch{{idle(0, end, 0)}},
		End:    end,
	}
	tl.SetMilestones()
	return tl
}

func TestStovesPutOutAndTakenOverAreChecked(t *testing.T) {
	mustCatch(t, rewarmed, []broken{
		{"nothing puts it out", func(tl *sim.Timeline) { tl.Drill.Tasks[putOut].PutsOut = nil }, "end"},
		{"put out in another shelter", func(tl *sim.Timeline) { tl.Drill.Spots[1].In = 1 }, "end"},
		{"put out a moment later", func(tl *sim.Timeline) {
			tl.Luck.Amount[putOut] += 10 * sec
			tl.Tasks[putOut].Worked += 10 * sec
			tl.Tasks[putOut].End += 10 * sec
			tl.Drill.Tasks[again].After[0].Lag -= 10 * sec
		}, "end"},
		{"a warm-up as if from outside air", func(tl *sim.Timeline) { tl.Tasks[again].Worked += minute; tl.Tasks[again].End += minute }, "end"},
		{"somebody else inside before", func(tl *sim.Timeline) { tl.Drill.Tasks[first].Warm.People = 0 }, "end"},
		{"warm at the start", func(tl *sim.Timeline) { tl.Drill.Shelters[0].AtStart = new(float64) }, "end"},
		{"a stove with a flue", func(tl *sim.Timeline) { tl.Drill.Stoves[0].Flue = true }, "end"},
		{"a warm-up on the second, though the first is out", func(tl *sim.Timeline) { tl.Tasks[again].Unit, tl.Tasks[warmer].Unit = 1, 1 }, "unit"},
		{"a warm-up that takes another over", func(tl *sim.Timeline) { tl.Tasks[warmer].Unit = 1 }, "unit"},
		{"a pot on the second, though none is on the first", func(tl *sim.Timeline) { tl.Tasks[tea].Unit = 1 }, "unit"},
	})
}

// A stove that a melt holds goes out when the melt has ended. Here the tea begins
// with the task that puts it out and lasts longer.
func TestAStoveWithAPotIsPutOutAfterIt(t *testing.T) {
	good := rewarmed()
	d, luck := *good.Drill, good.Luck
	d.Tasks = append([]sim.Task(nil), d.Tasks...)
	d.Tasks[tea].After = []sim.After{{Task: first}}
	d.Tasks[again].After = []sim.After{{Task: tea, Lag: 5 * minute}}
	for _, engine := range engines {
		tl := engine.play(&d, luck)
		if tl.Tasks[tea].End < tl.Tasks[putOut].End+minute {
			t.Fatalf("%s: the tea ends at %v, want it to outlast putting out", engine.name, tl.Tasks[tea].End)
		}
		clean(t, tl)
		tl.Drill.Tasks[putOut].PutsOut = nil
		if len(checker.Check(tl)) == 0 {
			t.Errorf("%s: as if the stove had never gone out: not caught", engine.name)
		}
		tl.Drill.Tasks[putOut].PutsOut = []int{0}
	}
}
