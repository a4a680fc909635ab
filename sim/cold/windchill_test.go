package cold

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.4f, want %.4f within %v", what, got, want, tolerance)
	}
}

// chart reads a printed chart: a head of columns, then rows.
func chart(t *testing.T, file string) (head []float64, rows map[float64][]float64) {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	numbers := func(fields []string) []float64 {
		out := make([]float64, len(fields))
		for i, s := range fields {
			if out[i], err = strconv.ParseFloat(s, 64); err != nil {
				t.Fatal(err)
			}
		}
		return out
	}
	rows = map[float64][]float64{}
	for _, line := range all[1:] {
		n := numbers(line)
		rows[n[0]] = n[1:]
	}
	return numbers(all[0][1:]), rows
}

// Environment Canada's printed chart, 2001: every cell.
func TestWindChillIsThePrintedMetricChart(t *testing.T) {
	airs, rows := chart(t, "testdata/windchill-metric.csv")
	cells := 0
	for kmh, row := range rows {
		for i, want := range row {
			got := WindChill(airs[i], kmh)
			if !got.OK() || math.Round(got.X) != want {
				t.Errorf("WindChill(%v, %v) = %v, chart %v", airs[i], kmh, got, want)
			}
			cells++
		}
	}
	if cells != 192 {
		t.Errorf("%d cells, want 192", cells)
	}
}

// The printed chart of the US National Weather Service, 1 November 2001; see
// the head of the file for what was read in it.
func TestWindChillUSIsThePrintedChart(t *testing.T) {
	winds, rows := chart(t, "testdata/windchill-us.csv")
	cells := 0
	for f, row := range rows {
		for i, want := range row {
			got := WindChillUS(f, winds[i])
			if !got.OK() || math.Round(got.X) != want {
				t.Errorf("WindChillUS(%v, %v) = %v, chart %v", f, winds[i], got, want)
			}
			cells++
		}
	}
	if cells != 216 {
		t.Errorf("%d cells, want 216", cells)
	}
}

// Worked from the published formulas, two decimals.
func TestWindChillHasTheValuesOfTheFormula(t *testing.T) {
	for _, c := range [][3]float64{
		{5, 5, 4.08}, {0, 10, -3.31}, {-5, 5, -7.26}, {-10, 20, -17.86}, {-20, 10, -27.21}, {-20, 30, -32.57},
		{-25, 40, -40.82}, {-30, 20, -43.10}, {-40, 60, -64.17}, {-45, 80, -73.74}, {-50, 80, -80.84},
	} {
		near(t, "WindChill", WindChill(c[0], c[1]).X, c[2], 0.005)
	}
	for _, c := range [][3]float64{
		{40, 5, 36.47}, {30, 20, 17.36}, {20, 30, 1.30}, {10, 20, -8.88}, {5, 30, -19.07}, {0, 15, -19.40},
		{-15, 35, -48.05}, {-20, 20, -48.23}, {-25, 30, -59.82}, {-40, 40, -84.48}, {-45, 60, -98.10},
	} {
		near(t, "WindChillUS", WindChillUS(c[0], c[1]).X, c[2], 0.005)
	}
	// Tests of the Python library pythermalcomfort, km/h.
	for _, c := range [][3]float64{{-20, 5, -24.3}, {-20, 15, -29.1}, {-20, 60, -36.5}, {-5, 5.5, -7.5}, {-10, 10, -15.3}} {
		near(t, "WindChill", WindChill(c[0], c[1]).X, c[2], 0.05)
	}
}

func TestWindChillKeepsToItsDomain(t *testing.T) {
	for _, c := range []struct {
		air, kmh float64
		want     Value
	}{
		{-20, 4.8, value(-20)}, {-20, 0, value(-20)},
		{10.1, 20, noValue("air over 10 C: the wind chill index ends there")},
		{math.NaN(), 20, noValue("air and wind are not known")},
		{-20, math.Inf(1), noValue("air and wind are not known")},
		{-20, -1, noValue("air and wind are not known")},
	} {
		if got := WindChill(c.air, c.kmh); got != c.want {
			t.Errorf("WindChill(%v, %v) = %v, want %v", c.air, c.kmh, got, c.want)
		}
	}
	if got := WindChillUS(51, 10); got.OK() {
		t.Errorf("WindChillUS(51, 10) = %v, want no value", got)
	}
	if got := WindChillUS(0, 3); got != value(0) {
		t.Errorf("WindChillUS(0, 3) = %v, want 0", got)
	}
}

func TestWindChillIsNeverOverTheAirAndFallsWithWind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		air := rapid.Float64Range(-60, 0).Draw(t, "air")
		a := rapid.Float64Range(5.001, 120).Draw(t, "wind")
		b := rapid.Float64Range(5.001, 120).Draw(t, "other wind")
		if x := WindChill(air, a).X; x > air {
			t.Fatalf("WindChill(%v, %v) = %v", air, a, x)
		}
		if WindChill(air, max(a, b)).X > WindChill(air, min(a, b)).X {
			t.Fatalf("more wind is warmer: %v, %v and %v", air, a, b)
		}
	})
}
