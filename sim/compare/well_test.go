package compare_test

import (
	"slices"
	"testing"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/reference"
)

// Each run is counted as the other engine plays it: every target met, nobody
// over the limit, both.
func TestAllIsWellWhenEveryTargetIsMetAndNobodyIsCold(t *testing.T) {
	d := freezing(0, 1, 2, 3)
	d.Weather[0].Rows[0].Air = -2 // so that the wall decides the target, and the whole of it who is cold
	d.People[0].March, d.People[0].Halt = 2.2, 2.2
	d.Milestones[0].By = 35 * sim.Minute
	b := compare.Batch{Seed: 5, Runs: 80, Workers: 2}
	played, err := compare.Play(ctx, []*sim.Drill{d}, b)
	if err != nil {
		t.Fatal(err)
	}
	accounts, err := compare.HowCold(ctx, played, b)
	if err != nil {
		t.Fatal(err)
	}
	var targets, warm, both int64
	for run := range b.Runs {
		tl := reference.Play(d, draw.Run(d, b.Seed, run))
		met := tl.Milestones[0] <= 35*sim.Minute
		nobody := !slices.ContainsFunc(cold.Account(tl), func(p cold.Person) bool { return p.PassedAt != sim.Never })
		if met {
			targets++
		}
		if nobody {
			warm++
		}
		if met && nobody {
			both++
		}
	}
	if targets == 0 || targets == 80 || warm == 0 || warm == 80 || both == min(targets, warm) {
		t.Fatalf("targets met in %d, nobody cold in %d, both in %d of 80: the drill tells nothing", targets, warm, both)
	}
	w := compare.HowWell(played, accounts)[0]
	if w.Targets.Count != targets || w.NobodyCold.Count != warm || w.All.Count != both || w.All.Runs != 80 {
		t.Errorf("targets %d, nobody cold %d, all well %d of %d; want %d, %d, %d of 80",
			w.Targets.Count, w.NobodyCold.Count, w.All.Count, w.All.Runs, targets, warm, both)
	}
}

func TestWithoutTargetsAndColdNothingIsAskedFor(t *testing.T) {
	b := compare.Batch{Seed: 5, Runs: 20, Workers: 1}
	played, err := compare.Play(ctx, orders(), b)
	if err != nil {
		t.Fatal(err)
	}
	list := compare.HowWell(played, make([]*compare.Cold, 2))
	if w := list[0]; w.Targets != nil || w.NobodyCold != nil || w.All != nil {
		t.Errorf("HowWell = %+v, want nothing", w)
	}
	if best := compare.MostOftenWell(list); best != nil {
		t.Errorf("most often well: %v, want none", best)
	}
}

// By hand: the first is in time in all 200 runs, the second in 190 of them, the
// third in all but one, which tells nothing.
func TestMostOftenWellNamesThoseThatAreLevel(t *testing.T) {
	late := func(n int) *compare.Played {
		p := &compare.Played{Drill: &sim.Drill{Milestones: []sim.Milestone{{Name: "up", By: sim.Hour}}}, Times: make([][]sim.Time, 1)}
		for run := range 200 {
			at := sim.Hour
			if run < n {
				at++
			}
			p.Times[0] = append(p.Times[0], at)
		}
		return p
	}
	played := []*compare.Played{late(0), late(10), late(1)}
	list := compare.HowWell(played, make([]*compare.Cold, 3))
	if got := compare.MostOftenWell(list); !slices.Equal(got, []int{0, 2}) {
		t.Errorf("most often well: %v, want the first and the third", got)
	}
	if got := compare.MostOftenWell(compare.HowWell([]*compare.Played{late(200), late(200)}, make([]*compare.Cold, 2))); got != nil {
		t.Errorf("never well: %v, want none", got)
	}
}

// Whoever only asks in which runs all is well is told the same without the account of
// cold of runs in which a target is missed.
func TestLeavingOutTheAccountOfLateRunsTellsTheSameOfAllWell(t *testing.T) {
	d := freezing(0, 1, 2, 3)
	d.Weather[0].Rows[0].Air = -2
	d.People[0].March, d.People[0].Halt = 2.2, 2.2
	d.Milestones[0].By = 35 * sim.Minute
	wells := func(ifInTime bool) compare.Well {
		played, accounts, err := compare.PlayCold(ctx, []*sim.Drill{d}, compare.Batch{Seed: 5, Runs: 80, Workers: 2, IfInTime: ifInTime})
		if err != nil {
			t.Fatal(err)
		}
		return compare.HowWell(played, accounts)[0]
	}
	full, short := wells(false), wells(true)
	if !slices.Equal(full.AllIn(), short.AllIn()) {
		t.Errorf("all is well in %v, want %v", short.AllIn(), full.AllIn())
	}
	if short.NobodyCold.Runs >= full.NobodyCold.Runs {
		t.Errorf("an account of %d runs, where %d have one in all: none was left out", short.NobodyCold.Runs, full.NobodyCold.Runs)
	}
}
