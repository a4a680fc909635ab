package heat

import "math"

// The functions that decide a moment, in one place.

func exp(x float64) float64   { return math.Exp(x) }
func log1p(x float64) float64 { return math.Log1p(x) }
