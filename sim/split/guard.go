package split

import (
	"context"

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
	runs := chosenRuns
	if purse.capped {
		runs = min(runs, purse.left/(8*len(orders)))
	}
	if g.Runs == 0 || runs < leastGuarded {
		return guard{}, nil
	}
	purse.pay(len(orders), runs)
	played, accounts, err := compare.PlayCold(ctx, drillsOf(orders), compare.Batch{Seed: g.searchSeed(), Runs: runs, Workers: g.Workers})
	if err != nil {
		return guard{}, err
	}
	var best []bool
	for _, in := range wellIn(compare.HowWell(played, accounts)) {
		if best == nil || count(in) > count(best) {
			best = in
		}
	}
	return guard{best}, nil
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
