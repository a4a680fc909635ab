package split

import (
	"context"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/search"
)

// A guard keeps a search for what is soonest at one milestone from ruining the rest
// of the evening: all is to be well, every target met and nobody over the cold limit,
// about as often as with that of the orders there are with which it is most often.
type guard struct{ well []bool } // of that order, by run of the search; nil where nothing is asked

// A split is let pass with which all is well in one evening less, and one more in
// each forgiving runs. Fewer runs than leastGuarded guard nothing.
const (
	forgiving    = 50
	leastGuarded = 16
)

// guardOf returns the guard of a team that has some orders. With usual values, and
// where nothing but the milestone is asked for, it lets everything pass.
func (g *Game) guardOf(ctx context.Context, purse *purse, orders []*candidate) (guard, error) {
	list, err := g.wellOf(ctx, purse, orders)
	var best []bool
	for _, in := range list {
		if best == nil || count(in) > count(best) {
			best = in
		}
	}
	return guard{best}, err
}

// under returns the guard of things more under an order that has passed this one, if
// only just: the things are not to make up for what it lacks.
func (k guard) under(ctx context.Context, g *Game, purse *purse, order *sim.Drill) (guard, error) {
	if !k.on() {
		return k, nil
	}
	list, err := g.wellOf(ctx, purse, []*candidate{{drill: order}})
	if err != nil || len(list) == 0 {
		return k, err
	}
	if n := min(len(k.well), len(list[0])); count(list[0][:n]) < count(k.well[:n]) {
		return guard{list[0]}, nil
	}
	return k, nil
}

// wellOf tells of candidates in which runs of the search all is well; nothing with
// usual values, or where the purse does not reach for runs enough.
func (g *Game) wellOf(ctx context.Context, purse *purse, field []*candidate) ([][]bool, error) {
	runs := chosenRuns
	if purse.capped {
		runs = min(runs, purse.left/(8*len(field)))
	}
	if g.Runs == 0 || runs < leastGuarded {
		return nil, nil
	}
	purse.pay(len(field), runs)
	played, accounts, err := compare.PlayCold(ctx, drillsOf(field), compare.Batch{Seed: g.searchSeed(), Runs: runs, Workers: g.Workers})
	if err != nil {
		return nil, err
	}
	return wellIn(compare.HowWell(played, accounts)), nil
}

// wellIn tells of drills in which runs all is well.
func wellIn(list []compare.Well) (in [][]bool) {
	for i := range list {
		in = append(in, list[i].In())
	}
	return in
}

// on reports whether there is anything to guard.
func (k guard) on() bool { return count(k.well) > 0 }

// late returns the guard where it is late in a race, and else one that lets
// everything pass: the account of cold takes as long as playing.
func (k guard) late(yes bool) guard {
	if yes {
		return k
	}
	return guard{}
}

// short returns in how many evenings too few all is well.
func (k guard) short(in []bool) int {
	n := min(len(in), len(k.well))
	return max(0, count(k.well[:n])-count(in[:n])-1-n/forgiving)
}

// Kept reports whether the best split is the soonest of those with which all is well
// about as often as with the best of the orders there are. It is the soonest of all
// where all is never well with any of these, where nobody asks for anything else, and
// with usual values.
func (s *Size) Kept() bool { return s.keep.on() }

// limits returns what a search is to keep to.
func (k guard) limits() []search.AtLeast {
	if odds := float64(count(k.well))/float64(max(1, len(k.well))) - 1.0/forgiving; odds > 0 {
		return []search.AtLeast{{Goal: search.AllWell, Odds: odds}}
	}
	return nil
}

func count(in []bool) (n int) {
	for _, yes := range in {
		if yes {
			n++
		}
	}
	return n
}
