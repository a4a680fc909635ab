// Package packing works out what it wins to pack an item on top of its load.
//
// The drill is played as it is and with one item on top, under the same luck.
package packing

import (
	"cmp"
	"context"
	"slices"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/split"
	"warmby/sim/stats"
)

// Win is what one item on top of its load wins.
type Win struct {
	Item      int
	Milestone int        // the one that comes sooner by most
	Sooner    sim.Time   // on average
	Mean      stats.Mean // of how much sooner it is with the item on top, below 0 for sooner
}

// LeastWin is how much sooner a milestone must be for it to be told.
const LeastWin = sim.Minute

// MostTried is how many items are tried: those that tasks need, in file order.
const MostTried = 12

// Wins returns the items that are worth packing on top, those that win most first.
// Each is tried alone; what two win together is not told.
func Wins(ctx context.Context, d *sim.Drill, b compare.Batch) ([]Win, error) {
	tried := candidates(d)
	drills := []*sim.Drill{d}
	for _, item := range tried {
		drills = append(drills, split.OnTop(d, item))
	}
	if sim.Possible(d) != nil {
		return nil, nil
	}
	played, err := compare.Play(ctx, drills, b)
	if err != nil {
		return nil, err
	}
	var wins []Win
	for i, item := range tried {
		if w, ok := win(played[0], played[i+1], item); ok {
			wins = append(wins, w)
		}
	}
	slices.SortStableFunc(wins, func(a, b Win) int { return cmp.Compare(b.Sooner, a.Sooner) })
	return wins, nil
}

// candidates lists the items that lie under others and that some task needs, for
// themselves or for what they bring.
func candidates(d *sim.Drill) (list []int) {
	for i := range d.Items {
		if i > 0 && d.Items[i-1].Load == d.Items[i].Load && needed(d, i) && len(list) < MostTried {
			list = append(list, i)
		}
	}
	return list
}

func needed(d *sim.Drill, item int) bool {
	return slices.ContainsFunc(d.Tasks, func(t sim.Task) bool {
		if slices.Contains(t.Needs, item) {
			return true
		}
		return slices.ContainsFunc(d.Items[item].Brings, func(b sim.Bring) bool {
			return b.Tool >= 0 && slices.ContainsFunc(t.Tools, func(n sim.ToolNeed) bool { return n.Tool == b.Tool }) ||
				b.Stove >= 0 && (t.Melt != nil && t.Melt.Stove == b.Stove || t.Warm != nil && t.Warm.Stove == b.Stove)
		})
	})
}

// win is what an item on top wins at the milestone where it wins most; not ok where
// none is clearly sooner, or one is later by as much.
func win(before, after *compare.Played, item int) (Win, bool) {
	w := Win{Item: item, Milestone: -1}
	worst := sim.Time(0)
	for _, m := range compare.Primary(before.Drill) {
		diff := compare.DifferenceAt(after, before, m)
		if diff.Ahead() == 0 {
			continue
		}
		sooner := -diff.Mean.Time()
		worst = min(worst, sooner)
		if sooner >= LeastWin && sooner > w.Sooner {
			w.Milestone, w.Sooner, w.Mean = m, sooner, diff.Mean
		}
	}
	return w, w.Milestone >= 0 && -worst < w.Sooner
}
