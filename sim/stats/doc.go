// Package stats says how sure a batch of runs is of what it found.
//
// Most callers want four things. A [Tally] adds up moments of a milestone and
// gives their mean; a [Sorted] or a [Histogram] gives quantiles ([QuantileOf]);
// [ShareOf] gives a share of runs; a [Paired] holds two orders against each
// other under the same luck. Every result carries its interval, the number of
// runs behind it and, where that number is too small to lean on, a warning.
//
// # Never
//
// A milestone that a run never reaches ([sim.Never]) counts as infinitely
// late. Quantiles and shares take it as such. A mean would be infinite, so
// there is none: the result says why.
//
// # Exactness
//
// Moments are whole milliseconds and are added up as whole numbers, squares
// too. Parts of a batch may be put together in any order, on any number of
// workers, and give the same bytes.
//
// # Intervals
//
// Intervals are two-sided and hold with 95 % unless a level is asked for. Those
// of means are Student's t, those of quantiles are order statistics (no
// assumption about the shape), those of shares are Wilson's or Clopper and
// Pearson's. [Simultaneous] widens the intervals of a family of differences
// until all of them hold together, and tells by Holm's step-down procedure
// which of them are real.
//
// Times in results are milliseconds: [sim.Time] where they are moments that
// happened, float64 where they are means.
package stats
