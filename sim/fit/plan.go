package fit

import (
	"math"

	"warmby/sim"
)

// Plan is what to plan a task with. Lengths are amounts, as the file counts
// them: person-minutes of work, minutes of the people timed, or clock time.
type Plan struct {
	Task int
	Rows int
	Law  int // index in Model.Laws
	// Log is the geometric mean of the rows that ended; 0 when there is none.
	Log       sim.Time
	File      sim.Time // the file's median
	Plan      sim.Time // the middle of what is foretold for the next drill
	Low, High sim.Time // foretold to lie between with 8 in 10
	Worth     float64  // how many drills the file's figure counts as
	// Median and Spread are the lognormal to write into a file, the day's effect
	// left out: geometric standard deviation.
	Median sim.Time
	Spread float64
}

// Plans returns what to plan each task with, in the order of the drill.
func (f *Fitted) Plans() []Plan {
	var out []Plan
	for i, l := range f.Model.Laws {
		next := f.Next(i, f.Coming())
		p := Plan{
			Task: l.Task, Law: i, Rows: f.Posterior.Rows[i], Log: f.logSays(l.Task), File: sim.Milliseconds(math.Exp(l.Level)),
			Plan: sim.Milliseconds(next.Quantile(0.5)), Low: sim.Milliseconds(next.Quantile(0.1)), High: sim.Milliseconds(next.Quantile(0.9)),
			Worth: f.Over(0.5, func(d *Draw) float64 { return d.Worth[i] }),
		}
		p.Median, p.Spread = f.law(i)
		out = append(out, p)
	}
	return out
}

func (f *Fitted) logSays(task int) sim.Time {
	sum, n := 0.0, 0.0
	for _, r := range f.Data {
		if r.Task == task && r.Kind == Exact {
			sum, n = sum+r.Log, n+1
		}
	}
	if n == 0 {
		return 0
	}
	return sim.Milliseconds(math.Exp(sum / n))
}

// law returns the lognormal of a task without the day's effect: what is not known
// of the shift of all work goes into the day's, for it moves all tasks alike.
func (f *Fitted) law(i int) (median sim.Time, spread float64) {
	l := f.Model.Laws[i]
	own := func(d *Draw) float64 {
		if l.Work {
			return d.Level[i] - d.Shift
		}
		return d.Level[i]
	}
	_, v := f.moments(own)
	each, _ := f.moments(func(d *Draw) float64 { return d.Spread[i] * d.Spread[i] })
	level := f.Over(0.5, func(d *Draw) float64 { return d.Level[i] })
	return sim.Milliseconds(math.Exp(level)), math.Exp(math.Sqrt(v + each))
}

// moments returns mean and variance over the draws.
func (f *Fitted) moments(of func(*Draw) float64) (mean, variance float64) {
	n := float64(len(f.Draws))
	for k := range f.Draws {
		mean += of(&f.Draws[k]) / n
	}
	for k := range f.Draws {
		d := of(&f.Draws[k]) - mean
		variance += d * d / n
	}
	return mean, variance
}

// Day returns the day's effect to plan with, as the file has it (0.1 for 10 %):
// from one drill to the next, and what is not known of the team's shift.
func (f *Fitted) Day() float64 {
	each, _ := f.moments(func(d *Draw) float64 { return d.Day * d.Day })
	_, v := f.moments(func(d *Draw) float64 { return d.Shift })
	return math.Exp(math.Sqrt(each+v)) - 1
}

// Shift returns the factor of all work against the file, and what it lies
// between with 8 in 10.
func (f *Fitted) Shift() (middle, low, high float64) {
	of := func(d *Draw) float64 { return d.Shift }
	return math.Exp(f.Over(0.5, of)), math.Exp(f.Over(0.1, of)), math.Exp(f.Over(0.9, of))
}

// FactorOf returns what a factor does to work at 1, and what it lies between with
// 8 in 10.
func (f *Fitted) FactorOf(j int) (middle, low, high float64) {
	of := func(d *Draw) float64 { return d.Factor[j] }
	return math.Exp(f.Over(0.5, of)), math.Exp(f.Over(0.1, of)), math.Exp(f.Over(0.9, of))
}

// PaceOf returns the pace of a person against that of the file and of the others,
// and what it lies between with 8 in 10; not ok when paces are not fitted.
func (f *Fitted) PaceOf(who int) (middle, low, high float64, ok bool) {
	if f.Model.People == 0 {
		return 0, 0, 0, false
	}
	of := func(d *Draw) float64 { return d.Pace[who] }
	return math.Exp(f.Over(0.5, of)), math.Exp(f.Over(0.1, of)), math.Exp(f.Over(0.9, of)), true
}
