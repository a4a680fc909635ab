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
		in := Surroundings{Shelter: sim.Shelter{Volume: 25, Skin: 35, U: c.u, AirChanges: c.changes}, Power: 5000, Air: -30}
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

func TestWarmupFollowsItsClosedForm(t *testing.T) {
	in := Surroundings{tent(), 5000, -30}
	w := Begin(1000, in, 5)
	holds, tau := in.Holds(), Capacity(tent(), -30)/Loss(tent(), -30)
	for _, minutes := range []float64{0, 1, 5, 10, 60} {
		at := 1000 + sim.Time(minutes*60000)
		near(t, "temperature", w.Temperature(at), holds+(-30-holds)*math.Exp(-minutes*60/tau), 1e-9)
	}
	want := 1000 + sim.Milliseconds(1000*tau*math.Log((holds+30)/(holds-5)))
	if got := w.Reaches(); got != want {
		t.Errorf("reaches 5 C at %v, want %v", got, want)
	}
	near(t, "temperature then", w.Temperature(want), 5, 1e-4)
}

// change is a moment with new surroundings.
type change struct {
	at sim.Time
	in Surroundings
}

// integrate solves the balance numerically: Runge and Kutta of fourth order,
// in steps of half a second.
func integrate(changes []change, until sim.Time) float64 {
	c, at := changes[0].in.Air, changes[0].at
	for i := range changes {
		end := until
		if i+1 < len(changes) {
			end = changes[i+1].at
		}
		in := changes[i].in
		rate := func(c float64) float64 {
			loss := in.Shelter.U*in.Shelter.Skin +
				353/(in.Air+273.15)*1005*in.Shelter.AirChanges*in.Shelter.Volume/3600
			return (in.Power - loss*(c-in.Air)) / (in.Shelter.Contents + 353/(in.Air+273.15)*1005*in.Shelter.Volume)
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
		{0, Surroundings{tent(), 5000, -22}},
		{4 * sim.Minute, Surroundings{tent(), 3600, -22}},
		{7*sim.Minute + 123, Surroundings{banked, 3600, -22}},
		{9 * sim.Minute, Surroundings{banked, 5000, -27}},
		{12 * sim.Minute, Surroundings{torn, 400, -27}},
		{20 * sim.Minute, Surroundings{torn, 6000, -25}},
	}
	w := Begin(0, changes[0].in, 100)
	for i, c := range changes[1:] {
		near(t, "before a change", w.Temperature(c.at), integrate(changes[:i+1], c.at), 1e-7)
		w.Change(c.at, c.in)
		near(t, "after it", w.Temperature(c.at), integrate(changes[:i+1], c.at), 1e-7)
	}
	near(t, "in the end", w.Temperature(sim.Hour), integrate(changes, sim.Hour), 1e-7)
}

func TestWarmEnoughAlready(t *testing.T) {
	w := Begin(500, Surroundings{tent(), 5000, 3}, -5)
	if got := w.Reaches(); got != 500 {
		t.Errorf("a tent at 3 C is at -5 C at %v, want at once, 500", got)
	}
}

func TestNeverWarmEnough(t *testing.T) {
	in := Surroundings{tent(), 1000, -30}
	w := Begin(0, in, 10)
	if got := w.Reaches(); got != sim.Never {
		t.Errorf("1 kW reaches 10 C at %v, want never", got)
	}
	near(t, "holds", w.Holds(), -30+1000/Loss(tent(), -30), 1e-9)
	// Exactly what it holds is never reached either, only approached.
	w = Begin(0, in, in.Holds())
	if got := w.Reaches(); got != sim.Never {
		t.Errorf("the steady temperature is reached at %v, want never", got)
	}
	// More power from minute 10 on: then it comes.
	w = Begin(0, in, 10)
	w.Change(10*sim.Minute, Surroundings{tent(), 8000, -30})
	if got := w.Reaches(); got == sim.Never || got <= 10*sim.Minute {
		t.Errorf("8 kW reaches 10 C at %v", got)
	}
}

func TestShelterWithoutLossOrCapacity(t *testing.T) {
	closed := sim.Shelter{Contents: 100000}
	w := Begin(0, Surroundings{closed, 1000, -10}, 10)
	if got := w.Reaches(); got != 2000*sim.Second {
		t.Errorf("2 MJ at 1 kW take %v, want 2000 s", got)
	}
	if !math.IsInf(w.Holds(), 1) {
		t.Errorf("without loss it holds %v, want no bound", w.Holds())
	}
	near(t, "half way", w.Temperature(1000*sim.Second), 0, 1e-9)
	if w := Begin(0, Surroundings{closed, 0, -10}, 10); w.Reaches() != sim.Never || w.Holds() != -10 {
		t.Errorf("no power reaches 10 C at %v and holds %v", w.Reaches(), w.Holds())
	}
	light := sim.Shelter{Skin: 10, U: 5}
	if w := Begin(7, Surroundings{light, 1000, -10}, 9); w.Reaches() != 7 || w.Temperature(8) != 10 {
		t.Errorf("without capacity 9 C comes at %v, and %v after it", w.Reaches(), w.Temperature(8))
	}
	if w := Begin(7, Surroundings{sim.Shelter{}, 1000, -10}, 9); w.Reaches() != 7 {
		t.Errorf("a shelter of nothing reaches 9 C at %v, want at once", w.Reaches())
	}
}

// Two engines may tell the same changes one by one or all at once.
func TestOnlyTheLastChangeOfAMomentCounts(t *testing.T) {
	a, b, c := Surroundings{tent(), 5000, -22}, Surroundings{tent(), 3000, -22}, Surroundings{tent(), 3000, -27}
	once, often := Begin(0, a, 10), Begin(0, a, 10)
	once.Change(1111, c)
	often.Change(777, a) // nothing new
	often.Change(1111, b)
	often.Reaches()
	often.Change(1111, a)
	often.Change(1111, c)
	often.Change(1500, c)
	often.Change(1500, b)
	often.Change(1500, c)
	if once.Reaches() != often.Reaches() || once.Temperature(99999) != often.Temperature(99999) {
		t.Errorf("told once %v and %v, told often %v and %v",
			once.Reaches(), once.Temperature(99999), often.Reaches(), often.Temperature(99999))
	}
	late := Begin(0, a, 10)
	late.Change(0, c)
	if late.Temperature(0) != -27 {
		t.Errorf("begins at %v, want the air of the moment, -27", late.Temperature(0))
	}
}

func TestRiseFallsWithAirChangesAndU(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := Surroundings{
			Shelter: sim.Shelter{
				Volume: rapid.Float64Range(2, 200).Draw(t, "volume"), Skin: rapid.Float64Range(5, 200).Draw(t, "skin"),
				U: rapid.Float64Range(0.3, 8).Draw(t, "u"), AirChanges: rapid.Float64Range(0, 20).Draw(t, "air changes"),
				Contents: rapid.Float64Range(0, 1e6).Draw(t, "contents"),
			},
			Power: rapid.Float64Range(100, 2e4).Draw(t, "power"), Air: rapid.Float64Range(-60, 10).Draw(t, "air"),
		}
		draughty, thin := in, in
		draughty.Shelter.AirChanges += 1
		thin.Shelter.U += 0.5
		to := in.Air + rapid.Float64Range(0, 40).Draw(t, "rise")
		reaches := func(in Surroundings) sim.Time { w := Begin(0, in, to); return w.Reaches() }
		for _, worse := range []Surroundings{draughty, thin} {
			if worse.Holds() >= in.Holds() || reaches(worse) < reaches(in) {
				t.Fatalf("%+v holds %v and is there at %v; %+v holds %v and is there at %v",
					in, in.Holds(), reaches(in), worse, worse.Holds(), reaches(worse))
			}
		}
	})
}

func TestReachesIsWhereTheTemperatureIs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func() Surroundings {
			s := tent()
			s.U = rapid.Float64Range(1, 7).Draw(t, "u")
			return Surroundings{s, rapid.Float64Range(0, 9000).Draw(t, "power"), rapid.Float64Range(-40, 0).Draw(t, "air")}
		}
		to := rapid.Float64Range(-20, 25).Draw(t, "to")
		w := Begin(0, draw(), to)
		at := sim.Time(0)
		for range rapid.IntRange(0, 5).Draw(t, "changes") {
			at += sim.Time(rapid.Int64Range(0, 300000).Draw(t, "wait"))
			w.Change(at, draw())
		}
		before, there := w.Temperature(at), w.Reaches()
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
