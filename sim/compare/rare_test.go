package compare_test

import (
	"math/rand/v2"
	"testing"

	"warmby/internal/thorough"
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/draw"
)

// A mishap that costs one order ten minutes and not the other, which is as much
// slower all the time: on average the two are equal, and until the mishap is seen
// often enough the first looks ahead. Before anything was done about it, it was
// called so in half of all studies of 100 runs.
func TestARareMishapMakesNobodyLookAhead(t *testing.T) {
	const studies, costs = 500, 10 * sim.Minute
	for _, runs := range []int{100, 500, 2000}[:thorough.Cases(2, 3)] {
		for _, chance := range []float64{0.001, 0.01, 0.05} {
			d := camp(0, 1, 2, 3)
			d.Tasks[0].Mishap = &sim.Mishap{Chance: chance, Adds: draw.Fixed(float64(costs))}
			rng := rand.New(rand.NewPCG(uint64(runs), uint64(1000*chance)))
			ahead := 0
			for range studies {
				a, b := make([]sim.Time, runs), make([]sim.Time, runs)
				for i := range a {
					a[i] = sim.Hour + sim.Time(rng.NormFloat64()*1000)
					b[i] = sim.Hour + sim.Milliseconds(chance*float64(costs)) + sim.Time(rng.NormFloat64()*1000)
					if rng.Float64() < chance {
						a[i] += costs
					}
				}
				times := func(one []sim.Time) *compare.Played {
					return &compare.Played{Drill: d, Times: [][]sim.Time{one, one, one}}
				}
				if compare.Stand([]*compare.Played{times(a), times(b)}, []int{0}).Matches[0][0].Diff.Ahead() != 0 {
					ahead++
				}
			}
			// 5 % are expected at most; of 500, 8.5 % are five standard errors more.
			if share := float64(ahead) / studies; share > 0.085 {
				t.Errorf("%d runs, mishaps of %g %%: somebody is called ahead in %.3f of the studies", runs, 100*chance, share)
			}
		}
	}
}

// What is rare is told with how many runs would do; what is common is not.
func TestTheRarestIsNamed(t *testing.T) {
	d := camp(0, 1, 2, 3)
	d.Tasks[0].Mishap = &sim.Mishap{Chance: 0.05, Adds: draw.Fixed(1000)}
	d.Tasks[2].Mishap = &sim.Mishap{Chance: 0.01, Adds: draw.Fixed(1000)}
	d.Weather = []sim.WeatherCase{{Name: "calm", Weight: 98}, {Name: "storm", Weight: 2}}
	got := compare.RarestOf(d, 400)
	if got == nil || *got != (compare.Rare{Name: "pitch", Expected: 4, Enough: 2500}) {
		t.Errorf("of 400 runs %+v, want the mishap of pitch, expected in 4, enough 2,500", got)
	}
	if got := compare.RarestOf(d, 2500); got != nil {
		t.Errorf("of 2,500 runs %+v, want nothing", got)
	}
	d.Tasks[2].Mishap = nil
	if got := compare.RarestOf(d, 1000); got == nil || !got.Weather || got.Name != "storm" {
		t.Errorf("of 1,000 runs %+v, want the storm", got)
	}
}
