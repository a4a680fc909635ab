package main

import (
	"fmt"
	"strings"

	"warmby/sim"
	"warmby/sim/fast"
	"warmby/sim/stats"
)

// share tells in how many runs each milestone came as quickly as with usual
// values.
type share struct {
	runs    int
	quickly []int // per milestone
}

// shareRuns is how many runs a rehearsal plays to tell how usual it is, and
// shareSeed the seed that they are drawn with.
const (
	shareRuns = 1000
	shareSeed = 1
)

// asQuickly plays the drill again with drawn values. It returns a zero share
// when nothing in the drill is drawn.
func asQuickly(tl *sim.Timeline) (share, error) {
	s := share{quickly: make([]int, len(tl.Milestones))}
	if !isDrawn(tl.Drill) {
		return s, nil
	}
	p, err := fast.Compile(tl.Drill)
	if err != nil {
		return s, err
	}
	w := p.Worker()
	var r fast.Result
	for run := range shareRuns {
		s.runs++
		if err := w.Run(shareSeed, run, &r); err != nil {
			continue // never finished: not as quickly
		}
		for m := range tl.Milestones {
			if tl.Milestones[m] != sim.Never && r.Milestones[m] <= tl.Milestones[m] {
				s.quickly[m]++
			}
		}
	}
	return s, nil
}

// isDrawn reports whether anything in a drill is left to luck.
func isDrawn(d *sim.Drill) bool {
	varies := func(q sim.Distribution) bool { return q != nil && q.Quantile(0.001) != q.Quantile(0.999) }
	if varies(d.Day) || len(d.Weather) > 1 {
		return true
	}
	for _, p := range d.People {
		if varies(p.Arrives) {
			return true
		}
	}
	for _, l := range d.Loads {
		if varies(l.Arrives) {
			return true
		}
	}
	for i := range d.Tasks {
		if m := d.Tasks[i].Mishap; varies(d.Tasks[i].Amount) || m != nil && (m.Chance < 1 || varies(m.Adds)) {
			return true
		}
	}
	return false
}

// text says it in a sentence for each milestone, with its 95 % Wilson
// interval.
func (s share) text(tl *sim.Timeline, width int) string {
	if s.runs == 0 {
		return ""
	}
	var parts []string
	for m := range tl.Milestones {
		if tl.Milestones[m] == sim.Never {
			continue
		}
		low, high := stats.Wilson(int64(s.quickly[m]), int64(s.runs), stats.Level)
		parts = append(parts, fmt.Sprintf("%s in %d of %d (%s to %s %%)",
			tl.Drill.Milestones[m].Name, s.quickly[m], s.runs, hundredths(low), hundredths(high)))
	}
	return wrap(fmt.Sprintf("Usual values flatter. With drawn ones, mishaps included, it went at least as quickly for %s (runs of seed %d; in brackets the 95 %% interval of the share).",
		strings.Join(parts, ", "), shareSeed), width, "  ", "  ")
}
