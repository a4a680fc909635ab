package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"warmby/sim"
)

// Level is the confidence level of intervals for which none is asked.
const Level = 0.95

// Mean is a mean with its interval, in milliseconds.
type Mean struct {
	// Value is NaN, and so are the others, when there is no mean; Why says why
	// not then.
	Value     float64
	Low, High float64 // infinite for a single run
	SD        float64 // standard deviation of the runs
	Runs      int64
	Why       string
	Warning   string // about few runs; may be empty
}

// OK reports whether there is a mean.
func (m Mean) OK() bool { return m.Why == "" }

// Time returns the mean rounded to whole milliseconds, half away from zero;
// [sim.Never] when there is none.
func (m Mean) Time() sim.Time {
	if !m.OK() {
		return sim.Never
	}
	return sim.Time(math.Round(m.Value))
}

// Negated returns the mean of the same figures with the other sign.
func (m Mean) Negated() Mean {
	m.Value, m.Low, m.High = -m.Value, -m.High, -m.Low
	return m
}

// Mean returns the mean of all runs with its 95 % interval.
func (t *Tally) Mean() Mean { return t.MeanAt(Level) }

// MeanAt is Mean with another level: the mean, plus and minus the t quantile
// of n - 1 degrees of freedom times SD / sqrt n. If some run never comes there
// is no mean.
func (t *Tally) MeanAt(level float64) Mean {
	nan := math.NaN()
	switch {
	case t.Runs == 0:
		return Mean{nan, nan, nan, nan, 0, "no runs", ""}
	case t.Never > 0:
		return Mean{nan, nan, nan, nan, t.Runs, fmt.Sprintf("never reached in %d of %d runs", t.Never, t.Runs), fewRuns(t.Runs)}
	}
	m := Mean{Value: t.mean(), Runs: t.Runs, Warning: fewRuns(t.Runs)}
	if t.Runs == 1 {
		m.SD, m.Low, m.High = nan, math.Inf(-1), math.Inf(1)
		return m
	}
	m.SD = t.SD()
	half := tQuantile(level, t.Runs-1) * m.SD / math.Sqrt(float64(t.Runs))
	m.Low, m.High = m.Value-half, m.Value+half
	return m
}

// tQuantile returns how many standard errors a two-sided interval of a level
// reaches to each side, to nine decimals on any processor.
func tQuantile(level float64, freedom int64) float64 {
	return settled(distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(freedom)}.Quantile((1 + level) / 2))
}

// pValue returns how likely a mean as far from 0 or farther is if the true one
// is 0 (Student's t, two-sided); 1 when there is no telling.
func (m Mean) pValue() float64 {
	switch {
	case !m.OK() || m.Runs < 2:
		return 1
	case m.SD == 0 && m.Value == 0:
		return 1
	case m.SD == 0:
		return 0
	}
	t := math.Abs(m.Value) / (m.SD / math.Sqrt(float64(m.Runs)))
	return 2 * distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(m.Runs - 1)}.Survival(t)
}
