package heat

import "warmby/sim"

// Outlook returns what a warm-up that a timeline began works with and against
// at its end or, when it never ended, once nothing changes any more: what the
// stove can hold then is its Holds.
func Outlook(tl *sim.Timeline, task int) Terms {
	at := sim.Horizon
	if end := tl.Tasks[task].End; end != sim.Never {
		at = max(tl.Tasks[task].Start, end)
	}
	r := NewRooms(tl.Drill)
	shelter, steps := tl.Drill.Tasks[task].Warm.Shelter, tl.Drill.Steps(tl.Luck.Weather)
	r.changes(tl, shelter, steps)
	s := Span{From: at}
	r.terms(tl, &s, shelter, steps)
	return s.Terms
}
