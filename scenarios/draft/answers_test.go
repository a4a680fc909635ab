package draft_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"warmby/scenarios"
	"warmby/scenarios/draft"
)

// answer is what a text is taken for, or why it is not.
func answer[T any](read func(string) (T, error), show func(T) string) func(string) string {
	return func(text string) string {
		v, err := read(text)
		if err != nil {
			return "no: " + err.Error()
		}
		return show(v)
	}
}

func checkAnswers(t *testing.T, answer func(string) string, cases ...[2]string) {
	t.Helper()
	for _, c := range cases {
		if got := answer(c[0]); got != c[1] {
			t.Errorf("%q is taken for %q, want %q", c[0], got, c[1])
		}
	}
}

func quantity(q draft.Quantity) string { return fmt.Sprintf("%s = %.4g", q.Text, q.Value) }

func TestNumbersAreReadAsTyped(t *testing.T) {
	read := func(text string) (int, error) { return draft.ReadNumber(text, 2, 20) }
	checkAnswers(t, answer(read, func(n int) string { return fmt.Sprint(n) }),
		[2]string{"9", "9"}, [2]string{"9 people", "9"}, [2]string{" 12 of us ", "12"}, [2]string{"2 tents", "2"},
		[2]string{"nine", "no: that is no whole number"}, [2]string{"-3", "no: that is no whole number"}, [2]string{"", "no: that is no whole number"},
		[2]string{"2.5", "no: that is no whole number"}, [2]string{"21", "no: 21 are too many: from 2 to 20"}, [2]string{"1 person", "no: 1 is too few: from 2 to 20"})
}

func TestPeopleAreANumberOrNames(t *testing.T) {
	read := func(text string) (string, error) {
		n, names, err := draft.ReadPeople(text)
		return fmt.Sprintf("%d %q", n, names), err
	}
	checkAnswers(t, answer(read, func(s string) string { return s }),
		[2]string{"9 people", "9 []"}, [2]string{"Tove, Ole,Ida", `3 ["Tove" "Ole" "Ida"]`}, [2]string{"Tove and  Ole B.", `2 ["Tove" "Ole B."]`},
		[2]string{"Tove", "no: that is no whole number"}, [2]string{"Tove,", "no: 1 is too few: from 2 to 20"}, [2]string{"Tove, Tove", `no: two are called "Tove": tell them apart`})
}

func TestNamesStandInTheFileAsTheyAre(t *testing.T) {
	a := draft.Standard(evening)
	a.Names = []string{"Tove B.", "no", "Åsa #2: {x}", "\u00d8ystein", "7"}
	d, err := draft.Write(a)
	if err != nil {
		t.Fatal(err)
	}
	s, err := scenarios.Read("draft.yaml", d.Text)
	if err != nil {
		t.Fatal(err)
	}
	drill, _ := s.Parts()
	for i, p := range drill.People {
		if p.Name != a.Names[i] {
			t.Errorf("person %d is called %q, want %q", i+1, p.Name, a.Names[i])
		}
	}
}

func TestAirIsReadAsTyped(t *testing.T) {
	checkAnswers(t, answer(draft.ReadAir, quantity),
		[2]string{"-15", "-15 C = -15"}, [2]string{"-15 C", "-15 C = -15"}, [2]string{"-15c", "-15 C = -15"}, [2]string{"\u221215 \u00b0C", "-15 C = -15"},
		[2]string{"5 F", "5 F = -15"}, [2]string{"-4 f", "-4 F = -20"}, [2]string{"15 below", "-15 C = -15"}, [2]string{"minus 15", "-15 C = -15"},
		[2]string{"-22,5", "-22.5 C = -22.5"}, [2]string{"0", "0 C = 0"},
		[2]string{"15", "no: 15 C is above freezing; the frost is written with a minus, such as -15 C"},
		[2]string{"-61", "no: must be from -60 to 0 C"}, [2]string{"cold", `no: must be a temperature (such as "-12 C")`}, [2]string{"-15 m", `no: unknown unit "m" for a temperature (write C, F or K)`})
}

func TestWindIsReadAsTyped(t *testing.T) {
	checkAnswers(t, answer(draft.ReadWind, quantity),
		[2]string{"8 m/s", "8 m/s = 8"}, [2]string{"8", "8 m/s = 8"}, [2]string{"8M/S", "8 m/s = 8"}, [2]string{"15 KT", "15 kt = 7.717"},
		[2]string{"calm", "0 m/s = 0"}, [2]string{"Strong", "12 m/s = 12"}, [2]string{"36 km/h", "36 km/h = 10"},
		[2]string{"40", "no: must be from 0 to 30 m/s"}, [2]string{"fast", `no: must be a speed (such as "8 m/s")`})
}

func TestSnowIsReadAsTyped(t *testing.T) {
	checkAnswers(t, answer(draft.ReadSnow, quantity),
		[2]string{"knee deep", "50 cm = 0.5"}, [2]string{"knee-deep", "50 cm = 0.5"}, [2]string{"Waist", "105 cm = 1.05"}, [2]string{"80", "80 cm = 0.8"},
		[2]string{"0", "0 cm = 0"}, [2]string{"1,5 m", "1.5 m = 1.5"}, [2]string{"3 ft", "3 ft = 0.9144"},
		[2]string{"1.5", "no: say of what: cm, m, in or ft"}, [2]string{"-20 cm", "no: must be from 0 to 10 m"}, [2]string{"deep", `no: must be a length (such as "85 cm")`})
}

func TestYesIsReadAsTyped(t *testing.T) {
	checkAnswers(t, answer(draft.ReadYes, func(b bool) string { return fmt.Sprint(b) }),
		[2]string{"Y", "true"}, [2]string{"no", "false"}, [2]string{"maybe", "no: that is neither"})
}

func TestPlacesAreReadAsTyped(t *testing.T) {
	show := func(p draft.Place) string { return fmt.Sprintf("%g %g %g m", p.Latitude, p.Longitude, p.Elevation) }
	checkAnswers(t, answer(draft.ReadPlace, show),
		[2]string{"61.5 9.8", "61.5 9.8 250 m"}, [2]string{"61.5, 9.8", "61.5 9.8 250 m"}, [2]string{"61.5 N, 9.8 E", "61.5 9.8 250 m"}, [2]string{"n 61.5 w 150.25", "61.5 -150.25 250 m"},
		[2]string{"60 N", "60 NaN 250 m"}, [2]string{"60n", "60 NaN 250 m"}, [2]string{"45\u00b0 S 170\u00b0 E", "-45 170 1500 m"}, [2]string{"-45 170", "-45 170 1500 m"},
		[2]string{"Fells", "66 NaN 450 m"}, [2]string{"southern ice", "-75 NaN 800 m"}, [2]string{"90 S", "-90 NaN 800 m"}, [2]string{"0 0", "0 0 1500 m"},
		[2]string{"91 N", "no: latitude must be from -90 to 90 degrees"}, [2]string{"60 181", "no: longitude must be from -180 to 180 degrees"},
		[2]string{"9.8 E 61.5 N", "no: latitude comes first (N or S), then longitude (E or W)"}, [2]string{"", "no: that is empty"},
		[2]string{"home", "no: that is neither degrees nor one of mountains, hills, forest, fells, tundra, ice, southern mountains, southern ice"},
		[2]string{"1 2 3", "no: that is neither degrees nor one of mountains, hills, forest, fells, tundra, ice, southern mountains, southern ice"})
}

func TestArrivalsAreReadAsTyped(t *testing.T) {
	read := func(text string) (draft.Arrival, error) { return draft.ReadArrival(text, evening) }
	checkAnswers(t, answer(read, draft.Arrival.String),
		[2]string{"15:00", "2026-11-29 15:00"}, [2]string{"tomorrow 15:00", "2026-11-29 15:00"}, [2]string{"Tomorrow at 9.30", "2026-11-29 09:30"}, [2]string{"today 22:15", "2026-11-28 22:15"},
		[2]string{"3 pm", "2026-11-29 15:00"}, [2]string{"12 am", "2026-11-29 00:00"}, [2]string{"15", "2026-11-29 15:00"}, [2]string{"2026-12-05T15:00", "2026-12-05 15:00"},
		[2]string{"2026-12-05 15:00", "2026-12-05 15:00"}, [2]string{"2026-12-05T15:00+02:00", "2026-12-05T15:00:00+02:00"}, [2]string{"2027-01-16t14:00:00Z", "2027-01-16T14:00:00Z"},
		[2]string{"25:00", "no: there is no such time of day"}, [2]string{"13 pm", "no: there is no such time of day"}, [2]string{"noon", "no: that is no time of day"}, [2]string{"", "no: that is no time of day"},
		[2]string{"2026-02-30 15:00", "no: there is no such date"}, [2]string{"1492-02-20 15:00", "no: the year must be from 1900 to 2100"})
}

// A clock far from the sun of the place is somebody else's.
func TestArrivalsGoByTheClockOfThePlace(t *testing.T) {
	for _, c := range []struct{ place, want string }{
		{"61.5 9.8", "2026-11-29T14:00:00+01:00"},
		{"61.5 45", "2026-11-29T14:00:00+01:00"},
		{"64 N 150 W", "2026-11-29T14:00:00-10:00"},
		{"70 N 179.9", "2026-11-29T14:00:00+12:00"},
		{"60 N", "2026-11-29T14:00:00+01:00"},
	} {
		a := draft.Standard(evening)
		a.Place, _ = draft.ReadPlace(c.place)
		d, err := draft.Write(a)
		if err != nil {
			t.Fatal(err)
		}
		if got := d.Arrival.Format(time.RFC3339); got != c.want {
			t.Errorf("at %s they arrive %s, want %s", c.place, got, c.want)
		}
		if math.IsNaN(a.Place.Longitude) && d.Longitude != 15 {
			t.Errorf("at %s the clock gives longitude %g, want 15", c.place, d.Longitude)
		}
	}
}
