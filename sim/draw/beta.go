package draw

import (
	"math"

	"warmby/sim/portable"
)

// betaTable returns the table of low + (high - low) X with X of the beta
// distribution of shapes a and b, both at least 1.
func betaTable(a, b, low, high float64) *table {
	lower, upper := newBetaTail(a, b), newBetaTail(b, a)
	whole := lower.part(0.5) + upper.part(0.5)
	lower.whole, upper.whole = whole, whole
	var lowerX, lowerSlope, upperX, upperSlope [nodes]float64
	lower.fill(&lowerX, &lowerSlope)
	upper.fill(&upperX, &upperSlope)
	width := high - low
	for i := range nodes {
		lowerX[i] = low + float64(width*lowerX[i])
		lowerSlope[i] *= width
		upperX[i] = high - float64(width*upperX[i])
		upperSlope[i] *= -width
	}
	upperX[nodes-1] = lowerX[nodes-1]
	return &table{newTail(&lowerX, &lowerSlope, low), newTail(&upperX, &upperSlope, high)}
}

// betaTail is the lower end of a beta distribution: density
// x^(a-1) (1-x)^(b-1) / whole.
type betaTail struct {
	a, b   float64
	whole  float64 // the beta function of a and b
	series [betaTerms]float64
	terms  int
}

const betaTerms = 256

// newBetaTail prepares the power series of the integral of the density,
//
//	x^a (1/a + (1-b) x/(a+1) + (1-b)(2-b)/2! x^2/(a+2) + ..)
//
// (Abramowitz and Stegun 26.5.4, with the binomial series for the density).
func newBetaTail(a, b float64) *betaTail {
	t := &betaTail{a: a, b: b, whole: 1}
	c := 1.0
	for n := range betaTerms {
		if c == 0 {
			break
		}
		t.series[n] = c / (a + float64(n))
		t.terms = n + 1
		c = c * (float64(n+1) - b) / float64(n+1)
	}
	return t
}

// part returns the integral of the density up to x, times whole.
func (t *betaTail) part(x float64) float64 {
	_, chance := t.densityAndChance(x)
	return float64(chance * t.whole)
}

// densityAndChance returns the density at x and the chance under it,
// 0 < x < 1.
func (t *betaTail) densityAndChance(x float64) (density, chance float64) {
	ln := portable.QuickLog(x)
	terms := t.terms
	if enough := 36 / -ln; enough < float64(terms) { // x^n < 1e-15
		terms = int(enough) + 1
	}
	sum := 0.0
	for n := terms - 1; n >= 0; n-- {
		sum = float64(sum*x) + t.series[n]
	}
	power := portable.QuickExp(float64(t.a*ln)) / t.whole
	density = power / x
	if t.b != 1 {
		density *= portable.QuickExp(float64((t.b - 1) * portable.QuickLog(1-x)))
	}
	return density, float64(power * sum)
}

// fill finds x and dx/dq at every node, from the end of the tail inwards.
func (t *betaTail) fill(x, slope *[nodes]float64) {
	q := chance(0)
	at := portable.QuickExp(portable.QuickLog(float64(q*t.a)*t.whole) / t.a)
	var density float64
	for range 4 {
		at, density = t.improve(at, q)
	}
	x[0], slope[0] = at, 1/density
	for i := 1; i < nodes; i++ {
		next := chance(i)
		step, _ := t.inverse(at, (next-q)/density)
		at, density = t.improve(at+step, next)
		q = next
		x[i], slope[i] = at, 1/density
	}
}

// improve returns a better x for a chance, with the density there.
func (t *betaTail) improve(x, q float64) (better, density float64) {
	x = min(max(x, math.SmallestNonzeroFloat64), 1-1e-12)
	density, chance := t.densityAndChance(x)
	step, growth := t.inverse(x, (q-chance)/density)
	return x + step, density * growth
}

// inverse returns how far to go from x so that the chance grows by s times
// the density at x, to third order, and by what the density grows on the way.
func (t *betaTail) inverse(x, s float64) (step, growth float64) {
	y := 1 - x
	l := (t.a-1)/x - (t.b-1)/y                                                  // f'/f
	l1 := -(t.a-1)/float64(x*x) - (t.b-1)/float64(y*y)                          // its derivative
	step = float64(s * (1 - float64(s*(l/2-float64(s*(float64(2*l*l)-l1)/6))))) // series reversion
	growth = 1 + float64(step*(l+float64(step*(float64(l*l)+l1)/2)))
	return step, growth
}

// betaQuantile returns the value below which a beta draw falls with chance p,
// without a table: Newton's method, kept between bounds that close in.
func betaQuantile(a, b, p float64) float64 {
	t, other := newBetaTail(a, b), newBetaTail(b, a)
	t.whole = t.part(0.5) + other.part(0.5)
	low, high, x := 0.0, 1.0, 0.5
	for range 100 {
		density, chance := t.densityAndChance(x)
		if chance < p {
			low = x
		} else {
			high = x
		}
		next := x + (p-chance)/density
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-x) < 1e-13 {
			return next
		}
		x = next
	}
	return x
}
