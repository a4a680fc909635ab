package plots

import (
	"math"

	"warmby/sim"
	"warmby/sim/cold"
)

// skinTexts are ways to say what the weather does to bare skin in the open,
// longest first.
func skinTexts(st sim.Step) []string {
	if !st.Weather {
		return []string{"weather unknown", "unknown"}
	}
	skin := cold.SkinAlong([]sim.Step{st})[0]
	if !skin.Chill.OK() {
		return []string{"no wind chill index in this weather", "no index"}
	}
	chill, long, short := number(math.Round(skin.Chill.X)), skin.Hazard.String(), hazardShort(skin.Hazard)
	return []string{
		"wind chill " + chill + ": " + long,
		chill + ": " + long,
		"wind chill " + chill + ": " + short,
		chill + ": " + short,
	}
}

// hazardShort are the classes of wind chill in few words: after how long bare
// skin can freeze, where the class says so.
func hazardShort(h cold.Hazard) string {
	switch h {
	case cold.HazardNone:
		return "no band"
	case cold.HazardSlight:
		return "discomfort"
	case cold.HazardLow:
		return "low risk"
	case cold.HazardModerate:
		return "10 to 30 min"
	case cold.HazardHigh:
		return "5 to 10 min"
	case cold.HazardVeryHigh:
		return "2 to 5 min"
	}
	return "under 2 min"
}
