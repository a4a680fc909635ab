package heat

import (
	"math"

	"warmby/sim/portable"
)

const zeroCelsius = 273.15 // K

// Pressure returns the air pressure of the standard atmosphere in pascals at
// an elevation in metres: 101325 (1 - 2.25577e-5 h)^5.25588, good up to
// 11,000 m. Above the height at which the formula ends it is 0.
func Pressure(elevation float64) float64 {
	base := 1 - 2.25577e-5*elevation
	if !(base > 0) {
		return 0
	}
	return 101325 * portable.Pow(base, 5.25588)
}

// BoilingPoint returns the temperature in degrees C at which water boils at
// an elevation in metres, by the Antoine equation for 344 to 373 K with the
// constants of Bridgeman and Aldrich (1964) as given by the NIST WebBook:
// log10 P = 5.08354 - 1663.125 / (T - 45.622), P in bar, T in kelvin.
//
// Ok is false outside that range, which begins at about 8,650 m; the
// temperature is then the equation's all the same, or 0 where it has none.
// Below the sea the range is stretched to 375 K, some 500 m down, where the
// equation is still within 0.05 K.
func BoilingPoint(elevation float64) (celsius float64, ok bool) {
	bar := Pressure(elevation) / 1e5
	if !(bar > 1e-3 && bar < 100) {
		return 0, false
	}
	kelvin := 1663.125/(5.08354-portable.Log(bar)/math.Ln10) + 45.622
	return kelvin - zeroCelsius, kelvin >= 344 && kelvin <= 375
}
