package checker_test

import (
	"math/big"
	"testing"

	"warmby/sim"
	"warmby/sim/heat"
)

// The tasks of supper.
const (
	trampAll = iota
	eat
	serve
	melt
)

// handling is what each filling of supper's pot takes.
const handling = 30 * sec

// supper is a drill in which who does what is told by name. Ada arrives at the
// tent, a minute from camp, Bo in camp, and Cy is a casualty.
//
//	0:00  everybody who counts tramps, Ada and Bo; Bo walks a minute
//	1:00  they begin and take 5 min for 10 person-minutes, teamwork 1
//	4:00  it grows colder: the melt, which nobody tends, takes twice as long
//	6:00  Bo eats for 2 min, and Ada, the only one who may, serves
func supper() *sim.Timeline {
	d := &sim.Drill{
		Site:   sim.Site{SnowTemperature: -10},
		Spots:  []sim.Spot{{Name: "camp", In: -1}, {Name: "tent", Walk: 1 * minute, In: -1}},
		People: []sim.Person{{Name: "Ada", Pace: 1000, Begin: 1}, {Name: "Bo", Pace: 1000}, {Name: "Cy", Pace: 1000, Casualty: true}},
		Stoves: []sim.Stove{{Name: "burner", Count: 1, Power: 2000, Efficiency: .5}},
		Tasks: []sim.Task{
			{Name: "tramp", Kind: sim.Work, Everybody: true, Teamwork: 1, Item: -1, Spot: 1},
			{Name: "eat: Bo", Each: "eat", Who: []int{1}, Kind: sim.Takes, Crew: sim.Crew{Min: 1, Max: 1}, Item: -1, Spot: 1, After: []sim.After{{Task: trampAll}}},
			{Name: "serve", Who: []int{0, 2}, Kind: sim.Takes, Crew: sim.Crew{Min: 1, Max: 1}, Item: -1, Spot: 1, After: []sim.After{{Task: trampAll}}},
			{Name: "melt", Kind: sim.Melt, Melt: &sim.Melting{Water: big.NewRat(1, 1), Boil: true, Handling: handling}, Item: -1,
				Slowed: []sim.Slowdown{{When: sim.Condition{Kind: sim.AirBelow, Value: -10}, To: ratio(2, 1)}}},
		},
		Weather:    []sim.WeatherCase{{Weight: 1, Rows: []sim.WeatherRow{{Air: -5}, {At: 4 * minute, Air: -15}}}},
		Milestones: []sim.Milestone{{Name: sim.FinishName, When: []int{trampAll, eat, serve, melt}}},
	}
	d = d.Under(sim.Order{})
	full := heat.Melt(&d.Site, &d.Stoves[0], d.Tasks[melt].Melt).Heating
	end := 240*sec + 2*(full-240*sec) + handling
	tl := &sim.Timeline{
		Drill: d,
		Luck: &sim.Luck{Amount: []sim.Time{10 * minute, 2 * minute, 2 * minute, 0}, Mishap: make([]sim.Time, 4), Mishaps: make([]int, 4),
			Person: make([]sim.Time, 3)},
		Tasks: []sim.TaskTimes{
			{Start: 60 * sec, Worked: 360 * sec, End: 360 * sec, People: []int{0, 1}, Unit: -1},
			{Called: 360 * sec, Start: 360 * sec, Worked: 480 * sec, End: 480 * sec, People: []int{1}, Unit: -1},
			{Called: 360 * sec, Start: 360 * sec, Worked: 480 * sec, End: 480 * sec, People: []int{0}, Unit: -1},
			{Worked: end, End: end},
		},
		People: [][]sim.Stretch{
			{ready(0, 60*sec, trampAll, 1), work(60*sec, 360*sec, trampAll, 1), work(360*sec, 480*sec, serve, 1), idle(480*sec, end, 1)},
			{walk(0, 60*sec, trampAll, 0, 1), work(60*sec, 360*sec, trampAll, 1), work(360*sec, 480*sec, eat, 1), idle(480*sec, end, 1)},
			{idle(0, end, 0)},
		},
		End: end,
	}
	tl.SetMilestones()
	return tl
}

func TestWhoDoesWhatIsChecked(t *testing.T) {
	mustCatch(t, supper, []broken{
		{"one who begins elsewhere", func(tl *sim.Timeline) { tl.Drill.People[0].Begin = 0 }, "where"},
		{"one whom who leaves out", func(tl *sim.Timeline) { tl.Drill.Tasks[serve].Who = []int{1, 2} }, "who"},
		{"one who does what another does for himself", func(tl *sim.Timeline) { tl.Drill.Tasks[eat].Who = []int{0} }, "who"},
		{"the one of two who comes later in the roster", func(tl *sim.Timeline) { tl.Drill.Tasks[eat].Who = []int{0, 1} }, "choice"},
		{"a casualty at work", func(tl *sim.Timeline) { tl.Drill.People[1].Casualty = true }, "who"},
		{"not everybody", func(tl *sim.Timeline) { tl.Drill.People[2].Casualty = false }, "crew"},
		{"more than everybody, for one is hurt", func(tl *sim.Timeline) { tl.Drill.People[1].Hurt = new(sim.Time) }, "crew"},
		{"everybody with one whom who leaves out", func(tl *sim.Timeline) { tl.Drill.Tasks[trampAll].Who = []int{0} }, "crew"},
	})
}

func TestASlowedMeltIsChecked(t *testing.T) {
	mustCatch(t, supper, []broken{
		{"nothing slows it", func(tl *sim.Timeline) { tl.Drill.Tasks[melt].Slowed = nil }, "end"},
		{"another factor", func(tl *sim.Timeline) { tl.Drill.Tasks[melt].Slowed[0].To = ratio(2001, 1000) }, "end"},
		{"colder a moment later", func(tl *sim.Timeline) { tl.Drill.Weather[0].Rows[1].At += 10 }, "end"},
		{"handling slowed too", func(tl *sim.Timeline) {
			tl.Tasks[melt].Worked += handling
			tl.Tasks[melt].End += handling
		}, "end"},
	})
}

func TestACasualtyStandsAtNoLookout(t *testing.T) {
	mustCatch(t, oneLookout, []broken{
		{"a casualty at a lookout", func(tl *sim.Timeline) { tl.Drill.People[1].Casualty = true }, "who"},
	})
}
