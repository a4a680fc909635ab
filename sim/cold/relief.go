package cold

import (
	"cmp"
	"slices"

	"warmby/sim"
)

// Relief is somebody who should be relieved, or taken in, by a moment.
type Relief struct {
	Person int // in roster order
	By     sim.Time
	// After says that the moment lies after the drill's end: it is foretold,
	// as if the last entry of the ledger went on.
	After bool
	// BySchedule says that the work/warm-up schedule asks for it before the account
	// reaches the limit.
	BySchedule bool
	Doing      Entry // what the person is about then
}

// Reliefs returns who should be relieved by when, soonest first, equals in
// roster order. People without an account, and those who neither reach the limit
// nor stay out for longer than the schedule allows, are not in it.
func Reliefs(people []Person) []Relief {
	var out []Relief
	for i := range people {
		p := &people[i]
		if p.RelieveBy == sim.Never {
			continue
		}
		r := Relief{Person: i, By: p.RelieveBy, BySchedule: p.BySchedule, Doing: p.Ledger[len(p.Ledger)-1]}
		r.After = r.By > r.Doing.To
		for _, e := range p.Ledger {
			if e.From < r.By && r.By <= e.To {
				r.Doing = e
				break
			}
		}
		out = append(out, r)
	}
	slices.SortStableFunc(out, func(a, b Relief) int { return cmp.Compare(a.By, b.By) })
	return out
}

// LongestStand returns the longest that somebody may stand at a lookout by the
// work/warm-up schedule, in the weather of a timeline while the lookout may be
// stood; 0 where all but emergency work should stop, Never where the schedule sets
// no bound. Reliefs that are proposed are never longer than this.
func LongestStand(tl *sim.Timeline, lookout int) sim.Time {
	l := &tl.Drill.Lookouts[lookout]
	longest := sim.Never
	if tl.Drill.Spots[l.Spot].In >= 0 {
		return longest
	}
	for _, s := range tl.Drill.Steps(tl.Luck.Weather) {
		if !s.Weather || s.At > tl.End {
			continue
		}
		a := Schedule(s.Air, Kmh(sheltered(s, tl.Drill.Spots[l.Spot])), LookoutRate(l.Effort) < lightWork)
		switch {
		case !a.OK() || a.Normal():
		case a.Stop:
			return 0
		default:
			longest = min(longest, a.Most)
		}
	}
	return longest
}
