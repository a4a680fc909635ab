package checker_test

import (
	"math/big"
	"testing"

	"warmby/sim"
	"warmby/sim/heat"
)

func ratio(a, b int64) *big.Rat { return big.NewRat(a, b) }

// heated is a drill in which everything bears on a warm-up: a pot on its
// stove until the melt ends, a skirt that lowers U after 5 minutes, and a
// colder row at 7 minutes. The walls of the curve come from warmby/sim/heat;
// what is put together here is when what holds.
func heated() *sim.Timeline {
	u := 3.0
	d := &sim.Drill{
		Site:     sim.Site{SnowTemperature: -10},
		Spots:    []sim.Spot{{Name: "camp", In: -1}},
		People:   []sim.Person{{Name: "Ada", Pace: 1000}},
		Stoves:   []sim.Stove{{Name: "heater", Count: 1, Power: 6000, Efficiency: .65, HoldsPots: true, ToPots: .4}},
		Shelters: []sim.Shelter{{Name: "tent", Volume: 15, Skin: 25, U: 5, AirChanges: 2, Contents: 60000}},
		Tasks: []sim.Task{
			{Name: "warm", Kind: sim.Warm, Item: -1, Warm: &sim.Warming{To: 10, People: 2}},
			{Name: "melt", Kind: sim.Melt, Item: -1, Crew: sim.Crew{Min: 1, Max: 1},
				Melt: &sim.Melting{Water: big.NewRat(1, 1), To: 40}},
			{Name: "bank the skirt", Kind: sim.Takes, Item: -1, Makes: []sim.Make{{U: &u}}},
		},
		Weather: []sim.WeatherCase{{Name: "only", Weight: 1, Rows: []sim.WeatherRow{
			{Air: -20, Wind: 2, Humidity: .8}, {At: 7 * minute, Air: -25, Wind: 2, Humidity: .8}}}},
		Milestones: []sim.Milestone{{Name: sim.FinishName, When: []int{0, 1, 2}}},
	}
	melted := heat.Melt(&d.Site, &d.Stoves[0], d.Tasks[1].Melt).Time
	around := func(at sim.Time) heat.Terms {
		in := heat.Warming(d.Tasks[0].Warm, &d.Stoves[0], d.Shelters[0], -20)
		in.Stove = heat.StovePower(&d.Stoves[0], at < melted)
		if at >= 5*minute {
			in.Shelter.U = u
		}
		if at >= 7*minute {
			in.Outside = -25
		}
		return in
	}
	w := heat.Start(0, -20, around(0))
	for _, at := range []sim.Time{min(5*minute, melted), max(5*minute, min(7*minute, melted)), max(7*minute, melted)} {
		if w.Reaches(10) > at {
			w.Change(at, around(at))
		}
	}
	end := max(w.Reaches(10), melted, 5*minute)
	tl := &sim.Timeline{
		Drill: d.Under(sim.Order{}),
		Luck:  &sim.Luck{Amount: []sim.Time{0, 0, 5 * minute}, Mishap: make([]sim.Time, 3), Mishaps: make([]int, 3), Person: make([]sim.Time, 1)},
		Tasks: []sim.TaskTimes{
			{Worked: w.Reaches(10), End: w.Reaches(10), Unit: 0},
			{Worked: melted, End: melted, People: []int{0}, Unit: 0},
			{Worked: 5 * minute, End: 5 * minute, Unit: -1},
		},
		People: [][]sim.Stretch{{work(0, melted, 1, 0)}},
		End:    end,
	}
	if melted < end {
		tl.People[0] = append(tl.People[0], idle(melted, end, 0))
	}
	tl.SetMilestones()
	return tl
}

func TestHeatedDrillFeelsEveryChange(t *testing.T) {
	tl := heated()
	if tl.Tasks[0].End == sim.Never || tl.Tasks[0].End < 7*minute || tl.Tasks[0].End < tl.Tasks[1].End {
		t.Fatalf("the warm-up ends at %d, the melt at %d: want it to last past all changes, or the mutations tell nothing", tl.Tasks[0].End, tl.Tasks[1].End)
	}
	mustCatch(t, heated, []broken{
		{"a warm-up that ends 1 ms early", func(tl *sim.Timeline) { tl.Tasks[0].End -= 1; tl.Tasks[0].Worked -= 1 }, "end"},
		{"a melt that ends 1 ms early", func(tl *sim.Timeline) { tl.Tasks[1].End -= 1; tl.Tasks[1].Worked -= 1 }, "end"},
		{"a skirt that changes nothing", func(tl *sim.Timeline) { tl.Drill.Tasks[2].Makes = nil }, "end"},
		{"a row that comes later", func(tl *sim.Timeline) { tl.Drill.Weather[0].Rows[1].At += minute }, "end"},
		{"a pot that takes more", func(tl *sim.Timeline) { tl.Drill.Stoves[0].ToPots = .5 }, "end"},
		{"a stove that holds no pots", func(tl *sim.Timeline) { tl.Drill.Stoves[0].HoldsPots = false }, "stoves"},
		{"a stove that is not there", func(tl *sim.Timeline) { tl.Tasks[1].Unit = 1 }, "stoves"},
		{"two pots on a stove", func(tl *sim.Timeline) {
			tl.Drill.Tasks[0].Kind, tl.Drill.Tasks[0].Melt = sim.Melt, tl.Drill.Tasks[1].Melt
		}, "stoves"},
		{"one shelter warmed twice", func(tl *sim.Timeline) {
			tl.Drill.Stoves[0].Count = 2
			tl.Drill.Tasks[2].Kind, tl.Drill.Tasks[2].Warm = sim.Warm, &sim.Warming{To: 0}
			tl.Tasks[2].Unit = 1
		}, "shelter"},
	})
}

// cold is a drill that never finishes: 200 C are asked of a heater that cannot
// hold them; the fixed job beside it ends and is the last thing to happen.
func cold() *sim.Timeline {
	tl := heated()
	tl.Drill.Tasks[0].Warm = &sim.Warming{To: 200}
	tl.Drill.Tasks[1] = sim.Task{Name: "sew", Kind: sim.Takes, Crew: sim.Crew{Min: 1, Max: 1}, Item: -1}
	tl.Luck.Amount[1] = 6 * minute
	tl.Tasks[0].Worked, tl.Tasks[0].End = sim.Never, sim.Never
	tl.Tasks[1] = sim.TaskTimes{Worked: 6 * minute, End: 6 * minute, People: []int{0}, Unit: -1}
	tl.People[0] = []sim.Stretch{work(0, 6*minute, 1, 0)}
	tl.End = 6 * minute
	tl.SetMilestones()
	return tl
}

// A crew called within a walk of the seven days is called at the very end of
// the drill: what its people are about has no length and is not told.
func TestCallAtTheVeryEndIsClean(t *testing.T) {
	good := cold()
	d, luck := *good.Drill, *good.Luck
	d.Spots = append(d.Spots, sim.Spot{Name: "hill", Walk: 2 * minute, In: -1})
	d.Tasks = append(d.Tasks, sim.Task{Name: "look", Kind: sim.Takes, Crew: sim.Crew{Min: 1, Max: 1}, Item: -1, Spot: 1,
		After: []sim.After{{Task: 1, Lag: sim.Horizon - 7*minute}}})
	d.Milestones = []sim.Milestone{{Name: sim.FinishName, When: []int{0, 1, 2, 3}}}
	luck.Amount = append(luck.Amount, 1*minute)
	luck.Mishap, luck.Mishaps = make([]sim.Time, 4), make([]int, 4)
	whole := d.Under(sim.Order{})
	for _, engine := range engines {
		tl := engine.play(whole, &luck)
		if x := tl.Tasks[3]; x.Called != sim.Horizon-1*minute || x.Called != tl.End || x.Start != sim.Never {
			t.Fatalf("%s: called at %v, begun at %v, want called a minute before seven days and never begun", engine.name, x.Called, x.Start)
		}
		clean(t, tl)
	}
}

func TestDrillThatNeverFinishesIsChecked(t *testing.T) {
	mustCatch(t, cold, []broken{
		{"a warm-up that ends all the same", func(tl *sim.Timeline) { tl.Tasks[0].Worked, tl.Tasks[0].End = 300*sec, 300*sec }, "end"},
		{"a job that ends and is said not to", func(tl *sim.Timeline) { tl.Tasks[1].Worked, tl.Tasks[1].End = sim.Never, sim.Never }, "end"},
		{"a finish", func(tl *sim.Timeline) { tl.Milestones[0] = 6 * minute }, "milestone"},
		{"an end after the last thing that happens", func(tl *sim.Timeline) {
			tl.End += 1
			tl.People[0] = append(tl.People[0], idle(6*minute, tl.End, 0))
		}, "end"},
		{"a task that might have been called", func(tl *sim.Timeline) {
			tl.Tasks[1] = sim.TaskTimes{Called: sim.Never, Start: sim.Never, Worked: sim.Never, End: sim.Never, Group: -1, Unit: -1}
			tl.People[0] = []sim.Stretch{idle(0, 5*minute, 0)}
			tl.End = 5 * minute
		}, "idle"},
		{"a task that might have been called later still", func(tl *sim.Timeline) {
			tl.Drill.Tasks[1].After = []sim.After{{Task: 2, Lag: 10 * minute}}
			tl.Tasks[1] = sim.TaskTimes{Called: sim.Never, Start: sim.Never, Worked: sim.Never, End: sim.Never, Group: -1, Unit: -1}
			tl.People[0] = []sim.Stretch{idle(0, 5*minute, 0)}
			tl.End = 5 * minute
		}, "idle"},
	})
}
