package stats

import (
	"fmt"
	"math"

	"warmby/sim"
)

// Ratio is what is won for each unit that is given, with its interval.
type Ratio struct {
	Value, Low, High float64 // NaN when there is none; Why says why not then
	Runs             int64
	Why              string
	Warning          string // about few runs; may be empty
}

// OK reports whether there is a ratio.
func (r Ratio) OK() bool { return r.Why == "" }

// RatioOf returns the sum of won over the sum of given, run by run of the same
// luck, with its 95 % interval by linearisation: won - ratio * given has mean 0,
// and its standard error over the mean of given is that of the ratio. (W. G.
// Cochran, Sampling Techniques, 3rd ed., section 6.3.)
func RatioOf(won, given []sim.Time) Ratio {
	if len(won) != len(given) {
		panic(fmt.Sprintf("stats: ratio of %d values to %d", len(won), len(given)))
	}
	n := float64(len(won))
	nan := math.NaN()
	none := Ratio{nan, nan, nan, int64(len(won)), "", fewRuns(int64(len(won)))}
	var top, below int64
	for i := range won {
		if won[i] == sim.Never || given[i] == sim.Never {
			none.Why = "never reached in some run"
			return none
		}
		top, below = top+int64(won[i]), below+int64(given[i])
	}
	if below == 0 {
		none.Why = "nothing given in any run"
		return none
	}
	r := none
	r.Value = float64(top) / float64(below)
	if len(won) < 2 {
		r.Low, r.High = math.Inf(-1), math.Inf(1)
		return r
	}
	squares := 0.0
	for i := range won {
		rest := float64(won[i]) - float64(r.Value*float64(given[i]))
		squares += float64(rest * rest)
	}
	half := tQuantile(Level, int64(len(won))-1) * math.Sqrt(squares/(n-1)/n) / math.Abs(float64(below)/n)
	r.Low, r.High = r.Value-half, r.Value+half
	return r
}
