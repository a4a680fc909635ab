package search

import (
	"warmby/sim"
)

// Goal is what an aim or a limit is about.
type Goal int

const (
	// Reached is a milestone, reached at some moment.
	Reached Goal = iota
	// AllTargets is an evening in which every milestone with a target is reached
	// in time.
	AllTargets
	// NobodyCold is an evening in which nobody passes the cold limit. Without an
	// account of cold nobody does.
	NobodyCold
	// AllWell is both: every target met and nobody over the cold limit.
	AllWell
)

// String returns "", "all targets", "nobody cold" or "all well".
func (g Goal) String() string {
	return [...]string{"", "all targets", "nobody cold", "all well"}[g]
}

// Share reports whether a goal is met or missed in an evening, so that its value is
// a share of evenings and not a moment.
func (g Goal) Share() bool { return g != Reached }

// cold reports whether the account of cold has a say in it.
func (g Goal) cold() bool { return g == NobodyCold || g == AllWell }

// targets reports whether the targets of milestones have a say in it.
func (g Goal) targets() bool { return g == AllTargets || g == AllWell }

// AtLeast asks that a goal be met in a share of evenings. With usual values only
// it must simply be met.
type AtLeast struct {
	Goal Goal    // not Reached
	Odds float64 // over 0 up to 1
}

// limit is something asked for: an [InTime] or an [AtLeast].
type limit struct {
	goal      Goal
	milestone int
	by        sim.Time
	odds      float64
	inTime    *InTime
	atLeast   *AtLeast
}

// limitsOf lists what is asked for.
func limitsOf(o *Options) (list []limit) {
	for k := range o.InTime {
		in := &o.InTime[k]
		list = append(list, limit{goal: Reached, milestone: in.Milestone, by: in.By, odds: in.Odds, inTime: in})
	}
	for k := range o.AtLeast {
		at := &o.AtLeast[k]
		list = append(list, limit{goal: at.Goal, odds: at.Odds, atLeast: at})
	}
	return list
}
