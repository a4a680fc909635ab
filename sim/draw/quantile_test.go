package draw

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"warmby/sim"
)

// chances goes from 1e-9 to 1 - 1e-9, dense at both ends.
func chances() []float64 {
	var ps []float64
	for p := 1e-9; p < 0.5; p *= 1.07 {
		ps = append(ps, p, 1-p)
	}
	for p := 0.013; p < 1; p += 0.013 {
		ps = append(ps, p)
	}
	return ps
}

// gonum's incomplete beta function inverted by bisection is the oracle.
func TestPERTQuantilesAgreeWithGonum(t *testing.T) {
	for _, c := range [][3]float64{{0, 0, 1}, {0, 0.01, 1}, {0, 0.2, 1}, {0, 0.37, 1}, {0, 0.5, 1}, {0, 0.8, 1}, {0, 0.93, 1}, {0, 1, 1}, {18, 24, 40}} {
		d, err := PERT(c[0], c[1], c[2])
		if err != nil {
			t.Fatal(err)
		}
		width := c[2] - c[0]
		mode := (c[1] - c[0]) / width
		want := distuv.Beta{Alpha: 1 + 4*mode, Beta: 5 - 4*mode}
		worst := 0.0
		for _, p := range chances() {
			got := (d.Quantile(p) - c[0]) / width
			worst = math.Max(worst, math.Abs(got-want.Quantile(p)))
		}
		if worst > 1e-5 {
			t.Errorf("PERT(%v): quantiles are off by up to %.2g of the range, want 1e-5", c, worst)
		}
		t.Logf("%v %.2g", c, worst)
	}
}

func TestLogNormalQuantilesAgreeWithGonum(t *testing.T) {
	for _, spread := range []float64{1.01, 1.1, 1.5, 2, 4} {
		d, err := LogNormal(600, spread)
		if err != nil {
			t.Fatal(err)
		}
		want := distuv.LogNormal{Mu: math.Log(600), Sigma: math.Log(spread)}
		worst := 0.0
		for _, p := range chances() {
			worst = math.Max(worst, math.Abs(d.Quantile(p)/want.Quantile(p)-1))
		}
		if worst > 1e-5 {
			t.Errorf("LogNormal(600, %v): quantiles are off by up to a part of %.2g, want 1e-5", spread, worst)
		}
		t.Logf("%v %.2g", spread, worst)
	}
}

var sink float64

func BenchmarkPERTQuantile(b *testing.B) {
	d, _ := PERT(18, 24, 40)
	benchQuantile(b, d)
}

func BenchmarkLogNormalQuantile(b *testing.B) {
	d, _ := LogNormal(18, 1.4)
	benchQuantile(b, d)
}

func BenchmarkExponentialQuantile(b *testing.B) {
	d, _ := Exponential(18)
	benchQuantile(b, d)
}

func benchQuantile(b *testing.B, d sim.Distribution) {
	k := KeyOf("pitch the tent", ForWork)
	from := StartOf(1, 2)
	for i := 0; b.Loop(); i++ {
		sink += d.Quantile(from.Uniform(k, i))
	}
}

func BenchmarkPERTTable(b *testing.B) {
	for b.Loop() {
		d, _ := PERT(18, 24, 40)
		sink += d.Quantile(0.3)
	}
}

func BenchmarkPERTCoveringTable(b *testing.B) {
	for b.Loop() {
		d, _ := PERTCovering(18, 24, 40, 0.8)
		sink += d.Quantile(0.3)
	}
}

func BenchmarkLogNormalTable(b *testing.B) {
	for b.Loop() {
		d, _ := LogNormal(18, 1.3)
		sink += d.Quantile(0.3)
	}
}

func BenchmarkUniform(b *testing.B) {
	k := KeyOf("pitch the tent", ForWork)
	from := StartOf(1, 2)
	for i := 0; b.Loop(); i++ {
		sink += from.Uniform(k, i)
	}
}
