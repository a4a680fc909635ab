package compare_test

import (
	"reflect"
	"slices"
	"testing"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/internal/drills"
	"warmby/sim/stats"
)

// tents is a camp whose tent is pitched in so many minutes on average, with luck
// of its own.
func tents(name string, minutes float64) *sim.Drill {
	d := camp(0, 2, 1, 3)
	d.Tasks[2].Name, d.Tasks[2].Amount = name, drills.Even(minutes*60000)
	return d
}

// Lengths have a standard deviation of 17 min each. A tent that takes 3 min more is
// told in some thousands of runs, and the same tent with other luck is not; what is
// the same in every run is not waited for.
func TestRunsAreAddedUntilOrdersAreToldApart(t *testing.T) {
	b := compare.Batch{Seed: 2, Runs: 200, Workers: 2}
	for _, c := range []struct {
		name        string
		drills      []*sim.Drill
		least, most int // runs
		all         bool
	}{
		{"a slower tent", []*sim.Drill{tents("pitch", 30), tents("pitch it", 33)}, 400, 12_800, true},
		{"an equal tent", []*sim.Drill{tents("pitch", 30), tents("pitch it", 30)}, 3000, 3000, false},
		{"the same", []*sim.Drill{tents("pitch", 30), tents("pitch", 30)}, 200, 200, true},
	} {
		most := max(c.most, 3000)
		got, had, _, err := compare.UntilTold(ctx, c.drills, b, []int{1}, most)
		if err != nil {
			t.Fatal(err)
		}
		if got.Runs < c.least || got.Runs > c.most || got.All != c.all || got.First != 200 || got.Most != most {
			t.Errorf("%s: %+v, want %d to %d runs, all told %v", c.name, got, c.least, c.most, c.all)
		}
		again := b
		again.Runs, again.Looks = got.Runs, got.Looks()
		played, err := compare.Play(ctx, c.drills, again)
		if err != nil {
			t.Fatal(err)
		}
		for i := range played {
			if !slices.EqualFunc(had[i].Times, played[i].Times, slices.Equal) || had[i].Looks != played[i].Looks {
				t.Errorf("%s: drill %d played on and on has other moments than one played at once", c.name, i)
			}
		}
		once := *played[0]
		once.Looks = stats.Looks{}
		wide, narrow := compare.Stand(played, []int{1}).Odds[1][0], compare.Stand([]*compare.Played{&once}, []int{1}).Odds[1][0]
		if !(wide.Mean.Low < narrow.Mean.Low && wide.Quantiles[0].Low < narrow.Quantiles[0].Low) {
			t.Errorf("%s: intervals %+v are not wider than those of one look, %+v", c.name, wide.Mean, narrow.Mean)
		}
	}
}

// The account of cold goes on with the runs, up to those in which it is kept, and so
// does what came to a stop.
func TestRunsThatAreAddedKeepTheirAccountOfCold(t *testing.T) {
	equal := freezing(0, 1, 2, 3)
	equal.Tasks[2].Name = "the same with other luck"
	drills := []*sim.Drill{freezing(0, 1, 2, 3), equal}
	told, had, kept, err := compare.UntilTold(ctx, drills, compare.Batch{Seed: 5, Runs: 300, Workers: 2}, []int{1}, 2500)
	if err != nil {
		t.Fatal(err)
	}
	played, want, err := compare.PlayCold(ctx, drills, compare.Batch{Seed: 5, Runs: told.Runs, Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	if told.Runs < 2400 {
		t.Fatalf("told apart after %d runs, fewer than the account is kept in", told.Runs)
	}
	if !reflect.DeepEqual(kept, want) {
		t.Errorf("%d runs: another account than of runs played at once", told.Runs)
	}
	for i := range played {
		if had[i].Stopped != played[i].Stopped || had[i].StopRun != played[i].StopRun {
			t.Errorf("drill %d came to a stop in %d runs, first in %d; want %d, %d", i, had[i].Stopped, had[i].StopRun, played[i].Stopped, played[i].StopRun)
		}
	}
}
