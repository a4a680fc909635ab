package split

import (
	"slices"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// Bend is what the splits of one size do in all cases, and which of them bends
// least: whose latest time over the cases is earliest.
type Bend struct {
	Size  *Size
	Times [][]sim.Time // by case, then split: mean or usual time; Never when some run never comes
	Left  []int        // cases in which no split gets there: left out of the judgement
	Least int          // the split that bends least; -1 when none gets there in all others
	Worst []int        // by split: the case in which it is latest, of those judged; -1 for never

	played    [][]*compare.Played // by case, then split; nil when it cannot be played
	milestone int
}

// JudgeCases finds the split of a size that bends least, from when each reaches a
// milestone: by case, then split, as played; nil when it cannot be. The first case is
// the scenario as it stands.
func JudgeCases(size *Size, played [][]*compare.Played, milestone int) *Bend {
	b := &Bend{Size: size, Least: -1, played: played, milestone: milestone}
	for i, splits := range played {
		b.Times = append(b.Times, nil)
		reached := false
		for _, p := range splits {
			at := sim.Never
			if p != nil {
				at = MeanOf(p.Times[milestone]).Time()
			}
			b.Times[i] = append(b.Times[i], at)
			reached = reached || at != sim.Never
		}
		if !reached {
			b.Left = append(b.Left, i)
		}
	}
	for k := range size.Splits {
		b.Worst = append(b.Worst, b.worst(k))
		if b.Worst[k] >= 0 && (b.Least < 0 || b.Latest(k) < b.Latest(b.Least)) {
			b.Least = k
		}
	}
	return b
}

// worst returns the case in which a split is latest, of those judged; -1 when it
// does not get there in one of them.
func (b *Bend) worst(split int) int {
	worst := -1
	for i, times := range b.Times {
		switch {
		case slices.Contains(b.Left, i):
		case times[split] == sim.Never:
			return -1
		case worst < 0 || times[split] > b.Times[worst][split]:
			worst = i
		}
	}
	return worst
}

// Latest returns the latest time of a split in the cases judged; Never when it
// does not get there in one of them.
func (b *Bend) Latest(split int) sim.Time {
	if b.Worst[split] < 0 {
		return sim.Never
	}
	return b.Times[b.Worst[split]][split]
}

// Against holds a case against the scenario as it stands, under one split: over
// 0 is later.
func (b *Bend) Against(i, split int) stats.Difference {
	if b.played[i][split] == nil {
		return stats.Difference{Mean: stats.Mean{Why: "cannot be played"}}
	}
	return compare.DifferenceAt(b.played[i][split], b.played[0][split], b.milestone)
}
