// Package portable has exp and log with the same last bit on every processor.
//
// The functions of package math are written in assembly for some processors, and
// the compiler joins a product and a sum into one operation where a processor has
// one: results then differ in the last bit. Here every product is rounded before
// it is added to anything (that is what the conversions to float64 are for), so
// that the same arguments give the same bits everywhere. All results are within 1.5
// units in the last place.
package portable

import "math"

const (
	ln2    = math.Ln2
	ln2Top = 0x1.62e42fee00000p-1  // the first 33 bits: products with small whole numbers are exact
	ln2End = 0x1.a39ef35793c76p-33 // what is left of ln 2
)

// Exp returns e^x: 0 below -745.2, infinite above 709.8.
func Exp(x float64) float64 {
	switch {
	case math.IsNaN(x):
		return x
	case x > 709.79:
		return math.Inf(1)
	case x < -745.2:
		return 0
	}
	// x = k ln 2 + r with |r| at most half of ln 2, then e^x = 2^k e^r.
	k := math.Floor(float64(x/ln2) + 0.5)
	high, low := x-float64(k*ln2Top), float64(k*ln2End)
	r := high - low
	// e^r by its series; the rest is below 2^-57.
	sum := 0.0
	for i := len(factorials) - 1; i >= 0; i-- {
		sum = float64(sum*r) + factorials[i]
	}
	// sum is (e^r - 1 - r)/r^2; the error of r itself is low's rounding.
	tail := float64(float64(r*r)*sum) + ((high - r) - low)
	return math.Ldexp(1+(r+tail), int(k))
}

// factorials are 1/2!, 1/3! and so on.
var factorials = [...]float64{
	1.0 / 2, 1.0 / 6, 1.0 / 24, 1.0 / 120, 1.0 / 720, 1.0 / 5040, 1.0 / 40320,
	1.0 / 362880, 1.0 / 3628800, 1.0 / 39916800, 1.0 / 479001600, 1.0 / 6227020800,
}

// Log returns the natural logarithm of x: minus infinity for 0, NaN below it.
func Log(x float64) float64 {
	switch {
	case math.IsNaN(x) || x < 0:
		return math.NaN()
	case x == 0:
		return math.Inf(-1)
	case math.IsInf(x, 1):
		return x
	}
	m, k := math.Frexp(x)
	if m < math.Sqrt2/2 {
		m, k = 2*m, k-1
	}
	return logs(m-1, 0, float64(k))
}

// Log1p returns the natural logarithm of 1 + x, as exact near 0 as elsewhere:
// minus infinity for -1, NaN below it.
func Log1p(x float64) float64 {
	switch {
	case math.IsNaN(x) || x < -1:
		return math.NaN()
	case x == -1:
		return math.Inf(-1)
	case math.IsInf(x, 1):
		return x
	case x > math.Sqrt2/2-1 && x < math.Sqrt2-1:
		return logs(x, 0, 0)
	}
	sum := 1 + x
	lost := x - (sum - 1) // what the sum does not show
	if x > 1 {
		lost = 1 - (sum - x)
	}
	m, k := math.Frexp(sum)
	if m < math.Sqrt2/2 {
		m, k = 2*m, k-1
	}
	return logs(m-1, lost/sum, float64(k))
}

// logs returns ln(1 + f) + k ln 2 + c for f from -0.3 to 0.42 and a small c, by
// ln(1 + f) = 2 artanh(f / (2 + f)).
func logs(f, c, k float64) float64 {
	s := f / (2 + f)
	z := float64(s * s)
	sum := 0.0
	for _, c := range &oddParts { // not copied
		sum = float64(sum*z) + c
	}
	// 2 s = f - s f, and the rest of the series is 2 s z sum.
	rest := float64(2 * float64(s*float64(z*sum)))
	return float64(k*ln2Top) + (f - (float64(s*f) - (rest + (float64(k*ln2End) + c))))
}

// oddParts are 1/23, 1/21 and so on to 1/3.
var oddParts = [...]float64{1.0 / 23, 1.0 / 21, 1.0 / 19, 1.0 / 17, 1.0 / 15, 1.0 / 13, 1.0 / 11, 1.0 / 9, 1.0 / 7, 1.0 / 5, 1.0 / 3}

// Pow returns x^y for x over 0, as e^(y ln x); for the small powers of formulas,
// where that is within some units in the last place.
func Pow(x, y float64) float64 { return Exp(float64(y * Log(x))) }
