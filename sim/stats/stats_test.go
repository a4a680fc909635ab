package stats

import (
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"warmby/sim"
)

// moments draws moments, some of which never come.
func moments(t *rapid.T) []sim.Time {
	return rapid.SliceOf(rapid.Custom(func(t *rapid.T) sim.Time {
		if rapid.IntRange(0, 20).Draw(t, "never") == 0 {
			return sim.Never
		}
		return sim.Time(rapid.Int64Range(0, int64(sim.Horizon)).Draw(t, "at"))
	})).Draw(t, "moments")
}

// Parts may be put together in any order and any grouping.
func TestMergingIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := moments(t)
		var tally Tally
		var whole Histogram
		var pair Paired
		for i, at := range all {
			tally.Add(at)
			whole.Add(at)
			pair.Add(at, all[len(all)-1-i])
		}
		parts := rapid.IntRange(1, 7).Draw(t, "parts")
		tallies, histograms, pairs := make([]Tally, parts), make([]Histogram, parts), make([]Paired, parts)
		for i, at := range all {
			part := rapid.IntRange(0, parts-1).Draw(t, "part")
			tallies[part].Add(at)
			histograms[part].Add(at)
			pairs[part].Add(at, all[len(all)-1-i])
		}
		var mergedTally Tally
		var mergedPair Paired
		var merged Histogram
		for _, part := range rapid.Permutation(indices(parts)).Draw(t, "order") {
			mergedTally.Merge(tallies[part])
			merged.Merge(&histograms[part])
			mergedPair.Merge(pairs[part])
		}
		if mergedTally != tally {
			t.Errorf("merged tally %+v, want %+v", mergedTally, tally)
		}
		if mergedPair != pair {
			t.Errorf("merged pair %+v, want %+v", mergedPair, pair)
		}
		if merged.Runs != whole.Runs || merged.Never != whole.Never || !slices.Equal(merged.Counts, whole.Counts) {
			t.Errorf("merged histogram differs")
		}
	})
}

func indices(n int) []int {
	s := make([]int, n)
	for i := range s {
		s[i] = i
	}
	return s
}

// A histogram of moments in whole seconds has the very quantiles of the moments.
func TestHistogramAgreesWithSortedMoments(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := moments(t)
		if len(all) == 0 {
			return
		}
		var h Histogram
		for i, at := range all {
			if at != sim.Never {
				all[i] = at / sim.Second * sim.Second
			}
			h.Add(all[i])
		}
		p := rapid.Float64Range(0.01, 0.99).Draw(t, "p")
		if got, want := QuantileOf(&h, p), QuantileOf(SortedOf(all), p); got != want {
			t.Errorf("quantile %g: %+v of the histogram, %+v of the moments", p, got, want)
		}
	})
}

// Sums of squares at the edge of what 64 bits hold.
func TestTallyCarriesSquaresPastSixtyFourBits(t *testing.T) {
	var all Tally
	const big = 3_000_000_000 // its square is 9e18; three of them pass 2^64
	for range 4 {
		all.Add(big)
		all.Add(-big)
	}
	// Eight values of magnitude b around 0: variance 8 b^2 / 7.
	if got, want := all.SD(), big*math.Sqrt(8.0/7); math.Abs(got/want-1) > 1e-15 {
		t.Errorf("SD = %.17g, want %.17g", got, want)
	}
	if m := all.Mean(); m.Value != 0 {
		t.Errorf("mean = %g, want 0", m.Value)
	}
}

func TestMeanIntervalAgainstHandWork(t *testing.T) {
	var all Tally
	for _, x := range []sim.Time{2, 4, 4, 4, 5, 5, 7, 9} {
		all.Add(x)
	}
	// Mean 5, squares about it 32, sd sqrt(32/7); t(0.975, 7) = 2.364624
	// (Student's t table, e.g. Abramowitz and Stegun table 26.10: 2.365).
	m := all.Mean()
	half := 2.364624 * math.Sqrt(32.0/7/8)
	if math.Abs(m.Value-5) > 1e-12 || math.Abs(m.Low-(5-half)) > 1e-5 || math.Abs(m.High-(5+half)) > 1e-5 {
		t.Errorf("mean %g (%g to %g), want 5 (%g to %g)", m.Value, m.Low, m.High, 5-half, 5+half)
	}
	if m.Warning == "" {
		t.Error("eight runs come without a warning")
	}
}

func TestNoMeanWhenARunNeverGetsThere(t *testing.T) {
	var all Tally
	for range 199 {
		all.Add(sim.Minute)
	}
	all.Add(sim.Never)
	m := all.Mean()
	if m.OK() || !math.IsNaN(m.Value) || !math.IsNaN(m.Low) || m.Why != "never reached in 1 of 200 runs" {
		t.Errorf("mean %+v, want none, with the reason", m)
	}
}

func TestNeverIsInfinitelyLateInQuantiles(t *testing.T) {
	var all []sim.Time
	for i := range 1000 {
		at := sim.Time(i) * sim.Second
		if i >= 850 {
			at = sim.Never
		}
		all = append(all, at)
	}
	s := SortedOf(all)
	if q := QuantileOf(s, 0.8); q.Value != 799*sim.Second || q.High == sim.Never {
		t.Errorf("p80 = %v up to %v, want 799 s with an upper end", q.Value, q.High)
	}
	if q := QuantileOf(s, 0.84); q.Value != 839*sim.Second || q.High != sim.Never || q.HighOpen {
		t.Errorf("p84 = %v up to %v (open %v), want 839 s up to never, told by the runs", q.Value, q.High, q.HighOpen)
	}
	if q := QuantileOf(s, 0.9); q.Value != sim.Never || q.Low != sim.Never {
		t.Errorf("p90 = %v from %v, want never", q.Value, q.Low)
	}
}

// Ranks for the median, worked from the binomial: of 10 the 2nd and 9th (97.9 %;
// the 3rd would leave 6.5 %), of 20 the 6th and 15th (95.9 %), of 100 the 41st
// and 61st (2.84 % and 1.76 % outside).
func TestQuantileRanks(t *testing.T) {
	for _, c := range []struct {
		n         int64
		p         float64
		low, high int64
	}{
		{10, 0.5, 2, 9}, {20, 0.5, 6, 15}, {100, 0.5, 41, 61},
		{5, 0.5, 0, 6},     // 2^-5 on each side is over 2.5 %: both open
		{20, 0.95, 17, 21}, // 0.95^20 = 0.36: no upper end
	} {
		if low, high := ranks(c.n, c.p, Level); low != c.low || high != c.high {
			t.Errorf("ranks for %g of %d runs: %d and %d, want %d and %d", c.p, c.n, low, high, c.low, c.high)
		}
	}
	for _, c := range []struct {
		n    int64
		p    float64
		want int64
	}{{10, 0.9, 9}, {1000, 0.95, 950}, {3, 0.5, 2}, {1, 0.01, 1}, {100, 0.07, 7}} {
		if got := rankOf(c.n, c.p); got != c.want {
			t.Errorf("rankOf(%d, %g) = %d, want %d", c.n, c.p, got, c.want)
		}
	}
}

// The ranks of a median worked out with integers: chances are counts of 2^n. Both
// tails are equal there, and the last bit of a sum may decide nothing.
func TestMedianRanksAreExact(t *testing.T) {
	for n := int64(10); n <= 600; n++ {
		wantLow, wantHigh := exactRanks(n)
		if low, high := ranks(n, 0.5, Level); low != wantLow || high != wantHigh {
			t.Errorf("ranks for the median of %d runs: %d and %d, want %d and %d", n, low, high, wantLow, wantHigh)
		}
	}
}

// exactRanks returns the lowest rank k with more than 2.5 % of the 2^n outcomes at
// or under it, or the next if one of the two tails, which are alike, may be longer
// by one rank: the lower one is cut then. The upper end lies as deep from above.
func exactRanks(n int64) (low, high int64) {
	whole := new(big.Int).Lsh(big.NewInt(1), uint(n))
	over := func(sum *big.Int, of int64) bool { // sum > whole / of
		return new(big.Int).Mul(sum, big.NewInt(of)).Cmp(whole) > 0
	}
	k, below, term := int64(0), new(big.Int), big.NewInt(1)
	for {
		upTo := new(big.Int).Add(below, term)
		if over(upTo, 40) {
			high = n + 1 - k
			if k >= 1 && !over(upTo.Add(upTo, below), 20) {
				k++
			}
			return k, high
		}
		below = upTo
		term.Mul(term, big.NewInt(n-k)).Quo(term, big.NewInt(k+1))
		k++
	}
}

// The ends of the exact interval are where the binomial tails are 2.5 %: by the
// incomplete beta function, and for none of n by hand.
func TestClopperPearsonAgainstBeta(t *testing.T) {
	for _, c := range [][2]int64{{0, 10}, {1, 10}, {5, 10}, {10, 10}, {3, 2000}, {1994, 2000}, {83, 100}} {
		k, n := float64(c[0]), float64(c[1])
		low, high := ClopperPearson(c[0], c[1], 0.95)
		if c[0] == 0 {
			if low != 0 || math.Abs(high-(1-math.Pow(0.025, 1/n))) > 1e-12 {
				t.Errorf("none of %g: %g to %g", n, low, high)
			}
			continue
		}
		if got := mathext.RegIncBeta(k, n-k+1, low); math.Abs(got-0.025) > 1e-10 {
			t.Errorf("%g of %g: low end %g leaves %g, want 0.025", k, n, low, got)
		}
		if c[0] < c[1] {
			if got := mathext.RegIncBeta(k+1, n-k, high); math.Abs(got-0.975) > 1e-10 {
				t.Errorf("%g of %g: high end %g leaves %g, want 0.975", k, n, high, got)
			}
		} else if high != 1 {
			t.Errorf("all of %g: high end %g, want 1", n, high)
		}
	}
}

// E[max of n] of independent laws: SCHEDULING-CHECKS, merge-event bias: mu + k
// sigma for normal ones (k 0.56419, 0.84628, 1.02938, 1.16296), n/(n+1) for
// uniform ones, 1 + 1/2 + .. + 1/n for exponential ones.
func TestMergeBiasOfMaxima(t *testing.T) {
	const n, errors = 200_000, 3.5 // runs; standard errors allowed, for 12 checks
	r := rand.New(rand.NewPCG(9, 10))
	normal := func() float64 { return 100 + 10*distuv.UnitNormal.Quantile(r.Float64()) }
	exponential := func() float64 { return -math.Log(1 - r.Float64()) }
	for _, c := range []struct {
		name string
		draw func() float64
		of   int
		want float64
	}{
		{"normal", normal, 2, 100 + 5.6419}, {"normal", normal, 3, 100 + 8.4628},
		{"normal", normal, 4, 100 + 10.2938}, {"normal", normal, 5, 100 + 11.6296},
		{"uniform", r.Float64, 2, 2.0 / 3}, {"uniform", r.Float64, 3, 0.75}, {"uniform", r.Float64, 5, 5.0 / 6},
		{"exponential", exponential, 2, 1.5}, {"exponential", exponential, 3, 11.0 / 6},
		{"exponential", exponential, 4, 25.0 / 12}, {"exponential", exponential, 5, 137.0 / 60},
	} {
		const unit = 1e6 // so that rounding to whole milliseconds does not count
		var all Tally
		for range n {
			most := c.draw()
			for range c.of - 1 {
				most = max(most, c.draw())
			}
			all.Add(sim.Time(math.Round(most * unit)))
		}
		m := all.Mean()
		if got := m.Value / unit; math.Abs(got-c.want) > errors*m.SD/unit/math.Sqrt(n) {
			t.Errorf("mean of the latest of %d %s: %.5f, want %.5f", c.of, c.name, got, c.want)
		}
	}
}

func TestHolmAgainstHandWork(t *testing.T) {
	// 4 x 0.01, 3 x 0.015, 2 x 0.03, 1 x 0.04 raised to what stands before it.
	got := Holm([]float64{0.03, 0.01, 0.04, 0.015})
	want := []float64{0.06, 0.04, 0.06, 0.045}
	for i := range want {
		if math.Abs(got[i]-want[i]) > 1e-15 {
			t.Errorf("Holm p values %v, want %v", got, want)
		}
	}
	if got := Holm([]float64{0.6, 0.9}); got[0] != 1 || got[1] != 1 {
		t.Errorf("Holm p values %v, want no more than 1", got)
	}
}

func TestPairedCountsWhoIsSooner(t *testing.T) {
	var p Paired
	for range 100 {
		p.Add(sim.Minute, 3*sim.Minute)
	}
	p.Add(sim.Minute, sim.Minute)
	d := p.Difference()
	if d.ASooner.Count != 100 || d.BSooner.Count != 0 || d.Ahead() != -1 {
		t.Errorf("difference %+v, want a sooner in 100 of 101 runs, and ahead", d)
	}
	p.Add(sim.Minute, sim.Never) // a comes, b never
	p.Add(sim.Never, sim.Never)
	d = p.Difference()
	if d.ASooner.Count != 101 || d.Mean.OK() || d.Ahead() != 0 {
		t.Errorf("difference %+v, want a sooner in 101 and no mean", d)
	}
	if want := "never reached in 1 runs of the one and 2 of the other, of 103"; d.Mean.Why != want {
		t.Errorf("why no mean: %q, want %q", d.Mean.Why, want)
	}
}

func TestFewRunsNeverPutAnOrderAhead(t *testing.T) {
	var p Paired
	for range FewRuns - 1 {
		p.Add(sim.Minute, sim.Hour)
	}
	d := p.Difference()
	if d.Ahead() != 0 || d.Mean.Warning == "" || d.ASooner.Warning == "" {
		t.Errorf("99 runs: ahead %d, warnings %q and %q; want 0 and two warnings", d.Ahead(), d.Mean.Warning, d.ASooner.Warning)
	}
	p.Add(sim.Minute, sim.Hour)
	if d := p.Difference(); d.Ahead() != -1 || d.Mean.Warning != "" {
		t.Errorf("100 runs: ahead %d, warning %q; want -1 and none", d.Ahead(), d.Mean.Warning)
	}
}

// Ranks with ties, and the coefficient against the plain correlation of ranks
// by gonum.
func TestSpearman(t *testing.T) {
	a := []sim.Time{10, 20, 20, 40, 50, 60}
	if got, want := Ranks(a), []float64{1, 2.5, 2.5, 4, 5, 6}; !slices.Equal(got, want) {
		t.Errorf("Ranks = %v, want %v", got, want)
	}
	b := []sim.Time{3, 1, 2, 5, 4, sim.Never}
	got := Spearman(Ranks(a), Ranks(b))
	if want := stat.Correlation(Ranks(a), Ranks(b), nil); math.Abs(got.Value-want) > 1e-12 {
		t.Errorf("Spearman = %g, want %g", got.Value, want)
	}
	if !(got.Low < got.Value && got.Value < got.High) {
		t.Errorf("interval %g to %g does not hold %g", got.Low, got.High, got.Value)
	}
	if c := Spearman(Ranks(a), Ranks(make([]sim.Time, 6))); c.OK() {
		t.Errorf("correlation with what is always the same: %+v, want none", c)
	}
}

// The critical value of the limiting distribution at 5 % is 1.3581 (Smirnov's
// table, 1948), at 1 % 1.6276.
func TestKolmogorovSmirnov(t *testing.T) {
	for x, want := range map[float64]float64{1.3581: 0.05, 1.6276: 0.01, 0.8276: 0.5} {
		if got := kolmogorov(x); math.Abs(got-want) > 5e-5 {
			t.Errorf("kolmogorov(%g) = %.5f, want %.5f", x, got, want)
		}
	}
	uniform := func(x float64) float64 { return x }
	if d, _ := KS([]float64{0.1, 0.4, 0.7}, uniform); math.Abs(d-0.3) > 1e-12 {
		t.Errorf("distance = %g, want 0.3 by hand", d)
	}
	r := rand.New(rand.NewPCG(11, 12))
	refused := 0
	for range 1000 {
		xs := make([]float64, 100)
		for i := range xs {
			xs[i] = r.Float64()
		}
		slices.Sort(xs)
		if _, p := KS(xs, uniform); p < 0.05 {
			refused++
		}
	}
	if refused < 30 || refused > 70 { // 50 expected, sd 6.9
		t.Errorf("%d of 1000 uniform samples refused at 5 %%, want about 50", refused)
	}
}

func TestRatioOfNothing(t *testing.T) {
	if r := RatioOf([]sim.Time{1, 2}, []sim.Time{0, 0}); r.OK() {
		t.Errorf("ratio to nothing: %+v, want none", r)
	}
	// 30 s won for each minute given, always: no doubt at all.
	r := RatioOf([]sim.Time{30000, 15000}, []sim.Time{60000, 30000})
	if r.Value != 0.5 || r.Low != 0.5 || r.High != 0.5 || r.Warning == "" {
		t.Errorf("ratio %+v, want 0.5 exactly, with a warning of few runs", r)
	}
}
