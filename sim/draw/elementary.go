package draw

import "math"

// The logarithm and exponential of the standard library are written in
// assembly on some processors and fused differently on others, so that their
// last bit differs. These are good to some 1e-15 and the same everywhere.

const (
	ln2High = 0x1.62e42fee00000p-1 // so few bits that small multiples are exact
	ln2Low  = 0x1.a39ef35793c76p-33
)

// logarithm returns ln x, for x > 0 and finite.
func logarithm(x float64) float64 {
	fraction, exponent := math.Frexp(x) // exact
	if fraction < math.Sqrt2/2 {
		fraction, exponent = fraction*2, exponent-1
	}
	// ln m = 2 (s + s^3/3 + s^5/5 ..) with s = (m-1)/(m+1), |s| < 0.172.
	s := (fraction - 1) / (fraction + 1)
	s2 := float64(s * s)
	sum := 0.0
	for n := 23; n >= 3; n -= 2 {
		sum = float64((sum + 1/float64(n)) * s2)
	}
	e := float64(exponent)
	return float64(e*ln2High) + (float64(e*ln2Low) + (2*s + float64(2*s*sum)))
}

// exponential returns e^x, 0 under -700 and the value at 700 above it.
func exponential(x float64) float64 {
	switch {
	case x < -700:
		return 0
	case x > 700:
		x = 700
	}
	n := math.Floor(float64(x*(1/math.Ln2)) + 0.5)
	r := (x - float64(n*ln2High)) - float64(n*ln2Low) // |r| < 0.35
	sum := 1.0
	for k := 14; k >= 1; k-- {
		sum = 1 + float64(sum*r)/float64(k)
	}
	return math.Ldexp(sum, int(n))
}
