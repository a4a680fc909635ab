package stats

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"gonum.org/v1/gonum/stat/distuv"

	"warmby/sim"
)

// Ordered is a batch of moments in rising order, those that never come last.
type Ordered interface {
	// Len returns how many there are.
	Len() int64
	// At returns the moment of a rank, counted from 1.
	At(rank int64) sim.Time
}

// Sorted is a batch of moments in rising order; sim.Never, the largest of all,
// stands last.
type Sorted []sim.Time

// SortedOf returns a sorted copy.
func SortedOf(moments []sim.Time) Sorted {
	s := slices.Clone(moments)
	slices.Sort(s)
	return Sorted(s)
}

// Len returns how many there are.
func (s Sorted) Len() int64 { return int64(len(s)) }

// At returns the moment of a rank, counted from 1.
func (s Sorted) At(rank int64) sim.Time { return s[rank-1] }

// Quantile is the moment by which a share of runs has come, with its interval.
type Quantile struct {
	P     float64  // which quantile, 0 < P < 1
	Value sim.Time // sim.Never when too many never come
	// Low and High bound the true quantile. An end is open when there are too
	// few runs to tell it: Low is 0 then, High sim.Never.
	Low, High         sim.Time
	LowOpen, HighOpen bool
	Runs              int64
	Warning           string // about few runs; may be empty
}

// QuantileOf returns the moment of rank ceil(n p) of n runs, with the interval of
// order statistics that holds with 95 % or as little more as whole ranks allow,
// in about equal parts on both sides. It assumes nothing about the shape: the number of runs that come before the true
// quantile is binomial. (H. A. David and H. N. Nagaraja, Order Statistics, 3rd
// ed., section 7.1.) The batch must not be empty.
func QuantileOf(batch Ordered, p float64) Quantile { return QuantileAt(batch, p, Level) }

// QuantileAt is QuantileOf with another level.
func QuantileAt(batch Ordered, p, level float64) Quantile {
	n := batch.Len()
	if n == 0 || !(p > 0 && p < 1) {
		panic(fmt.Sprintf("stats: quantile %v of %d runs", p, n))
	}
	q := Quantile{P: p, Value: batch.At(rankOf(n, p)), Runs: n, Warning: fewRuns(n)}
	low, high := ranks(n, p, level)
	if q.LowOpen = low < 1; !q.LowOpen {
		q.Low = batch.At(low)
	}
	q.High = sim.Never
	if q.HighOpen = high > n; !q.HighOpen {
		q.High = batch.At(high)
	}
	if q.Warning == "" && (q.LowOpen || q.HighOpen) {
		q.Warning = fmt.Sprintf("%d runs are too few to bound this quantile on both sides", n)
	}
	return q
}

// rankOf returns ceil(n p), within 1 to n. What rounding of n p adds in the
// last bits does not count.
func rankOf(n int64, p float64) int64 {
	return max(1, min(n, int64(math.Ceil(float64(float64(n)*p)-margin))))
}

// margin is by how much two chances must differ for one to be the larger. Sums
// that are equal in mathematics, as both tails of p = 0.5 are, differ in their
// last bits and otherwise on each processor; no rounding comes near a margin of
// this size.
const margin = 1e-9

// ranks returns the ranks of the two order statistics that bound a quantile: 0
// or n + 1 where none does.
func ranks(n int64, p, level float64) (low, high int64) {
	tail := (1 - level) / 2
	below := distuv.Binomial{N: float64(n), P: p}
	// The low end lies over the quantile if fewer than low runs lie under it.
	low = int64(sort.Search(int(n), func(k int) bool { return below.CDF(float64(k)) > tail+margin }))
	// The high end lies under it if high runs or more do.
	high = 1 + int64(sort.Search(int(n), func(k int) bool { return below.CDF(float64(k)) >= 1-tail-margin }))
	if low < 1 || high > n {
		return low, high
	}
	// What whole ranks leave over of both tails may be enough for one rank more.
	miss := func(low, high int64) float64 { return below.CDF(float64(low-1)) + 1 - below.CDF(float64(high-1)) }
	most := 1 - level
	up, down := miss(low+1, high), miss(low, high-1)
	switch {
	case up <= most+margin && (up >= down-margin || down > most+margin):
		low++
	case down <= most+margin:
		high--
	}
	return low, high
}
