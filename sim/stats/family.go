package stats

import (
	"cmp"
	"slices"
)

// Simultaneous returns the differences of a family of comparisons so that all
// of them may be read together. Each interval has the level 1 - 0.05/m for m
// comparisons: with 95 % all of them hold at once (Bonferroni). Which
// differences are real is told by Holm's step-down procedure, which finds at
// least as many with the same certainty: the P of each is adjusted for the
// family (S. Holm, Scand. J. Statist. 6 (1979) 65-70).
//
// Intervals that step down as Holm's levels do would be shorter and would not
// hold together: two of them already miss with 7.5 %.
func Simultaneous(family []*Paired) []Difference { return Looks{}.Simultaneous(family) }

// Simultaneous is the function of that name for runs that are looked at so often.
func (l Looks) Simultaneous(family []*Paired) []Difference {
	level := 1 - (1-Level)/float64(max(1, len(family)))
	out := make([]Difference, len(family))
	p := make([]float64, len(family))
	for i, pair := range family {
		out[i] = l.differenceAt(pair, level)
		p[i] = out[i].P
	}
	for i, adjusted := range Holm(p) {
		out[i].P = adjusted
	}
	return out
}

// Difference is [Paired.Difference] for runs that are looked at so often.
func (l Looks) Difference(p *Paired) Difference { return l.differenceAt(p, Level) }

func (l Looks) differenceAt(p *Paired, level float64) Difference {
	d := p.differenceAt(l.Level(level, p.Runs))
	d.P = l.P(d.P, p.Runs)
	return d
}

// Holm returns p values adjusted for being many: the k-th smallest of m times
// m - k + 1, never less than one that is smaller, and at most 1.
func Holm(p []float64) []float64 {
	order := make([]int, len(p))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(p[a], p[b]) })
	adjusted := make([]float64, len(p))
	most := 0.0
	for k, i := range order {
		most = max(most, min(1, float64(len(p)-k)*p[i]))
		adjusted[i] = most
	}
	return adjusted
}
