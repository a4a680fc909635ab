package heat

import "warmby/sim"

const airHeat = 1005.0 // J/(kg K)

// PersonPower is the heat that one of the people of a warm-up gives, in watts.
const PersonPower = 100.0

// Surroundings is all that a warm-up depends on at a moment.
type Surroundings struct {
	Shelter sim.Shelter // as it is then, see [Apply]
	Power   float64     // watts into the air, people included, see [WarmPower]
	Air     float64     // outside, degrees C
}

// WarmPower returns the watts that go into the air of a shelter: what the
// stove gives it, less the share of a pot on the same stove while a melt runs
// there, and 100 W for each of the people.
func WarmPower(stove *sim.Stove, people int, potOn bool) float64 {
	return StovePower(stove, potOn) + float64(PersonPower*float64(people))
}

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

// Warmup is a shelter that is being warmed: a [Balance] that starts with the
// outside air. It is there for callers that have no balance of the shelter yet.
type Warmup struct {
	Balance
	to float64
}

// Begin returns a warm-up to a temperature in degrees C that starts at a
// moment, from the outside air of that moment.
func Begin(at sim.Time, in Surroundings, to float64) Warmup {
	w := Warmup{Start(at, in.Air, Terms{Shelter: in.Shelter, Outside: in.Air}), to}
	w.Change(at, in)
	return w
}

// Change tells the warm-up that the surroundings are different from at on,
// which must not be before an earlier change.
func (w *Warmup) Change(at sim.Time, in Surroundings) { w.Balance.Change(at, in.terms()) }

// Reaches returns when the shelter is as warm as asked, see [Balance.Reaches].
func (w *Warmup) Reaches() sim.Time { return w.Balance.Reaches(w.to) }

// To returns the temperature asked for in degrees C.
func (w *Warmup) To() float64 { return w.to }

// Holds returns the temperature in degrees C that the power can hold for
// ever: T_air + P / H; infinite without any loss.
func (in Surroundings) Holds() float64 { return in.terms().Holds() }

func (in Surroundings) terms() Terms {
	return Terms{Shelter: in.Shelter, Outside: in.Air, Fire: Full, Stove: in.Power}
}
