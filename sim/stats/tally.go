package stats

import (
	"math"
	"math/big"
	"math/bits"

	"warmby/sim"
)

// Tally adds up moments, or lengths of time of either sign. The zero value is
// empty. Sums are exact for lengths of up to three years and a hundred million
// of them, so that tallies merge in any order to the same one.
//
// The fields are exported to be written to a file and read again; use Add.
type Tally struct {
	Runs  int64 // how many were added, those that never came included
	Never int64 // how many never came
	Sum   int64 // of those that came, milliseconds
	// SquareHigh and SquareLow are the sum of their squares, 2^64 SquareHigh +
	// SquareLow.
	SquareHigh, SquareLow uint64
}

// Add counts one moment.
func (t *Tally) Add(at sim.Time) {
	t.Runs++
	if at == sim.Never {
		t.Never++
		return
	}
	t.Sum += int64(at)
	a := uint64(at)
	if at < 0 {
		a = -a
	}
	high, low := bits.Mul64(a, a)
	t.addSquares(high, low)
}

// Merge adds all that another tally holds.
func (t *Tally) Merge(o Tally) {
	t.Runs += o.Runs
	t.Never += o.Never
	t.Sum += o.Sum
	t.addSquares(o.SquareHigh, o.SquareLow)
}

func (t *Tally) addSquares(high, low uint64) {
	var carry uint64
	t.SquareLow, carry = bits.Add64(t.SquareLow, low, 0)
	t.SquareHigh += high + carry
}

// mean returns the mean of those that came, NaN if none did.
func (t *Tally) mean() float64 {
	n := t.Runs - t.Never
	if n == 0 {
		return math.NaN()
	}
	m, _ := big.NewRat(t.Sum, n).Float64()
	return m
}

// SD returns the standard deviation of those that came, milliseconds: the root
// of (n S2 - S1^2) / (n (n-1)), the fraction worked out exactly. NaN for fewer
// than two.
func (t *Tally) SD() float64 {
	n := big.NewInt(t.Runs - t.Never)
	if n.Cmp(big.NewInt(2)) < 0 {
		return math.NaN()
	}
	squares := new(big.Int).SetUint64(t.SquareHigh)
	squares.Lsh(squares, 64).Add(squares, new(big.Int).SetUint64(t.SquareLow))
	sum := big.NewInt(t.Sum)
	top := squares.Mul(squares, n)
	top.Sub(top, sum.Mul(sum, sum))
	below := new(big.Int).Sub(n, big.NewInt(1))
	variance, _ := new(big.Rat).SetFrac(top, below.Mul(below, n)).Float64()
	return math.Sqrt(variance)
}
