package cold

import (
	"fmt"
	"math"

	"warmby/sim/portable"
)

// Clo is the insulation of one clo in m2 K/W.
const Clo = 0.155

// DefaultPermeability is the customary air permeability of outer clothing in
// l/(m2 s): the value of the examples of ISO 11079.
const DefaultPermeability = 8

// HeatLimit is how much heat a body may lose in Wh/m2 before exposure should
// end, by ISO 11079: Qlim = -40 Wh/m2, 144 kJ/m2.
const HeatLimit = 40

// mostWind is where the air movement at the body of ISO 11079 ends, in m/s.
const mostWind = 18

// Criterion is how a body is meant to be in balance.
type Criterion int

// The two criteria of ISO 11079.
const (
	// Minimal is high strain: skin at 33.34 - 0.0354 M degrees C, 6 per cent
	// of it wet. The body holds its balance, but feels cold.
	Minimal Criterion = iota
	// Neutral is low strain: skin at 35.7 - 0.0285 M, 0.001 M of it wet. The
	// body is about comfortable.
	Neutral
)

// Body is what a person does.
type Body struct {
	M        float64 // metabolic rate in W/m2, taken as 58 to 400
	External float64 // mechanical work done on the outside, W/m2; 0 is customary
	// Walk is the walking speed in m/s, taken as at least 0.0052 (M - 58) and
	// no more than 1.2.
	Walk float64
}

// Clothing is what a person wears.
type Clothing struct {
	Clo          float64 // basic insulation available
	Permeability float64 // l/(m2 s); 0 stands for DefaultPermeability
}

// Ambient is the air around a person.
type Ambient struct {
	Air      float64 // degrees C, taken as 10 at most
	Radiant  float64 // mean radiant temperature, degrees C; the air's outdoors
	Wind     float64 // at the body in m/s, taken as 0.4 to 18
	Humidity float64 // 0..1
}

// Products are rounded before they are added, here and below, so that the bits are
// the same on every processor: see package portable.

// pass is one exposure under one criterion, with all that does not depend on
// the clothing. Pressures are in kPa, temperatures in degrees C, insulation
// in m2 K/W and heat in W/m2. Source of every line: ISO 11079:2007, as the
// program of Holmér and Nilsson has it.
type pass struct {
	m, external, breath   float64
	ta, tr, tsk, wet      float64
	psk, pa               float64
	boundary              float64 // Ia
	permeability, airPlay float64 // airPlay is exp(-0.15 v - 0.22 w)
}

func newPass(c Criterion, b Body, permeability float64, a Ambient) pass {
	m := clamp(b.M, 58, 400)
	ta := min(a.Air, 10)
	walk := min(max(b.Walk, float64(0.0052*(m-58))), 1.2)
	wind := clamp(a.Wind, 0.4, mostWind)
	if !(permeability > 0) {
		permeability = DefaultPermeability
	}
	p := pass{m: m, external: b.External, ta: ta, tr: a.Radiant, permeability: permeability}
	p.tsk, p.wet = 33.34-float64(0.0354*m), 0.06
	if c == Neutral {
		p.tsk, p.wet = 35.7-float64(0.0285*m), 0.001*m
	}
	p.airPlay = portable.Exp(float64(-0.15*wind) - float64(0.22*walk))
	p.boundary = float64(0.092*p.airPlay) - 0.0045
	p.psk, p.pa = vapour(p.tsk), float64(a.Humidity*vapour(ta))
	exhaled := 29 + float64(0.2*ta)
	p.breath = float64(1.73e-2*m*(vapour(exhaled)-p.pa)) + float64(1.4e-3*m*(exhaled-ta))
	return p
}

// vapour returns the pressure of saturated vapour in kPa.
func vapour(t float64) float64 { return float64(0.1333 * portable.Exp(18.6686-4030.183/(t+235))) }

// area returns fcl, how much larger than the skin the clothing is.
func area(insulation float64) float64 { return 1 + float64(1.197*insulation) }

// toShed returns the heat that must pass through the clothing if none is
// stored: M - W - E - Hres.
func (p *pass) toShed(insulation float64) float64 {
	vapourResistance := 0.06 / 0.38 * (p.boundary + insulation)
	return p.m - p.external - float64(p.wet*(p.psk-p.pa))/vapourResistance - p.breath
}

// lost returns R + C, the heat that leaves clothing whose surface has a
// temperature. The difference of fourth powers is divided by that of the
// temperatures beforehand, so that equal ones do no harm.
func (p *pass) lost(insulation, tcl float64) float64 {
	a, b := 273+tcl, 273+p.tr
	hr := float64(5.67e-8 * 0.95 * 0.77 * (float64(a*a) + float64(b*b)) * (a + b))
	hc := 1/p.boundary - hr
	return float64(area(insulation) * (float64(hr*(tcl-p.tr)) + float64(hc*(tcl-p.ta))))
}

// required returns the insulation with which the body is in balance, m2 K/W;
// 0 when it is so without any, ok false when no clothing is enough.
func (p *pass) required() (insulation float64, ok bool) {
	balance := func(i float64) float64 {
		h := p.toShed(i)
		return h - p.lost(i, p.tsk-float64(i*h))
	}
	if balance(0) >= 0 {
		return 0, true
	}
	// The balance rises with the insulation: take the first root, so that the
	// clothing's surface stays far above absolute zero.
	lo := 0.0
	for hi := 0.05; hi <= 10; hi += 0.05 {
		if balance(hi) >= 0 {
			return root(balance, lo, hi), true
		}
		lo = hi
	}
	return 0, false
}

// stored returns the heat storage rate S with an insulation: the S for which
// M - W - E - Hres - R - C - S = 0, the clothing's surface being at
// tsk - I (M - W - E - Hres - S).
func (p *pass) stored(insulation float64) float64 {
	h := p.toShed(insulation)
	if insulation <= 0 {
		return h - p.lost(0, p.tsk)
	}
	gap := func(tcl float64) float64 { return float64(insulation*p.lost(insulation, tcl)) - (p.tsk - tcl) }
	lo, hi := min(p.ta, p.tr, p.tsk), max(p.ta, p.tr, p.tsk)
	tcl := root(gap, lo, hi)
	return h - (p.tsk-tcl)/insulation
}

// root returns where f, which rises through 0 between lo and hi, is 0: false
// position, halved when one end stays (the Illinois rule).
func root(f func(float64) float64, lo, hi float64) float64 {
	flo, fhi := f(lo), f(hi)
	if flo >= 0 {
		return lo
	}
	if fhi <= 0 {
		return hi
	}
	side := 0
	for range 200 {
		x := hi - float64(fhi*(hi-lo))/(fhi-flo)
		fx := f(x)
		if math.Abs(fx) < 1e-12 || hi-lo < 1e-13 {
			return x
		}
		if fx < 0 {
			lo, flo = x, fx
			if side < 0 {
				fhi /= 2
			}
			side = -1
		} else {
			hi, fhi = x, fx
			if side > 0 {
				flo /= 2
			}
			side = 1
		}
	}
	return lo + (hi-lo)/2
}

// windFactor returns what wind and walking leave of basic insulation:
// 0.54 exp(-0.15 v - 0.22 w) p^0.075 - 0.06 ln p + 0.5.
func (p *pass) windFactor() float64 {
	return float64(0.54*p.airPlay*portable.Pow(p.permeability, 0.075)) - float64(0.06*portable.Log(p.permeability)) + 0.5
}

// resultant returns what is left of basic insulation (both m2 K/W) in wind
// and when walking:
//
//	Iclr = (Icl + 0.085/fcl) k - Ia/fcl,  fcl = 1 + 1.197 Iclr
//
// which is a quadratic equation for Iclr; never below 0.
func (p *pass) resultant(basic float64) float64 {
	k := p.windFactor()
	a, b := float64(basic*k), float64(0.085*k)-p.boundary
	half := 1 - float64(1.197*a)
	return max(0, (-half+math.Sqrt(float64(half*half)+float64(4*1.197*(a+b))))/(2*1.197))
}

// basic returns the basic insulation that leaves a required one (both m2
// K/W), fcl being that of the clothing worn; never below 0.
func (p *pass) basic(required, fcl float64) float64 {
	return max(0, (required+p.boundary/fcl)/p.windFactor()-0.085/fcl)
}

// Exposure is a judgement by ISO 11079.
type Exposure struct {
	// Required is IREQ: the insulation with which the body is in balance, clo.
	Required Value
	// Basic is ICL: the basic insulation that leaves as much in the wind, clo.
	Basic Value
	// Stored is S, the heat that the body stores in the clothing available,
	// W/m2: see [Balance].
	Stored float64
	// Limited is DLE: the hours after which the body has lost [HeatLimit].
	// There is no value where the standard's program says "more than 8 h",
	// which it does as soon as S is over -8 W/m2.
	Limited Value
}

// Assess judges an exposure by ISO 11079:2007, under one of its criteria.
func Assess(c Criterion, b Body, w Clothing, a Ambient) Exposure {
	p := newPass(c, b, w.Permeability, a)
	worn := p.resultant(max(0, w.Clo) * Clo)
	e := Exposure{Stored: p.stored(worn)}
	if need, ok := p.required(); ok {
		e.Required = value(need / Clo)
		e.Basic = value(p.basic(need, area(worn)) / Clo)
	} else {
		why := "no clothing keeps this balance"
		e.Required, e.Basic = noValue(why), noValue(why)
	}
	e.Limited = limited(e.Stored)
	return e
}

// limited returns DLE in hours for a storage rate in W/m2.
func limited(s float64) Value {
	if s > -8 {
		return noValue(fmt.Sprintf("more than 8 h (S %.1f W/m2)", s))
	}
	return value(-HeatLimit / s)
}

// Balance returns the heat that a body stores at minimal strain, in W/m2;
// below 0 when it loses heat. It is the S of ISO 11079 from which the
// standard's DLE follows ([Assess] with [Minimal]); the running account adds
// it up, so that both agree for a steady exposure.
func Balance(b Body, w Clothing, a Ambient) float64 {
	p := newPass(Minimal, b, w.Permeability, a)
	return p.stored(p.resultant(max(0, w.Clo) * Clo))
}
