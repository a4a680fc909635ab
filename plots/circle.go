package plots

import "math"

// circle returns the corners of a circle, as a many-sided figure.
func circle(at point, radius float64) []point {
	const sides = 24
	out := make([]point, sides)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / sides)
		out[i] = point{at.x + float64(radius*cos), at.y + float64(radius*sin)}
	}
	return out
}
