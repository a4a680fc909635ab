package oddity

import (
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// Seldom finds the milestones whose target is surely met in fewer than half of the
// evenings under every order: the upper end of the interval lies below. All orders are of one scenario.
func Seldom(played []*compare.Played) (found []Remark) {
	d := played[0].Drill
	for m := range d.Milestones {
		r := remark(d, SeldomMet)
		r.Index = m
		for _, p := range played {
			by := p.Drill.Milestones[m].By
			if by == sim.Never {
				break
			}
			if s := inTime(p.Times[m], by); r.Share == nil || s.Value > r.Share.Value {
				r.Share, r.Drill = &s, p.Drill
			}
		}
		if r.Share != nil && r.Share.Count > 0 && r.Share.High < 0.5 { // never in time is told of the evening itself
			found = append(found, r)
		}
	}
	return found
}

func inTime(times []sim.Time, by sim.Time) stats.Share {
	n := 0
	for _, at := range times {
		if at <= by {
			n++
		}
	}
	return stats.ShareOf(int64(n), int64(len(times)))
}
