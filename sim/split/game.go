package split

import (
	"context"
	"errors"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// Game is a drill whose team is to be split.
type Game struct {
	Bare      *sim.Drill   // under no order: no crew narrowed, nobody in a group
	Orders    []*sim.Drill // under each order that there is
	Milestone int          // that it is about
	Seed      uint64
	Runs      int // that tell of what was chosen; 0 plays everything once, with usual values
	Workers   int
	// Evaluations is how many drills the search may play, at least
	// [Game.LeastEvaluations]; 0 lets it play as many as it takes. Parts is how
	// many calls of Size and Worth share them.
	Evaluations, Parts int

	opened, played int // parts, and drills in search
}

// Split is a team under an order, as played.
type Split struct {
	Order string // of those that there are; "" for one made here
	*compare.Played
	plan  *plan         // nil for an order that there is, and for one that the search for a better one found
	there bool          // whether it is an order that there is
	kept  bool          // whether all is well as often as it is to be
	cold  *compare.Cold // nil with usual values, and where there is no account
}

// Size is what a team of one size can do.
type Size struct {
	People int
	// Splits holds the best split into 1, 2 and 3 groups, then the orders that
	// there are; without those that cannot be played or come to a stop in every
	// run.
	Splits []*Split
	Best   int   // which of them was soonest on the runs of the search; -1 when there is none
	Tried  int   // how many splits were tried
	Why    error // why something cannot be played; nil when all can

	keep guard        // what splits are to keep to
	pool []*candidate // that may be good with one thing more
}

// candidate is a split in the race.
type candidate struct {
	plan    *plan // as in Split
	there   bool
	order   string
	drill   *sim.Drill
	stopped int   // runs of the last stage in which it came to a stop
	short   int   // runs of the last stage in which all is well too seldom
	reached int64 // sum of the milestone over those runs
}

// searchSeed is the seed of the runs on which splits are chosen.
func (g *Game) searchSeed() uint64 { return g.Seed ^ 0x9e3779b97f4a7c15 }

// Size looks for the best splits of a team of n people. When a smaller team has
// been looked at already, the search also starts from its best splits, with
// those more in any one of the groups; smaller may be nil.
func (g *Game) Size(ctx context.Context, n int, smaller *Size) (*Size, error) {
	out := &Size{People: n, Best: -1}
	purse := g.open()
	defer func() { g.close(purse) }()
	var orders []*candidate
	var priority []*sim.Timeline
	for _, o := range g.Orders {
		d := Team(o, n)
		why := sim.Possible(d)
		if why == nil {
			purse.pay(1, 1)
			tl := fast.Compile(d).Worker().Timeline(draw.Usual(d))
			if why = tl.Stopped(); why == nil {
				orders = append(orders, &candidate{order: o.Order, there: true, drill: d})
				priority = append(priority, tl)
			}
		}
		if out.Why == nil {
			out.Why = why
		}
	}
	if len(orders) == 0 {
		return out, nil
	}
	var winners []*candidate
	var err error
	if out.keep, err = g.guardOf(ctx, purse, orders); err != nil {
		return nil, err
	}
	bare := Team(g.Bare, n)
	own := purse.left / (MostGroups + 2) // for each number of groups, for better orders, and for the choice among them
	for groups := 1; groups <= min(n, MostGroups); groups++ {
		purse.kept = max(g.mostChosen(), own*(MostGroups+2-groups))
		best, tried, err := g.search(ctx, purse, out.keep, plansFor(bare, priority, groups), plansAfter(bare, groups, smaller))
		if err != nil {
			return nil, err
		}
		out.Tried += tried
		if best != nil {
			winners = append(winners, best)
		}
	}
	drills := improvedDrills
	if purse.kept = max(g.mostChosen(), own); purse.capped {
		drills = max(0, purse.left-purse.kept)
	}
	winners, lead, err := g.better(ctx, purse, out.keep, bare, winners, orders, drills)
	if err != nil {
		return nil, err
	}
	winners = append(winners, orders...)
	out.pool = append(lead, winners...)
	out.Tried += len(orders)
	purse.kept = 0
	return out, g.judge(ctx, purse, out, winners)
}

// judge plays what was chosen on runs that it was not chosen on.
func (g *Game) judge(ctx context.Context, purse *purse, out *Size, chosen []*candidate) error {
	ranked, err := g.play(ctx, purse, out.keep, chosen, chosenRuns)
	if err != nil {
		return err
	}
	played, accounts, err := g.tellCold(ctx, drillsOf(chosen))
	if err != nil {
		return err
	}
	for i, p := range played {
		if p.Stopped == len(p.Times[0]) {
			out.Why = p.Stop
			continue
		}
		if len(ranked) > 0 && chosen[i] == ranked[0] {
			out.Best = len(out.Splits)
		}
		out.Splits = append(out.Splits, &Split{Order: chosen[i].order, Played: p, plan: chosen[i].plan, there: chosen[i].there, kept: chosen[i].short == 0, cold: accounts[i]})
	}
	g.yield(out)
	return nil
}

// yield gives way to an order that there is: what was chosen is not the best if one
// of these has done better where it is told.
func (g *Game) yield(out *Size) {
	if out.Best < 0 {
		return
	}
	for i, s := range out.Splits {
		best := out.Splits[out.Best]
		if s.there && (s.kept || !best.kept) && s.Stopped <= best.Stopped && g.sum(s) < g.sum(best) {
			out.Best = i
		}
	}
}

// sum is all moments of the milestone together; never counts as the end of the
// longest drill.
func (g *Game) sum(s *Split) (sum int64) {
	for _, at := range s.Times[g.Milestone] {
		sum += int64(min(at, sim.Horizon))
	}
	return sum
}

// tellOf plays drills to tell of them, on runs on which nothing is chosen, or
// with usual values.
func (g *Game) tellOf(ctx context.Context, drills []*sim.Drill) ([]*compare.Played, error) {
	return g.playOf(ctx, drills, g.Seed, g.Runs)
}

// tellCold is tellOf with the accounts of cold. With usual values there is one play, and
// nothing to count.
func (g *Game) tellCold(ctx context.Context, drills []*sim.Drill) ([]*compare.Played, []*compare.Cold, error) {
	if g.Runs > 0 {
		return compare.PlayCold(ctx, drills, compare.Batch{Seed: g.Seed, Runs: g.Runs, Workers: g.Workers})
	}
	played, err := g.tellOf(ctx, drills)
	return played, make([]*compare.Cold, len(played)), err
}

// playOf plays drills on some runs, or with usual values.
func (g *Game) playOf(ctx context.Context, drills []*sim.Drill, seed uint64, runs int) ([]*compare.Played, error) {
	if g.Runs == 0 {
		return compare.Usual(ctx, drills, g.Workers)
	}
	return compare.Play(ctx, drills, compare.Batch{Seed: seed, Runs: runs, Workers: g.Workers})
}

// chosenRuns is on how many runs the best splits of each kind are compared.
const chosenRuns = 256

func drillsOf(list []*candidate) []*sim.Drill {
	var out []*sim.Drill
	for _, c := range list {
		out = append(out, c.drill)
	}
	return out
}

func never(err error) bool {
	var n *sim.NeverError
	return errors.As(err, &n)
}
