// Package doubt says how much of what a drill leaves open is luck, and how much
// lies in the numbers of its file.
//
// Of three values that people write down, the outer two are seldom the quickest
// and the slowest that can be: who is asked for extremes gives some 8 in 10 of
// what comes (from memory; the studies of calibration find even less). [Of] plays
// a drill twice under the same luck: as the file says, and with quick and slow as
// 8 in 10.
package doubt

import (
	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fit"
	"warmby/sim/stats"
)

// Covers is the share of cases that quick and slow are taken to hold.
const Covers = 0.8

// Range is when a milestone comes: with 8 in 10 from Low to High.
type Range struct{ Low, Middle, High sim.Time }

// RangeOf returns the range of moments in rising order.
func RangeOf(moments stats.Sorted) Range {
	n := int64(len(moments))
	return Range{moments.At(max(1, n/10)), moments.At(max(1, n/2)), moments.At(n - n/10)}
}

// Doubt is what is open about one milestone.
type Doubt struct {
	Luck    Range // as the file says
	Numbers Range // with quick and slow as 8 in 10
}

// Of plays so many runs of a drill either way and returns the doubt of each
// milestone; nil when the file has no three values to doubt.
func Of(d *sim.Drill, runs int, seed uint64) []Doubt {
	wider, any := Wider(d)
	if !any {
		return nil
	}
	luck, numbers := fit.ByFile(d, runs, seed), fit.ByFile(wider, runs, seed)
	out := make([]Doubt, len(d.Milestones))
	for m := range out {
		out[m] = Doubt{RangeOf(luck.Milestones[m]), RangeOf(numbers.Milestones[m])}
	}
	return out
}

// Wider returns the drill with quick and slow of all lengths of tasks as 8 in 10,
// and whether there was any to change.
func Wider(d *sim.Drill) (out *sim.Drill, any bool) {
	like := *d
	like.Tasks = append([]sim.Task(nil), d.Tasks...)
	for i := range like.Tasks {
		if law, ok := draw.Covering(like.Tasks[i].Amount, Covers); ok {
			like.Tasks[i].Amount, any = law, true
		}
	}
	return &like, any
}
