package stats

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"warmby/sim"
)

// Ranks returns the rank of each value, counted from 1; equals share the middle
// of their ranks.
func Ranks(values []sim.Time) []float64 {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(values[a], values[b]), cmp.Compare(a, b))
	})
	ranks := make([]float64, len(values))
	for from := 0; from < len(order); {
		to := from + 1
		for to < len(order) && values[order[to]] == values[order[from]] {
			to++
		}
		for _, i := range order[from:to] {
			ranks[i] = float64(from+1+to) / 2
		}
		from = to
	}
	return ranks
}

// Correlation is a rank correlation with its interval, -1 to 1.
type Correlation struct {
	Value, Low, High float64 // NaN when there is none; Why says why not then
	Runs             int64
	Why              string
	Warning          string // about few runs; may be empty
}

// OK reports whether there is a correlation.
func (c Correlation) OK() bool { return c.Why == "" }

// Spearman returns the rank correlation of two rows of [Ranks], with its 95 %
// interval by Fisher's transformation and the standard error
// sqrt((1 + r^2/2) / (n - 3)) (D. G. Bonett and T. A. Wright, Psychometrika 65
// (2000) 23-28). What never comes ranks last.
func Spearman(a, b []float64) Correlation {
	if len(a) != len(b) {
		panic(fmt.Sprintf("stats: correlation of %d ranks with %d", len(a), len(b)))
	}
	n := len(a)
	nan := math.NaN()
	c := Correlation{nan, nan, nan, int64(n), "", fewRuns(int64(n))}
	mid := float64(n+1) / 2
	var ab, aa, bb float64
	for i := range a {
		x, y := a[i]-mid, b[i]-mid
		ab += float64(x * y)
		aa += float64(x * x)
		bb += float64(y * y)
	}
	if aa == 0 || bb == 0 {
		c.Why = "it is the same in every run"
		return c
	}
	c.Value = max(-1, min(1, ab/math.Sqrt(aa*bb)))
	c.Low, c.High = -1, 1
	if n > 3 {
		z := math.Atanh(c.Value)
		half := float64(distuv.UnitNormal.Quantile((1+Level)/2) * math.Sqrt((1+c.Value*c.Value/2)/float64(n-3)))
		c.Low, c.High = math.Tanh(z-half), math.Tanh(z+half)
	}
	return c
}
