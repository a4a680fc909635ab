package sim_test

import (
	"testing"

	"warmby/sim"
)

// Check and the cautions ask the same: nine tenths are near, a little less is
// not, and a load without a limit has none to be near.
func TestALoadIsNearItsLimitFromNineTenths(t *testing.T) {
	for weight, want := range map[float64]bool{44: false, 45: true, 60: true} {
		d := &sim.Drill{Loads: []sim.Load{{Limit: 50}, {}}, Items: []sim.Item{{Weight: 40}, {Weight: weight - 40}, {Load: 1, Weight: 500}}}
		if got, near := d.NearLimit(0); got != weight || near != want {
			t.Errorf("%v kg of 50: %v kg, near %v, want %v", weight, got, near, want)
		}
		if _, near := d.NearLimit(1); near {
			t.Error("a load without a limit is near it")
		}
	}
}
