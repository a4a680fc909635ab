package sim

import "math"

// Time is a moment or a length of time in whole milliseconds. Moments count
// from the team's arrival.
type Time int64

// Lengths of time in milliseconds.
const (
	Millisecond Time = 1
	Second           = 1000 * Millisecond
	Minute           = 60 * Second
	Hour             = 60 * Minute
)

// Never stands for a moment that does not come.
const Never Time = math.MaxInt64

// Horizon is the longest drill: one that has not finished seven days after
// arrival never finishes.
const Horizon = 7 * 24 * Hour

// Seconds returns t in seconds, exact to the millisecond.
func (t Time) Seconds() float64 { return float64(t) / 1000 }

// Minutes returns t in minutes.
func (t Time) Minutes() float64 { return float64(t) / 60000 }

// longest bounds a drawn length: about three years.
const longest = 1e11

// Milliseconds rounds a drawn or computed length, given in milliseconds, to
// whole ones: half away from zero, never below 0 and never above about three
// years. NaN counts as 0.
func Milliseconds(ms float64) Time {
	switch {
	case !(ms > 0):
		return 0
	case ms > longest:
		return longest
	}
	whole := Time(ms)
	return whole + Time(2*(ms-float64(whole))) // exact: ms is far below 2^52
}
