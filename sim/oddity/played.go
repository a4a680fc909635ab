package oddity

import (
	"math/big"

	"warmby/sim"
	"warmby/sim/bound"
	"warmby/sim/cold"
	"warmby/sim/inside"
)

// Played looks at a drill as it was played. Of one that comes to a stop nobody
// asks whether all have eaten.
func Played(tl *sim.Timeline) []Remark {
	looks := []func(*sim.Timeline) []Remark{late, leftAlone, jacketsLate, unfed, nothingInside, littleWater}
	if tl.Stops != nil {
		looks = looks[:2]
	}
	var found []Remark
	for _, look := range looks {
		found = append(found, look(tl)...)
	}
	return found
}

// late finds the milestones that are never reached, or too late, and by when they
// could be reached at the very best.
func late(tl *sim.Timeline) (found []Remark) {
	var best []sim.Time
	d := tl.Drill
	for i, m := range d.Milestones {
		r := remark(d, Late)
		r.Index, r.At = i, tl.Milestones[i]
		switch {
		case r.At == sim.Never && tl.Stops != nil:
			continue // whoever says that it stopped says so
		case r.At == sim.Never:
			r.Kind = NeverReached
		case m.By == sim.Never && m.ByText != "":
			r.Kind = NoTarget
		case m.By == sim.Never || r.At <= m.By:
			continue
		default:
			if best == nil && sim.Possible(d) == nil {
				best = bound.Soonest(d)
			}
			if best != nil {
				r.Best = best[i]
			}
		}
		found = append(found, r)
	}
	return found
}

// leftAlone finds the times in which a lit stove burns in a shelter with nobody
// there.
func leftAlone(tl *sim.Timeline) (found []Remark) {
	for _, l := range inside.Alone(tl) {
		r := remark(tl.Drill, StoveAlone)
		r.Stove, r.Shelter, r.Task, r.At, r.To = l.Stove, l.Shelter, l.Task, l.From, l.To
		found = append(found, r)
	}
	return found
}

// StandsAbout is how long somebody may do little outdoors in the clothes of the
// march before that is odd. People are said to cool down within ten minutes (from
// memory, a common saying of instructors); half as much again is let pass.
const StandsAbout = 15 * sim.Minute

// jacketsLate finds who does little outdoors for longest before the layers of the
// halt are on, and how many more do for too long; nobody where no task puts layers
// on, and nobody without an account of cold.
func jacketsLate(tl *sim.Timeline) []Remark {
	some := false
	for i := range tl.Drill.Tasks {
		some = some || tl.Drill.Tasks[i].LayersOn
	}
	if !some {
		return nil
	}
	worst, people := remark(tl.Drill, JacketLate), 0
	for who, p := range cold.Account(tl) {
		from, to := longest(p.Ledger)
		if to-from < StandsAbout {
			continue
		}
		people++
		if to-from > worst.To-worst.At {
			worst.Person, worst.At, worst.To = who, from, to
		}
	}
	if people == 0 {
		return nil
	}
	worst.Value = float64(people - 1)
	return []Remark{worst}
}

// longest returns the longest time of a ledger without a break in which somebody
// does little outdoors in what was worn on the march.
func longest(ledger []cold.Entry) (from, to sim.Time) {
	begun := sim.Never
	for _, e := range ledger {
		if e.Halt || e.Indoors || e.M > cold.Rate(sim.Low) {
			begun = sim.Never
			continue
		}
		if begun == sim.Never {
			begun = e.From
		}
		if e.To-begun > to-from {
			from, to = begun, e.To
		}
	}
	return from, to
}

// nothingInside finds shelters that are warmed, and in which from then on nobody has
// a task and nobody who is free goes in. To watch the stove is no use of a shelter.
func nothingInside(tl *sim.Timeline) (found []Remark) {
	d := tl.Drill
	visits := inside.New(d).Read(tl)
	for shelter := range d.Shelters {
		warm := sim.Never
		for i := range d.Tasks {
			if w := d.Tasks[i].Warm; w != nil && w.Shelter == shelter {
				warm = min(warm, tl.Tasks[i].End)
			}
		}
		if warm != sim.Never && !used(tl, shelter, warm) && !visited(visits, shelter, warm) {
			r := remark(d, NothingInside)
			r.Shelter, r.At = shelter, warm
			found = append(found, r)
		}
	}
	return found
}

// used reports whether somebody works in a shelter after a moment; to put a stove
// out is no use of it.
func used(tl *sim.Timeline, shelter int, after sim.Time) bool {
	d := tl.Drill
	for i := range d.Tasks {
		t := &d.Tasks[i]
		if d.Spots[t.Spot].In == shelter && t.Warm == nil && t.PutsOut == nil &&
			tl.Tasks[i].End != sim.Never && tl.Tasks[i].End > after && len(tl.Tasks[i].People) > 0 {
			return true
		}
	}
	return false
}

// visited reports whether somebody free is in a shelter after a moment.
func visited(visits [][]inside.Visit, shelter int, after sim.Time) bool {
	for _, own := range visits {
		for _, v := range own {
			if v.Shelter == shelter && v.Out > after {
				return true
			}
		}
	}
	return false
}

// LeastWater is how many litres a head an evening should make: a hot drink, supper
// and a bottle for the night, a quarter of a litre each (from memory, a low guess;
// people in the cold are told to drink 3 litres a day and more).
const LeastWater = 0.75

// littleWater finds evenings that make less water than that for all who are there,
// what is in the pots at the start among it.
func littleWater(tl *sim.Timeline) []Remark {
	d := tl.Drill
	litres, melts := new(big.Rat), false
	for i := range d.Tasks {
		if m := d.Tasks[i].Melt; m != nil && tl.Tasks[i].End != sim.Never {
			litres.Add(litres, m.Water)
			melts = true
		}
	}
	r := remark(d, LittleWater)
	all, _ := litres.Float64()
	r.Value = all / float64(len(d.People))
	if !long(tl) || !melts || r.Value >= LeastWater {
		return nil
	}
	return []Remark{r}
}

// long reports whether a drill is long enough that people must eat and drink in it.
func long(tl *sim.Timeline) bool { return tl.End >= 2*sim.Hour }
