package split_test

import (
	"testing"

	"warmby/sim"
	"warmby/sim/split"
)

// However few drills a search may play, it plays no more, and still tells a
// best; with usual values and with runs.
func TestASearchPlaysNoMoreThanItMay(t *testing.T) {
	d := camp(3)
	for _, runs := range []int{0, 20} {
		for _, more := range []int{0, 1, 7, 100, 1000} {
			g := split.Game{Bare: d.Under(sim.Order{}), Orders: []*sim.Drill{d}, Seed: 1, Runs: runs, Workers: 2, Parts: 4}
			g.Evaluations = g.LeastEvaluations() + more
			var size *split.Size
			for n := 1; n <= 3; n++ {
				var err error
				if size, err = g.Size(ctx, n, size); err != nil {
					t.Fatal(err)
				}
			}
			if size.Best < 0 {
				t.Errorf("%d runs, %d drills: no best of three people", runs, g.Evaluations)
				continue
			}
			if _, err := g.Worth(ctx, size.BestSplit(), size); err != nil {
				t.Fatal(err)
			}
			if g.Played() > g.Evaluations || g.Played() == 0 {
				t.Errorf("%d runs: played %d drills in search, may play %d", runs, g.Played(), g.Evaluations)
			}
		}
	}
}

// By hand: with usual values two of the camp have the shelter up at 30 min (see
// TestTheBestSplitIsFound), in one play each.
func TestUsualValuesArePlayedOnce(t *testing.T) {
	d := camp(3)
	for i := range d.People {
		d.People[i].Skills = d.People[i].Skills.With(0)
	}
	g := split.Game{Bare: d.Under(sim.Order{}), Orders: []*sim.Drill{d}, Workers: 2}
	size, err := g.Size(ctx, 2, nil)
	if err != nil {
		t.Fatal(err)
	}
	times := size.Splits[size.Best].Times[0]
	if len(times) != 1 || times[0] != 30*sim.Minute {
		t.Errorf("shelter up at %v ms, want 30 min once", times)
	}
}
