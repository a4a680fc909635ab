package fit

import (
	"gonum.org/v1/gonum/stat/distuv"

	"warmby/sim"
	"warmby/sim/timed"
)

// MishapWorth is how many drills the file's chance of a mishap counts as.
// From memory, a default only.
const MishapWorth = 4

// quietChance is the chance before any drill of a mishap that the file does not
// know.
const quietChance = 0.05

// Chance is what is known of the chance of a mishap of a task: a Beta law with
// shapes A and B, after Drills in which the task was done.
type Chance struct {
	Task     int
	File     float64
	Happened int
	Drills   int
	A, B     float64
	Adds     sim.Time // planned for each; 0 when nothing is known
	InFile   bool
	Then     bool // whether it is that with the condition of the mishap
}

// Mean returns the chance to plan with.
func (c Chance) Mean() float64 { return c.A / (c.A + c.B) }

// Quantile returns a quantile of the chance.
func (c Chance) Quantile(q float64) float64 {
	return distuv.Beta{Alpha: c.A, Beta: c.B}.Quantile(q)
}

// chances counts mishaps in some evenings. Where a task may meet one again after
// each, every one that happened was a trial more; jobs that had not ended count as
// far as they went. A mishap of which the chance hangs on a condition has two: each
// counts the evenings in which the condition was so at the start of the work.
func (f *Fitted) chances(uses func(evening int) bool) []Chance {
	var out []Chance
	for i := range f.Drill.Tasks {
		m := f.Drill.Tasks[i].Mishap
		c := Chance{Task: i, File: quietChance, InFile: m != nil}
		if m != nil {
			c.File = m.Chance
		}
		sides := []Chance{c}
		if m != nil && m.When != nil {
			c.Then, c.File = true, m.Then
			sides = append(sides, c)
		}
		if f.count(sides, uses); m != nil || sides[0].Happened > 0 {
			out = append(out, sides...)
		}
	}
	return out
}

// count counts the mishaps of a task for its chances.
func (f *Fitted) count(sides []Chance, uses func(evening int) bool) {
	task := sides[0].Task
	m := f.Drill.Tasks[task].Mishap
	most, before := 1, sim.Time(0)
	if m != nil {
		most, before = m.AtMost, sim.Milliseconds(m.Adds.Usual())
	}
	trials, adds, timed := make([]int, len(sides)), sim.Time(0), 0
	for k, e := range f.Evenings {
		j, ok := e.Timed.Job(task)
		if !ok || !uses(k) || j.Unfinished && j.Mishaps == 0 {
			continue
		}
		side := 0
		if len(sides) > 1 && f.holds(k, j) {
			side = 1
		}
		c := &sides[side]
		c.Drills++
		c.Happened += j.Mishaps
		trials[side] += j.Mishaps
		if j.Mishaps < most && !j.Unfinished {
			trials[side]++
		}
		if j.Mishaps > 0 && j.MishapTime != sim.Never {
			adds, timed = adds+j.MishapTime, timed+j.Mishaps
		}
	}
	for side := range sides {
		c := &sides[side]
		c.File = min(max(c.File, 0.01), 0.99)
		c.A = MishapWorth*c.File + float64(c.Happened)
		c.B = MishapWorth*(1-c.File) + float64(max(0, trials[side]-c.Happened))
		c.Adds = planAdds(before, adds, timed)
	}
}

// holds reports whether the condition of a task's mishap held when work on it
// started in an evening, by the log or, where that has ends only, by the replay.
func (f *Fitted) holds(evening int, j *timed.Job) bool {
	d, played := f.Evenings[evening].Drill, f.Replayed[evening]
	start := j.Start
	if start == sim.Never {
		start = played.Timeline.Tasks[j.Task].Start
	}
	steps := d.Steps(played.Luck.Weather)
	return f.Drill.Tasks[j.Task].Mishap.When.Holds(&d.Site, steps[sim.StepAt(steps, start)])
}

// planAdds lets the file's usual addition count as two mishaps.
func planAdds(before, sum sim.Time, n int) sim.Time {
	if before == 0 {
		if n == 0 {
			return 0
		}
		return sum / sim.Time(n)
	}
	return (2*before + sum) / sim.Time(2+n)
}
