package cold

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
)

// evening plays half an hour at something, and returns the account.
func evening(clo, air, wind float64, stretch sim.Stretch, change func(d *sim.Drill)) Person {
	d := camp(sim.WeatherRow{Air: air, Wind: wind, Humidity: 0.85})
	d.People[0].March, d.People[0].Halt = clo, clo
	change(d)
	return Account(played(d, nil, stretch))[0]
}

func TestMoreWindIsNeverLessLoss(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		clo, air := rapid.Float64Range(0.5, 4).Draw(t, "clo"), rapid.Float64Range(-50, -10).Draw(t, "air")
		wind, more := rapid.Float64Range(0, 14).Draw(t, "wind"), rapid.Float64Range(0, 8).Draw(t, "more")
		same := func(*sim.Drill) {}
		a, b := evening(clo, air, wind, waits(0, 30*sim.Minute), same), evening(clo, air, wind+more, waits(0, 30*sim.Minute), same)
		if b.Peak < a.Peak-1e-9 || b.PassedAt > a.PassedAt {
			t.Fatalf("%v Wh/m2, in more wind %v", a.Peak, b.Peak)
		}
	})
}

func TestOneMoreLayerIsLessLossAtRestAndMoreSweatAtWork(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		clo, more := rapid.Float64Range(0.5, 4).Draw(t, "clo"), rapid.Float64Range(0, 2).Draw(t, "more")
		air, wind := rapid.Float64Range(-50, 0).Draw(t, "air"), rapid.Float64Range(0, 14).Draw(t, "wind")
		effort := sim.Effort(rapid.IntRange(int(sim.Moderate), int(sim.VeryHigh)).Draw(t, "effort"))
		works := func(d *sim.Drill) { d.Tasks[0].Effort = effort }
		a, b := evening(clo, air, wind, waits(0, sim.Hour), works), evening(clo+more, air, wind, waits(0, sim.Hour), works)
		if b.Peak > a.Peak+1e-9 {
			t.Fatalf("at rest %v Wh/m2, in one more layer %v", a.Peak, b.Peak)
		}
		a, b = evening(clo, air, wind, work(0, 0, sim.Hour), works), evening(clo+more, air, wind, work(0, 0, sim.Hour), works)
		if b.Sweat < a.Sweat-1e-9 {
			t.Fatalf("at work %v g, in one more layer %v", a.Sweat, b.Sweat)
		}
	})
}

// Griefahn's caveat, and the accuracy of the rate, go with what is printed.
func TestTheCaveatIsPrinted(t *testing.T) {
	if want := "165 W/m2"; len(Griefahn) == 0 || !strings.Contains(Standard, want) || !strings.Contains(Standard, "Griefahn") {
		t.Errorf("%q lacks %q", Standard, want)
	}
}

// No relief that is proposed, and no stand at a lookout, is longer than the published schedule
// allows in that weather.
func TestReliefIsNeverLongerThanTheSchedule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		air, wind := rapid.Float64Range(-50, -20).Draw(t, "air"), rapid.Float64Range(0, 12).Draw(t, "wind")
		d := camp(sim.WeatherRow{Air: air, Wind: wind, Humidity: 0.85})
		d.People[0].Halt = rapid.Float64Range(2, 6).Draw(t, "clo")
		tl := played(d, nil, watch(4*sim.Hour))
		allowed := Schedule(air, Kmh(wind/2), true)
		most := LongestStand(tl, 0)
		switch p := Account(tl)[0]; {
		case allowed.Stop && most != 0, !allowed.OK() && most != sim.Never, allowed.Normal() && most != sim.Never:
			t.Fatalf("%+v allows %v", allowed, most)
		case allowed.Most > 0 && (most != allowed.Most || p.RelieveBy > allowed.Most):
			t.Fatalf("%+v, a stand of %v, relieve by %v", allowed, most, p.RelieveBy)
		}
	})
}

// In a gale of more than the standard goes to there is no value, and no number.
func TestFrostbiteAndChillStandBesideAnAccountWithoutValue(t *testing.T) {
	d := camp(sim.WeatherRow{Air: -20, Wind: 30})
	p := Account(played(d, nil, free(0, sim.Minute)))[0]
	if p.Why == "" || p.Peak != 0 || p.Ledger != nil {
		t.Errorf("%+v", p)
	}
	if s := SkinAlong(d.Steps(0))[0]; !s.Chill.OK() || !s.Frostbite.Under {
		t.Errorf("bare skin in 108 km/h: %+v", s)
	}
}
