package sim

import "slices"

// Timeline is what a drill gives: who did what from when to when.
type Timeline struct {
	Drill *Drill
	Luck  *Luck
	// Tasks holds the times of each task of the drill.
	Tasks []TaskTimes
	// People holds what each person did, one stretch after the other without
	// gaps, from the person's arrival to End. Stretches of no length are left
	// out, but for work: on a task of no length, or when somebody is pulled
	// from it at the moment of coming.
	People [][]Stretch
	// Milestones holds when each milestone of the drill was reached; Never
	// when it was not.
	Milestones []Time
	// End is when the last task ended or, in a drill that never finishes, the
	// last moment at which a task started, ended or changed hands.
	End Time
	// Stops says why the drill came to a stop: for each task that can never
	// start or end, why. Nil when everything ended, and when there is nothing
	// but a warm-up that never gets there to wait for. All engines agree on
	// whether a drill stops; in timelines the reference engine alone says why.
	Stops []Cause
}

// TaskTimes is when a task was called, begun and ended; Never for what did
// not happen.
type TaskTimes struct {
	Called Time // the crew is called and tools are taken
	Start  Time // the whole crew is there
	Worked Time // the work is done and mishaps begin; equals End without any
	End    Time
	People []int // all who were there, in roster order
	Group  int   // the group that called it; -1 if never called
	Unit   int   // which stove of its kind a Melt or Warm has; -1 otherwise
}

// Activity is what a person is about.
type Activity int

// What a person may be about.
const (
	Free    Activity = iota // nothing to do
	Walking                 // to a task or a lookout
	Ready                   // at a task, until the rest of the crew is there
	Working
	Watching // at a lookout
)

// Stretch is what one person was about from From to To.
type Stretch struct {
	What     Activity
	From, To Time
	Task     int // for Ready, Working, and Walking to a task; else -1
	Lookout  int // for Watching, and Walking to a lookout; else -1
	Place    int // which place of the lookout
	Spot     int // where the person is; where it walks to when Walking
	Origin   int // where it walks from when Walking; else Spot
}

// Finish returns when the last task ended, Never if one did not.
func (tl *Timeline) Finish() Time { return tl.Milestones[len(tl.Milestones)-1] }

// Stopped returns a *[NeverError] of what the drill came to a stop at, nil when
// it did not.
func (tl *Timeline) Stopped() error {
	if tl.Stops == nil {
		return nil
	}
	return &NeverError{Causes: tl.Stops}
}

// StopOf returns what keeps a milestone from ever being reached: of what the
// drill came to a stop at, the first on which a task of the milestone waits. It
// returns nil for one that is reached, and where nothing came to a stop.
func (tl *Timeline) StopOf(milestone int) *Cause {
	waits := make([]bool, len(tl.Tasks))
	var follow func(task int)
	follow = func(task int) {
		if tl.Tasks[task].End != Never || waits[task] {
			return
		}
		waits[task] = true
		for _, before := range tl.Drill.Tasks[task].waitsFor() {
			follow(before)
		}
	}
	for _, t := range tl.Drill.Milestones[milestone].When {
		follow(t)
	}
	for i, c := range tl.Stops {
		if t := tl.Drill.TaskNamed(c.Task); t >= 0 && waits[t] {
			return &tl.Stops[i]
		}
	}
	if tl.Milestones[milestone] == Never && len(tl.Stops) > 0 {
		return &tl.Stops[0]
	}
	return nil
}

// Met reports whether a milestone with a target was reached in time.
func (tl *Timeline) Met(milestone int) bool {
	return tl.Drill.Milestones[milestone].Met(tl.Milestones[milestone])
}

// SetMilestones works out when each milestone was reached from the ends of
// the tasks.
func (tl *Timeline) SetMilestones() {
	tl.Milestones = slices.Grow(tl.Milestones[:0], len(tl.Drill.Milestones))[:len(tl.Drill.Milestones)]
	clear(tl.Milestones)
	for i, m := range tl.Drill.Milestones {
		for _, t := range m.When {
			tl.Milestones[i] = max(tl.Milestones[i], tl.Tasks[t].End)
		}
	}
}

// Stood returns from when to when a lookout was to be stood: from the end of the last
// of the tasks with which it begins to the start of work on the first that ends it.
// Never stands for a beginning that did not come by the end of the timeline, and
// for an end that did not.
func (tl *Timeline) Stood(lookout int) (from, until Time) {
	l := &tl.Drill.Lookouts[lookout]
	from, until = l.From, Never
	for _, k := range l.FromTasks {
		from = max(from, tl.Tasks[k].End)
	}
	if l.Until > 0 {
		until = l.Until
	}
	for _, k := range l.UntilTasks {
		until = min(until, tl.Tasks[k].Start)
	}
	if from > tl.End {
		from = Never
	}
	return from, until
}
