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

// seenEnough is in how many runs something must be expected. A mean of n values
// with skewness g has a fair interval from n = 25 g^2 on (W. G. Cochran, Sampling
// Techniques, 3rd ed., 2.15), and what happens with a small chance p has skewness
// 1/sqrt(p).
const seenEnough = 25

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
	var n, mean float64
	each := func(call func(d float64)) {
		for i := range a {
			if a[i] != sim.Never && b[i] != sim.Never {
				call(float64(a[i] - b[i]))
			}
		}
	}
	each(func(d float64) { n, mean = n+1, mean+d })
	mean /= n
	var squares, cubes float64
	each(func(d float64) {
		d -= mean
		squares += float64(d * d)
		cubes += float64(float64(d*d) * d)
	})
	if squares == 0 {
		return false
	}
	skewness := cubes / n / math.Pow(squares/n, 1.5)
	return n < float64(seenEnough*float64(skewness*skewness))
}

// doubtful says why a difference of two drills over some runs, however clear,
// calls nobody ahead; "" when it may.
func doubtful(a, b *Played, m int) string {
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
