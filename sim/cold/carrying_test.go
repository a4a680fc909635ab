package cold

import "testing"

// Pandolf, Givoni, Goldman 1977: seven worked values.
func TestCarryingHasTheWorkedValues(t *testing.T) {
	for _, c := range []struct {
		m    March
		want float64
	}{
		{March{70, 0, 1.34, 0, 1}, 293.5}, {March{70, 20, 1.34, 0, 1}, 362.1}, {March{80, 20, 1.34, 0, 1}, 401.8},
		{March{80, 20, 1.34, 5, 1}, 636.3}, {March{80, 20, 1.0, 0, 2.5}, 507.5}, {March{80, 30, 0.9, 0, 4.1}, 698.9}, {March{85, 35, 1.25, 0, 1}, 449.4},
	} {
		got := c.m.Watts()
		if !got.OK() {
			t.Errorf("%+v: %s", c.m, got.Why)
		}
		near(t, "Watts", got.X, c.want, 0.1)
	}
}

func TestCarryingKeepsToItsDomain(t *testing.T) {
	for _, m := range []March{{70, 0, 0.5, 0, 1}, {70, 0, 2.3, 0, 1}, {70, 0, 1, -1, 1}, {0, 0, 1, 0, 1}, {70, -1, 1, 0, 1}} {
		if got := m.Watts(); got.OK() {
			t.Errorf("%+v: %v W, want no value", m, got.X)
		}
	}
}

// Ramaswamy and others 1966.
func TestSnowOxygenHasThePublishedValues(t *testing.T) {
	for _, c := range [][2]float64{{5, 15.75}, {10, 22.86}, {15, 30.11}, {20, 37.46}, {30, 52.36}, {37, 62.90}} {
		near(t, "SnowOxygen", SnowOxygen(c[0]).X, c[1], 0.01)
	}
	if got := SnowOxygen(37.1); got.OK() {
		t.Errorf("SnowOxygen(37.1) = %v, want no value", got.X)
	}
}

// Both from memory, Pandolf and others 1976 beside Soule and Goldman 1972:
// they agree within 0.1, which tests them against each other only.
func TestSnowTerrainAgreesWithTheOlderTable(t *testing.T) {
	for _, c := range [][2]float64{{15, 2.5}, {25, 3.3}, {35, 4.1}} {
		near(t, "SnowTerrain", SnowTerrain(c[0]).X, c[1], 0.1)
	}
	for _, depth := range []float64{-1, 41} {
		if got := SnowTerrain(depth); got.OK() {
			t.Errorf("SnowTerrain(%v) = %v, want no value", depth, got.X)
		}
	}
}

func TestHaulingAddsThePull(t *testing.T) {
	m := March{Body: 80, Speed: 1, Terrain: 2.5}
	// 60 kg at friction 0.08: 47.1 N at 1 m/s, over 0.25.
	near(t, "pull", m.Hauling(Sled{60, 0.08}).X-m.Watts().X, 188.35, 0.01)
	near(t, "no sled", m.Hauling(Sled{}).X, m.Watts().X, 0)
	if got := m.Hauling(Sled{-1, 0}); got.OK() {
		t.Errorf("a sled of -1 kg: %v W", got.X)
	}
	// DuBois, from memory: 70 kg and 175 cm, 1.848 m2.
	near(t, "BodyArea", BodyArea(70, 175), 1.848, 0.001)
}
