package fit

import (
	"math"

	"warmby/sim"
)

// Odd is a length that looks like a mistake in the log.
type Odd struct {
	Drill, Job int      // which of Evenings, and which of its Timed.Jobs
	Log, Plan  sim.Time // amounts: by the log, and to plan with after all of it
}

// What counts as odd: so many times the plan or less than its inverse, and so far
// from it. Our own figures.
const (
	oddTimes = 5
	oddBy    = 30 * sim.Minute
)

// Odd returns the lengths of the log, with a start and an end, that are far from
// what it says as a whole. They count all the same: what happened is for whoever
// was there to say.
func (f *Fitted) Odd() []Odd {
	lawOf := f.Model.lawOf()
	var out []Odd
	for _, r := range f.Data {
		i, ok := lawOf[r.Task]
		job := f.jobOf(r)
		if !ok || r.Kind != Exact || f.Evenings[r.Drill].Timed.Jobs[job].Start == sim.Never {
			continue // a length that followed from the drill is not the log's
		}
		plan := f.Next(i, f.At(r.Drill)).logQuantile(0.5)
		one := Odd{Drill: r.Drill, Job: job, Log: sim.Milliseconds(math.Exp(r.Log)), Plan: sim.Milliseconds(math.Exp(plan))}
		if math.Abs(r.Log-plan) > math.Log(oddTimes) && max(one.Log-one.Plan, one.Plan-one.Log) >= oddBy {
			out = append(out, one)
		}
	}
	return out
}

func (f *Fitted) jobOf(r Row) int {
	for k, j := range f.Evenings[r.Drill].Timed.Jobs {
		if j.Task == r.Task {
			return k
		}
	}
	return -1
}
