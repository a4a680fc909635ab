package stats

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"warmby/internal/thorough"
	"warmby/sim"
)

// Complete response before and after a therapy: M. W. Fagerland, S. Lydersen and
// P. Laake, Statistical Analysis of Contingency Tables (2017), chapter 8, has
// -0.0621 (-0.1186 to -0.0046) of the table 59, 6, 16, 80.
func TestPairedSharesAsPublished(t *testing.T) {
	g := Fourfold{Both: 59, OnlyA: 6, OnlyB: 16, Neither: 80}.Gap()
	for _, v := range []struct{ got, want float64 }{{g.Value, -0.0621}, {g.Low, -0.1186}, {g.High, -0.0046}} {
		if math.Abs(v.got-v.want) > 0.00006 {
			t.Errorf("%+v, want -0.0621 (-0.1186 to -0.0046)", g)
		}
	}
	if back := (Fourfold{59, 16, 6, 80}).Gap().Turned(); back != g {
		t.Errorf("turned %+v, want %+v", back, g)
	}
}

// Two orders of which one is in time in a share a of the runs, the other in b,
// and both in both: that many runs, so many batches.
func TestPairedSharesHoldTheTruth(t *testing.T) {
	batches, sizes := thorough.Cases(1000, 4000), []int{100, 500, 2000}
	for _, n := range sizes {
		for _, p := range []struct{ a, b, both float64 }{
			{0.5, 0.5, 0.25}, {0.5, 0.5, 0.45}, {0.8, 0.7, 0.65}, {0.9, 0.9, 0.88}, {0.95, 0.85, 0.84}, {0.3, 0.05, 0.04}, {0.7, 0.65, 0.65},
		} {
			r := rand.New(rand.NewPCG(uint64(n), uint64(1000*p.both)))
			var c covers
			for range batches {
				var f Fourfold
				for range n {
					u := r.Float64()
					f.Add(u < p.a, u < p.both || u >= p.a && u < p.a+p.b-p.both)
				}
				g := f.Gap()
				c.add(g.Low <= p.a-p.b && p.a-p.b <= g.High)
			}
			// Never far under 95 %; over it where few runs differ, for those are whole.
			c.check(t, fmt.Sprintf("%d runs, %+v", n, p), 0.935, 0.99)
		}
	}
}

// pairLaws are two orders that meet the same luck: how far they go together, and
// what of it is a mishap or the longer of two branches.
var pairLaws = []struct {
	name string
	draw func(r *rand.Rand) (a, b float64)
}{
	{"nothing in common", func(r *rand.Rand) (a, b float64) { return r.ExpFloat64(), r.ExpFloat64() }},
	{"half in common", func(r *rand.Rand) (a, b float64) {
		luck := longish(r, 0.5)
		return luck + longish(r, 0.5), luck + longish(r, 0.5)
	}},
	{"most in common", func(r *rand.Rand) (a, b float64) {
		luck := longish(r, 0.6)
		return luck + longish(r, 0.6)/5, luck + longish(r, 0.6)/5
	}},
	{"a mishap in 20", func(r *rand.Rand) (a, b float64) {
		luck := 9 + r.NormFloat64()
		a, b = luck+0.3*r.NormFloat64(), luck+0.3*r.NormFloat64()
		if r.Float64() < 0.05 {
			a, b = a+5, b+5
		}
		if r.Float64() < 0.05 {
			a += 5
		}
		return a, b
	}},
	{"the longer of two", func(r *rand.Rand) (a, b float64) {
		luck := longish(r, 0.5)
		return luck, max(luck, longish(r, 0.5))
	}},
	{"mostly the same", func(r *rand.Rand) (a, b float64) {
		luck := longish(r, 0.5)
		if r.Float64() < 0.9 {
			return luck, luck
		}
		return luck, luck + r.ExpFloat64()
	}},
}

func longish(r *rand.Rand, sigma float64) float64 { return math.Exp(sigma * r.NormFloat64()) }

// The interval assumes no shape, so it must hold for every law; it may hold too
// often where two orders go closely together, which is said.
func TestQuantileGapsHoldTheTruth(t *testing.T) {
	batches, sizes := thorough.Cases(200, 1000), []int{100, 500, 2000}[:thorough.Cases(1, 3)]
	for _, law := range pairLaws {
		truth := trueGaps(law.draw)
		for _, n := range sizes {
			r := rand.New(rand.NewPCG(uint64(n), 17))
			held := make([]covers, len(gapQuantiles))
			for range batches {
				a, b := pairsOf(r, law.draw, n)
				x, y := SortedOf(a), SortedOf(b)
				for k, p := range gapQuantiles {
					g := QuantileGapOf(a, b, QuantileOf(x, p), QuantileOf(y, p))
					held[k].add((g.LowOpen || g.Low <= truth[k]) && (g.HighOpen || truth[k] <= g.High))
				}
			}
			for k, p := range gapQuantiles {
				held[k].check(t, fmt.Sprintf("%s, %d runs, quantile %g", law.name, n, p), 0.935, 1)
			}
		}
	}
}

var gapQuantiles = []float64{0.5, 0.8, 0.9, 0.95}

func pairsOf(r *rand.Rand, draw func(*rand.Rand) (a, b float64), n int) (a, b []sim.Time) {
	for range n {
		x, y := draw(r)
		a, b = append(a, sim.Milliseconds(x*600_000)), append(b, sim.Milliseconds(y*600_000))
	}
	return a, b
}

// trueGaps are the differences of the quantiles of a million pairs.
func trueGaps(draw func(*rand.Rand) (a, b float64)) (gaps []sim.Time) {
	a, b := pairsOf(rand.New(rand.NewPCG(9, 9)), draw, 1_000_000)
	slices.Sort(a)
	slices.Sort(b)
	for _, p := range gapQuantiles {
		k := rankOf(int64(len(a)), p)
		gaps = append(gaps, a[k-1]-b[k-1])
	}
	return gaps
}

func TestQuantileGapsAtTheEdges(t *testing.T) {
	gap := func(a, b []sim.Time, p float64) QuantileGap {
		return QuantileGapOf(a, b, QuantileOf(SortedOf(a), p), QuantileOf(SortedOf(b), p))
	}
	var same, late []sim.Time
	for run := range 200 {
		same, late = append(same, sim.Time(run)*sim.Second), append(late, sim.Time(run+60)*sim.Second)
	}
	if g := gap(same, same, 0.9); g.Value != 0 || g.Low != 0 || g.High != 0 {
		t.Errorf("the same in every run: %+v, want 0 and no doubt", g)
	}
	if g := gap(late, same, 0.9); g.Value != sim.Minute || g.Low != sim.Minute || g.High != sim.Minute {
		t.Errorf("a minute later in every run: %+v, want that and no doubt", g)
	}
	late[3], late[5] = late[3]+sim.Hour, 0
	g := gap(late, same, 0.9)
	if g.Value != 61*sim.Second || !(g.Low < sim.Minute && g.High > sim.Minute) { // two less below it, one more
		t.Errorf("a minute later in most runs: %+v", g)
	}
	if back := gap(same, late, 0.9).Turned(); back != g {
		t.Errorf("turned %+v, want %+v", back, g)
	}
	never := slices.Clone(late)
	for run := range 30 {
		never[run] = sim.Never
	}
	if g := gap(never, same, 0.9); g.OK() || g.Why == "" {
		t.Errorf("never in 30 of 200 runs: %+v, want no difference of the 9 in 10", g)
	}
	for run := 18; run < 30; run++ {
		never[run] = late[run]
	}
	if g := gap(never, same, 0.9); !g.OK() || g.LowOpen || !g.HighOpen {
		t.Errorf("never in 18 of 200 runs: %+v, want a difference that is open above", g)
	}
	if g := gap(late[:20], same[:20], 0.95); g.Low != -5*sim.Second || g.High != sim.Hour+sim.Minute || g.Warning == "" {
		t.Errorf("19 in 20 of 20 runs: %+v, want what is seen in any run, and a warning", g)
	}
}
