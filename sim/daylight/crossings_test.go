package daylight

import (
	"fmt"
	"testing"
	"time"

	"pgregory.net/rapid"

	"warmby/sim"
)

func TestChangesBeginWithTheStateAtArrival(t *testing.T) {
	arrival := time.Date(2024, 1, 15, 16, 0, 0, 0, time.FixedZone("", -7*3600))
	// Yellowknife, 2024-01-15: civil twilight ends at 16:47:46 (libastro).
	changes := Changes(yellowknife.latitude, yellowknife.longitude, arrival, 24*sim.Hour)
	if len(changes) != 3 {
		t.Fatalf("changes %v, want light, dusk and dawn", changes)
	}
	if changes[0] != (sim.Light{At: 0, Dark: false}) || !changes[1].Dark || changes[2].Dark {
		t.Errorf("changes %v, want light, dusk and dawn", changes)
	}
	want := 47*sim.Minute + 46*sim.Second
	if d := changes[1].At - want; d < -2*sim.Minute || d > 2*sim.Minute {
		t.Errorf("dark %v min after arrival, want %v", changes[1].At.Minutes(), want.Minutes())
	}
}

func TestPolarCasesNeverChange(t *testing.T) {
	for _, c := range []struct {
		place place
		day   time.Time
		dark  bool
	}{
		{longyearbyen, time.Date(2024, 12, 20, 15, 0, 0, 0, time.UTC), true},
		{tromso, time.Date(2025, 6, 20, 15, 0, 0, 0, time.UTC), false},
		{place{"South Pole", -90, 0, 0}, time.Date(2025, 6, 20, 15, 0, 0, 0, time.UTC), true},
		{place{"North Pole", 90, 0, 0}, time.Date(2025, 6, 20, 15, 0, 0, 0, time.UTC), false},
	} {
		got := Changes(c.place.latitude, c.place.longitude, c.day, sim.Horizon)
		if len(got) != 1 || got[0] != (sim.Light{At: 0, Dark: c.dark}) {
			t.Errorf("%s: %v, want only dark=%v", c.place.name, got, c.dark)
		}
	}
}

// A latitude is sought at which the sun at noon clears -6 degrees by a
// fraction of its daily way: light for some minutes only.
func TestGrazingDayIsSeen(t *testing.T) {
	day := time.Date(2026, 12, 21, 0, 0, 0, 0, time.UTC)
	for _, clears := range []float64{1e-1, 1e-3, 1e-5, 1e-6} {
		low, high := 60.0, 80.0
		for range 60 {
			latitude := (low + high) / 2
			if Day(latitude, 0, day, 0).Highest > Civil+clears {
				low = latitude
			} else {
				high = latitude
			}
		}
		got := Changes(low, 0, day, 24*sim.Hour)
		if len(got) != 3 || !got[0].Dark || got[1].Dark || !got[2].Dark {
			t.Errorf("sun clears -6 degrees by %v: changes %v, want dark, light, dark", clears, got)
			continue
		}
		noon := sim.Time(Day(low, 0, day, 0).Noon.Sub(day).Milliseconds())
		if before, after := noon-got[1].At, got[2].At-noon; before < 0 || after < 0 || (before-after).Minutes() > 0.5 {
			t.Errorf("light from %v to %v, want around noon at %v", got[1].At, got[2].At, noon)
		}
	}
}

func TestChangesAgreeWithTheAltitudeAtEveryMoment(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		latitude := rapid.Float64Range(-90, 90).Draw(t, "latitude")
		longitude := rapid.Float64Range(-180, 180).Draw(t, "longitude")
		arrival := time.Unix(rapid.Int64Range(-1e9, 4e9).Draw(t, "arrival"), 0)
		const horizon = 36 * sim.Hour
		changes := Changes(latitude, longitude, arrival, horizon)
		at := 0
		for s := sim.Time(0); s <= horizon; s += 47 * sim.Second {
			for at+1 < len(changes) && changes[at+1].At <= s {
				at++
			}
			altitude := Altitude(latitude, longitude, arrival.Add(time.Duration(s)*time.Millisecond))
			if d := altitude - Civil; d > -0.005 && d < 0.005 {
				continue // a second's way at most
			}
			if dark := altitude < Civil; dark != changes[at].Dark {
				t.Fatalf("%v s after arrival the sun stands at %v degrees, changes %v", s.Seconds(), altitude, changes)
			}
		}
		for i, c := range changes {
			if c.At%sim.Second != 0 || c.At > horizon || i > 0 && (c.At <= changes[i-1].At || c.Dark == changes[i-1].Dark) {
				t.Fatalf("changes %v are not in whole seconds, in order and in turn", changes)
			}
			// The nearest second: the sun is on the other side just over half a second off.
			const off = 501 * time.Millisecond
			moment := arrival.Add(time.Duration(c.At) * time.Millisecond)
			before, after := Altitude(latitude, longitude, moment.Add(-off)), Altitude(latitude, longitude, moment.Add(off))
			if steep := before-after > 1e-4 || after-before > 1e-4; i > 0 && steep && ((before < Civil) == c.Dark || (after < Civil) != c.Dark) {
				t.Fatalf("change at %v: the sun stands at %v before and %v after", c.At, before, after)
			}
		}
	})
}

func BenchmarkChangesOverAWeek(b *testing.B) {
	arrival := time.Date(2024, 1, 15, 16, 0, 0, 0, time.UTC)
	for b.Loop() {
		Changes(62, 25, arrival, sim.Horizon)
	}
}

func ExampleDay() {
	day := time.Date(2027, 1, 16, 0, 0, 0, 0, time.UTC)
	e := Day(66.4, 25.3, day, 2*time.Hour)
	fmt.Println("sun", e.Sun.Begin.Format("15:04"), "to", e.Sun.End.Format("15:04"))
	fmt.Println("light until", e.Civil.End.Format("15:04"))
	// Output:
	// sun 10:15 to 14:41
	// light until 16:02
}
