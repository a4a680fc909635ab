package search

import (
	"context"
	"slices"

	"warmby/sim"
)

// Leaders looks for better orders of a drill as [Improve] does, with one aim, for
// those who judge what is found themselves: no fresh runs are played, and nothing is
// said of what wins. It returns the best by the runs of the search, the best first,
// without the orders that the drill has; none when the context is done. The first is
// as easy to remember as it may be made at next to no cost.
func Leaders(ctx context.Context, d *sim.Drill, o Options) (orders []sim.Order, err error) {
	g, err := newGame(ctx, d, &o)
	if err != nil {
		return nil, err
	}
	g.prepare()
	players := g.players()
	own := g.ownOrders(players[0], g.before(players[0]))
	x := g.setOut(players, own)
	x.exploreAll(laid)
	found := slices.DeleteFunc(x.chosen(), func(c *candidate) bool { return c.own })
	if ctx.Err() != nil || len(found) == 0 {
		return nil, nil
	}
	for _, c := range x.remember(found[:1], x.left()) {
		if x.burdenOf(c).less(x.burdenOf(found[0])) && x.taken(found[0], c) {
			found[0] = c
		}
	}
	for _, c := range found {
		orders = append(orders, c.order)
	}
	return orders, nil
}
