package fit

import (
	"gonum.org/v1/gonum/stat/distuv"

	"warmby/sim"
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
}

// Mean returns the chance to plan with.
func (c Chance) Mean() float64 { return c.A / (c.A + c.B) }

// Quantile returns a quantile of the chance.
func (c Chance) Quantile(q float64) float64 {
	return distuv.Beta{Alpha: c.A, Beta: c.B}.Quantile(q)
}

// chances counts mishaps. Where a task may meet one again after each, every one
// that happened was a trial more; jobs that had not ended count as far as they
// went.
func chances(d *sim.Drill, evenings []Evening) []Chance {
	var out []Chance
	for i := range d.Tasks {
		m := d.Tasks[i].Mishap
		c := Chance{Task: i, File: quietChance, InFile: m != nil}
		most, before := 1, sim.Time(0)
		if m != nil {
			c.File, most, before = min(max(m.Chance, 0.01), 0.99), m.AtMost, sim.Milliseconds(m.Adds.Usual())
		}
		trials, adds, timed := 0, sim.Time(0), 0
		for _, e := range evenings {
			j, ok := e.Timed.Job(i)
			if !ok || j.Unfinished && j.Mishaps == 0 {
				continue
			}
			c.Drills++
			c.Happened += j.Mishaps
			trials += j.Mishaps
			if j.Mishaps < most && !j.Unfinished {
				trials++
			}
			if j.Mishaps > 0 && j.MishapTime != sim.Never {
				adds, timed = adds+j.MishapTime, timed+j.Mishaps
			}
		}
		if m == nil && c.Happened == 0 {
			continue
		}
		c.A = MishapWorth*c.File + float64(c.Happened)
		c.B = MishapWorth*(1-c.File) + float64(max(0, trials-c.Happened))
		c.Adds = planAdds(before, adds, timed)
		out = append(out, c)
	}
	return out
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
