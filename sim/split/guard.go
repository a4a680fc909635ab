package split

import (
	"context"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/search"
	"warmby/sim/stats"
)

// A guard keeps a search for what is soonest at one milestone from ruining the rest
// of the evening: a goal is to be met about as often as with that of the orders there
// are with which it is met most often. The goal is that all is well, every target met
// and nobody over the cold limit; where that never happens, that nobody is too cold;
// and where somebody always is, that every target is met.
type guard struct {
	goal search.Goal // search.Reached where there is nothing to guard
	well []bool      // whether that order meets it, by run of the search
}

// goals are those that may be guarded, the first that can be.
var goals = []search.Goal{search.AllWell, search.NobodyCold, search.AllTargets}

// A split is let pass that meets the goal in one evening less, and one more in
// each forgiving runs. Fewer runs than leastGuarded guard nothing.
const (
	forgiving    = 50
	leastGuarded = 16
)

// guardOf returns the guard of a team that has some orders. With usual values, and
// where nothing but the milestone is asked for, it lets everything pass.
func (g *Game) guardOf(ctx context.Context, purse *purse, orders []*candidate) (guard, error) {
	list, err := g.wellOf(ctx, purse, orders, chosenRuns, false)
	for _, goal := range goals {
		keep := guard{goal: goal}
		for i := range list {
			if in := keep.in(&list[i]); stats.Count(in) > stats.Count(keep.well) {
				keep.well = in
			}
		}
		if keep.well != nil {
			return keep, nil
		}
	}
	return guard{}, err
}

// in tells of each run whether the goal is met.
func (k guard) in(w *compare.Well) []bool {
	switch k.goal {
	case search.AllWell:
		return w.AllIn()
	case search.NobodyCold:
		return w.NobodyColdIn()
	}
	return w.TargetsIn()
}

// thingRuns is in how many runs it is looked what a thing more does to the evening.
const thingRuns = 64

// with returns the guard of a thing more under a good order: an order for it is not to
// make up for what the thing, such as one person more who gets cold, takes away.
func (k guard) with(ctx context.Context, g *Game, purse *purse, thing *sim.Drill) (guard, error) {
	if !k.on() {
		return k, nil
	}
	list, err := g.wellOf(ctx, purse, []*candidate{{drill: thing}}, thingRuns, k.goal == search.AllWell)
	if err != nil || len(list) == 0 {
		return k, err
	}
	in := k.in(&list[0])
	if n := min(len(k.well), len(in)); stats.Count(in[:n]) < stats.Count(k.well[:n]) {
		k.well = in
	}
	return k, nil
}

// wellOf tells of candidates in which runs of the search things go well; nothing
// with usual values, or where the purse does not reach for runs enough. It may be told
// whether all is well and nothing else.
func (g *Game) wellOf(ctx context.Context, purse *purse, field []*candidate, runs int, allWell bool) ([]compare.Well, error) {
	if purse.capped {
		runs = min(runs, purse.left/(8*len(field)))
	}
	if g.Runs == 0 || runs < leastGuarded {
		return nil, nil
	}
	purse.pay(len(field), runs)
	_, list, err := g.playWell(ctx, field, runs, allWell)
	return list, err
}

// on reports whether there is anything to guard.
func (k guard) on() bool { return k.goal != search.Reached }

// short returns in how many evenings too few the goal is met.
func (k guard) short(w *compare.Well) int {
	in := k.in(w)
	n := min(len(in), len(k.well))
	return max(0, int(stats.Count(k.well[:n])-stats.Count(in[:n]))-1-n/forgiving)
}

// Keeps returns what the best split is not to be soonest at the cost of: it is the
// soonest of those that meet this goal about as often as the best of the orders there
// are. It is [search.Reached], nothing, where none of these ever meets a goal, where
// nobody asks for anything else, and with usual values.
func (s *Size) Keeps() search.Goal { return s.keep.goal }

// limits returns what a search is to keep to.
func (k guard) limits() []search.AtLeast {
	if odds := float64(stats.Count(k.well))/float64(max(1, len(k.well))) - 1.0/forgiving; odds > 0 {
		return []search.AtLeast{{Goal: k.goal, Odds: odds}}
	}
	return nil
}
