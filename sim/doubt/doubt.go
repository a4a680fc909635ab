// Package doubt says how much of what a drill leaves open is luck, and how much
// lies in its numbers.
//
// Of three values that people write down, the outer two are seldom the quickest
// and the slowest that can be: who is asked for extremes gives some 8 in 10 of
// what comes (from memory; the studies of calibration find even less). [OfFile]
// reads quick and slow as 8 in 10; after a stop-watch log, [OfLog] reads numbers as
// the log leaves them open. Drills are played either way under the same luck.
package doubt

import (
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/fit"
	"warmby/sim/stats"
)

// Covers is the share of cases that quick and slow are taken to hold.
const Covers = 0.8

// Readings is how many sets of numbers a log is read as; [compare] calls nobody
// ahead by fewer.
const Readings = stats.FewRuns

// mostRuns is how many runs the numbers are doubted with: the account of cold is
// kept in no more.
const mostRuns = 2000

// RunsOf returns in how many of some runs the numbers are doubted.
func RunsOf(runs int) int { return min(runs, mostRuns) }

// Numbers is how else the numbers of a scenario may be read. The zero value
// doubts nothing.
type Numbers struct {
	Drills int // of the log that they come from; 0 for those of the file
	readAs func(*sim.Drill) []*sim.Drill
}

// OfFile takes quick and slow as 8 in 10.
func OfFile() Numbers {
	return Numbers{readAs: func(d *sim.Drill) []*sim.Drill {
		wider, _ := Wider(d)
		return []*sim.Drill{wider}
	}}
}

// OfLog takes numbers as a log of so many drills leaves them open.
func OfLog(l *fit.Learnt, drills int) Numbers { return Numbers{drills, l.Readings} }

// Any reports whether a drill has numbers to doubt.
func (n Numbers) Any(d *sim.Drill) bool {
	if n.readAs == nil || n.Drills > 0 {
		return n.readAs != nil
	}
	_, any := Wider(d)
	return any
}

// Batch returns the batch that plays the first runs of another with the numbers
// doubted.
func (n Numbers) Batch(b compare.Batch) compare.Batch {
	b.Runs, b.ReadAs = RunsOf(b.Runs), n.readAs
	return b
}

// Range is when a milestone comes: with 8 in 10 from Low to High.
type Range struct{ Low, Middle, High sim.Time }

// RangeOf returns the range of moments in rising order.
func RangeOf(moments stats.Sorted) Range {
	n := int64(len(moments))
	return Range{moments.At(max(1, n/10)), moments.At(max(1, n/2)), moments.At(n - n/10)}
}

// Doubt is what is open about one milestone.
type Doubt struct {
	Luck    Range // with the numbers taken for true
	Numbers Range // with them doubted
}

// Of returns the doubt of each milestone of a drill that was played as it is, and
// with its numbers doubted.
func Of(luck, numbers *compare.Played) []Doubt {
	out := make([]Doubt, len(luck.Times))
	for m := range out {
		out[m] = Doubt{RangeOf(stats.SortedOf(luck.Times[m])), RangeOf(stats.SortedOf(numbers.Times[m]))}
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
