package heat

import (
	"math"

	"warmby/sim"
)

// outsideDioxide is the share of carbon dioxide in fresh air. From memory.
const outsideDioxide = 0.0004

// molarGas is the gas constant in J/(mol K).
const molarGas = 8.314

// CarbonDioxide returns the share of carbon dioxide, by volume, to which the air
// of a shelter comes when a stove without a flue burns so many watts of a fuel in
// it for good: what the fuel makes, by stoichiometry, over the air that goes
// through,
//
//	0.0004 + q / (n V),   q = P e R T / (M p)
//
// with the e kg of carbon dioxide that a joule makes ([Fuel].Exhaust), M its molar
// mass, and the pressure at an elevation in metres. It is infinite where no air
// goes through, and 0 for a fuel that is not known. People breathe out more.
func CarbonDioxide(fuel string, power float64, s sim.Shelter, celsius, elevation float64) float64 {
	f, ok := FuelNamed(fuel)
	if !ok || !(power > 0) {
		return 0
	}
	moles := power * f.Exhaust / (dioxideMass / 1000)                                  // in a second
	volume := moles * molarGas * (celsius + zeroCelsius) / max(1, Pressure(elevation)) // m3
	through := s.AirChanges * s.Volume / 3600
	if !(through > 0) {
		return math.Inf(1)
	}
	return outsideDioxide + volume/through
}
