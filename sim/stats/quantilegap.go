package stats

import (
	"fmt"

	"warmby/sim"
)

// QuantileGap is how much later one thing has come in a share of runs than
// another, with its interval, in milliseconds: below 0 it is sooner.
type QuantileGap struct {
	P         float64 // which quantile
	Value     sim.Time
	Low, High sim.Time
	// An end is open when so few runs cannot tell it, or it never comes; it is 0
	// then.
	LowOpen, HighOpen bool
	Runs              int64
	Why               string // why there is no difference: one of the two never comes so often
	Warning           string // about few runs; may be empty
}

// OK reports whether there is a difference.
func (g QuantileGap) OK() bool { return g.Why == "" }

// Turned returns the gap the other way round.
func (g QuantileGap) Turned() QuantileGap {
	g.Value, g.Low, g.High = -g.Value, -g.High, -g.Low
	g.LowOpen, g.HighOpen = g.HighOpen, g.LowOpen
	return g
}

// QuantileGapOf returns by how much a quantile of a is later than the same one of
// b, with its 95 % interval: a and b are moments of the same runs, x and y their
// quantiles by [QuantileOf]. The intervals of both, which assume no shape, are
// put together by squaring and adding, with what the two have in common taken
// off: the correlation of being there by the quantile (G. Y. Zou and A. Donner,
// Statist. Med. 27 (2008) 1693-1702, the recovery of variance estimates, of which
// [Fourfold.Gap] is the case for shares). It holds with 95 % or more, and with up
// to 99 % where a and b go closely together. It reaches no farther than a and b are
// apart in any run.
func QuantileGapOf(a, b []sim.Time, x, y Quantile) QuantileGap {
	if len(a) != len(b) || x.P != y.P {
		panic(fmt.Sprintf("stats: quantile %v of %d runs against %v of %d", x.P, len(a), y.P, len(b)))
	}
	g := QuantileGap{P: x.P, Runs: int64(len(a)), Warning: fewRuns(int64(len(a)))}
	if x.Value == sim.Never || y.Value == sim.Never {
		g.Why = fmt.Sprintf("not reached in %g %% of the runs of both", 100*x.P)
		return g
	}
	var f Fourfold
	for run := range a {
		f.Add(a[run] <= x.Value, b[run] <= y.Value)
	}
	g.Value = x.Value - y.Value
	phi := f.phi(false)
	if g.LowOpen = x.LowOpen || y.endless(); !g.LowOpen {
		g.Low = g.Value - sim.Milliseconds(together(float64(x.Value-x.Low), float64(y.High-y.Value), phi))
	}
	if g.HighOpen = x.endless() || y.LowOpen; !g.HighOpen {
		g.High = g.Value + sim.Milliseconds(together(float64(x.High-x.Value), float64(y.Value-y.Low), phi))
	}
	g.within(farthest(a, b))
	return g
}

// within cuts an interval to what is possible at all; sim.Never, of either sign,
// is no bound.
func (g *QuantileGap) within(least, most sim.Time) {
	if least != -sim.Never && (g.LowOpen || g.Low < least) {
		g.Low, g.LowOpen = min(least, g.Value), false
	}
	if most != sim.Never && (g.HighOpen || g.High > most) {
		g.High, g.HighOpen = max(most, g.Value), false
	}
}

// farthest returns the least and the most that a is later than b in any run:
// sim.Never, of either sign, where only one of them comes.
func farthest(a, b []sim.Time) (least, most sim.Time) {
	least, most = sim.Never, -sim.Never
	for run := range a {
		switch {
		case a[run] == b[run]:
			least, most = min(least, 0), max(most, 0)
		case a[run] == sim.Never:
			most = sim.Never
		case b[run] == sim.Never:
			least = -sim.Never
		default:
			least, most = min(least, a[run]-b[run]), max(most, a[run]-b[run])
		}
	}
	return least, most
}

// endless reports whether a quantile has no upper end that comes.
func (q Quantile) endless() bool { return q.HighOpen || q.High == sim.Never }
