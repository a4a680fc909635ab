package split_test

import (
	"testing"

	"warmby/sim"
	"warmby/sim/internal/drills"
	"warmby/sim/search"
	"warmby/sim/split"
)

// tentOrTea is two people for a tent, pitched the sooner the more pitch it, and tea
// that is wanted within 25 min and takes one of them away.
func tentOrTea(by sim.Time) *sim.Drill {
	d := &sim.Drill{
		Spots:  []sim.Spot{{Name: "centre", In: -1}},
		People: []sim.Person{{Name: "Aila", Pace: 1000}, {Name: "Berend", Pace: 1000}},
	}
	task := func(name string, minutes float64, after ...sim.After) {
		d.Tasks = append(d.Tasks, sim.Task{Name: name, Kind: sim.Takes, Amount: drills.Even(minutes * 60000), Crew: sim.Crew{Min: 1, Max: 1}, Item: -1, After: after})
	}
	task("tramp", 10)
	task("poles", 10)
	task("pitch", 10, sim.After{Task: 0}, sim.After{Task: 1})
	task("tea", 15)
	d.Milestones = []sim.Milestone{{Name: "up", When: []int{2}, By: sim.Never}, {Name: "tea", When: []int{3}, By: by, ByText: "25 min"},
		{Name: sim.FinishName, When: []int{0, 1, 2, 3}, By: sim.Never}}
	return d.Under(sim.Order{Name: "tea first", Groups: []sim.Group{{Sequence: []int{3, 0, 1, 2}}}})
}

// What is soonest at the milestone is not the best where it misses what else is
// wanted; where nothing else is, it is.
func TestTheBestSplitDoesNotRuinTheEvening(t *testing.T) {
	for by, wanted := range map[sim.Time]bool{25 * sim.Minute: true, sim.Never: false} {
		d := tentOrTea(by)
		g := split.Game{Bare: d.Under(sim.Order{}), Orders: []*sim.Drill{d}, Seed: 1, Runs: 400, Workers: 2}
		a, err := g.Answer(ctx, split.Question{})
		if err != nil {
			t.Fatal(err)
		}
		met := func(s *split.Split) (n int) {
			for _, at := range s.Times[1] {
				if at <= 25*sim.Minute {
					n++
				}
			}
			return n
		}
		best := a.Own.BestSplit()
		file := a.Own.Of(split.Form{Order: "tea first"})
		if (a.Own.Keeps() == search.AllWell) != wanted {
			t.Errorf("tea by %v: keeps %q", by, a.Own.Keeps())
		}
		if sooner := best.Mean(0).Value < file.Mean(0).Value; !wanted && !sooner {
			t.Errorf("nothing else is wanted, and the best is up at %v, the order of the file at %v", best.Mean(0).Value, file.Mean(0).Value)
		}
		if few := met(best) < met(file)-25; few != !wanted {
			t.Errorf("tea by %v: in time in %d of 400 runs with the best split, in %d with the order of the file", by, met(best), met(file))
		}
	}
}
