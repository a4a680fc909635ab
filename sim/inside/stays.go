package inside

import (
	"cmp"
	"slices"

	"warmby/sim"
	"warmby/sim/heat"
)

// Stay is a time that somebody is in a shelter.
type Stay struct {
	Person, Shelter int
	From, To        sim.Time
	What            sim.Activity // Free for those who have gone in as well
	GoneIn          bool         // whether it is read into the timeline, see [Visit]
}

// Stays returns who is in which shelter from when to when, warm or cold, by time
// and then in roster order. Where no spot lies in a shelter, those who work on its
// warm-ups are in it.
func Stays(tl *sim.Timeline) []Stay {
	var list []Stay
	for who, stretches := range tl.People {
		for i := range stretches {
			s := &stretches[i]
			if shelter := shelterOf(tl.Drill, s); shelter >= 0 && s.From < s.To {
				list = append(list, Stay{Person: who, Shelter: shelter, From: s.From, To: s.To, What: s.What})
			}
		}
	}
	for who, visits := range New(tl.Drill).Read(tl) {
		for _, v := range visits {
			list = append(list, Stay{Person: who, Shelter: v.Shelter, From: v.In, To: v.Out, What: sim.Free, GoneIn: true})
		}
	}
	slices.SortStableFunc(list, func(a, b Stay) int { return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.Person, b.Person)) })
	return list
}

// shelterOf returns the shelter in which somebody is in a stretch, -1 for none.
func shelterOf(d *sim.Drill, s *sim.Stretch) int {
	if s.What == sim.Walking {
		return -1
	}
	if in := d.Spots[s.Spot].In; in >= 0 {
		return in
	}
	if s.What == sim.Working && d.Tasks[s.Task].Kind == sim.Warm {
		shelter := d.Tasks[s.Task].Warm.Shelter
		if !slices.ContainsFunc(d.Spots, func(o sim.Spot) bool { return o.In == shelter }) {
			return shelter
		}
	}
	return -1
}

// LongestAlone is how long a stove may burn in a shelter with nobody in it before
// it is named.
const LongestAlone = sim.Minute

// Left is a time in which a stove burns in a shelter, of [Alone] with nobody in it.
type Left struct {
	Shelter, Stove int
	Task           int // the warm-up or melt whose stove it is
	From, To       sim.Time
}

// Alone returns the times of over [LongestAlone] in which a stove burns in a
// shelter with nobody in it, by time, then by shelter: one that a warm-up has lit,
// until it is out, and one that melts at a spot in the shelter.
func Alone(tl *sim.Timeline) []Left {
	stays := Stays(tl)
	var list []Left
	for _, b := range Burns(tl) {
		list = append(list, unattended(b, stays)...)
	}
	slices.SortStableFunc(list, func(a, b Left) int { return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.Shelter, b.Shelter)) })
	return list
}

// Burns returns when stoves burn in shelters, attended or not, shelter by shelter;
// melts on a stove that warms the shelter all the while are part of that.
func Burns(tl *sim.Timeline) []Left {
	var list []Left
	d := tl.Drill
	for _, room := range heat.RoomsOf(tl) {
		for i := range room.Spans {
			s := &room.Spans[i]
			if s.Task < 0 {
				continue
			}
			b := Left{room.Shelter, d.Tasks[s.Task].Warm.Stove, s.Task, s.From, s.To}
			if n := len(list); n > 0 && list[n-1].Shelter == b.Shelter && list[n-1].To == b.From && list[n-1].Stove == b.Stove {
				list[n-1].To, list[n-1].Task = b.To, b.Task
				continue
			}
			list = append(list, b)
		}
	}
	for i := range d.Tasks {
		t := &d.Tasks[i]
		if t.Kind == sim.Melt && tl.Tasks[i].Start < tl.End && d.Spots[t.Spot].In >= 0 && !warms(list, tl, i) {
			list = append(list, Left{d.Spots[t.Spot].In, t.Melt.Stove, i, tl.Tasks[i].Start, min(tl.Tasks[i].End, tl.End)})
		}
	}
	return list
}

// warms reports whether the stove of a melt is one that warms a shelter all the
// while, so that it is told of already.
func warms(list []Left, tl *sim.Timeline, melt int) bool {
	t := &tl.Drill.Tasks[melt]
	return slices.ContainsFunc(list, func(b Left) bool {
		return b.Stove == t.Melt.Stove && tl.Drill.Tasks[b.Task].Kind == sim.Warm && tl.Tasks[b.Task].Unit == tl.Tasks[melt].Unit &&
			b.From <= tl.Tasks[melt].Start && min(tl.Tasks[melt].End, tl.End) <= b.To
	})
}

// unattended returns the parts of a burn in which nobody is in its shelter.
func unattended(b Left, stays []Stay) []Left {
	var list []Left
	since := b.From
	add := func(to sim.Time) {
		if to-since > LongestAlone {
			part := b
			part.From, part.To = since, to
			list = append(list, part)
		}
	}
	for _, s := range stays { // by their beginnings
		if s.Shelter != b.Shelter || s.To <= since {
			continue
		}
		if s.From >= b.To {
			break
		}
		add(s.From)
		since = max(since, s.To)
	}
	if since < b.To {
		add(b.To)
	}
	return list
}
