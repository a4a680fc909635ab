package cold

import "warmby/sim"

// Met is the metabolic rate of one met in W/m2. Source: ISO 8996 and ASHRAE
// use 58.2; engineeringtoolbox.com prints 58.
const Met = 58.2

// Standing is the metabolic rate of standing at rest in W/m2. Source:
// engineeringtoolbox.com (in the line of ISO 7730 and 8996), 70 W/m2; the
// Compendium of 2011 has 1.3 met, 75.7 W/m2, for standing quietly.
const Standing = 70

// lightWork is the rate in W/m2 below which work counts as light. ISO 8996,
// upper end of its class "low", from memory.
const lightWork = 130

// Rate returns the metabolic rate of a class of effort in W/m2; EffortUnset
// counts as moderate.
//
// From memory (very likely right), ISO 8996 table A.2: resting 65, low 100,
// moderate 165, high 230, very high 290.
func Rate(e sim.Effort) float64 {
	switch e {
	case sim.Resting:
		return 65
	case sim.Low:
		return 100
	case sim.High:
		return 230
	case sim.VeryHigh:
		return 290
	}
	return 165
}

// TaskEffort returns the effort of a task: its own, or by kind. Work, timed
// work and unloading are moderate (camping chores are 2.5 met, 145 W/m2, in
// the Compendium of 2011, code 09110); a wait or fixed job, a melt and a
// warm-up are low, for whoever tends them stands about most of the time.
func TaskEffort(t *sim.Task) sim.Effort {
	switch {
	case t.Effort != sim.EffortUnset:
		return t.Effort
	case t.Worked() || t.Unloads():
		return sim.Moderate
	}
	return sim.Low
}

// IdleEffort returns the effort of people outdoors who have nothing to do: low,
// unless the scenario says otherwise. They keep moving; whoever waits for the rest
// of a crew stands ([Standing]), and inside people rest.
func IdleEffort(d *sim.Drill) sim.Effort {
	if d.Idle.Effort == sim.EffortUnset {
		return sim.Low
	}
	return d.Idle.Effort
}

// LookoutRate returns the metabolic rate in W/m2 of a lookout with an effort:
// standing at rest when it is unset. Published values for standing run from 70 (at
// rest) to 93 W/m2 (light activity); the lowest is taken because a lookout may not
// be able to stamp about, and because it makes the account colder rather than
// warmer than it may be.
func LookoutRate(e sim.Effort) float64 {
	if e == sim.EffortUnset {
		return Standing
	}
	return Rate(e)
}
