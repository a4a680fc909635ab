package ifthen

import (
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// all stands for all targets together.
const all = -1

// least is by how much a share must differ to be worth a line, sure how sure that
// must be: there are many lines, and each must hold.
const (
	least = 0.1
	sure  = 0.999
)

// targets lists the milestones with a target.
func targets(d *sim.Drill) (list []int) {
	for m, milestone := range d.Milestones {
		if milestone.ByText != "" && milestone.By != sim.Never {
			list = append(list, m)
		}
	}
	return list
}

// inTime reports whether a run meets the target of a milestone, or all of them.
func inTime(p *compare.Played, milestone, run int) bool {
	if milestone != all {
		return p.Drill.Milestones[milestone].Met(p.Times[milestone][run])
	}
	for _, m := range targets(p.Drill) {
		if !inTime(p, m, run) {
			return false
		}
	}
	return true
}

// pair is two drills held against each other in some runs, at one target.
type pair struct{ runs, a, b, onlyA, onlyB int64 }

// held holds a against b in those runs for which in says so; nil for all.
func held(a, b *compare.Played, milestone int, in func(run int) bool) (p pair) {
	for run := range min(len(a.Times[0]), len(b.Times[0])) {
		if in != nil && !in(run) {
			continue
		}
		x, y := inTime(a, milestone, run), inTime(b, milestone, run)
		p.runs++
		if x {
			p.a++
		}
		if y {
			p.b++
		}
		switch {
		case x && !y:
			p.onlyA++
		case y && !x:
			p.onlyB++
		}
	}
	return p
}

func (p pair) gain() float64 { return (float64(p.a) - float64(p.b)) / float64(max(1, p.runs)) }

// better reports whether a is in time clearly more often than b, and by how much
// that is worth a line.
func (p pair) better() bool {
	if p.onlyA+p.onlyB == 0 || p.gain() < least {
		return false
	}
	if p.runs <= screen {
		return true
	}
	low, _ := stats.Wilson(p.onlyA, p.onlyA+p.onlyB, sure)
	return low > 0.5
}

// shares are how often each is in time.
func (p pair) shares() (a, b *stats.Share) {
	x, y := stats.ShareOf(p.a, p.runs), stats.ShareOf(p.b, p.runs)
	return &x, &y
}
