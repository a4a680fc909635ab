package sim_test

import (
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/internal/drills"
)

// Whatever the drill, each link of a critical sequence begins at the very moment
// to which the one before it led, and the last leads to the milestone: their
// lengths add up to the time that it took.
func TestCriticalSequencesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Any(t)
		luck := draw.Run(d, rapid.Uint64().Draw(t, "seed"), 0)
		tl := play(t, d, luck)
		if tl == nil {
			return
		}
		for m := range d.Milestones {
			links := tl.HeldUp(m)
			if (links == nil) != (tl.Milestones[m] == sim.Never) {
				t.Fatalf("milestone %s at %s has %d links", d.Milestones[m].Name, sim.Clock(tl.Milestones[m]), len(links))
			}
			for k, l := range links {
				if l.Why.At != l.Called || l.Why.Ready > l.Called {
					t.Errorf("%s called at %s gave way at %s and could be called from %s", d.Tasks[l.Task].Name, sim.Clock(l.Called), sim.Clock(l.Why.At), sim.Clock(l.Why.Ready))
				}
				if k == 0 {
					continue
				}
				before := links[k-1]
				led := map[sim.Point]sim.Time{sim.AtEnd: tl.Tasks[before.Task].End, sim.AtStart: before.Start, sim.AtCall: before.Called}[before.Until]
				if before.Task != l.Why.Task || led+l.Why.Lag != l.Called {
					t.Errorf("%s called at %s, but %s led to %s", d.Tasks[l.Task].Name, sim.Clock(l.Called), d.Tasks[before.Task].Name, sim.Clock(led+l.Why.Lag))
				}
			}
			if n := len(links); n > 0 && tl.Tasks[links[n-1].Task].End != tl.Milestones[m] {
				t.Errorf("%s at %s, but the last link ends at %s", d.Milestones[m].Name, sim.Clock(tl.Milestones[m]), sim.Clock(tl.Tasks[links[n-1].Task].End))
			}
		}
	})
}

// With somebody for every task nothing is ever short, and what held the end up is
// a longest path through the network, as the critical path method has it (J. E.
// Kelley and M. R. Walker, "Critical-Path Planning and Scheduling", 1959; the
// citation from memory). Its forward pass is worked out beside each drill.
func TestCriticalSequenceIsTheCriticalPathWhenNothingIsShort(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "tasks")
		d := &sim.Drill{Spots: []sim.Spot{{In: -1}}}
		end := make([]sim.Time, n) // by the forward pass of the method
		var det sim.Group
		all := sim.Milestone{Name: sim.FinishName, By: sim.Never}
		var last sim.Time
		for i := range n {
			length := sim.Time(rapid.IntRange(1, 30).Draw(t, "minutes")) * sim.Minute
			task := sim.Task{Name: string(rune('a' + i)), Kind: sim.Takes, Amount: drills.Fixed(length), Crew: sim.Crew{Min: 1, Max: 1}, Item: -1}
			var start sim.Time
			for before := range i {
				if rapid.Bool().Draw(t, "after") {
					lag := sim.Time(rapid.IntRange(0, 3).Draw(t, "lag")) * sim.Minute
					task.After = append(task.After, sim.After{Task: before, Lag: lag})
					start = max(start, end[before]+lag)
				}
			}
			end[i] = start + length
			last = max(last, end[i])
			d.Tasks, d.People = append(d.Tasks, task), append(d.People, sim.Person{Name: task.Name, Pace: 1000})
			det.Sequence, det.People, all.When = append(det.Sequence, i), append(det.People, i), append(all.When, i)
		}
		d.Milestones = []sim.Milestone{all}
		tl := play(t, d.Under(sim.Order{Groups: []sim.Group{det}}), draw.Usual(d))
		if tl.Finish() != last {
			t.Fatalf("finish at %s, want %s", sim.Clock(tl.Finish()), sim.Clock(last))
		}
		var sum sim.Time
		for k, l := range tl.HeldUp(0) {
			if want := sim.AfterTask; k > 0 && l.Why.Kind != want || k == 0 && l.Why.Kind != sim.FromTheStart {
				t.Errorf("link %d of kind %d", k, l.Why.Kind)
			}
			sum += l.Why.Lag + sim.Time(d.Tasks[l.Task].Amount.Usual())
		}
		if sum != last {
			t.Errorf("the sequence is %s long, want %s", sim.Clock(sum), sim.Clock(last))
		}
	})
}

func play(t *rapid.T, d *sim.Drill, luck *sim.Luck) *sim.Timeline {
	return fast.Compile(d).Worker().Timeline(luck)
}
