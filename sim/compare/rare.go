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

// Mishaps are not stratified on, nor is what they explain taken out of moments by
// their known chances: that would save the share of the variance that they hold alone,
// at most 14 % at the milestones of the shipped scenarios but for ravengill (36 %), so
// that 1.6 times as many runs do as well; and a mishap that hangs on a condition has
// no known chance.

// seenEnough is in how many runs something must be expected. A mean asks for it to
// be seen in [stats.Enough]; where 40 are expected that is so, or nearly so, in all
// but 1 of 500 batches. With fewer, batches that happen to see little of it would
// tell nothing, and those that tell would not be as the others.
const seenEnough = 40

// RarestOf returns what is rarest in a drill, of all that so many runs see too
// seldom; nil when they see everything often enough.
func RarestOf(d *sim.Drill, runs int) *Rare {
	var rarest *Rare
	look := func(name string, weather bool, chance float64) {
		p, seldom := seldomSeen(chance, runs)
		if !seldom || rarest != nil && rarest.Expected <= p*float64(runs) {
			return
		}
		rarest = &Rare{name, weather, p * float64(runs), int(math.Ceil(seenEnough / p))}
	}
	for i := range d.Tasks {
		for _, p := range d.MishapChances(i) {
			look(d.Tasks[i].Name, false, p)
		}
	}
	for i, p := range weatherChances(d) {
		look(d.Weather[i].Name, true, p)
	}
	return rarest
}

// seldomSeen reports whether so many runs see too seldom what has a chance, and
// returns the smaller of it and its opposite: what nearly always happens is as ill
// known.
func seldomSeen(chance float64, runs int) (p float64, seldom bool) {
	p = min(chance, 1-chance)
	return p, p > 0 && p*float64(runs) < seenEnough
}

// weatherChances returns the chance of each case of the weather; nil where there is
// nothing to draw.
func weatherChances(d *sim.Drill) []float64 {
	all := 0.0
	for _, w := range d.Weather {
		all += max(0, w.Weight)
	}
	if len(d.Weather) < 2 || all <= 0 {
		return nil
	}
	var list []float64
	for _, w := range d.Weather {
		list = append(list, max(0, w.Weight)/all)
	}
	return list
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

// DifferenceAt returns the paired difference of two drills at a milestone, a - b, by
// itself, with why it calls nobody ahead, if it does not.
func DifferenceAt(a, b *Played, m int) stats.Difference {
	d := Pair(a.Times[m], b.Times[m]).Difference()
	d.Doubt = Doubtful(a, b, m, d)
	return d
}

// Doubtful says why a difference of two drills at a milestone, over their runs,
// calls nobody ahead, however clear it is; "" when it may. D is of a - b, with the
// interval that it is told with. What is so in every run is not in doubt for its
// skewness.
func Doubtful(a, b *Played, m int, d stats.Difference) string {
	if why := DoubtfulForRare(a.Drill, b.Drill, d); why != "" {
		return why
	}
	inAll := d.ASooner.Count == d.Mean.Runs || d.BSooner.Count == d.Mean.Runs
	if !inAll && isSkewed(a.Times[m], b.Times[m]) {
		return stats.WhySkewed
	}
	return ""
}

// DoubtfulForRare says the same of what is rare in two drills: a difference beyond
// all that a rare mishap may add on average is not in doubt for its sake.
func DoubtfulForRare(a, b *sim.Drill, d stats.Difference) string {
	reach := sim.Time(0)
	for _, one := range []*sim.Drill{a, b} {
		r, bounded := reachOfRare(one, int(d.Mean.Runs))
		if !bounded {
			return stats.WhyRare
		}
		reach += r
	}
	if reach > 0 && d.Mean.Low <= float64(reach) && d.Mean.High >= -float64(reach) {
		return stats.WhyRare
	}
	return ""
}

// reachOfRare returns how much the mishaps that so many runs see too seldom may make
// any milestone later on average: their chance, the longest that they add (999 in
// 1000 add less), and all of that twice, because others may wait for it. Not bounded
// when a case of the weather is rare, for that changes everything.
func reachOfRare(d *sim.Drill, runs int) (reach sim.Time, bounded bool) {
	for _, chance := range weatherChances(d) {
		if _, seldom := seldomSeen(chance, runs); seldom {
			return 0, false
		}
	}
	sum := 0.0
	for i := range d.Tasks {
		rare := 0.0
		for _, chance := range d.MishapChances(i) {
			if p, seldom := seldomSeen(chance, runs); seldom {
				rare = max(rare, p)
			}
		}
		if m := d.Tasks[i].Mishap; rare > 0 {
			sum += 2 * rare * float64(max(1, m.AtMost)) * m.Adds.Quantile(0.999)
		}
	}
	return sim.Milliseconds(sum), true
}
