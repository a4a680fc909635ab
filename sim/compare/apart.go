package compare

import (
	"warmby/sim"
	"warmby/sim/stats"
)

// Moments is when one drill reaches one milestone.
type Moments struct {
	Times     []sim.Time // by run
	By        sim.Time   // the target; sim.Never without one
	Quantiles []stats.Quantile
	Looks     stats.Looks // at the runs
}

// MomentsOf works out the [Quantiles] of moments that are looked at so often.
func MomentsOf(times []sim.Time, by sim.Time, looks stats.Looks) Moments {
	m := Moments{Times: times, By: by, Looks: looks}
	level := looks.Level(stats.Level, int64(len(times)))
	sorted := stats.SortedOf(times)
	for _, p := range Quantiles {
		m.Quantiles = append(m.Quantiles, stats.QuantileAt(sorted, p, level))
	}
	return m
}

// Apart is how far two drills, a and b, are apart at a milestone under the same
// luck, otherwise than on average.
type Apart struct {
	Quantiles []stats.QuantileGap // a less b, one for each of [Quantiles]
	OnTime    *stats.ShareGap     // how much more often a is on time; nil without a target of both
}

// Apart holds moments against others of the same runs.
func (a *Moments) Apart(b *Moments) (gap Apart) {
	for k := range Quantiles {
		gap.Quantiles = append(gap.Quantiles, stats.QuantileGapOf(a.Times, b.Times, a.Quantiles[k], b.Quantiles[k]))
	}
	if a.By == sim.Never || b.By == sim.Never {
		return gap
	}
	var f stats.Fourfold
	for run := range a.Times {
		f.Add(onTime(a.Times[run], a.By), onTime(b.Times[run], b.By))
	}
	share := f.GapAt(a.Looks.Level(stats.Level, f.Runs()))
	gap.OnTime = &share
	return gap
}

// onTime reports whether a moment comes, and no later than its target.
func onTime(at, by sim.Time) bool { return at != sim.Never && at <= by }

// Turned returns the same of b and a.
func (g Apart) Turned() (turned Apart) {
	for _, q := range g.Quantiles {
		turned.Quantiles = append(turned.Quantiles, q.Turned())
	}
	if g.OnTime != nil {
		share := g.OnTime.Turned()
		turned.OnTime = &share
	}
	return turned
}
