package daylight_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
	"time"

	"warmby/sim/daylight"
)

// A general astronomy library's table (testdata/second-opinion.mjs names it and
// makes the table): twelve places, polar day and night among them, on nine
// days from 2024 to 2031.
func TestSunAgreesWithAnAstronomyLibrary(t *testing.T) {
	const (
		tolerance = 2 * time.Minute // what the design asks of low precision
		degrees   = 0.02
	)
	f, err := os.Open("testdata/second-opinion.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 1+12*9 {
		t.Fatalf("%d rows, want %d", len(rows), 1+12*9)
	}
	for _, row := range rows[1:] {
		latitude, longitude, altitude := number(t, row[0]), number(t, row[1]), number(t, row[7])
		day, err := time.Parse(time.DateOnly, row[2])
		if err != nil {
			t.Fatal(err)
		}
		where := row[0] + " " + row[1] + " " + row[2]
		if got := daylight.Altitude(latitude, longitude, day.Add(12*time.Hour)); math.Abs(got-altitude) > degrees {
			t.Errorf("%s: altitude at 12:00 UTC = %.4f, want %.4f", where, got, altitude)
		}
		e := daylight.Day(latitude, longitude, day, 0)
		for k, got := range []time.Time{e.Sun.Begin, e.Sun.End, e.Civil.Begin, e.Civil.End} {
			name := rows[0][3+k]
			if row[3+k] == "" {
				if !got.IsZero() {
					t.Errorf("%s: %s = %v, want none", where, name, got)
				}
				continue
			}
			want := day.Add(time.Duration(number(t, row[3+k])) * time.Second)
			if got.IsZero() || got.Sub(want).Abs() > tolerance {
				t.Errorf("%s: %s = %v, want %v", where, name, got, want)
			}
		}
	}
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}
