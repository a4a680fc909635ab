package cold

import "warmby/sim"

// BareWork is a task done with bare hands for longer than the published rule
// allows in the air in which it began.
type BareWork struct {
	Task    int
	Length  sim.Time // how long somebody worked on it without a break, at most
	Air     float64  // degrees C when it began
	Allowed float64  // minutes by [BareHandTime]
}

// BareWorks returns the tasks of a timeline that bare hands do for longer than
// [BareHandTime] allows, in task order. It is a caution: a task is slowed by
// cold hands only where its `slowed` says so.
func BareWorks(tl *sim.Timeline) []BareWork {
	steps := tl.Drill.Steps(tl.Luck.Weather)
	var out []BareWork
	for i := range tl.Drill.Tasks {
		start := tl.Tasks[i].Start
		if tl.Drill.Tasks[i].Hands != sim.Bare || start == sim.Never || !steps[0].Weather {
			continue
		}
		air := steps[sim.StepAt(steps, start)].Air
		allowed := BareHandTime(air)
		if longest := longestSpell(tl, i); allowed.OK() && longest.Minutes() > allowed.X {
			out = append(out, BareWork{Task: i, Length: longest, Air: air, Allowed: allowed.X})
		}
	}
	return out
}

// longestSpell returns the longest stretch that anybody worked on a task.
func longestSpell(tl *sim.Timeline, task int) sim.Time {
	longest := sim.Time(0)
	for _, stretches := range tl.People {
		for _, s := range stretches {
			if s.Task == task && s.What == sim.Working {
				longest = max(longest, s.To-s.From)
			}
		}
	}
	return longest
}
