package checker

import (
	"fmt"

	"warmby/sim"
)

// Violation is one rule broken at one place of a timeline.
type Violation struct {
	At   sim.Time // when; Never when it is about no moment
	Rule string   // the rule in a word or two, for counting and tests
	What string   // the person, task, tool or lookout, with its name
	Got  string   // what the timeline says
	Want string   // what the rules ask for
}

// String returns the violation in one line: time, what, value, expectation.
func (v Violation) String() string {
	return fmt.Sprintf("%s: %s: %s: %s, want %s", clock(v.At), v.Rule, v.What, v.Got, v.Want)
}

// Error is String, so that a violation may be returned as an error.
func (v Violation) Error() string { return v.String() }

// clock writes a moment as minutes and seconds since arrival.
func clock(t sim.Time) string {
	if t == sim.Never {
		return "never"
	}
	sign := ""
	if t < 0 {
		sign, t = "-", -t
	}
	return fmt.Sprintf("%s%d:%02d.%03d", sign, t/sim.Minute, t%sim.Minute/sim.Second, t%sim.Second)
}
