package compare_test

import (
	"fmt"
	"math"
	"testing"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/internal/drills"
)

// many is a drill in which one person does a hundred small tasks one after the
// other (each uniform on 0 to 2 min: variance 4/12) with two long ones among them
// (0 to 60 min: 3600/12 each) and another person does two hundred that the
// milestone does not ask for.
func many() *sim.Drill {
	d := &sim.Drill{
		Spots:  []sim.Spot{{Name: "centre", In: -1}},
		People: []sim.Person{{Name: "Aila", Pace: 1000}, {Name: "Berend", Pace: 1000}},
	}
	task := func(who int, minutes float64) {
		d.Tasks = append(d.Tasks, sim.Task{Name: fmt.Sprint("task ", len(d.Tasks)), Kind: sim.Takes, Amount: drills.Even(minutes / 2 * 60000),
			Crew: sim.Crew{Min: 1, Max: 1}, Item: -1, Who: []int{who}})
	}
	var all, hers []int
	for i := range 302 {
		switch {
		case i == 50, i == 200:
			task(0, 60)
		default:
			task(min(1, i%3), 2)
		}
		all = append(all, i)
		if d.Tasks[i].Who[0] == 0 {
			hers = append(hers, i)
		}
	}
	d.Milestones = []sim.Milestone{{Name: "hers", When: hers, By: sim.Never}, {Name: sim.FinishName, When: all, By: sim.Never}}
	return d.Under(sim.Order{Groups: []sim.Group{{Sequence: all}}})
}

func luckOf(t *testing.T, d *sim.Drill, b compare.Batch) compare.Luck {
	t.Helper()
	played, err := compare.Play(ctx, []*sim.Drill{d}, b)
	if err != nil {
		t.Fatal(err)
	}
	lucks, err := compare.ShareLuck(ctx, played, []int{0}, b)
	if err != nil {
		t.Fatal(err)
	}
	return lucks[0][0]
}

// Of many tasks only those that matter alone have a total of their own; what is left
// is told of in groups that hold all of them.
func TestOfManyChancesThoseThatMatterAreFound(t *testing.T) {
	d := many()
	luck := luckOf(t, d, compare.Batch{Seed: 2, Runs: 2000, Workers: 2})
	small := float64(len(d.Milestones[0].When)-2) * 4.0 / 12
	all := small + 2*3600.0/12
	own, together, sum := 0, 0, 0.0
	for i, c := range luck.Chances {
		if c.Total.OK() {
			own++
		}
		if long := c.Name == "task 50" || c.Name == "task 200"; long != (i < 2) {
			t.Errorf("%s is in place %d", c.Name, i)
		} else if want := 300 / all; long && math.Abs(c.Total.Value-want) > 0.12 {
			t.Errorf("in all %s holds %+v, want %.3f", c.Name, c.Total, want)
		}
	}
	for _, g := range luck.Together {
		sum += g.Total.Value
		together += len(g.Chances)
	}
	if own+together != len(d.Tasks) || own > 64 {
		t.Errorf("%d tasks have totals of their own, %d stand in groups: want %d in all, few of them alone", own, together, len(d.Tasks))
	}
	if want := small / all; math.Abs(sum-want) > 0.03 {
		t.Errorf("groups hold %.3f, want %.3f", sum, want)
	}
}

// A mishap that happens in one run of a hundred: totals are of all runs, since the
// others come out the same.
func TestARareMishapHasItsShareOfTheVariance(t *testing.T) {
	d := camp(0, 1, 2, 3)
	d.Tasks[0].Amount, d.Tasks[2].Amount = drills.Even(10*60000), draw.Fixed(30*60000)
	d.Tasks[2].Mishap = &sim.Mishap{Chance: 0.01, Adds: draw.Fixed(100 * 60000)}
	d.Milestones = []sim.Milestone{{Name: "up", When: []int{2}, By: sim.Never}, {Name: sim.FinishName, When: []int{0, 1, 2, 3}, By: sim.Never}}
	mishap, dig, wall := 100.0*100*0.01*0.99, 400.0/12, 900.0/12
	want := mishap / (mishap + dig + wall)
	off := 0.0
	for seed := range uint64(5) {
		luck := luckOf(t, d, compare.Batch{Seed: seed, Runs: 8000, Workers: 2})
		for _, c := range luck.Chances {
			if c.Purpose == draw.ForMishap {
				off += math.Abs(c.Total.Value-want) / 5
			}
		}
	}
	if off > 0.06 {
		t.Errorf("in all the mishap holds %.3f more or less than it does, on average", off)
	}
}

// With many tasks that can wait each is left out in fewer runs.
func TestManyTasksThatCanWaitAreLeftOutInFewerRuns(t *testing.T) {
	d := many()
	for i := range 40 {
		d.Tasks[i].CanWait = true
	}
	b := compare.Batch{Seed: 2, Runs: 400, Workers: 2}
	played, err := compare.Play(ctx, []*sim.Drill{d}, b)
	if err != nil {
		t.Fatal(err)
	}
	left, err := compare.LeaveOut(ctx, played, b)
	if err != nil {
		t.Fatal(err)
	}
	if len(left[0]) != 40 || left[0][0].Runs != 300 {
		t.Errorf("%d tasks are left out, the first in %d runs; want 40 tasks in 300 runs each", len(left[0]), left[0][0].Runs)
	}
}
