package cold

import "warmby/sim"

// BodyWind is the share of the wind at 10 m that reaches a body in the open.
// From memory.
const BodyWind = 0.65

// sheltered returns the wind at 10 m, in m/s, as a spot lets it through.
func sheltered(step sim.Step, spot sim.Spot) float64 {
	return step.Wind * (1 - clamp(spot.Sheltered, 0, 1))
}

// Outdoors returns the air around somebody who stands at a spot while the
// weather is that of a step: the wind at the body is 0.65 of that at 10 m,
// less what the spot keeps off, and everything around is as warm as the air.
func Outdoors(step sim.Step, spot sim.Spot) Ambient {
	return Ambient{
		Air: step.Air, Radiant: step.Air,
		Wind:     BodyWind * sheltered(step, spot),
		Humidity: clamp(step.Humidity, 0, 1),
	}
}

// indoors returns the air of a shelter that is so many degrees C warm: still, and
// what surrounds people as warm as the air.
func indoors(step sim.Step, celsius float64) Ambient {
	return Ambient{Air: celsius, Radiant: celsius, Humidity: clamp(step.Humidity, 0, 1)}
}

// worn returns the insulation in clo that damp leaves of clothing.
func worn(clo, damp float64) float64 { return clo * (1 - clamp(damp, 0, 1)) }

// StandingLimit returns how long somebody who has lost no heat so far can
// stand lookout at a spot, with an effort, in clothing of so many clo and the
// share that damp takes of it, while the weather stays that of a step, before
// the account reaches [HeatLimit]; rounded up to a millisecond. Never when
// the body loses nothing there; ok is false when clothing or weather is
// unknown.
func StandingLimit(clo, damp float64, effort sim.Effort, spot sim.Spot, step sim.Step) (t sim.Time, ok bool) {
	if !(clo > 0) || !step.Weather {
		return 0, false
	}
	s := Balance(Body{M: LookoutRate(effort)}, Clothing{Clo: worn(clo, damp)}, Outdoors(step, spot))
	return after(0, s), true
}
