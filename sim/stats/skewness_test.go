package stats

import (
	"math"
	"testing"

	"warmby/sim"
)

// A share p of ones has skewness (1 - 2p) / sqrt(p (1-p)): of 1 in 100 it is 9.849,
// and a mean needs 25 times its square, 2,425.3.
func TestSkewnessOfWhatIsRare(t *testing.T) {
	times := make([]sim.Time, 100)
	var h Histogram
	times[17] = 90 * sim.Second
	for _, at := range times {
		h.Add(at)
	}
	times = append(times, sim.Never) // counts for nothing
	want := 0.98 / math.Sqrt(0.0099)
	for what, got := range map[string]float64{"moments": SkewnessOf(times), "seconds": h.Skewness()} {
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: skewness %v, want %v", what, got, want)
		}
		if n := EnoughFor(got); n != 2426 {
			t.Errorf("%s: %d runs would do, want 2,426", what, n)
		}
	}
	if got := SkewnessOf(times[:10]); got != 0 {
		t.Errorf("all equal: skewness %v, want 0", got)
	}
	if got := SkewnessOf(nil); got != 0 {
		t.Errorf("of nothing: skewness %v, want 0", got)
	}
}
