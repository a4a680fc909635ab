package portable

import "math"

// QuickLog returns ln x, for 1e-300 < x < 1e300, within some 1e-15. It takes less
// time than [Log], and its last bits are others: draws are made of it by the million.
func QuickLog(x float64) float64 {
	// x = fraction 2^exponent with fraction between sqrt(1/2) and sqrt(2).
	bits := math.Float64bits(x)
	exponent := int(bits>>52) - 1023
	fraction := math.Float64frombits(bits&(1<<52-1) | 1023<<52)
	if fraction > math.Sqrt2 {
		fraction, exponent = fraction/2, exponent+1
	}
	// ln m = 2 (s + s^3/3 + s^5/5 ..) with s = (m-1)/(m+1), |s| < 0.172.
	s := (fraction - 1) / (fraction + 1)
	z := float64(s * s)
	y := float64(z * z)
	// Every other term, so that a processor can work at both at once.
	a := float64((float64((float64((float64((float64(1.0/23*y)+1.0/19)*y)+1.0/15)*y)+1.0/11)*y)+1.0/7)*y) + 1.0/3
	b := float64((float64((float64((float64(1.0/21*y)+1.0/17)*y)+1.0/13)*y)+1.0/9)*y) + 1.0/5
	sum := float64(z * (a + float64(z*b)))
	e := float64(exponent)
	return float64(e*ln2Top) + (float64(e*ln2End) + (2*s + float64(2*s*sum)))
}

// QuickExp returns e^x within some 1e-15: 0 under -700, and above 700 the value
// there. It takes less time than [Exp], and its last bits are others.
func QuickExp(x float64) float64 {
	switch {
	case x < -700:
		return 0
	case x > 700:
		x = 700
	}
	n := math.Floor(float64(x*(1/math.Ln2)) + 0.5)
	r := (x - float64(n*ln2Top)) - float64(n*ln2End) // |r| < 0.35
	y := float64(r * r)
	a := float64((float64((float64((float64((float64((float64(1.0/87178291200*y)+1.0/479001600)*y)+1.0/3628800)*y)+1.0/40320)*y)+1.0/720)*y)+1.0/24)*y) + 0.5
	b := float64((float64((float64((float64((float64(1.0/6227020800*y)+1.0/39916800)*y)+1.0/362880)*y)+1.0/5040)*y)+1.0/120)*y) + 1.0/6
	sum := 1 + (r + float64(y*(a+float64(r*b))))               // r^n / n!
	return sum * math.Float64frombits(uint64(1023+int(n))<<52) // exact: times 2^n
}
