package split

import (
	"cmp"
	"slices"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/search"
	"warmby/sim/stats"
)

// MeanOf returns the mean of some moments; with usual values only, the one that
// there is.
func MeanOf(moments []sim.Time) stats.Mean {
	var t stats.Tally
	for _, at := range moments {
		t.Add(at)
	}
	return t.Mean()
}

// Mean returns the mean of a milestone, by index.
func (s *Split) Mean(milestone int) stats.Mean { return MeanOf(s.Times[milestone]) }

// Never reports whether a milestone is never reached in any run.
func (s *Split) Never(milestone int) bool {
	return !slices.ContainsFunc(s.Times[milestone], func(at sim.Time) bool { return at != sim.Never })
}

// Quantile returns when a milestone is reached in a share p of runs.
func (s *Split) Quantile(milestone int, p float64) stats.Quantile {
	return stats.QuantileOf(stats.SortedOf(s.Times[milestone]), p)
}

// Form is what a split is like: an order that there was, or one made here into
// some groups. The zero Form is the best split of a size, whatever it is like.
type Form struct {
	Order  string
	Groups int  // of one made here
	Listed bool // the tasks as the file lists them, which is all there was
}

// Form returns what a split is like.
func (s *Split) Form() Form {
	if s.Order != "" {
		return Form{Order: s.Order}
	}
	if s.there {
		return Form{Listed: true}
	}
	return Form{Groups: len(s.Drill.Groups)}
}

// Forms lists the forms of split that there are at any size, each once: those
// made here, then the orders that there were.
func Forms(sizes []*Size) []Form {
	var list []Form
	add := func(made bool) {
		for _, size := range sizes {
			for _, one := range size.Splits {
				if form := one.Form(); made == (one.Order == "" && !one.there) && !slices.Contains(list, form) {
					list = append(list, form)
				}
			}
		}
	}
	add(true)
	add(false)
	return list
}

// Of returns the first split of a form; nil when there is none.
func (z *Size) Of(form Form) *Split {
	if form == (Form{}) {
		if z.Best < 0 {
			return nil
		}
		return z.Splits[z.Best]
	}
	for _, one := range z.Splits {
		if one.Form() == form {
			return one
		}
	}
	return nil
}

// BestSplit returns the split that was soonest on the runs of the search; nil
// when the drill cannot be played.
func (z *Size) BestSplit() *Split { return z.Of(Form{}) }

// SoonerThanBest returns the split that is soonest at a milestone, where it is
// sooner, beyond what luck explains, than the one that the search took for the
// best; nil for none.
func (z *Size) SoonerThanBest(milestone int) (soonest *Split) {
	best, by := z.BestSplit(), 0.0
	if best == nil {
		return nil
	}
	for _, one := range z.Splits {
		diff := compare.DifferenceAt(one.Played, best.Played, milestone)
		if (one.kept || !best.kept) && Ahead(diff) < 0 && diff.Mean.Value < by {
			soonest, by = one, diff.Mean.Value
		}
	}
	return soonest
}

// LeastOver returns the split of a size under which somebody passes the limit of
// cold in the smallest share of runs, the best one where none has a smaller
// share; nil when there is no account of the best.
func (z *Size) LeastOver(cold map[*Split]*compare.Cold) *Split {
	least := z.BestSplit()
	if least == nil || cold[least] == nil {
		return nil
	}
	for _, one := range z.Splits {
		// Runs that come to a stop are not counted, so that their numbers may differ.
		if k, l := cold[one], cold[least]; k != nil && k.Over*len(l.Peaks) < l.Over*len(k.Peaks) {
			least = one
		}
	}
	return least
}

// Change is what one size does against the size before it, under one form of
// split.
type Change struct {
	Form       Form
	Fewer, Now *Size
	Diff       stats.Difference // of Now less Fewer
	Was, Is    sim.Time         // mean or usual time with Fewer and Now; Never for none
}

// ChangeAt compares size i of a list with the one before it at a milestone; nil
// for the first, and when either has no such split. The best splits of two sizes are
// not compared where only one is the soonest at any cost, see [Size.Keeps], and other
// splits made here only where they keep to it as well.
func ChangeAt(sizes []*Size, i int, form Form, milestone int) *Change {
	if i == 0 {
		return nil
	}
	c := &Change{Form: form, Fewer: sizes[i-1], Now: sizes[i]}
	was, is := c.Fewer.Of(form), c.Now.Of(form)
	if was == nil || is == nil {
		return nil
	}
	if there := form.Order != "" || form.Listed; !there && !c.alike(was, is) {
		return nil
	}
	c.Was, c.Is = was.Mean(milestone).Time(), is.Mean(milestone).Time()
	c.Diff = compare.DifferenceAt(is.Played, was.Played, milestone)
	return c
}

// alike reports whether two splits made here are soonest at the same cost: at any, or
// both at none.
func (c *Change) alike(was, is *Split) bool {
	now, before := c.Now.Keeps(), c.Fewer.Keeps()
	if now == search.Reached || before == search.Reached {
		return now == before
	}
	return was.kept && is.kept
}

// Later reports whether more people are later, beyond what luck explains; no for
// no change.
func (c *Change) Later() bool { return c != nil && Ahead(c.Diff) > 0 }

// Ahead tells which of two is sooner on average, beyond what luck explains, as
// [stats.Difference.Ahead] does; two drills played once each with usual values
// owe nothing to luck.
func Ahead(d stats.Difference) int {
	if d.Mean.OK() && d.Mean.Runs == 1 {
		return cmp.Compare(d.Mean.Value, 0)
	}
	return d.Ahead()
}

// Told tells whether a thing more surely makes the milestone sooner (-1) or later
// (1): whether the whole interval of its change lies on that side of 0. It is 0
// when there is no telling, be it for few runs. A change between two drills
// played once with usual values is what it is.
func (w *Worth) Told() int {
	switch m := w.Change.Mean; {
	case !m.OK() || m.Runs > 1 && m.Runs < stats.FewRuns:
		return 0
	case m.Runs == 1:
		return cmp.Compare(m.Value, 0)
	case m.High < 0:
		return -1
	case m.Low > 0:
		return 1
	}
	return 0
}

// WorthMost returns what wins most, beyond what luck explains; nil for nothing.
func WorthMost(list []*Worth) (best *Worth) {
	for _, w := range list {
		if w.Told() < 0 && (best == nil || w.Change.Mean.Value < best.Change.Mean.Value) {
			best = w
		}
	}
	return best
}
