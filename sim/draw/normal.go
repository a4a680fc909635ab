package draw

import (
	"math"

	"warmby/sim/portable"
)

// logNormalTable returns the table of median e^(sigma Z), Z of the standard
// normal distribution.
func logNormalTable(median, sigma float64) *table {
	var lower, lowerSlope, upper, upperSlope [nodes]float64
	z := 6.7 // about the normal value at the first node
	for range 4 {
		z, _ = normalImprove(z, chance(0))
	}
	density := normalDensity(z)
	for i := range nodes {
		q := chance(i)
		if i > 0 {
			step, _ := normalInverse(z, (q-chance(i-1))/density)
			z, density = normalImprove(z-step, q)
		}
		if i == nodes-1 {
			z = 0
		}
		lower[i] = float64(median * portable.QuickExp(float64(-sigma*z)))
		lowerSlope[i] = lower[i] * sigma / density
		upper[i] = float64(median * portable.QuickExp(float64(sigma*z)))
		upperSlope[i] = -upper[i] * sigma / density
	}
	return &table{newTail(&lower, &lowerSlope, 0), newTail(&upper, &upperSlope, upper[0])}
}

func normalDensity(z float64) float64 {
	return portable.QuickExp(float64(-z*z/2)) * (1 / (math.Sqrt2 * math.SqrtPi))
}

// normalTail returns the density at z >= 0 and the chance above z: under 2 by
// the series of Abramowitz and Stegun 26.2.11, above by the continued
// fraction 26.2.14.
func normalTail(z float64) (density, above float64) {
	density = normalDensity(z)
	if z < 2 {
		sum, term := z, z
		for n := 3; term > 1e-17*sum; n += 2 {
			term = float64(term * (z * z / float64(n)))
			sum += term
		}
		return density, 0.5 - float64(density*sum)
	}
	fraction := z
	for n := 10 + int(180/float64(z*z)); n >= 1; n-- {
		fraction = z + float64(n)/fraction
	}
	return density, density / fraction
}

// normalImprove returns a better z for the chance q above it, with the
// density there.
func normalImprove(z, q float64) (better, density float64) {
	z = max(z, 0)
	density, above := normalTail(z)
	step, growth := normalInverse(z, (q-above)/density)
	return z - step, float64(density * growth)
}

// normalInverse returns how far to go down from z so that the chance above
// grows by s times the density, to third order, and by what the density grows.
func normalInverse(z, s float64) (step, growth float64) {
	// Downwards f'/f is z, and its derivative -1.
	step = float64(s * (1 - float64(s*(z/2-float64(s*(float64(2*z*z)+1)/6)))))
	growth = 1 + float64(step*(z+float64(step*(float64(z*z)-1)/2)))
	return step, growth
}
