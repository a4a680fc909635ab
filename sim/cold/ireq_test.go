package cold

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// exposure is a call of the standard's program: M, W, ta, tr, p, w, v, rh, Icl.
type exposure [9]float64

func (e exposure) assess(c Criterion) Exposure {
	return Assess(c, Body{M: e[0], External: e[1], Walk: e[5]}, Clothing{Clo: e[8], Permeability: e[4]},
		Ambient{Air: e[2], Radiant: e[3], Wind: e[6], Humidity: e[7] / 100})
}

// ISO 11079:2007 Table F.1, IREQneutral, as quoted in two public test files
// (they use 10 %); humidity 85 %, p 8, W 0.
func TestRequiredInsulationIsThatOfTableF1(t *testing.T) {
	for _, c := range [][5]float64{ // ta, tr, v, M, IREQneutral
		{0, 0, 2, 90, 2.6}, {0, 0, 2, 145, 1.5}, {-10, -10, 2, 90, 3.5}, {-10, 0, 2, 145, 1.9},
		{-20, -20, 2, 115, 3.4}, {-20, -20, 7, 115, 3.5}, {-30, -30, 2, 115, 4.0}, {-30, -30, 5, 175, 2.6},
	} {
		e := exposure{c[3], 0, c[0], c[1], 8, 0, c[2], 85, 2.5}.assess(Neutral)
		near(t, "IREQneutral", e.Required.X, c[4], 0.10)
	}
}

// The algorithm of ISO 11079 (R package comf, calcIREQ, read in full), worked
// by an independent port with a solver tolerance of 1e-9. The first row is
// that package's documented example.
func TestAssessAgreesWithTheStandardsProgram(t *testing.T) {
	long := math.NaN() // the program says "more than 8 h"
	for _, c := range []struct {
		in                                                           exposure
		ireqMin, ireqNeu, iclMin, iclNeu, dleMin, dleNeu, sMin, sNeu float64 // S only where given
	}{
		{exposure{116, 0, -15, -15, 8, 0.3, 0.4, 85, 2.5}, 2.524, 2.853, 2.698, 3.051, long, 2.124, -6.746, 0},
		{exposure{90, 0, 0, 0, 8, 0.3, 0.4, 85, 2.0}, 2.159, 2.500, 2.305, 2.671, 4.108, 1.862, 0, 0},
		{exposure{90, 0, -10, -10, 8, 0.3, 0.4, 85, 2.5}, 3.033, 3.378, 3.243, 3.614, 2.020, 1.345, 0, 0},
		{exposure{145, 0, -20, -20, 8, 0.3, 0.4, 85, 2.5}, 2.153, 2.467, 2.339, 2.683, long, long, 0, -7.783},
		{exposure{115, 0, -20, -20, 8, 0.3, 2, 85, 2.5}, 2.972, 3.301, 3.599, 4.005, 1.072, 0.783, 0, 0},
		{exposure{175, 0, -30, -30, 8, 0.3, 2, 85, 2.5}, 2.202, 2.502, 2.738, 3.122, 3.281, 1.256, 0, 0},
		{exposure{230, 0, -30, -30, 8, 0.8, 3, 85, 2.0}, 1.583, 1.860, 2.126, 2.519, 3.947, 0.958, 0, 0},
		{exposure{100, 0, -40, -40, 8, 0.3, 3, 85, 3.5}, 5.112, 5.456, 6.721, 7.178, 0.562, 0.492, 0, 0},
		{exposure{165, 0, -25, -25, 8, 0.5, 3, 85, 2.5}, 2.171, 2.474, 2.872, 3.287, 2.216, 1.047, 0, 0},
	} {
		check := func(pass string, got Exposure, ireq, icl, dle, s float64) {
			near(t, "IREQ "+pass, got.Required.X, ireq, 0.01)
			near(t, "ICL "+pass, got.Basic.X, icl, 0.01)
			if math.IsNaN(dle) {
				if got.Limited.OK() {
					t.Errorf("DLE %s of %v = %v h, want more than 8", pass, c.in, got.Limited.X)
				}
			} else {
				near(t, "DLE "+pass, got.Limited.X, dle, 0.01)
			}
			if s != 0 {
				near(t, "S "+pass, got.Stored, s, 0.001)
			}
		}
		check("minimal", c.in.assess(Minimal), c.ireqMin, c.iclMin, c.dleMin, c.sMin)
		check("neutral", c.in.assess(Neutral), c.ireqNeu, c.iclNeu, c.dleNeu, c.sNeu)
	}
}

// psat of the listing at 33 C.
func TestVapourPressureAtSkinTemperature(t *testing.T) {
	near(t, "vapour(33)", vapour(33), 5.03, 0.005)
}

func drawExposure(t *rapid.T) exposure {
	air := rapid.Float64Range(-60, 10).Draw(t, "ta")
	return exposure{
		rapid.Float64Range(58, 250).Draw(t, "M"), 0, air, air, rapid.Float64Range(1, 150).Draw(t, "p"),
		rapid.Float64Range(0, 1.2).Draw(t, "w"), rapid.Float64Range(0.4, 18).Draw(t, "v"), rapid.Float64Range(0, 100).Draw(t, "rh"),
		rapid.Float64Range(0, 5).Draw(t, "Icl"),
	}
}

func TestAssessKeepsTheStandardsProperties(t *testing.T) {
	more := func(e exposure, i int, by float64) exposure { e[i] += by; return e }
	// lost orders required insulation, without clothing enough last
	need := func(e exposure, c Criterion) float64 {
		if a := e.assess(c); a.Required.OK() {
			return a.Required.X
		}
		return math.Inf(1)
	}
	rapid.Check(t, func(t *rapid.T) {
		e := drawExposure(t)
		low, neutral := need(e, Minimal), need(e, Neutral)
		if neutral < low || neutral == low && low > 0 && !math.IsInf(low, 1) {
			t.Fatalf("IREQ neutral %v is not over minimal %v", neutral, low)
		}
		if e.assess(Minimal).Stored < e.assess(Neutral).Stored {
			t.Fatal("DLE minimal is under neutral")
		}
		by := rapid.Float64Range(0.01, 20).Draw(t, "by")
		const slack = 1e-6
		if need(more(e, 0, by), Minimal) > low+slack {
			t.Fatal("IREQ rises with M")
		}
		if colder := more(more(e, 2, -by), 3, -by); need(colder, Minimal) < low-slack {
			t.Fatal("IREQ falls as the air grows colder")
		}
		if need(more(e, 6, by), Minimal) < low-slack {
			t.Fatal("IREQ falls with the wind")
		}
		if more(e, 8, by).assess(Minimal).Stored < e.assess(Minimal).Stored-slack {
			t.Fatal("DLE falls with clothing")
		}
	})
}

func TestClampsAreIdempotent(t *testing.T) {
	base := exposure{90, 0, -10, -10, 8, 0.3, 0.4, 85, 2.5}
	with := func(i int, x float64) exposure { e := base; e[i] = x; return e }
	for _, c := range []struct {
		name string
		a, b exposure
	}{
		{"wind", with(6, 0.1), with(6, 0.4)}, {"storm", with(6, 30), with(6, 18)},
		{"low rate", with(0, 40), with(0, 58)}, {"high rate", with(0, 500), with(0, 400)},
		{"warm air", with(2, 15), with(2, 10)}, {"walk", with(5, 3), with(5, 1.2)},
		{"permeability", with(4, 0), with(4, DefaultPermeability)}, {"clothing", with(8, -1), with(8, 0)},
	} {
		for _, criterion := range []Criterion{Minimal, Neutral} {
			if a, b := c.a.assess(criterion), c.b.assess(criterion); a != b {
				t.Errorf("%s: %+v, want %+v", c.name, a, b)
			}
		}
	}
}

// The storage rate that is found fulfils the standard's equation for the
// surface of the clothing, and IREQ stores nothing.
func TestStoredHeatBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := drawExposure(t)
		e[3] += rapid.Float64Range(-20, 20).Draw(t, "tr - ta")
		p := newPass(Minimal, Body{M: e[0], Walk: e[5]}, e[4], Ambient{e[2], e[3], e[6], e[7] / 100})
		insulation := p.resultant(e[8] * Clo)
		s := p.stored(insulation)
		h := p.toShed(insulation)
		if gap := h - p.lost(insulation, p.tsk-insulation*(h-s)) - s; math.Abs(gap) > 1e-6*max(1, math.Abs(s)) {
			t.Fatalf("%v W/m2 are left over", gap)
		}
		if need, ok := p.required(); ok && need > 0 {
			if s := p.stored(need); math.Abs(s) > 1e-4 {
				t.Fatalf("%v clo are required and store %v W/m2", need/Clo, s)
			}
		}
	})
}

// The resultant insulation is the fixed point that the standard iterates for.
func TestResultantInsulationIsAFixedPoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := drawExposure(t)
		p := newPass(Minimal, Body{M: e[0], Walk: e[5]}, e[4], Ambient{e[2], e[3], e[6], e[7] / 100})
		basic := e[8] * Clo
		i := p.resultant(basic)
		again := (basic+0.085/area(i))*p.windFactor() - p.boundary/area(i)
		if i > 0 && math.Abs(again-i) > 1e-12 {
			t.Fatalf("%v becomes %v", i, again)
		}
	})
}

func BenchmarkBalance(b *testing.B) {
	in := Ambient{Air: -26, Radiant: -26, Wind: 5.2, Humidity: 0.85}
	for b.Loop() {
		Balance(Body{M: 165}, Clothing{Clo: 2.5}, in)
	}
}

func BenchmarkAssess(b *testing.B) {
	in := Ambient{Air: -26, Radiant: -26, Wind: 5.2, Humidity: 0.85}
	for b.Loop() {
		Assess(Neutral, Body{M: 165}, Clothing{Clo: 2.5}, in)
	}
}
