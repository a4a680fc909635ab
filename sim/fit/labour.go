package fit

import (
	"slices"

	"warmby/sim"
	"warmby/sim/timed"
)

// stint is one person, or somebody without a name, on a task.
type stint struct {
	who      int // -1: not named
	from, to sim.Time
}

// ofTimeline returns who worked on a task in a timeline, from when to when.
func ofTimeline(tl *sim.Timeline, task int) []stint {
	var out []stint
	for who, stretches := range tl.People {
		for _, s := range stretches {
			if s.What == sim.Working && s.Task == task {
				out = append(out, stint{who, s.From, s.To})
			}
		}
	}
	return out
}

// ofJob returns who was on a job by the log; stints of which only the end is
// known begin with the job.
func ofJob(j *timed.Job) []stint {
	var out []stint
	for _, s := range j.Stints {
		from := s.From
		if from == sim.Never {
			from = j.Start
		}
		for _, who := range s.People {
			out = append(out, stint{who, from, s.To})
		}
	}
	return out
}

// amount returns how much of a task is done by some people until a moment, in
// the milliseconds of sim.Luck.Amount, with the share that each named one has
// in it. Rate is what they did when last anybody was there, in the same
// milliseconds each millisecond.
func amount(d *sim.Drill, steps []sim.Step, task int, crew []stint, until sim.Time) (ms, rate float64, shares []PersonShare) {
	t := &d.Tasks[task]
	cuts := boundaries(steps, crew, until)
	units := float64(t.WorkUnits())
	part := map[int]float64{}
	var paid float64
	for i := 1; i < len(cuts); i++ {
		from, to := cuts[i-1], cuts[i]
		n, paces, there := 0, int64(0), []int(nil)
		for _, s := range crew {
			if s.from <= from && s.to >= to {
				n, paces, there = n+1, paces+paceOf(d, s.who), append(there, s.who)
			}
		}
		if n == 0 {
			continue
		}
		slowed := t.Slowed1000(&d.Site, steps[sim.StepAt(steps, from)])
		rate = float64(sim.Rate(n, t.Teamwork, paces, slowed)) / units
		done := rate * float64(to-from)
		ms += done
		for _, who := range there {
			if who >= 0 {
				part[who] += done / float64(n)
			}
			paid += done / float64(n)
		}
	}
	for who := range d.People {
		if x := part[who]; x > 0 {
			shares = append(shares, PersonShare{who, x / paid})
		}
	}
	return ms, rate, shares
}

func paceOf(d *sim.Drill, who int) int64 {
	if who < 0 {
		return 1000
	}
	return d.People[who].Pace
}

// boundaries returns the moments between which crew and conditions stay the
// same, up to until.
func boundaries(steps []sim.Step, crew []stint, until sim.Time) []sim.Time {
	cuts := []sim.Time{until}
	first := until
	for _, s := range crew {
		cuts, first = append(cuts, s.from, s.to), min(first, s.from)
	}
	for _, s := range steps {
		cuts = append(cuts, s.At)
	}
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	return slices.DeleteFunc(cuts, func(t sim.Time) bool { return t < first || t > until })
}
