package stats

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Looks says how often runs are looked at before it is settled how many there
// are. The zero value is once, with the number settled before. With First over 0
// they are looked at again and again, from so many runs on, and whoever looks may
// stop when he likes: all intervals must then hold at once.
//
// A look after n runs has the margin of an asymptotic confidence sequence, in
// standard deviations
//
//	sqrt(2 (n rho^2 + 1) / (n^2 rho^2) * ln(sqrt(n rho^2 + 1) / alpha))
//
// (I. Waudby-Smith, D. Arbour, R. Sinha, E. H. Kennedy and A. Ramdas, Time-uniform
// central limit theory and asymptotic confidence sequences, Ann. Statist. 52
// (2024) 2613-2640, theorem 2.2), with rho such that it is narrowest after four
// times as many runs as at the first look. An interval of one look with the level
// that has this margin in the normal distribution is the interval of the
// sequence, be it of a mean, a share or a quantile.
type Looks struct{ First int64 }

// tuned is after how many times the runs of the first look a sequence is
// narrowest.
const tuned = 4

func (l Looks) rho2() float64 {
	a := -2 * math.Log(1-Level)
	return (a + math.Log(a) + 1) / float64(tuned*l.First)
}

// Level returns the level of one look after n runs whose interval has the given
// level over all looks; never more than 1 - 1e-12.
func (l Looks) Level(level float64, n int64) float64 {
	if l.First == 0 {
		return level
	}
	r := float64(n) * l.rho2()
	z := math.Sqrt(float64(2*(r+1)/r) * math.Log(math.Sqrt(r+1)/(1-level)))
	return min(1-1e-9, settled(1-2*distuv.UnitNormal.Survival(z)))
}

// P returns the p value over all looks of one that is p in one look after n runs:
// the least for which a look so far has told the difference from none.
func (l Looks) P(p float64, n int64) float64 {
	if l.First == 0 || p >= 1 {
		return p
	}
	r := float64(n) * l.rho2()
	z := -distuv.UnitNormal.Quantile(p / 2)
	return min(1, math.Sqrt(r+1)*math.Exp(-float64(z*z)*r/(2*(r+1))))
}
