package search

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"warmby/sim"
)

// Statistic is what is asked of the moments at which a milestone is reached in
// many runs: their mean, or the moment by which it is reached in a share of
// them.
type Statistic float64

// Mean asks for the mean.
const Mean Statistic = 0

// Quantile asks for the moment by which a share of runs has reached it, 0 < p
// < 1.
func Quantile(p float64) Statistic {
	if !(p > 0 && p < 1) {
		panic(fmt.Sprintf("search: quantile %v", p))
	}
	return Statistic(p)
}

// String returns "mean", "p80".
func (s Statistic) String() string {
	if s == Mean {
		return "mean"
	}
	return fmt.Sprintf("p%.4g", 100*float64(s))
}

// Of returns the statistic of some moments in milliseconds. It is infinite if
// a run never comes, for the mean, or too many never do.
func (s Statistic) Of(times []sim.Time) float64 {
	value, _ := s.influence(times, nil)
	return value
}

// influence returns the statistic and what each run has to do with it: numbers
// whose mean is the statistic and whose scatter is that of the statistic, so
// that two statistics on the same runs are compared by the differences of
// theirs. For a mean they are the moments themselves. For a quantile q they are
//
//	q + (p - [moment <= q]) / f(q)
//
// with f the density there (R. R. Bahadur, Annals of Mathematical Statistics 37
// (1966), 577-580), taken from how far the quantiles of p - h and p + h lie
// apart, h after P. Hall and S. J. Sheather, J. R. Statist. Soc. B 50 (1988),
// 381-391, for a normal law. With so few runs that the quantile is the last of
// them nothing tells how far it may be off, and they are NaN. They are appended
// to out[:0].
func (s Statistic) influence(times []sim.Time, out []float64) (float64, []float64) {
	out = out[:0]
	if s == Mean {
		sum := 0.0
		for _, t := range times {
			x := float64(t)
			if t == sim.Never {
				x = math.Inf(1)
			}
			sum += x
			out = append(out, x)
		}
		return sum / float64(len(times)), out
	}
	sorted := slices.Clone(times)
	slices.Sort(sorted)
	p, n := float64(s), float64(len(times))
	at := func(p float64) sim.Time {
		return sorted[max(0, min(len(sorted)-1, int(math.Ceil(n*p-1e-9))-1))]
	}
	q := at(p)
	if q == sim.Never {
		for range times {
			out = append(out, math.Inf(1))
		}
		return math.Inf(1), out
	}
	if int(math.Ceil(n*p-1e-9)) >= len(sorted) { // the last of all: nothing bounds it
		for range times {
			out = append(out, math.NaN())
		}
		return float64(q), out
	}
	normal := distuv.UnitNormal
	z := normal.Quantile(p)
	h := math.Pow(n, -1.0/3) * math.Pow(normal.Quantile(0.975), 2.0/3) * math.Pow(1.5*math.Pow(normal.Prob(z), 2)/(2*z*z+1), 1.0/3)
	low, high := max(p-h, 1/n), min(p+h, 1)
	for high > p && at(high) == sim.Never {
		high -= 1 / n
	}
	width := 0.0 // 1 / f
	if high > low {
		width = float64(at(high)-at(low)) / (high - low)
	}
	for _, t := range times {
		x := float64(q) + p*width
		if t <= q {
			x -= width
		}
		out = append(out, x)
	}
	return float64(q), out
}

// difference is one statistic less another on the same runs.
type difference struct {
	mean  float64 // of the statistics
	error float64 // standard error
	runs  int
}

// differ returns a statistic less another, both with their influences.
func differ(a, b float64, inA, inB []float64) difference {
	d := difference{mean: a - b, runs: len(inA)}
	n, sum, squares := float64(len(inA)), 0.0, 0.0
	for i := range inA {
		sum += inA[i] - inB[i]
	}
	for i := range inA {
		e := inA[i] - inB[i] - sum/n
		squares += e * e
	}
	d.error = math.Sqrt(squares / (n - 1) / n)
	return d
}

// p returns how likely a difference as far from 0 or farther is if there is
// none (Student's t).
func (d difference) p() float64 {
	switch {
	case math.IsNaN(d.mean) || math.IsNaN(d.error) && !math.IsInf(d.mean, 0) || d.runs < 2:
		return 1
	case math.IsInf(d.mean, 0):
		return 0
	case d.error == 0:
		if d.mean == 0 {
			return 1
		}
		return 0
	}
	return 2 * distuv.StudentsT{Sigma: 1, Nu: float64(d.runs - 1)}.Survival(math.Abs(d.mean)/d.error)
}

// half returns how far the interval of a level reaches to each side.
func (d difference) half(level float64) float64 {
	if d.runs < 2 || math.IsNaN(d.error) {
		return math.Inf(1)
	}
	return d.error * distuv.StudentsT{Sigma: 1, Nu: float64(d.runs - 1)}.Quantile((1+level)/2)
}
