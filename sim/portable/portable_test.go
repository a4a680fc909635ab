package portable

import (
	"encoding/binary"
	"hash/fnv"
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// ulps returns how many units in the last place of want a value is off.
func ulps(got, want float64) float64 {
	if got == want || math.IsNaN(got) && math.IsNaN(want) {
		return 0
	}
	return math.Abs(got-want) / (math.Nextafter(math.Abs(want), math.Inf(1)) - math.Abs(want))
}

// Package math is within a unit of the truth, so that what is here, within 1.5
// of it, is at most 2.5 off from there.
const apart = 2.5

func TestFunctionsAreThoseOfMath(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-700, 700).Draw(t, "x")
		if d := ulps(Exp(x), math.Exp(x)); d > apart {
			t.Fatalf("Exp(%v) = %v, %v units off", x, Exp(x), d)
		}
		y := rapid.Float64Range(1e-300, 1e6).Draw(t, "y")
		if d := ulps(Log(y), math.Log(y)); d > apart {
			t.Fatalf("Log(%v) = %v, %v units off", y, Log(y), d)
		}
		z := rapid.Float64Range(-0.999999, 1e3).Draw(t, "z")
		if d := ulps(Log1p(z), math.Log1p(z)); d > apart {
			t.Fatalf("Log1p(%v) = %v, %v units off", z, Log1p(z), d)
		}
		if d := ulps(Log1p(z*1e-9), math.Log1p(z*1e-9)); d > apart {
			t.Fatalf("Log1p(%v) = %v, %v units off", z*1e-9, Log1p(z*1e-9), d)
		}
	})
}

// e to 60 digits, from any table of constants, against the series that the
// package sums: exact to the last place.
func TestExpOfOneIsE(t *testing.T) {
	e, _, _ := big.ParseFloat("2.71828182845904523536028747135266249775724709369995957496697", 10, 200, big.ToNearestEven)
	want, _ := e.Float64()
	if got := Exp(1); ulps(got, want) > 1 {
		t.Errorf("Exp(1) = %v, want %v", got, want)
	}
	if Exp(0) != 1 || Log(1) != 0 || Log1p(0) != 0 {
		t.Errorf("Exp(0) = %v, Log(1) = %v, Log1p(0) = %v", Exp(0), Log(1), Log1p(0))
	}
}

func TestEdges(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"Exp(inf)", Exp(inf), inf}, {"Exp(-inf)", Exp(-inf), 0}, {"Exp(710)", Exp(710), inf}, {"Exp(-746)", Exp(-746), 0}, {"Exp(NaN)", Exp(nan), nan},
		{"Exp(-745)", Exp(-745), math.Exp(-745)}, {"Exp(700)", Exp(700), math.Exp(700)},
		{"Log(0)", Log(0), -inf}, {"Log(-1)", Log(-1), nan}, {"Log(inf)", Log(inf), inf}, {"Log(NaN)", Log(nan), nan}, {"Log(5e-324)", Log(5e-324), -1074 * math.Ln2},
		{"Log1p(-1)", Log1p(-1), -inf}, {"Log1p(-2)", Log1p(-2), nan}, {"Log1p(inf)", Log1p(inf), inf}, {"Log1p(1e300)", Log1p(1e300), math.Log1p(1e300)},
		{"Log1p(-0.9999999999999999)", Log1p(-0.9999999999999999), math.Log1p(-0.9999999999999999)},
	} {
		if ulps(c.got, c.want) > apart || math.IsInf(c.want, 0) && c.got != c.want {
			t.Errorf("%s = %v, want %v", c.what, c.got, c.want)
		}
	}
}

// The bits of a hundred thousand values, as every processor must give them.
func TestBitsAreTheSameEverywhere(t *testing.T) {
	const want = 0xab0ab56fe240c24d
	h := fnv.New64a()
	var b [8]byte
	for i := range 100000 {
		x := float64(i%997)/31 - 16 + float64(i)/1e7
		for _, v := range []float64{Exp(x), Log(math.Abs(x) + 1e-3), Log1p(math.Abs(x) / 7), Pow(math.Abs(x)+0.1, 0.16)} {
			binary.LittleEndian.PutUint64(b[:], math.Float64bits(v))
			h.Write(b[:])
		}
	}
	if got := h.Sum64(); got != want {
		t.Errorf("bits %#x, want %#x", got, uint64(want))
	}
}

func TestQuickFunctionsAreNearTheirOthers(t *testing.T) {
	for x := 1e-12; x < 1e12; x *= 1.0137 {
		if got, want := QuickLog(x), math.Log(x); math.Abs(got-want) > 4e-16*(1+math.Abs(want)) {
			t.Fatalf("QuickLog(%v) = %v, want %v", x, got, want)
		}
	}
	for x := -690.0; x < 690; x += 0.37 {
		if got, want := QuickExp(x), math.Exp(x); math.Abs(got/want-1) > 1e-15 {
			t.Fatalf("QuickExp(%v) = %v, want %v", x, got, want)
		}
	}
	if QuickExp(-1e9) != 0 || QuickExp(1e9) != QuickExp(700) || QuickExp(0) != 1 || QuickLog(1) != 0 {
		t.Error("they go wrong at their ends")
	}
}
