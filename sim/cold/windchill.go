package cold

import (
	"math"

	"warmby/sim/portable"
)

// Kmh returns a speed in km/h, given m/s.
func Kmh(metresPerSecond float64) float64 { return metresPerSecond * 3.6 }

// calmKmh is the walking pace to which the index refers: in less wind it is
// the air temperature itself.
const calmKmh = 4.8

// WindChill returns the wind chill index for air in degrees C and wind in
// km/h at 10 m:
//
//	13.12 + 0.6215 T - 11.37 V^0.16 + 0.3965 T V^0.16
//
// Source: joint index of Environment Canada and the US National Weather
// Service, 2001; also ISO 11079:2007 Annex D. Published for air up to 10 C. At
// 4.8 km/h or less the index is the air temperature; likewise where the
// formula, near its upper end, would come out above it.
func WindChill(airC, windKmh float64) Value {
	switch {
	case !finite(airC) || !finite(windKmh) || windKmh < 0:
		return noValue("air and wind are not known")
	case airC > 10:
		return noValue("air over 10 C: the wind chill index ends there")
	case windKmh <= calmKmh:
		return value(airC)
	}
	v := portable.Pow(windKmh, 0.16)
	return value(min(airC, 13.12+float64(0.6215*airC)-float64(11.37*v)+float64(0.3965*airC*v)))
}

// WindChillUS returns the index of the US chart, for air in degrees F and
// wind in miles an hour:
//
//	35.74 + 0.6215 T - 35.75 V^0.16 + 0.4275 T V^0.16
//
// Source: US National Weather Service, 1 November 2001. Published for air up
// to 50 F; at 3 mph or less the index is the air temperature.
func WindChillUS(airF, windMph float64) Value {
	switch {
	case !finite(airF) || !finite(windMph) || windMph < 0:
		return noValue("air and wind are not known")
	case airF > 50:
		return noValue("air over 50 F: the wind chill index ends there")
	case windMph <= 3:
		return value(airF)
	}
	v := portable.Pow(windMph, 0.16)
	return value(min(airF, 35.74+float64(0.6215*airF)-float64(35.75*v)+float64(0.4275*airF*v)))
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
