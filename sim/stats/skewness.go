package stats

import (
	"iter"
	"math"

	"warmby/sim"
)

// Enough is how often something must be seen before a mean knows it. A mean of n
// values with skewness g has a fair interval from n = 25 g^2 on (W. G. Cochran,
// Sampling Techniques, 3rd ed., 2.15), and what happens with a small chance p has
// skewness 1/sqrt(p).
const Enough = 25

// EnoughFor returns how many runs a mean of values with some skewness needs.
func EnoughFor(skewness float64) int64 {
	return int64(math.Ceil(float64(Enough * float64(skewness*skewness))))
}

// Skewness returns the third standardised moment of values, each counted as often
// as is said; 0 when all are equal.
func Skewness(values iter.Seq2[float64, int64]) float64 {
	var n, mean float64
	for v, times := range values {
		n, mean = n+float64(times), mean+float64(v*float64(times))
	}
	mean /= n
	var squares, cubes float64
	for v, times := range values {
		d := v - mean
		squares += float64(float64(d*d) * float64(times))
		cubes += float64(float64(float64(d*d)*d) * float64(times))
	}
	if squares == 0 {
		return 0
	}
	return cubes / n / math.Pow(squares/n, 1.5)
}

// Skewness returns that of the moments that come.
func (h *Histogram) Skewness() float64 {
	return Skewness(func(yield func(float64, int64) bool) {
		for second, n := range h.Counts {
			if n > 0 && !yield(float64(second), n) {
				return
			}
		}
	})
}

// SkewnessOf returns that of moments or lengths that come.
func SkewnessOf(times []sim.Time) float64 {
	return Skewness(func(yield func(float64, int64) bool) {
		for _, at := range times {
			if at != sim.Never && !yield(float64(at), 1) {
				return
			}
		}
	})
}
