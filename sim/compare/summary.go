package compare

import (
	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/stats"
)

// OddsOf returns when a milestone, by index, is reached in so many runs of a
// batch, as [Stand] tells it of runs that are all at hand: quantiles in whole
// seconds.
func OddsOf(o *batch.OrderSummary, milestone int, runs int64) Odds {
	m := &o.Milestones[milestone]
	odds := Odds{Mean: m.Tally.Mean(), Never: stats.ShareOf(m.Tally.Never, runs), First: stats.ShareOf(m.First, runs)}
	if o.Drill.Milestones[milestone].By != sim.Never {
		share := stats.ShareOf(m.OnTime, runs)
		odds.OnTime = &share
	}
	for _, p := range Quantiles {
		odds.Quantiles = append(odds.Quantiles, stats.QuantileOf(&m.Counts, p))
	}
	return odds
}
