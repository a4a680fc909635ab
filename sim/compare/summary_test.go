package compare_test

import (
	"testing"

	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/compare"
)

// Ten runs: 1 to 8 minutes, 2 hours, never; a target after 5 minutes.
func TestOddsOfASummary(t *testing.T) {
	s := batch.NewSummary([]*sim.Drill{{Milestones: []sim.Milestone{{By: 5 * sim.Minute}, {By: sim.Never}}}})
	o := &s.Orders[0]
	for run := range sim.Time(10) {
		at := (run + 1) * sim.Minute
		switch run {
		case 8:
			at = 2 * sim.Hour
		case 9:
			at = sim.Never
		}
		o.Milestones[0].Tally.Add(at)
		o.Milestones[0].Counts.Add(at)
		if at <= 5*sim.Minute {
			o.Milestones[0].OnTime++
		}
		o.Milestones[1].Tally.Add(sim.Minute)
		o.Milestones[1].Counts.Add(sim.Minute)
	}
	odds := compare.OddsOf(o, 0, 10)
	if odds.Mean.OK() || odds.Never.Count != 1 || odds.OnTime.Count != 5 {
		t.Errorf("odds %+v, want no mean, 1 never, 5 on time", odds)
	}
	if half, nine := odds.Quantiles[0].Value, odds.Quantiles[compare.NineOfTen].Value; half != 5*sim.Minute || nine != 2*sim.Hour {
		t.Errorf("5 of 10 by %s, 9 of 10 by %s; want 5 min and 2 h", sim.Clock(half), sim.Clock(nine))
	}
	if odds := compare.OddsOf(o, 1, 10); odds.OnTime != nil || odds.Mean.Time() != sim.Minute {
		t.Errorf("odds %+v, want a mean of a minute and no target", odds)
	}
}
