package halt

import (
	"context"
	"errors"
	"slices"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/search"
)

// Later is a question for an order under which one may halt later.
type Later struct {
	// Cases holds the drill of each case at each arrival, without an order: what
	// an order is to do well in. Cases that cannot be played are left out.
	Cases  [][]*sim.Drill
	Orders []sim.Order // those that there are, of the drill of the first case
	// From is the latest arrival, by index, that any of these orders keeps in all
	// cases; -1 for none.
	From        int
	Asked       Asked
	Batch       compare.Batch // no runs for usual values only
	Evaluations int           // of each search
}

// Found is an order that was found, with what comes of it.
type Found struct {
	// Order is nil when no order lets one halt later.
	Order *sim.Order
	// Cases holds what comes of it at each arrival, by case.
	Cases       []*Answer
	Searched    []int // arrivals searched at, by index, in sequence
	Evaluations int   // drills played in searches
}

// MostSearches is how many arrivals are searched at, at most.
const MostSearches = 4

// Improve searches at the first arrival that is too late, plays what it finds at
// all arrivals, and goes on behind the latest that it keeps, until nothing later is
// found. Two evenings of which one begins later ask for different orders, so an
// order is looked for where the odds turn. It is nil when the context is done.
func (l Later) Improve(ctx context.Context) (*Found, error) {
	out, orders := &Found{}, slices.Clone(l.Orders)
	for latest := l.From; len(out.Searched) < MostSearches && latest+1 < len(l.Cases[0]); {
		at := latest + 1
		if latest < 0 {
			at = len(l.Cases[0]) / 2
		}
		if slices.Contains(out.Searched, at) {
			break
		}
		order, err := l.search(ctx, at, orders, out)
		if err != nil || ctx.Err() != nil {
			return nil, err
		}
		cases, err := l.play(ctx, order)
		var never *sim.NeverError
		if errors.As(err, &never) { // at an arrival that it was not looked for at
			break
		}
		if err != nil {
			return nil, err
		}
		now := LatestOfAll(cases)
		if now <= latest {
			break
		}
		latest, out.Order, out.Cases = now, &order, cases
		orders = append([]sim.Order{order}, orders...)
	}
	return out, nil
}

// search looks for the best order at one arrival.
func (l Later) search(ctx context.Context, at int, orders []sim.Order, out *Found) (sim.Order, error) {
	o := search.Options{Orders: orders, Aims: []search.Aim{l.aim()}, Evaluations: l.Evaluations, Runs: l.Batch.Runs, Seed: l.Batch.Seed, Workers: l.Batch.Workers}
	if l.Asked.ColdOdds > 0 {
		o.AtLeast = []search.AtLeast{{Goal: search.NobodyCold, Odds: l.Asked.ColdOdds}}
	}
	for _, c := range l.Cases[1:] {
		o.Cases = append(o.Cases, search.Case{Drill: c[at]})
	}
	r, err := search.Improve(ctx, l.Cases[0][at], o)
	if err != nil {
		return sim.Order{}, err
	}
	out.Searched, out.Evaluations = append(out.Searched, at), out.Evaluations+r.Evaluations
	return r.Orders[0].Order, nil
}

// surest is the highest odds that a moment is looked for with: more runs than a
// search has would be needed for higher ones.
const surest = 0.95

// aim is what an order is looked for by: all well in most evenings, or the soonest
// moment by which the milestone is reached as often as asked.
func (l Later) aim() search.Aim {
	switch {
	case l.Asked.AllWell:
		return search.Aim{Goal: search.AllWell}
	case l.Batch.Runs == 0:
		return search.Aim{Milestone: l.Asked.Milestone}
	}
	return search.Aim{Milestone: l.Asked.Milestone, Statistic: search.Quantile(min(l.Asked.Odds, surest))}
}

// play plays an order at all arrivals in all cases.
func (l Later) play(ctx context.Context, order sim.Order) (list []*Answer, err error) {
	for _, c := range l.Cases {
		own := order
		if len(list) > 0 {
			own = search.OrderIn(c[0], l.Cases[0][0], order)
		}
		var drills []*sim.Drill
		for _, d := range c {
			drills = append(drills, d.Under(own))
		}
		a := &Answer{Asked: l.Asked}
		if l.Batch.Runs > 0 {
			a.Points, err = Play(ctx, drills, l.Batch)
		} else {
			a.Points, err = PlayUsual(ctx, drills, l.Batch.Workers)
		}
		if err != nil {
			return nil, err
		}
		list = append(list, a)
	}
	return list, nil
}
