package results

import (
	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// mostKept is how many moments of a point are kept, 8 bytes each, so that
// quantiles and shares can be held against each other run by run. A point of
// more has its first runs kept only.
const mostKept = 2_000_000

// kept is the moments of the first runs of a point.
type kept struct {
	drills []*sim.Drill
	most   int            // runs
	times  [][][]sim.Time // by order, milestone and run

	moments [][]compare.Moments // of them, by order and milestone, once all are there
}

func newKept(drills []*sim.Drill) *kept {
	k := &kept{drills: drills, most: max(1, mostKept/(len(drills)*len(drills[0].Milestones)))}
	for _, d := range drills {
		k.times = append(k.times, make([][]sim.Time, len(d.Milestones)))
	}
	return k
}

// add keeps the runs of the next chunk of the point, as far as there is room.
func (k *kept) add(c *batch.Chunk) {
	for o := range k.times {
		n := len(k.times[o])
		for m := range k.times[o] {
			for run := 0; run < c.Runs() && len(k.times[o][m]) < k.most; run++ {
				k.times[o][m] = append(k.times[o][m], c.Orders[o].Milestones[run*n+m])
			}
		}
	}
}

// of returns the moments of an order at a milestone, once all have been added.
func (k *kept) of(order, milestone int) *compare.Moments {
	if k.moments == nil {
		for o, milestones := range k.times {
			var row []compare.Moments
			for m, times := range milestones {
				row = append(row, compare.MomentsOf(times, k.drills[o].Milestones[m].By, stats.Looks{}))
			}
			k.moments = append(k.moments, row)
		}
	}
	return &k.moments[order][milestone]
}

// against holds the kept runs of an order against those of another point, at a
// milestone: how much later they come on average, and the rest.
func (k *kept) against(other *kept, order, milestone int) (stats.Difference, compare.Apart) {
	a, b := *k.of(order, milestone), *other.of(order, milestone)
	if n := min(len(a.Times), len(b.Times)); n < len(a.Times) || n < len(b.Times) {
		a, b = compare.MomentsOf(a.Times[:n], a.By, stats.Looks{}), compare.MomentsOf(b.Times[:n], b.By, stats.Looks{})
	}
	diff := compare.Pair(a.Times, b.Times).Difference()
	diff.Doubt = compare.DoubtfulForRare(k.drills[order], other.drills[order], diff)
	return diff, a.Apart(&b)
}
