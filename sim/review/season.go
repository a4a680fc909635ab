package review

import (
	"math"

	"warmby/sim"
	"warmby/sim/fit"
	"warmby/sim/timed"
)

// Season is what drills look like beside each other.
type Season struct {
	Attempts []Attempt // by date, where all have one
	Teams    []Team    // in the sequence in which they first stand
}

// Attempt is one drill.
type Attempt struct {
	Evening    int         // of the log
	Milestones []Milestone // foretold from the drills before it
	Foretold   bool        // whether there were drills before it
	// Day is the factor on work that the drill had against what its team, the
	// conditions and the scenario lead to; Low and High hold it with 8 in 10.
	Day, Low, High float64
}

// Team is one team against all: the factor on its work once conditions, tasks
// and days are evened out; under 1 is faster. It is no ranking of people.
type Team struct {
	Name      string
	Drills    int
	Factor    float64
	Low, High float64 // 8 in 10
	// Known reports whether the log can tell it from the others at all: two drills
	// of it and of others.
	Known bool
}

// SeasonOf lays drills beside each other. F is a fit of them with Options.Teams.
func SeasonOf(f *fit.Fitted) *Season {
	s := &Season{}
	_, inTime, dated := fit.Attempts(f.Evenings)
	if !dated {
		inTime = inTime[:0]
		for i := range f.Evenings {
			inTime = append(inTime, i)
		}
	}
	for _, i := range inTime {
		a := Attempt{Evening: i}
		a.Day, a.Low, a.High = factor(f, func(d *fit.Draw) float64 { return d.Days[i] - d.Shift })
		if before, ok := f.Before(i); ok {
			told := before.Foretell(f.Evenings[i].Drill, before.At(i), seasonRuns, 1)
			a.Foretold, a.Milestones = true, came(f.Evenings[i], told)
		} else {
			a.Milestones = came(f.Evenings[i], nil)
		}
		s.Attempts = append(s.Attempts, a)
	}
	s.Teams = teams(f)
	return s
}

// seasonRuns is how many runs an attempt is foretold with.
const seasonRuns = 500

// factor returns the middle of what the exponential of a parameter may be, and
// what it lies between with 8 in 10.
func factor(f *fit.Fitted, of func(*fit.Draw) float64) (middle, low, high float64) {
	return math.Exp(f.Over(0.5, of)), math.Exp(f.Over(0.1, of)), math.Exp(f.Over(0.9, of))
}

// came returns when milestones came, beside what was foretold.
func came(e timed.Evening, told *fit.Foretold) []Milestone {
	var out []Milestone
	for m := range e.Drill.Milestones {
		one := Milestone{Milestone: m, Came: sim.Never, Played: sim.Never}
		if at, known := e.Timed.Milestone(e.Drill, m); known {
			one.Came = at
		}
		if told != nil {
			moments := told.Milestones[m]
			n := int64(len(moments))
			one.Low, one.Usual, one.High = moments.At(max(1, n/10)), moments.At(max(1, n/2)), moments.At(n-n/10)
		}
		out = append(out, one)
	}
	return out
}

func teams(f *fit.Fitted) []Team {
	var of []int
	for j, x := range f.Factors {
		if x.Kind == fit.OneTeam {
			of = append(of, j)
		}
	}
	var out []Team
	for _, j := range of {
		t := Team{Name: f.Factors[j].Team}
		for _, x := range f.Factors[j].Values {
			t.Drills += int(x)
		}
		t.Known = t.Drills >= 2 && len(f.Evenings)-t.Drills >= 2
		t.Factor, t.Low, t.High = factor(f, func(d *fit.Draw) float64 {
			mean := 0.0
			for _, k := range of {
				mean += d.Factor[k] / float64(len(of))
			}
			return d.Factor[j] - mean
		})
		out = append(out, t)
	}
	return out
}
