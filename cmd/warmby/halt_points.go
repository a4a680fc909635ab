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
	out := point{drill: p.Drill, stopped: p.Stopped, onTime: onTimeOf(p)}
	tl, err := playAgain(p.Drill, draw.Usual(p.Drill))
	if never(err) { // it comes to a stop with usual values: nothing to tell
		return out, nil
	}
	if err != nil {
		return out, err
	}
	out.coldest = coldestOf(tl)
	return out, nil
}

// onTimeOf returns in what share of runs each milestone is in time; nil for one
// without a target.
func onTimeOf(p *compare.Played) []*stats.Share {
	var out []*stats.Share
	for m, milestone := range p.Drill.Milestones {
		if milestone.ByText == "" {
			out = append(out, nil)
			continue
		}
		var met int64
		for _, at := range p.Times[m] {
			if at != sim.Never && (milestone.By == sim.Never || at <= milestone.By) {
				met++
			}
		}
		share := stats.ShareOf(met, int64(len(p.Times[m])))
		out = append(out, &share)
	}
	return out
}

// usualPoint is what comes of an arrival with usual values: each milestone is in
// time or not.
func usualPoint(d *sim.Drill) (point, error) {
	tl, err := playAgain(d, draw.Usual(d))
	if err != nil {
		return point{}, err
	}
	p := &compare.Played{Drill: d}
	for _, at := range tl.Milestones {
		p.Times = append(p.Times, []sim.Time{at})
	}
	return point{drill: d, onTime: onTimeOf(p), coldest: coldestOf(tl)}, nil
}

// coldestOf returns who loses most heat; nil when it is not known of anybody.
func coldestOf(tl *sim.Timeline) *cold.Person {
	var out *cold.Person
	people := cold.Account(tl)
	for i := range people {
		if people[i].Why == "" && (out == nil || people[i].Peak > out.Peak) {
			out = &people[i]
		}
	}
	return out
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
