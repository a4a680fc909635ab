package cold

import (
	"testing"

	"warmby/sim"
)

func TestSkinAlongFollowsTheWeather(t *testing.T) {
	d := camp(sim.WeatherRow{Air: -10}, sim.WeatherRow{At: sim.Hour, Air: -25, Wind: 40 / 3.6})
	d.Light = []sim.Light{{At: 0}, {At: 2 * sim.Hour, Dark: true}}
	got := SkinAlong(d.Steps(0))
	if len(got) != 3 {
		t.Fatalf("%d steps, want 3", len(got))
	}
	// Printed chart: -25 C and 40 km/h, -41; the formula for frostbite: 8.91 min.
	near(t, "chill", got[1].Chill.X, -41, 0.5)
	near(t, "frostbite", got[1].Frostbite.X, 8.91, 0.01)
	if got[0].Hazard != HazardLow || got[1].Hazard != HazardHigh || got[1].ChillAt != sim.Hour || got[2].Chill != got[1].Chill {
		t.Errorf("%+v", got)
	}
	if none := SkinAlong(camp().Steps(0)); none[0].Chill.OK() || none[0].Frostbite.OK() {
		t.Errorf("without weather: %+v", none)
	}
}

func TestWorstOfTwoKeepsEachWorstValue(t *testing.T) {
	s := noSkin("never outdoors")
	s.worsen(SkinIn(1, -45, 10)) // colder, but no time to frostbite
	s.worsen(SkinIn(2, -25, 40))
	if s.ChillAt != 1 || s.Chill != WindChill(-45, 10) || s.Frostbite != FrostbiteTime(-25, 40) {
		t.Errorf("%+v", s)
	}
	s.worsen(SkinIn(3, 15, 40)) // gives no values
	if s.ChillAt != 1 || !s.Frostbite.OK() {
		t.Errorf("%+v", s)
	}
}

func TestEachOutingKnowsItsOwnWorst(t *testing.T) {
	d := camp(sim.WeatherRow{Air: -10, Wind: 2, Humidity: 0.8}, sim.WeatherRow{At: 30 * sim.Minute, Air: -30, Wind: 10, Humidity: 0.8})
	p := Account(played(d, map[int]sim.Time{2: 10 * sim.Minute}, free(0, 10*sim.Minute), free(1, 30*sim.Minute), free(0, sim.Minute)))[0]
	if len(p.Outings) != 2 {
		t.Fatalf("%d outings, want 2", len(p.Outings))
	}
	near(t, "first", p.Outings[0].Chill.X, WindChill(-10, 7.2).X, 0)
	near(t, "second", p.Outings[1].Chill.X, WindChill(-30, 36).X, 0)
	if p.Skin != p.Outings[1].Skin {
		t.Errorf("%+v, want that of the second outing", p.Skin)
	}
}
