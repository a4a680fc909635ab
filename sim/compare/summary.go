package compare

import (
	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/cold"
	"warmby/sim/stats"
)

// WellOf returns in how many of so many runs of a batch all goes well, as
// [HowWell] tells it of runs that are all at hand; cold says whether the batch
// keeps the account.
func WellOf(o *batch.OrderSummary, runs int64, keepsCold bool) (w Well) {
	share := func(n int64) *stats.Share {
		s := stats.ShareOf(n, runs)
		return &s
	}
	for _, m := range o.Drill.Milestones {
		if m.By != sim.Never {
			w.Targets, w.All = share(o.InTime), share(o.InTime)
			break
		}
	}
	if keepsCold && cold.Kept(o.Drill) {
		w.NobodyCold, w.All = share(o.Warm), share(o.Well)
	}
	return w
}

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
	if need := stats.EnoughFor(m.Counts.Skewness()); odds.Mean.OK() && need > runs {
		odds.Enough = need
	}
	for _, p := range Quantiles {
		odds.Quantiles = append(odds.Quantiles, stats.QuantileOf(&m.Counts, p))
	}
	return odds
}
