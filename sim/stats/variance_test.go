package stats_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"warmby/sim/stats"
)

// The function of Ishigami and Homma (1990) with a = 7 and b = 0.1, whose shares
// of variance are known: see I. M. Sobol and Y. L. Levitan, Comput. Phys. Commun.
// 117 (1999) 52-61. By hand, with V1 = (1 + b pi^4/5)^2/2, V2 = a^2/8 and
// V13 = b^2 pi^8 8/225.
func ishigami(x [3]float64) float64 {
	return math.Sin(x[0]) + 7*math.Pow(math.Sin(x[1]), 2) + 0.1*math.Pow(x[2], 4)*math.Sin(x[0])
}

func ishigamiShares() (first, total [3]float64) {
	const a, b = 7.0, 0.1
	p := math.Pi
	v1, v2 := math.Pow(1+b*math.Pow(p, 4)/5, 2)/2, a*a/8
	v13 := b * b * math.Pow(p, 8) * 8 / 225
	v := v1 + v2 + v13
	return [3]float64{v1 / v, v2 / v, 0}, [3]float64{(v1 + v13) / v, v2 / v, v13 / v}
}

// shared works out the shares of n runs of the function, totals from the first
// m of them.
func shared(rng *rand.Rand, n, m int) (first, total [3]stats.VarianceShare, explained stats.VarianceShare) {
	x, y := make([][3]float64, n), make([]float64, n)
	angle := func() float64 { return math.Pi * (2*rng.Float64() - 1) }
	for i := range x {
		x[i] = [3]float64{angle(), angle(), angle()}
		y[i] = 1000 + ishigami(x[i])
	}
	s := stats.NewShares(y)
	for k := range first {
		bin, again := make([]int, n), make([]float64, m)
		for i := range bin {
			bin[i] = int(20 * (x[i][k] + math.Pi) / (2 * math.Pi))
		}
		for i := range again {
			other := x[i]
			other[k] = angle()
			again[i] = 1000 + ishigami(other)
		}
		first[k], total[k] = s.First(bin), s.Total(y, again)
	}
	return first, total, s.Explained()
}

func TestSharesOfVarianceOfAKnownFunction(t *testing.T) {
	wantFirst, wantTotal := ishigamiShares()
	first, total, explained := shared(rand.New(rand.NewPCG(1, 2)), 50_000, 50_000)
	for k := range first {
		// Classes of a twentieth take 0.014 from the second, which goes up and down
		// four times.
		if math.Abs(first[k].Value-wantFirst[k]) > 0.02 {
			t.Errorf("factor %d alone holds %+v, want %.4f", k+1, first[k], wantFirst[k])
		}
		if math.Abs(total[k].Value-wantTotal[k]) > 0.012 {
			t.Errorf("factor %d in all holds %+v, want %.4f", k+1, total[k], wantTotal[k])
		}
	}
	if want := wantFirst[0] + wantFirst[1]; math.Abs(explained.Value-want) > 0.02 {
		t.Errorf("all alone hold %+v, want %.4f", explained, want)
	}
}

// Intervals hold as often as they say, within what 300 tries tell: of 95 %
// between 91 and 98.5 %.
func TestIntervalsOfSharesOfVarianceHold(t *testing.T) {
	wantFirst, wantTotal := ishigamiShares()
	rng := rand.New(rand.NewPCG(3, 4))
	const tries = 300
	var inFirst, inTotal [3]int
	for range tries {
		first, total, _ := shared(rng, 1000, 250)
		for k := range first {
			if first[k].Low <= wantFirst[k] && wantFirst[k] <= first[k].High {
				inFirst[k]++
			}
			if total[k].Low <= wantTotal[k] && wantTotal[k] <= total[k].High {
				inTotal[k]++
			}
		}
	}
	for k := range inFirst {
		for what, n := range map[string]int{"first": inFirst[k], "total": inTotal[k]} {
			if share := float64(n) / tries; share < 0.91 || k < 2 && share > 0.985 {
				t.Errorf("factor %d: the interval of %s holds in %.3f of %d tries", k+1, what, share, tries)
			}
		}
	}
}

func TestSharesNeedRunsThatDiffer(t *testing.T) {
	if stats.NewShares(make([]float64, 1000)) != nil {
		t.Error("shares of what is always the same")
	}
	if stats.NewShares([]float64{1, 2, 3}) != nil {
		t.Error("shares of three runs")
	}
}
