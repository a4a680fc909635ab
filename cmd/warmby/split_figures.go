package main

import (
	"cmp"
	"slices"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/split"
	"warmby/sim/stats"
)

// splitMean returns the mean of a milestone under a split; with usual values
// only, the one time that there is.
func splitMean(one *split.Split, milestone int) stats.Mean { return meanOf(one.Times[milestone]) }

// splitNever reports whether a milestone is never reached in any run.
func splitNever(one *split.Split, milestone int) bool {
	return !slices.ContainsFunc(one.Times[milestone], func(at sim.Time) bool { return at != sim.Never })
}

func meanOf(moments []sim.Time) stats.Mean {
	var t stats.Tally
	for _, at := range moments {
		t.Add(at)
	}
	return t.Mean()
}

// eightOfTen returns when a milestone is reached in 8 of 10 runs.
func eightOfTen(one *split.Split, milestone int) stats.Quantile {
	return stats.QuantileOf(stats.SortedOf(one.Times[milestone]), 0.8)
}

// bestOf returns the best split of a size; nil when it cannot be played.
func bestOf(size *split.Size) *split.Split {
	if size.Best < 0 {
		return nil
	}
	return size.Splits[size.Best]
}

// kinds lists the kinds of split that there are at any size: by number of
// groups, then the orders of the file.
func (s *splitting) kinds() []string {
	var list []string
	seen := map[string]bool{}
	add := func(made bool) {
		for _, size := range s.sizes {
			for _, one := range size.Splits {
				if kind := kindOf(one); !seen[kind] && made == (one.Order == "") {
					seen[kind] = true
					list = append(list, kind)
				}
			}
		}
	}
	add(true)
	add(false)
	return list
}

func ofKind(size *split.Size, kind string) *split.Split {
	for _, one := range size.Splits {
		if kindOf(one) == kind {
			return one
		}
	}
	return nil
}

// change is what one size does against the size before it, under the best split
// of each or, of a kind, under the same kind.
type change struct {
	kind       string // "" for the best of each
	fewer, now *split.Size
	diff       stats.Difference // of now less fewer
	was, is    sim.Time         // mean or usual time with fewer and now; Never for none
}

// changeAt holds a size against the one before it; nil when either has no such
// split.
func (s *splitting) changeAt(i int, kind string) *change {
	if i == 0 {
		return nil
	}
	pick := bestOf
	if kind != "" {
		pick = func(size *split.Size) *split.Split { return ofKind(size, kind) }
	}
	c := &change{kind: kind, fewer: s.sizes[i-1], now: s.sizes[i]}
	was, is := pick(c.fewer), pick(c.now)
	if was == nil || is == nil {
		return nil
	}
	c.was, c.is = meanOrNever(was.Times[s.game.Milestone]), meanOrNever(is.Times[s.game.Milestone])
	c.diff = compare.Pair(is.Times[s.game.Milestone], was.Times[s.game.Milestone]).Difference()
	return c
}

// later reports whether more people are later, beyond what luck explains.
func (c *change) later() bool { return c != nil && aheadOf(c.diff.Mean, c.diff.P) > 0 }

// aheadOf tells which of two is sooner on average, beyond what luck explains,
// as [stats.Difference.Ahead] does; two drills played once each with usual
// values owe nothing to luck.
func aheadOf(less stats.Mean, p float64) int {
	if less.OK() && less.Runs == 1 {
		return cmp.Compare(less.Value, 0)
	}
	return stats.Difference{Mean: less, P: p}.Ahead()
}
