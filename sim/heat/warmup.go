package heat

import "warmby/sim"

const airHeat = 1005.0 // J/(kg K)

// PersonPower is the heat that one of the people of a warm-up gives, in watts.
const PersonPower = 100.0

// StovePower returns the watts that a stove can give the air of a shelter: with a
// flue the stove's efficiency of the heat of the fuel, without one all of it. A pot
// on it takes its share while a melt runs there.
func StovePower(stove *sim.Stove, potOn bool) float64 {
	power := stove.Power * inside(stove)
	if potOn && stove.HoldsPots {
		power *= 1 - stove.ToPots
	}
	return power
}

// inside returns the share of the heat of the fuel that stays in a shelter.
func inside(stove *sim.Stove) float64 {
	if stove.Flue {
		return stove.Efficiency
	}
	return 1
}

// airDensity returns kg/m3 at a temperature in degrees C: 353 / T.
func airDensity(celsius float64) float64 { return 353 / max(1, celsius+zeroCelsius) }

// Loss returns what a shelter loses to the outside air in watts for each
// kelvin of difference: U A + rho c_p n V / 3600, rho that of the outside air.
func Loss(s sim.Shelter, air float64) float64 {
	return float64(s.U*s.Skin) + float64(airDensity(air)*airHeat*s.AirChanges*s.Volume/3600)
}

// Capacity returns the heat that warms a shelter by a kelvin, in joules: its
// contents and its air, at the density of the outside air.
func Capacity(s sim.Shelter, air float64) float64 {
	return s.Contents + float64(airDensity(air)*airHeat*s.Volume)
}

// Warming returns the terms of a shelter while a warm-up goes on in it, with no pot on
// its stove: the stove gives all that it can, and its people 100 W each.
func Warming(w *sim.Warming, stove *sim.Stove, shelter sim.Shelter, outside float64) Terms {
	return Terms{Shelter: shelter, Outside: outside, People: PersonPower * float64(w.People), Fire: Full, Stove: StovePower(stove, false)}
}
