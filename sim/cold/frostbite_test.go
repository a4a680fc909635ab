package cold

import (
	"testing"

	"pgregory.net/rapid"
)

// Environment Canada's formula as the US National Weather Service codes it,
// worked to two decimals.
func TestFrostbiteTimeHasTheValuesOfTheFormula(t *testing.T) {
	for _, c := range [][3]float64{
		{-20, 30, 16.06}, {-20, 40, 14.31}, {-25, 26, 10.43}, {-25, 40, 8.91}, {-25, 60, 6.73}, {-30, 30, 6.91},
		{-30, 50, 5.41}, {-35, 40, 4.55}, {-40, 40, 3.53}, {-40, 60, 2.67}, {-50, 40, 2.32}, {-15, 40, 27.84}, {-15, 80, 14.26},
	} {
		got := FrostbiteTime(c[0], c[1])
		if !got.OK() {
			t.Errorf("FrostbiteTime(%v, %v): %s", c[0], c[1], got.Why)
		}
		near(t, "FrostbiteTime", got.X, c[2], 0.01)
	}
	// The facial-cooling table of TB MED 508, as quoted by The Mobility
	// Forum: cheek at -20 F and 30 mph, 6 min.
	near(t, "FrostbiteTime of the cheek table", FrostbiteTime(-28.9, 48.3).X, 6, 0.2)
}

func TestFrostbiteTimeGivesNoValueOutsideItsDomain(t *testing.T) {
	for _, c := range []struct {
		air, kmh float64
		why      string
	}{
		{-25, 25, "wind not over 25 km/h: the formula begins there"},
		{-28.9, 8, "wind not over 25 km/h: the formula begins there"}, // measured 17 min, the formula has 9.2
		{-4.8, 40, "air not under -4.8 C: the formula begins there"},
		{-10, 30, "more than 30 min: the formula ends there"},
	} {
		if got := FrostbiteTime(c.air, c.kmh); got.Why != c.why || got.X != 0 {
			t.Errorf("FrostbiteTime(%v, %v) = %+v, want none: %s", c.air, c.kmh, got, c.why)
		}
	}
	if got := FrostbiteTime(-25, 80.5); !got.OK() {
		t.Errorf("FrostbiteTime(-25, 80.5): %s, want a value", got.Why)
	}
}

// Beyond the end of the formula it takes no longer than at the end, at -25 C some
// 4.3 min; more wind and colder air are never less danger anywhere.
func TestMoreWindIsNeverLessDanger(t *testing.T) {
	if got := FrostbiteTime(-25, 90); !got.Under || got.X != FrostbiteTime(-25, 80.5).X {
		t.Errorf("at 90 km/h: %+v", got)
	}
	minutes := func(air, kmh float64) float64 {
		if v := FrostbiteTime(air, kmh); v.OK() {
			return v.X
		}
		return 1000
	}
	rapid.Check(t, func(t *rapid.T) {
		air, kmh := rapid.Float64Range(-60, 5).Draw(t, "air"), rapid.Float64Range(0, 150).Draw(t, "wind")
		more, colder := rapid.Float64Range(0, 60).Draw(t, "more"), rapid.Float64Range(0, 20).Draw(t, "colder")
		if minutes(air, kmh+more) > minutes(air, kmh) || minutes(air-colder, kmh) > minutes(air, kmh) {
			t.Fatalf("%v min in %v C and %v km/h, %v in %v more, %v when %v colder", minutes(air, kmh), air, kmh, minutes(air, kmh+more), more, minutes(air-colder, kmh), colder)
		}
		a, b := WindChill(air, kmh), WindChill(air, kmh+more)
		if a.OK() && air <= 0 && HazardOf(b.X) < HazardOf(a.X) {
			t.Fatalf("wind chill %v, in more wind %v", a.X, b.X)
		}
	})
}

// Bands of Environment Canada, at their edges.
func TestHazardChangesAtTheEdgesOfTheBands(t *testing.T) {
	for _, c := range []struct {
		index float64
		want  Hazard
	}{
		{1, HazardNone}, {0, HazardSlight}, {-9, HazardSlight}, {-10, HazardLow}, {-27, HazardLow}, {-28, HazardModerate},
		{-39, HazardModerate}, {-40, HazardHigh}, {-47, HazardHigh}, {-48, HazardVeryHigh}, {-54, HazardVeryHigh}, {-55, HazardExtreme}, {-90, HazardExtreme},
		// rounded half away from zero, as the chart is
		{-27.49, HazardLow}, {-27.5, HazardModerate}, {-54.5, HazardExtreme},
	} {
		if got := HazardOf(c.index); got != c.want {
			t.Errorf("HazardOf(%v) = %v, want %v", c.index, got, c.want)
		}
	}
}
