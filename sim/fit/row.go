package fit

import (
	"math"

	"warmby/sim"
)

// Row is what one drill tells of the length of one task.
type Row struct {
	Task, Drill int
	// Log is the natural logarithm of the amount, in the milliseconds of
	// sim.Luck.Amount: with the crew as it changed, paces and slow-downs taken out.
	Log  float64
	Kind RowKind
	// Crew is the share of the work of each person who is named; it adds up to 1
	// or is empty.
	Crew []PersonShare
}

// PersonShare is a person's part of a task.
type PersonShare struct {
	Person int
	Share  float64
}

// RowKind says how much a row tells.
type RowKind int

// The kinds of row.
const (
	Exact   RowKind = iota
	AtLeast         // censored: not ended when last looked at
	AtMost          // a mishap of unknown length is in it
	Open            // not timed: one of the lengths that it may have had
)

// Law is what the file says of the length of a task, as the lognormal that goes
// through its median and is as wide between its 10 and 90 % quantiles.
type Law struct {
	Task   int
	Level  float64 // natural logarithm of the median, ms
	Spread float64 // standard deviation of the logarithm
	Work   bool    // the day acts on it
}

// quietSpread is the spread that a task is given by which the file gives one
// value only, and no other task has a range: it does not say that the length
// never varies. From memory, a default only.
const quietSpread = 0.25

// narrowest is the least spread that a law counts with.
const narrowest = 0.05

// Laws returns what the file says of each task that has a drawn length.
func Laws(d *sim.Drill) []Law {
	const z90 = 1.2815515655446004
	var laws []Law
	var sum float64
	var wide int
	for i := range d.Tasks {
		t := &d.Tasks[i]
		if t.Amount == nil || t.Amount.Quantile(0.5) < 1 {
			continue
		}
		l := Law{Task: i, Level: math.Log(t.Amount.Quantile(0.5)), Work: t.Worked()}
		low, high := math.Max(1, t.Amount.Quantile(0.1)), math.Max(1, t.Amount.Quantile(0.9))
		if l.Spread = math.Log(high/low) / (2 * z90); l.Spread > 0 {
			sum, wide = sum+l.Spread, wide+1
		}
		laws = append(laws, l)
	}
	for i := range laws {
		switch {
		case laws[i].Spread == 0 && wide > 0:
			laws[i].Spread = math.Max(narrowest, sum/float64(wide))
		case laws[i].Spread == 0:
			laws[i].Spread = quietSpread
		default:
			laws[i].Spread = math.Max(narrowest, laws[i].Spread)
		}
	}
	return laws
}

// daySpread returns the standard deviation of the logarithm of the day's factor
// that the file gives.
func daySpread(d *sim.Drill) float64 {
	if d.Day == nil {
		return 0
	}
	return math.Log(d.Day.Quantile(0.8413447460685429) / d.Day.Quantile(0.5))
}
