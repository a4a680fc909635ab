package rehearse

import (
	"slices"

	"warmby/sim"
	"warmby/sim/cold"
)

// The relief intervals that are tried for a lookout.
const (
	ReliefStep    = 5 * sim.Minute
	ReliefLongest = 2 * sim.Hour
)

// Relief is a lookout with relief, and the cold of those who stand there.
type Relief struct {
	Lookout int
	// Over are those who stand there and pass the limit of cold, Others those
	// who pass it without; by their places in the roster.
	Over, Others []int
	// Longest is the longest interval tried with which nobody who stands there
	// passes the limit, all else equal, no longer than Most; 0 when none was found.
	Longest sim.Time
	// Most is how long somebody may stand there by the work/warm-up schedule, see [cold.LongestStand].
	Most sim.Time
}

func reliefs(tl *sim.Timeline, people []cold.Person) []Relief {
	var list []Relief
	for i := range tl.Drill.Lookouts {
		if tl.Drill.Lookouts[i].Relief == 0 {
			continue
		}
		r := Relief{Lookout: i, Most: cold.LongestStand(tl, i)}
		r.Longest = longestRelief(tl, i, r.Most)
		for _, who := range cold.PastLimit(people) {
			if standsAt(tl, who, i) {
				r.Over = append(r.Over, who)
			} else {
				r.Others = append(r.Others, who)
			}
		}
		list = append(list, r)
	}
	return list
}

func anyAccount(people []cold.Person) bool {
	return slices.ContainsFunc(people, func(p cold.Person) bool { return p.Why == "" })
}

// standsAt reports whether somebody stands at a lookout at some time.
func standsAt(tl *sim.Timeline, person, lookout int) bool {
	return slices.ContainsFunc(tl.People[person], func(s sim.Stretch) bool { return s.What == sim.Watching && s.Lookout == lookout })
}

// longestRelief tries the relief intervals of a lookout, longest first, none of
// them longer than most.
func longestRelief(tl *sim.Timeline, lookout int, most sim.Time) sim.Time {
	for relief := min(ReliefLongest, most/ReliefStep*ReliefStep); relief > 0; relief -= ReliefStep {
		d := *tl.Drill
		d.Lookouts = slices.Clone(d.Lookouts)
		d.Lookouts[lookout].Relief = relief
		again := playAgain(&d, tl.Luck)
		if again.Stops != nil && tl.Stops == nil {
			continue
		}
		passes := func(who int, p cold.Peak) bool { return p.PassedAt != sim.Never && standsAt(again, who, lookout) }
		if !anyOf(cold.NewMeter(&d).Peaks(again, nil), passes) {
			return relief
		}
	}
	return 0
}

func anyOf(peaks []cold.Peak, f func(who int, p cold.Peak) bool) bool {
	for who, p := range peaks {
		if f(who, p) {
			return true
		}
	}
	return false
}
