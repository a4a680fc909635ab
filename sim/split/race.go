package split

import (
	"cmp"
	"context"
	"slices"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/search"
	"warmby/sim/stats"
)

// stages are how a race is run: so many runs, and how many stay in it at most.
var stages = []heat{{8, 12}, {32, 5}, {128, 1}}

// mostPass is how often the best of the moves about the winner of a race is taken
// at most.
const mostPass = 3

// heat is one of those in which some drills are held against each other: in so
// many runs, and how many stay at most.
type heat struct{ runs, keep int }

// Moves about the winner of a race, places for somebody and orders that a search has
// found each meet in few runs first, and the best of them in more.
var (
	moveHeats   = []heat{{4, 12}, {16, 4}, {48, 1}}
	placeHeats  = []heat{{8, 4}, {64, 1}}
	leaderHeats = []heat{{16, 4}, {64, 2}, {chosenRuns, 1}}
)

// search looks for the best plan of several fields, each with a race of its own
// and moves about its winner; nil when none of those tried can be played. It
// also tells how many were tried. A spent purse ends each race where it is.
func (g *Game) search(ctx context.Context, purse *purse, keep guard, fields ...[]*plan) (*candidate, int, error) {
	var winners []*candidate
	tried := 0
	for _, plans := range fields {
		field := candidatesOf(plans)
		tried += len(field)
		for i, s := range stages {
			if i > 0 && (g.Runs == 0 || !purse.within(len(field))) {
				break // ranked already, as well as may be
			}
			late := guard{} // the account of cold takes as long as playing
			if i == len(stages)-1 {
				late = keep
			}
			ranked, err := g.play(ctx, purse, late, field, s.runs)
			if err != nil {
				return nil, tried, err
			}
			field = ranked[:min(len(ranked), s.keep)]
		}
		if len(field) == 0 {
			continue
		}
		best, more, err := g.climb(ctx, purse, field[0])
		if err != nil {
			return nil, tried, err
		}
		winners, tried = append(winners, best), tried+more
	}
	if len(winners) > 0 && !purse.within(len(winners)) {
		return winners[0], tried, nil
	}
	ranked, err := g.play(ctx, purse, keep, winners, chosenRuns)
	if err != nil || len(ranked) == 0 {
		return nil, tried, err
	}
	return ranked[0], tried, nil
}

// candidatesOf returns the plans under which every task can start. A crew of
// everybody may be more in a plan than there are tools for.
func candidatesOf(plans []*plan) []*candidate {
	var list []*candidate
	for _, p := range plans {
		if d := p.drill(); sim.Possible(d) == nil {
			list = append(list, &candidate{plan: p, drill: d})
		}
	}
	return list
}

// play plays candidates on the first runs of the search and ranks them. Those
// that come to a stop in every run are dropped, however soon they reach the
// milestone before, and so are those clearly behind the first, and those that
// the purse does not reach. Without runs each is played once, with usual values.
func (g *Game) play(ctx context.Context, purse *purse, keep guard, field []*candidate, runs int) ([]*candidate, error) {
	if g.Runs == 0 {
		runs = 1
	}
	within, runs := purse.pay(len(field), runs)
	if field = field[:within]; within == 0 {
		return nil, nil
	}
	played, well, err := g.playKept(ctx, keep, field, runs)
	if err != nil {
		return nil, err
	}
	times := map[*candidate][]sim.Time{}
	var ranked []*candidate
	for i, c := range field {
		c.reached, c.stopped, c.short, times[c] = 0, played[i].Stopped, 0, played[i].Times[g.Milestone]
		if well != nil {
			c.short = keep.short(&well[i])
		}
		for _, at := range times[c] {
			c.reached += int64(min(at, sim.Horizon)) // never counts as the end of the longest drill
		}
		if c.stopped < runs {
			ranked = append(ranked, c)
		}
	}
	if len(ranked) == 0 {
		return nil, nil
	}
	slices.SortStableFunc(ranked, func(a, b *candidate) int {
		return cmp.Or(cmp.Compare(a.stopped, b.stopped), cmp.Compare(a.short, b.short), cmp.Compare(a.reached, b.reached))
	})
	return slices.DeleteFunc(ranked, func(c *candidate) bool { return behind(times[ranked[0]], times[c]) }), nil
}

// playKept plays candidates on the first runs of the search and, where something is
// to be kept, tells how well these go.
func (g *Game) playKept(ctx context.Context, keep guard, field []*candidate, runs int) ([]*compare.Played, []compare.Well, error) {
	if !keep.on() {
		played, err := g.playOf(ctx, drillsOf(field), g.searchSeed(), runs)
		return played, nil, err
	}
	return g.playWell(ctx, field, runs, keep.goal == search.AllWell)
}

// playWell plays candidates on the first runs of the search and tells how well they
// go: in all, or only whether all is well.
func (g *Game) playWell(ctx context.Context, field []*candidate, runs int, allWell bool) ([]*compare.Played, []compare.Well, error) {
	played, accounts, err := compare.PlayCold(ctx, drillsOf(field), compare.Batch{Seed: g.searchSeed(), Runs: runs, Workers: g.Workers, IfInTime: allWell})
	if err != nil {
		return nil, nil, err
	}
	return played, compare.HowWell(played, accounts), nil
}

// losing is how many standard errors a split may be behind the first one.
const losing = 3

// behind reports whether a split is clearly behind the first, run by run.
func behind(first, c []sim.Time) bool {
	var less stats.Tally
	for run := range c {
		less.Add(min(c[run], sim.Horizon) - min(first[run], sim.Horizon))
	}
	m := less.Mean()
	return m.OK() && m.Runs > 1 && m.Low > 0 && m.Value > losing/2.0*(m.Value-m.Low)
}

// climb moves single chains and people from one group to another as long as
// that makes the milestone sooner, then two at a time where these are few.
func (g *Game) climb(ctx context.Context, purse *purse, c *candidate) (*candidate, int, error) {
	tried := 0
	pairs := false
	for range mostPass {
		plans := c.plan.neighbours()
		if pairs {
			plans = append(plans, c.plan.pairs(plans)...)
		}
		field := append([]*candidate{c}, candidatesOf(plans)...)
		if len(field) == 1 || !purse.within(2) {
			break
		}
		tried += len(field) - 1
		best, err := g.heats(ctx, purse, guard{}, field, moveHeats)
		if err != nil {
			return nil, tried, err
		}
		if best == nil || best == c {
			if pairs {
				break
			}
			pairs = true
			continue
		}
		c = best
	}
	return c, tried, nil
}
