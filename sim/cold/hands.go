package cold

import "math/big"

// HandMark is a temperature of the skin at which hands are known to change.
type HandMark struct {
	Skin   float64 // degrees C, at or below which it holds
	What   string
	Source string
}

// HandMarks returns what is published about cold hands, warmest first: values
// to be careful by, not limits.
func HandMarks() []HandMark {
	return []HandMark{
		{27, "warm hands: no loss of skill above this", "Gaydos and Dusek 1958"},
		{24.9, "skill falls off more steeply from here (hand skin)", "Chapman and others 2025"},
		{22.9, "skill falls off more steeply from here (finger skin)", "Chapman and others 2025"},
		{20, "fingers begin to hurt", "cold weather questions and answers, The Mobility Forum (68 F)"},
		{15.6, "fingers lose their skill", "cold weather questions and answers, The Mobility Forum (60 F)"},
		{13, "much worse at handwork, down to 10 C and below", "Gaydos and Dusek 1958 (50 to 55 F)"},
		{6, "fingers lose their touch", "cold weather questions and answers, The Mobility Forum (43 F)"},
	}
}

// HandsAt returns the mark that holds for hands whose skin has a temperature
// in degrees C; ok is false above the first.
func HandsAt(skin float64) (mark HandMark, ok bool) {
	for _, m := range HandMarks() {
		if skin <= m.Skin {
			mark, ok = m, true
		}
	}
	return mark, ok
}

// BareHandTime returns the minutes for which bare hands may work in air of a
// temperature in degrees C: T + 5, T in degrees F, never below 0.
//
// Source: Naval Submarine Medical Research Laboratory, Report 1067 (10 F, 15
// min). The report's range was not read; above freezing there is no value.
// It is about air, not about metal or fuel.
func BareHandTime(airC float64) Value {
	switch {
	case !finite(airC):
		return noValue("the air is not known")
	case airC > 0:
		return noValue("air over 0 C: the rule is for cold air")
	}
	return value(max(0, airC*9/5+32+5))
}

// HandSlowdown returns by how much handwork may be taken to last longer with
// hands whose skin has a temperature in degrees C, as a factor for the
// `slowed` of a task. The marks are published ([HandMarks]); the factors are
// our proposal and rest on no measurement: use your own stop-watch logs.
func HandSlowdown(skin float64) *big.Rat {
	percent := int64(100)
	switch {
	case skin <= 6:
		percent = 300
	case skin <= 13:
		percent = 200
	case skin <= 15.6:
		percent = 150
	case skin <= 24.9:
		percent = 120
	}
	return big.NewRat(percent, 100)
}
