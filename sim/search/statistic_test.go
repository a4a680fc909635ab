package search

import (
	"math"
	"math/rand/v2"
	"testing"

	"warmby/sim"
)

// Intervals of differences hold the true difference in about 95 of 100
// batches. Moments are 60 + 10 (Z + W) and 57 + 10 (Z + W') minutes with Z, W
// normal, so that both have the same shape and every quantile lies 3 minutes
// apart.
func TestIntervalsOfDifferencesCover(t *testing.T) {
	const batches, runs = 2000, 400
	random := rand.New(rand.NewPCG(11, 12))
	for _, s := range []Statistic{Mean, Quantile(0.5), Quantile(0.8), Quantile(0.95)} {
		covered := 0
		for range batches {
			a, b := make([]sim.Time, runs), make([]sim.Time, runs)
			for k := range a {
				z := random.NormFloat64()
				a[k] = sim.Milliseconds(60000 * (60 + 10*(z+random.NormFloat64())))
				b[k] = sim.Milliseconds(60000 * (57 + 10*(z+random.NormFloat64())))
			}
			va, ia := s.influence(a, nil)
			vb, ib := s.influence(b, nil)
			d := differ(va, vb, ia, ib)
			if math.Abs(d.mean-3*60000) <= d.half(0.95) {
				covered++
			}
		}
		// Five standard errors of a share of 0.95 in 2000 are 2.4 points; that
		// of a quantile is an approximation, and is granted one more.
		if share := float64(covered) / batches; share < 0.915 || share > 0.985 {
			t.Errorf("%v: %.3f of the intervals hold the difference, want 0.95", s, share)
		}
	}
}

func TestStatisticsOfNever(t *testing.T) {
	times := []sim.Time{10, 20, 30, sim.Never}
	for s, want := range map[Statistic]float64{Mean: math.Inf(1), Quantile(0.5): 20, Quantile(0.75): 30, Quantile(0.8): math.Inf(1)} {
		if got := s.Of(times); got != want {
			t.Errorf("%v of %v = %v, want %v", s, times, got, want)
		}
	}
}

func TestHolmAdjusts(t *testing.T) {
	got := holm([]float64{0.04, 0.01, 0.03})
	for i, want := range []float64{0.06, 0.03, 0.06} {
		if math.Abs(got[i]-want) > 1e-12 {
			t.Errorf("holm = %v, want 0.06 0.03 0.06", got)
			break
		}
	}
}

// With so few runs that a quantile is the last of them nothing tells how far it
// may be off: there is no interval, and no difference is told.
func TestQuantileThatIsTheLastOfAllHasNoInterval(t *testing.T) {
	a, b := []sim.Time{1, 2, 3, 4, 5, 6, 7, 8, 9}, []sim.Time{11, 12, 13, 14, 15, 16, 17, 18, 19}
	for _, c := range []struct {
		p    Statistic
		told bool
	}{{Quantile(0.5), true}, {Quantile(0.9), false}, {Quantile(0.95), false}} {
		x, inX := c.p.influence(a, nil)
		y, inY := c.p.influence(b, nil)
		d := differ(y, x, inY, inX)
		if d.mean != 10 || (d.p() < 0.05) != c.told || math.IsInf(d.half(0.95), 1) == c.told {
			t.Errorf("%s: %v later, p %v, half an interval %v; want 10, told %t", c.p, d.mean, d.p(), d.half(0.95), c.told)
		}
	}
}
