package inside

import (
	"warmby/sim"
	"warmby/sim/heat"
)

// Assumption is the people that a warm-up counts on against those who were
// inside.
type Assumption struct {
	Task, Shelter int
	People        int      // as the warm-up says
	From, To      sim.Time // from its start to when the stove is out, the next warm-up there begins or the drill ends
	Inside        float64  // how many were inside on average in that time
	Warming       float64  // and until the warm-up had ended
	// End is when the shelter would have been as warm as asked with so many
	// inside as there were while it was warming up; Never if not by the end of the
	// timeline.
	End sim.Time
	// Needs is the difference in watts that the stove has to make up for on
	// average: 100 W for everybody who was not there, below 0 for too many.
	Needs float64
}

// Off reports whether the assumption is off by more than one person.
func (a *Assumption) Off() bool {
	d := a.Inside - float64(a.People)
	return d > 1 || d < -1
}

// Assumed returns the assumption of every warm-up that began, in task order.
func Assumed(tl *sim.Timeline) []Assumption {
	stays, rooms := Stays(tl), heat.RoomsOf(tl)
	var list []Assumption
	for i := range tl.Drill.Tasks {
		t, at := &tl.Drill.Tasks[i], &tl.Tasks[i]
		if t.Kind != sim.Warm || at.Start >= tl.End {
			continue
		}
		a := Assumption{Task: i, Shelter: t.Warm.Shelter, People: t.Warm.People, From: at.Start, To: at.Start}
		for _, s := range rooms[a.Shelter].Spans {
			if s.Task == i {
				a.To = s.To
			}
		}
		a.Inside = average(stays, a.Shelter, a.From, a.To)
		a.Warming = average(stays, a.Shelter, a.From, min(at.End, tl.End))
		a.End = heat.WarmBy(tl, i, a.Warming)
		a.Needs = heat.PersonPower * (float64(a.People) - a.Inside)
		list = append(list, a)
	}
	return list
}

// average returns how many are in a shelter on average from one moment to
// another; 0 over no time.
func average(stays []Stay, shelter int, from, to sim.Time) float64 {
	if to <= from {
		return 0
	}
	sum := sim.Time(0)
	for _, s := range stays {
		if s.Shelter == shelter {
			sum += max(0, min(s.To, to)-max(s.From, from))
		}
	}
	return float64(sum) / float64(to-from)
}
