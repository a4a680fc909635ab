package cold

import (
	"math"

	"warmby/sim/portable"
)

// Hazard is a class of wind chill.
type Hazard int

// The classes of wind chill, mildest first.
const (
	HazardNone     Hazard = iota // index above 0
	HazardSlight                 // 0 to -9
	HazardLow                    // -10 to -27
	HazardModerate               // -28 to -39
	HazardHigh                   // -40 to -47
	HazardVeryHigh               // -48 to -54
	HazardExtreme                // -55 and colder
)

// HazardOf returns the class of a wind chill index. The bands are printed for
// whole numbers, so the index is rounded to one first, half away from zero.
//
// Source: Environment Canada, wind chill hazards: 0 to -9, -10 to -27, -28 to
// -39, -40 to -47, -48 to -54, -55 and colder.
func HazardOf(index float64) Hazard {
	switch i := math.Round(index); {
	case i > 0:
		return HazardNone
	case i > -10:
		return HazardSlight
	case i > -28:
		return HazardLow
	case i > -40:
		return HazardModerate
	case i > -48:
		return HazardHigh
	case i > -55:
		return HazardVeryHigh
	}
	return HazardExtreme
}

// String returns the class in words.
func (h Hazard) String() string {
	switch h {
	case HazardNone:
		return "warmer than the bands of hazard"
	case HazardSlight:
		return "slight discomfort"
	case HazardLow:
		return "low risk of frostbite, hypothermia if out long"
	case HazardModerate:
		return "bare skin can freeze in 10 to 30 min"
	case HazardHigh:
		return "bare skin can freeze in 5 to 10 min"
	case HazardVeryHigh:
		return "bare skin can freeze in 2 to 5 min"
	}
	return "bare skin can freeze in less than 2 min"
}

// FastWindKmh is the sustained wind over which the times of the classes are
// said to be shorter still. Source: Environment Canada.
const FastWindKmh = 50

// mostWindKmh is where the formula of [FrostbiteTime] ends.
const mostWindKmh = 80.5

// FrostbiteTime returns the minutes after which a bare cheek may freeze, for
// air in degrees C and wind in km/h at 10 m:
//
//	(-24.5 (0.667 V + 4.8) + 2111) (-4.8 - T)^-1.668
//
// Source: Environment Canada's formula as the US National Weather Service
// codes it. It stands for 25 < V <= 80.5 km/h, T < -4.8 C and results up to
// 30 min; elsewhere there is no value (at -29 C and 8 km/h it would give 9 min
// where the facial-cooling table has 17). In more wind than it goes to, it takes
// no longer than in the most: the value is then Under that, so that more wind is
// never less danger.
func FrostbiteTime(airC, windKmh float64) Value {
	switch {
	case !finite(airC) || !finite(windKmh):
		return noValue("air and wind are not known")
	case airC >= -4.8:
		return noValue("air not under -4.8 C: the formula begins there")
	case windKmh <= 25:
		return noValue("wind not over 25 km/h: the formula begins there")
	}
	under := windKmh > mostWindKmh
	windKmh = min(windKmh, mostWindKmh)
	t := (float64(-24.5*(float64(0.667*windKmh)+4.8)) + 2111) * portable.Pow(-4.8-airC, -1.668)
	if t > 30 {
		return noValue("more than 30 min: the formula ends there")
	}
	return Value{X: t, Under: under}
}
