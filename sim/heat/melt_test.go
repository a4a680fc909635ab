package heat

import (
	"math"
	"testing"

	"warmby/sim"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %v, want %v within %v", what, got, want, tolerance)
	}
}

// Worked from the pinned constants, kJ for each litre.
func TestMeltEnergyForALitre(t *testing.T) {
	for _, c := range []struct{ snow, to, want float64 }{
		{0, 0, 333.6}, {-10, 0, 354.6}, {-20, 0, 375.7}, {-10, 100, 773.2},
		{-20, 60, 626.9}, {-20, 100, 794.3}, {-30, 100, 815.4}, {-40, 100, 836.5},
	} {
		m := &sim.Melting{Water: 1e6, Pot: 1e6, To: c.to}
		got := MeltEnergy(&sim.Site{SnowTemperature: c.snow}, m) / 1000
		near(t, "energy", got, c.want, 0.1)
	}
}

// Standard atmosphere and NIST Antoine constants for 344 to 373 K.
func TestBoilingPointFallsWithElevation(t *testing.T) {
	for _, c := range []struct{ elevation, kilopascal, celsius float64 }{
		{0, 101.325, 100.00}, {1000, 89.875, 96.67}, {2000, 79.495, 93.34},
		{3000, 70.109, 90.00}, {4000, 61.640, 86.64}, {5000, 54.020, 83.28},
		{6000, 47.181, 79.90},
	} {
		near(t, "pressure", Pressure(c.elevation)/1000, c.kilopascal, 0.001)
		got, ok := BoilingPoint(c.elevation)
		near(t, "boiling point", got, c.celsius, 0.05)
		if !ok {
			t.Errorf("BoilingPoint(%v) is out of its range", c.elevation)
		}
	}
	for h := 6000.0; h < 12000; h += 100 {
		c, ok := BoilingPoint(h)
		if !ok {
			t.Log(h, c)
			break
		}
	}
}
