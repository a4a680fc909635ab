package heat

import "warmby/sim"

// Outlook returns what a warm-up that a timeline began works with and against
// at its end, or at the end of the timeline when it never ended: what the
// stove can hold then is its Holds.
func Outlook(tl *sim.Timeline, task int) Surroundings {
	return surroundings(tl, task, endOf(tl, task))
}
