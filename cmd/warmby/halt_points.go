package main

import (
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/stats"
)

// point is what comes of one arrival.
type point struct {
	drill   *sim.Drill
	onTime  []*stats.Share // by milestone; nil without a target
	stopped int            // runs that came to a stop
	// coldest is who loses most heat with usual values; nil when the account
	// cannot be made of anybody.
	coldest *cold.Person
}

func pointOf(p *compare.Played) (point, error) {
	out := point{drill: p.Drill, stopped: p.Stopped}
	for m, milestone := range p.Drill.Milestones {
		if milestone.ByText == "" {
			out.onTime = append(out.onTime, nil)
			continue
		}
		var met int64
		for _, at := range p.Times[m] {
			if at != sim.Never && (milestone.By == sim.Never || at <= milestone.By) {
				met++
			}
		}
		share := stats.ShareOf(met, int64(len(p.Times[m])))
		out.onTime = append(out.onTime, &share)
	}
	tl, err := playAgain(p.Drill, draw.Usual(p.Drill))
	if never(err) { // it comes to a stop with usual values: nothing to tell
		return out, nil
	}
	if err != nil {
		return out, err
	}
	people := cold.Account(tl)
	for i := range people {
		if people[i].Why == "" && (out.coldest == nil || people[i].Peak > out.coldest.Peak) {
			out.coldest = &people[i]
		}
	}
	return out, nil
}

// latest returns the index of the last arrival at which the milestone is in
// time often enough, by the estimate itself or, when sure, by the lower end of
// its interval; -1 for none.
func (h *halting) latest(sure bool) int {
	for i := len(h.points) - 1; i >= 0; i-- {
		if h.meets(i, sure) {
			return i
		}
	}
	return -1
}

func (h *halting) meets(i int, sure bool) bool {
	share := h.points[i].onTime[h.milestone]
	if sure {
		return share.Low >= h.odds
	}
	// Counted rather than divided: 900 of 1000 are 90 %.
	return float64(share.Count) >= h.odds*float64(share.Runs)-1e-9
}

// best returns the arrival with the best odds, the latest of equals.
func (h *halting) best() int {
	best := 0
	for i := range h.points {
		if h.points[i].onTime[h.milestone].Count >= h.points[best].onTime[h.milestone].Count {
			best = i
		}
	}
	return best
}
