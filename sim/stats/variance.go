package stats

import "math"

// VarianceShare is a share of the variance of some runs, with its 95 % interval.
// All three are 0 to 1.
type VarianceShare struct {
	Value, Low, High float64
	Why              string // why there is none; "" when there is
}

// OK reports whether there is a share.
func (v VarianceShare) OK() bool { return v.Why == "" }

// jackknifed is in how many groups runs are put for the interval.
const jackknifed = 20

// VarianceRuns is the least number of runs that shares of variance are told of.
const VarianceRuns = 10 * jackknifed

// Shares splits the variance of y, a value a run, by what was drawn. Runs are
// put in groups by their number, and intervals come from leaving out one group
// after the other (the jackknife; R. G. Miller, Biometrika 61 (1974) 1-15),
// with Student's t.
type Shares struct {
	y     []float64 // less their mean
	parts [jackknifed + 1]part
	sum   [jackknifed + 1]float64 // of the first orders asked for so far
}

// part is all runs (the last), or those of all groups but one.
type part struct{ n, sum, squares float64 }

// NewShares returns shares of the variance of y; nil when it has less than
// [VarianceRuns] values or they are all the same.
func NewShares(y []float64) *Shares {
	if len(y) < VarianceRuns {
		return nil
	}
	s := &Shares{y: make([]float64, len(y))}
	mean := 0.0
	for _, v := range y {
		mean += v
	}
	mean /= float64(len(y))
	for i, v := range y {
		s.y[i] = v - mean
		s.eachPart(i, func(g int) {
			p := &s.parts[g]
			p.n, p.sum, p.squares = p.n+1, p.sum+s.y[i], p.squares+float64(s.y[i]*s.y[i])
		})
	}
	for g := range s.parts {
		if s.variance(g) <= 0 {
			return nil
		}
	}
	return s
}

// eachPart calls a function for each part that a run belongs to.
func (s *Shares) eachPart(run int, call func(g int)) {
	for g := range s.parts {
		if g != run%jackknifed {
			call(g)
		}
	}
}

func (s *Shares) variance(g int) float64 {
	p := &s.parts[g]
	return (p.squares - float64(p.sum*p.sum)/p.n) / (p.n - 1)
}

// First returns the share of the variance that knowing one factor would take
// away: the first-order effect. Bin says of each run in which class of the
// factor's values it is, counted from 0. It is the correlation ratio, freed of
// the bias of few runs in a class (T. L. Kelley, Proc. Natl. Acad. Sci. 21
// (1935) 554-559).
func (s *Shares) First(bin []int) VarianceShare {
	classes := 0
	for _, b := range bin {
		classes = max(classes, b+1)
	}
	// By group and class, and of all runs in the last group.
	n, sum := make([]float64, classes*len(s.parts)), make([]float64, classes*len(s.parts))
	for i, b := range bin {
		for _, g := range []int{i % jackknifed, jackknifed} {
			n[g*classes+b]++
			sum[g*classes+b] += s.y[i]
		}
	}
	var estimates [jackknifed + 1]float64
	for g := range s.parts {
		within, taken := s.parts[g].squares, 0.0
		for b := range classes {
			all, total := n[jackknifed*classes+b], sum[jackknifed*classes+b]
			if g < jackknifed {
				all, total = all-n[g*classes+b], total-sum[g*classes+b]
			}
			if all > 0 {
				within -= float64(total*total) / all
				taken++
			}
		}
		estimates[g] = 1 - within/(s.parts[g].n-taken)/s.variance(g)
		s.sum[g] += estimates[g]
	}
	return jackknife(&estimates)
}

// Explained returns how much of the variance the first orders that were asked
// for hold together. What is left is in how factors work on each other.
func (s *Shares) Explained() VarianceShare { return jackknife(&s.sum) }

// Total returns the share of the variance that would be left if only one factor
// were not known: its total effect. Again holds the values of the first runs
// with the factor, and nothing else, drawn anew. (M. J. W. Jansen, Comput. Phys.
// Commun. 117 (1999) 35-43; T. Homma and A. Saltelli, Reliab. Eng. Syst. Saf. 52
// (1996) 1-17.)
func (s *Shares) Total(y, again []float64) VarianceShare {
	var estimates, n [jackknifed + 1]float64
	for i := range again {
		d := y[i] - again[i]
		s.eachPart(i, func(g int) {
			estimates[g] += float64(d * d)
			n[g]++
		})
	}
	for g := range estimates {
		estimates[g] /= 2 * n[g] * s.variance(g)
	}
	return jackknife(&estimates)
}

// jackknife returns the last estimate, which is of all runs, with an interval by
// the others, each without one group.
func jackknife(estimates *[jackknifed + 1]float64) VarianceShare {
	value, mean, squares := estimates[jackknifed], 0.0, 0.0
	for _, e := range estimates[:jackknifed] {
		mean += e / jackknifed
	}
	for _, e := range estimates[:jackknifed] {
		squares += float64((e - mean) * (e - mean))
	}
	half := tQuantile(Level, jackknifed-1) * math.Sqrt(squares*(jackknifed-1)/jackknifed)
	in01 := func(v float64) float64 { return min(1, max(0, v)) }
	return VarianceShare{Value: in01(value), Low: in01(value - half), High: in01(value + half)}
}
