package compare_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"warmby/internal/thorough"
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/stats"
)

// A mishap that costs one order ten minutes and not the other, which is as much
// slower all the time: on average the two are equal, and until the mishap is seen
// often enough the first looks ahead. Before anything was done about it, it was
// called so in half of all studies of 100 runs. Now studies in which it is seen too
// seldom, or whose differences are too skewed, tell nothing; those that tell must
// hold as often as they say. They alone are counted.
func TestARareMishapMakesNobodyLookAhead(t *testing.T) {
	studies := thorough.Cases(200, 4000)
	for _, runs := range []int{100, 500, 800, 2000, 4000} {
		for _, chance := range []float64{0.001, 0.01, 0.05, 0.1} {
			rng := rand.New(rand.NewPCG(uint64(runs), uint64(1000*chance)))
			told, held, ahead := 0, 0, 0
			for range studies {
				diff := unlucky(rng, runs, chance, 10*sim.Minute)
				if diff.Ahead() != 0 {
					ahead++
				}
				if diff.Doubt == "" {
					told++
					if diff.Mean.Low <= 0 && 0 <= diff.Mean.High {
						held++
					}
				}
			}
			t.Logf("%d runs, mishaps of %g %%: %d of %d told, %.2f %% of those hold", runs, 100*chance, told, studies, 100*float64(held)/float64(max(1, told)))
			// 5 % are expected at most; of 500, 8.5 % are five standard errors more.
			if share := float64(ahead) / float64(studies); share > 0.085 {
				t.Errorf("%d runs, mishaps of %g %%: somebody is called ahead in %.3f of the studies", runs, 100*chance, share)
			}
			if enough := chance*float64(runs) >= 40; enough != (told > studies*9/10) || !enough && told > 0 {
				t.Errorf("%d runs, mishaps of %g %%: %d of %d studies tell", runs, 100*chance, told, studies)
			}
			slack := 0.005 + 3*math.Sqrt(0.95*0.05/float64(max(1, told)))
			if share := float64(held) / float64(max(1, told)); told > 0 && math.Abs(share-0.95) > slack {
				t.Errorf("%d runs, mishaps of %g %%: intervals hold in %.3f of those that tell", runs, 100*chance, share)
			}
		}
	}
}

// unlucky is the difference of two orders in one study.
func unlucky(rng *rand.Rand, runs int, chance float64, costs sim.Time) stats.Difference {
	d := camp(0, 1, 2, 3)
	d.Tasks[0].Mishap = &sim.Mishap{Chance: chance, Adds: draw.Fixed(float64(costs))}
	a, b := make([]sim.Time, runs), make([]sim.Time, runs)
	for i := range a {
		a[i] = sim.Hour + sim.Time(rng.NormFloat64()*1000)
		b[i] = sim.Hour + sim.Milliseconds(chance*float64(costs)) + sim.Time(rng.NormFloat64()*1000)
		if rng.Float64() < chance {
			a[i] += costs
		}
	}
	times := func(one []sim.Time) *compare.Played {
		return &compare.Played{Drill: d, Times: [][]sim.Time{one}}
	}
	d.Milestones = d.Milestones[:1]
	return compare.Stand([]*compare.Played{times(a), times(b)}, []int{0}).Matches[0][0].Diff
}

// What is rare is told with how many runs would do; what is common is not.
func TestTheRarestIsNamed(t *testing.T) {
	d := camp(0, 1, 2, 3)
	d.Tasks[0].Mishap = &sim.Mishap{Chance: 0.05, Adds: draw.Fixed(1000)}
	d.Tasks[2].Mishap = &sim.Mishap{Chance: 0.01, Adds: draw.Fixed(1000)}
	d.Weather = []sim.WeatherCase{{Name: "calm", Weight: 98}, {Name: "storm", Weight: 2}}
	got := compare.RarestOf(d, 400)
	if got == nil || *got != (compare.Rare{Name: "pitch", Expected: 4, Enough: 4000}) {
		t.Errorf("of 400 runs %+v, want the mishap of pitch, expected in 4, enough 4,000", got)
	}
	if got := compare.RarestOf(d, 4000); got != nil {
		t.Errorf("of 4,000 runs %+v, want nothing", got)
	}
	d.Tasks[2].Mishap = nil
	if got := compare.RarestOf(d, 1000); got == nil || !got.Weather || got.Name != "storm" {
		t.Errorf("of 1,000 runs %+v, want the storm", got)
	}
}

// A rare mishap keeps what is close in doubt, and not what it cannot turn round: one
// in a hundred that costs ten minutes moves a mean by seconds, not by half an hour.
func TestWhatARareMishapCannotTurnRoundIsTold(t *testing.T) {
	for _, c := range []struct {
		sooner sim.Time
		ahead  int
		doubt  string
	}{
		{30 * sim.Minute, -1, ""},
		{10 * sim.Second, 0, stats.WhyRare},
	} {
		d := camp(0, 1, 2, 3)
		d.Tasks[0].Mishap = &sim.Mishap{Chance: 0.01, Adds: draw.Fixed(float64(10 * sim.Minute)), AtMost: 1}
		rng := rand.New(rand.NewPCG(7, 7))
		a, b := make([]sim.Time, 500), make([]sim.Time, 500)
		for i := range a {
			a[i] = sim.Hour + sim.Time(rng.NormFloat64()*1000)
			b[i] = sim.Hour + c.sooner + sim.Time(rng.NormFloat64()*1000)
		}
		d.Milestones = d.Milestones[:1]
		diff := compare.Stand([]*compare.Played{{Drill: d, Times: [][]sim.Time{a}}, {Drill: d, Times: [][]sim.Time{b}}}, []int{0}).Matches[0][0].Diff
		if diff.Ahead() != c.ahead || diff.Doubt != c.doubt {
			t.Errorf("%v sooner: ahead %d, doubt %q; want %d, %q", c.sooner, diff.Ahead(), diff.Doubt, c.ahead, c.doubt)
		}
		d.Weather = []sim.WeatherCase{{Name: "calm", Weight: 98}, {Name: "storm", Weight: 2}}
		if why := compare.DoubtfulForRare(d, d, diff); why != stats.WhyRare {
			t.Errorf("%v sooner, with a rare storm: doubt %q, want %q", c.sooner, why, stats.WhyRare)
		}
	}
}
