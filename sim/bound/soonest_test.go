package bound

import (
	"testing"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/internal/drills"
)

// Sums that can be done on paper: an item under another, 20 min that nobody need
// be at, a lag, and work for two with paces 1 and 2, which a look comes 2 min
// into. A day of half the usual work shortens the work and nothing else.
func TestSoonestAddsUpWhatComesAfter(t *testing.T) {
	paper := func() *sim.Drill {
		d := &sim.Drill{
			Spots:  []sim.Spot{{In: -1}},
			People: []sim.Person{{Name: "Aila", Pace: 1000}, {Name: "Berend", Pace: 2000}},
			Loads:  []sim.Load{{Name: "pulk", Arrives: draw.Fixed(float64(6 * sim.Minute))}},
			Items:  []sim.Item{{Name: "top"}, {Name: "below"}},
		}
		task := func(name string, kind sim.Kind, minutes float64, item, crew int, after ...sim.After) {
			d.Tasks = append(d.Tasks, sim.Task{Name: name, Kind: kind, Amount: draw.Fixed(minutes * 60000), Item: item,
				Crew: sim.Crew{Min: min(1, crew), Max: crew}, Teamwork: 1, After: after})
			d.Milestones = append(d.Milestones, sim.Milestone{Name: name, When: []int{len(d.Tasks) - 1}, By: sim.Never})
		}
		task("unpack top", sim.Takes, 1, 0, 1)
		task("unpack below", sim.Takes, 2, 1, 1)
		task("wait", sim.Takes, 20, -1, 0)
		d.Tasks[2].Needs = []int{1}
		task("dig", sim.Work, 30, -1, 2, sim.After{Task: 2, Lag: 5 * sim.Minute})
		task("look", sim.Takes, 1, -1, 1, sim.After{Task: 3, FromStart: true, Lag: 2 * sim.Minute})
		return d
	}
	check := func(name string, d *sim.Drill, want ...sim.Time) {
		for m, got := range Soonest(d) {
			if got != want[m]*sim.Minute {
				t.Errorf("%s: soonest end of %q is %s, want %d min", name, d.Milestones[m].Name, sim.Clock(got), want[m])
			}
		}
	}
	check("a usual day", paper(), 7, 9, 29, 44, 37)
	d := paper()
	d.Day = draw.Fixed(0.5)
	check("a quick day", d, 7, 9, 29, 39, 37)
	d.Tasks[2].ByDay = true
	check("a quick day that counts for the wait", d, 7, 9, 19, 29, 27)
	d.People[1].Day = draw.Fixed(0.5)
	check("and one of two has a quick day of his own", d, 7, 9, 19, 27, 27)
}

// A law that is even from 0 to an hour falls below 3.6 s once in a thousand.
func TestSoonestTakesOneInAThousand(t *testing.T) {
	d := &sim.Drill{Spots: []sim.Spot{{In: -1}}}
	d.Tasks = []sim.Task{{Name: "boil", Kind: sim.Takes, Amount: drills.Even(30 * 60000), Item: -1}}
	d.Milestones = []sim.Milestone{{Name: sim.FinishName, When: []int{0}, By: sim.Never}}
	if got := Soonest(d)[0]; got != 3600*sim.Millisecond {
		t.Errorf("soonest %d ms, want 3600", got)
	}
}
