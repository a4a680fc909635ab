package heat

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
)

// The worked tent: 35 m2 of skin, 25 m3, -30 C outside, 5 kW; W/K and K by
// the steady balance with rho = 353/T and c_p 1005.
func TestSteadyBalanceOfATent(t *testing.T) {
	for _, c := range []struct{ u, changes, loss, rise float64 }{
		{5.7, 1, 209.6, 23.9}, {3.5, 1, 132.6, 37.7}, {2.5, 1, 97.6, 51.2}, {3.5, 3, 152.9, 32.7},
	} {
		in := full(sim.Shelter{Volume: 25, Skin: 35, U: c.u, AirChanges: c.changes}, 5000, -30)
		near(t, "loss", Loss(in.Shelter, -30), c.loss, 0.1)
		near(t, "rise", in.Holds()+30, c.rise, 0.1)
	}
}

// Published time constants: about 280 s for 36 kJ/K of air at 130 W/K, about
// 740 s with 60 kJ/K of contents besides.
func TestTimeConstants(t *testing.T) {
	s := sim.Shelter{Volume: 25, Skin: 35, U: 3.5, AirChanges: 1}
	near(t, "air alone", Capacity(s, -30)/Loss(s, -30), 280, 10)
	s.Contents = 60000
	near(t, "with contents", Capacity(s, -30)/Loss(s, -30), 740, 20)
}

func tent() sim.Shelter {
	return sim.Shelter{Name: "tent", Volume: 25, Skin: 35, U: 3.5, AirChanges: 1, Contents: 60000}
}

// full is a shelter with a stove that gives so many watts.
func full(s sim.Shelter, power, outside float64) Terms {
	return Terms{Shelter: s, Outside: outside, Fire: Full, Stove: power}
}

// fromOutside starts a balance with the air outside.
func fromOutside(at sim.Time, in Terms) Balance {
	b := Start(at, in.Outside, Terms{Shelter: in.Shelter, Outside: in.Outside})
	b.Change(at, in)
	return b
}

func TestWarmupFollowsItsClosedForm(t *testing.T) {
	in := full(tent(), 5000, -30)
	w := fromOutside(1000, in)
	holds, tau := in.Holds(), Capacity(tent(), -30)/Loss(tent(), -30)
	for _, minutes := range []float64{0, 1, 5, 10, 60} {
		at := 1000 + sim.Time(minutes*60000)
		near(t, "temperature", w.Temperature(at), holds+(-30-holds)*math.Exp(-minutes*60/tau), 1e-9)
	}
	want := 1000 + sim.Milliseconds(1000*tau*math.Log((holds+30)/(holds-5)))
	if got := w.Reaches(5); got != want {
		t.Errorf("reaches 5 C at %v, want %v", got, want)
	}
	near(t, "temperature then", w.Temperature(want), 5, 1e-4)
}

// change is a moment with new terms.
type change struct {
	at sim.Time
	in Terms
}

// integrate solves the balance numerically: Runge and Kutta of fourth order,
// in steps of half a second.
func integrate(changes []change, until sim.Time) float64 {
	c, at := changes[0].in.Outside, changes[0].at
	for i := range changes {
		end := until
		if i+1 < len(changes) {
			end = changes[i+1].at
		}
		in := changes[i].in
		rate := func(c float64) float64 {
			loss := in.Shelter.U*in.Shelter.Skin +
				353/(in.Outside+273.15)*1005*in.Shelter.AirChanges*in.Shelter.Volume/3600
			return (in.Stove - loss*(c-in.Outside)) / (in.Shelter.Contents + 353/(in.Outside+273.15)*1005*in.Shelter.Volume)
		}
		for at < end {
			step := min(500, end-at)
			h := step.Seconds()
			k1 := rate(c)
			k2 := rate(c + h/2*k1)
			k3 := rate(c + h/2*k2)
			k4 := rate(c + h*k3)
			c += h / 6 * (k1 + 2*k2 + 2*k3 + k4)
			at += step
		}
	}
	return c
}

func TestChangesEqualNumericalIntegration(t *testing.T) {
	banked, torn := tent(), tent()
	banked.AirChanges, torn.U, torn.Contents = 0.4, 6, 90000
	changes := []change{
		{0, full(tent(), 5000, -22)},
		{4 * sim.Minute, full(tent(), 3600, -22)},
		{7*sim.Minute + 123, full(banked, 3600, -22)},
		{9 * sim.Minute, full(banked, 5000, -27)},
		{12 * sim.Minute, full(torn, 400, -27)},
		{20 * sim.Minute, full(torn, 6000, -25)},
	}
	w := fromOutside(0, changes[0].in)
	for i, c := range changes[1:] {
		near(t, "before a change", w.Temperature(c.at), integrate(changes[:i+1], c.at), 1e-7)
		w.Change(c.at, c.in)
		near(t, "after it", w.Temperature(c.at), integrate(changes[:i+1], c.at), 1e-7)
	}
	near(t, "in the end", w.Temperature(sim.Hour), integrate(changes, sim.Hour), 1e-7)
}

func TestWarmEnoughAlready(t *testing.T) {
	w := fromOutside(500, full(tent(), 5000, 3))
	if got := w.Reaches(-5); got != 500 {
		t.Errorf("a tent at 3 C is at -5 C at %v, want at once, 500", got)
	}
}

func TestNeverWarmEnough(t *testing.T) {
	in := full(tent(), 1000, -30)
	w := fromOutside(0, in)
	if got := w.Reaches(10); got != sim.Never {
		t.Errorf("1 kW reaches 10 C at %v, want never", got)
	}
	near(t, "holds", w.Holds(), -30+1000/Loss(tent(), -30), 1e-9)
	// Exactly what it holds is never reached either, only approached.
	w = fromOutside(0, in)
	if got := w.Reaches(in.Holds()); got != sim.Never {
		t.Errorf("the steady temperature is reached at %v, want never", got)
	}
	// More power from minute 10 on: then it comes.
	w = fromOutside(0, in)
	w.Change(10*sim.Minute, full(tent(), 8000, -30))
	if got := w.Reaches(10); got == sim.Never || got <= 10*sim.Minute {
		t.Errorf("8 kW reaches 10 C at %v", got)
	}
}

func TestShelterWithoutLossOrCapacity(t *testing.T) {
	closed := sim.Shelter{Contents: 100000}
	w := fromOutside(0, full(closed, 1000, -10))
	if got := w.Reaches(10); got != 2000*sim.Second {
		t.Errorf("2 MJ at 1 kW take %v, want 2000 s", got)
	}
	if !math.IsInf(w.Holds(), 1) {
		t.Errorf("without loss it holds %v, want no bound", w.Holds())
	}
	near(t, "half way", w.Temperature(1000*sim.Second), 0, 1e-9)
	if w := fromOutside(0, full(closed, 0, -10)); w.Reaches(10) != sim.Never || w.Holds() != -10 {
		t.Errorf("no power reaches 10 C at %v and holds %v", w.Reaches(10), w.Holds())
	}
	light := sim.Shelter{Skin: 10, U: 5}
	if w := fromOutside(7, full(light, 1000, -10)); w.Reaches(9) != 7 || w.Temperature(8) != 10 {
		t.Errorf("without capacity 9 C comes at %v, and %v after it", w.Reaches(9), w.Temperature(8))
	}
	if w := fromOutside(7, full(sim.Shelter{}, 1000, -10)); w.Reaches(9) != 7 {
		t.Errorf("a shelter of nothing reaches 9 C at %v, want at once", w.Reaches(9))
	}
}

// Two engines may tell the same changes one by one or all at once.
func TestOnlyTheLastChangeOfAMomentCounts(t *testing.T) {
	a, b, c := full(tent(), 5000, -22), full(tent(), 3000, -22), full(tent(), 3000, -27)
	once, often := fromOutside(0, a), fromOutside(0, a)
	once.Change(1111, c)
	often.Change(777, a) // nothing new
	often.Change(1111, b)
	often.Reaches(10)
	often.Change(1111, a)
	often.Change(1111, c)
	often.Change(1500, c)
	often.Change(1500, b)
	often.Change(1500, c)
	if once.Reaches(10) != often.Reaches(10) || once.Temperature(99999) != often.Temperature(99999) {
		t.Errorf("told once %v and %v, told often %v and %v",
			once.Reaches(10), once.Temperature(99999), often.Reaches(10), often.Temperature(99999))
	}
	late := fromOutside(0, a)
	late.Change(0, c)
	if late.Temperature(0) != -27 {
		t.Errorf("begins at %v, want the air of the moment, -27", late.Temperature(0))
	}
}

func TestRiseFallsWithAirChangesAndU(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := full(sim.Shelter{
			Volume: rapid.Float64Range(2, 200).Draw(t, "volume"), Skin: rapid.Float64Range(5, 200).Draw(t, "skin"),
			U: rapid.Float64Range(0.3, 8).Draw(t, "u"), AirChanges: rapid.Float64Range(0, 20).Draw(t, "air changes"),
			Contents: rapid.Float64Range(0, 1e6).Draw(t, "contents"),
		}, rapid.Float64Range(100, 2e4).Draw(t, "power"), rapid.Float64Range(-60, 10).Draw(t, "air"))
		draughty, thin := in, in
		draughty.Shelter.AirChanges += 1
		thin.Shelter.U += 0.5
		to := in.Outside + rapid.Float64Range(0, 40).Draw(t, "rise")
		reaches := func(in Terms) sim.Time { w := fromOutside(0, in); return w.Reaches(to) }
		for _, worse := range []Terms{draughty, thin} {
			if worse.Holds() >= in.Holds() || reaches(worse) < reaches(in) {
				t.Fatalf("%+v holds %v and is there at %v; %+v holds %v and is there at %v",
					in, in.Holds(), reaches(in), worse, worse.Holds(), reaches(worse))
			}
		}
	})
}

func TestReachesIsWhereTheTemperatureIs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func() Terms {
			s := tent()
			s.U = rapid.Float64Range(1, 7).Draw(t, "u")
			return full(s, rapid.Float64Range(0, 9000).Draw(t, "power"), rapid.Float64Range(-40, 0).Draw(t, "air"))
		}
		to := rapid.Float64Range(-20, 25).Draw(t, "to")
		w := fromOutside(0, draw())
		at := sim.Time(0)
		for range rapid.IntRange(0, 5).Draw(t, "changes") {
			at += sim.Time(rapid.Int64Range(0, 300000).Draw(t, "wait"))
			w.Change(at, draw())
		}
		before, there := w.Temperature(at), w.Reaches(to)
		switch {
		case there == sim.Never:
			if w.Holds() > to+1e-6 || before >= to {
				t.Fatalf("never %v C, but at %v C and holding %v", to, before, w.Holds())
			}
		case before >= to:
			if there != at {
				t.Fatalf("at %v C already, but there at %v and not at %v", before, there, at)
			}
		default:
			// Half a millisecond's way, and the rounding of the temperature.
			slack := (w.Temperature(there+1)-w.Temperature(max(at, there-1)))/2 + 1e-9
			if c := w.Temperature(there); math.Abs(c-to) > slack {
				t.Fatalf("%v C when it should be %v", c, to)
			}
		}
	})
}

func TestApplyLeavesTheRest(t *testing.T) {
	n, u := 0.8, 2.0
	got := Apply(tent(), sim.Make{AirChanges: &n})
	want := tent()
	want.AirChanges = 0.8
	if got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	v, skin, contents := 30.0, 40.0, 5.0
	got = Apply(got, sim.Make{Volume: &v, Skin: &skin, U: &u, Contents: &contents})
	if (got != sim.Shelter{Name: "tent", Volume: 30, Skin: 40, U: 2, AirChanges: 0.8, Contents: 5}) {
		t.Errorf("%+v", got)
	}
}
