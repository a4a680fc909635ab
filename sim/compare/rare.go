package compare

import (
	"math"

	"warmby/sim"
	"warmby/sim/stats"
)

// Rare is something that so few runs are expected to see too seldom: a mishap,
// or a case of the weather. Means do not know it well then, and their intervals
// hold less often than they say.
type Rare struct {
	Name     string // of the task or the case
	Weather  bool
	Expected float64 // in how many of the runs
	Enough   int     // how many runs would see it often enough
}

// seenEnough is in how many runs something must be expected. A mean asks for it to
// be seen in [stats.Enough]; where 40 are expected that is so, or nearly so, in all
// but 1 of 500 batches. With fewer, batches that happen to see little of it would
// tell nothing, and those that tell would not be as the others.
const seenEnough = 40

// RarestOf returns what is rarest in a drill, of all that so many runs see too
// seldom; nil when they see everything often enough.
func RarestOf(d *sim.Drill, runs int) *Rare {
	var rarest *Rare
	look := func(name string, weather bool, p float64) {
		p = min(p, 1-p) // what nearly always happens is as ill known
		if p <= 0 || p*float64(runs) >= seenEnough || rarest != nil && rarest.Expected <= p*float64(runs) {
			return
		}
		rarest = &Rare{name, weather, p * float64(runs), int(math.Ceil(seenEnough / p))}
	}
	for i := range d.Tasks {
		if m := d.Tasks[i].Mishap; m != nil {
			look(d.Tasks[i].Name, false, m.Chance)
		}
	}
	all := 0.0
	for _, w := range d.Weather {
		all += max(0, w.Weight)
	}
	for _, w := range d.Weather {
		if len(d.Weather) > 1 && all > 0 {
			look(w.Name, true, max(0, w.Weight)/all)
		}
	}
	return rarest
}

// isSkewed reports whether so many differences are too few for their skewness.
func isSkewed(a, b []sim.Time) bool {
	var differences []sim.Time
	for run := range a {
		if a[run] != sim.Never && b[run] != sim.Never {
			differences = append(differences, a[run]-b[run])
		}
	}
	return int64(len(differences)) < stats.EnoughFor(stats.SkewnessOf(differences))
}

// Doubtful says why a difference of two drills at a milestone, over their runs,
// calls nobody ahead, however clear it is; "" when it may.
func Doubtful(a, b *Played, m int) string {
	for _, p := range []*Played{a, b} {
		if r := RarestOf(p.Drill, len(p.Times[m])); r != nil {
			return stats.WhyRare
		}
	}
	if isSkewed(a.Times[m], b.Times[m]) {
		return stats.WhySkewed
	}
	return ""
}
