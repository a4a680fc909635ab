package stats

import "math"

// KS returns the Kolmogorov-Smirnov distance between values in rising order and
// a distribution function, and how likely one as large or larger is if the
// values come from it (N. V. Smirnov, Ann. Math. Stat. 19 (1948) 279-281, with
// M. A. Stephens's correction for n, J. R. Stat. Soc. B 32 (1970) 115-122).
func KS(sorted []float64, cdf func(float64) float64) (distance, p float64) {
	n := float64(len(sorted))
	for i, x := range sorted {
		f := cdf(x)
		distance = max(distance, f-float64(i)/n, float64(i+1)/n-f)
	}
	root := math.Sqrt(n)
	return distance, kolmogorov((root + 0.12 + 0.11/root) * distance)
}

// kolmogorov returns how likely the limiting statistic is at least x:
// 2 sum (-1)^(k-1) exp(-2 k^2 x^2).
func kolmogorov(x float64) float64 {
	if x < 0.2 {
		return 1 // to more than twelve digits
	}
	sum, sign := 0.0, 1.0
	for k := 1.0; k <= 100; k++ {
		term := math.Exp(-2 * k * k * x * x)
		sum += sign * term
		if term < 1e-17 {
			break
		}
		sign = -sign
	}
	return max(0, min(1, 2*sum))
}
