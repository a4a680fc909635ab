package heat

import "warmby/sim"

// Outlook returns what a warm-up that a timeline began works with and against
// at its end or, when it never ended, once nothing changes any more: what the
// stove can hold then is its Holds.
func Outlook(tl *sim.Timeline, task int) Surroundings {
	if end := tl.Tasks[task].End; end != sim.Never {
		return surroundings(tl, task, max(tl.Tasks[task].Start, end))
	}
	return surroundings(tl, task, sim.Horizon)
}
