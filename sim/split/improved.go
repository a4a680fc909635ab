package split

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"warmby/sim"
	"warmby/sim/search"
)

// How many drills the search for a better order plays for a size, on top of that for
// the whole team, and for one thing more, when nobody says how many may be played.
const (
	improvedDrills = 12_000
	betterDrills   = 4_000
	worthDrills    = 500
)

// OrderOf returns the order under which a drill is, as one of the drill without
// it.
func OrderOf(bare, d *sim.Drill) sim.Order {
	o := sim.Order{Name: d.Order}
	for _, g := range d.Groups {
		g.Sequence, g.Lead = slices.Clone(g.Sequence[g.Lead:]), 0
		o.Groups = append(o.Groups, g)
	}
	for i := range d.Tasks {
		if crew := d.Tasks[i].Crew; crew != bare.Tasks[i].Crew {
			o.Crews = append(o.Crews, sim.CrewChoice{Task: i, Crew: crew})
		}
	}
	return o
}

// improved looks for a better order of a team than some drills of it are under,
// and returns it; nil when it finds none. It plays no more drills than some in
// search, and holds what leads then against each other and against what there was.
func (g *Game) improved(ctx context.Context, purse *purse, keep guard, bare *sim.Drill, under []*candidate, drills int) (*candidate, error) {
	if purse.capped {
		drills = drills * 3 / 4 // the rest is for the heats
	}
	drills, _ = purse.pay(drills, 1)
	if drills <= len(under) {
		return nil, nil
	}
	o := search.Options{Aims: []search.Aim{{Milestone: g.Milestone}}, AtLeast: keep.limits(), Evaluations: drills, Runs: min(g.Runs, chosenRuns), Seed: g.searchSeed(), Workers: g.Workers}
	for k, c := range under {
		order := OrderOf(bare, c.drill)
		order.Name = fmt.Sprintf("order %d", k+1) // told apart from what is found
		o.Orders = append(o.Orders, order)
	}
	leaders, err := search.Leaders(ctx, bare, o)
	switch {
	case errors.Is(err, search.ErrNothingToSearch) || never(err):
		return nil, nil
	case err != nil:
		return nil, err
	case ctx.Err() != nil:
		return nil, ctx.Err()
	}
	field := slices.Clone(under)
	for _, order := range leaders {
		order.Name = ""
		field = append(field, &candidate{drill: bare.Under(order)})
	}
	best, err := g.heats(ctx, purse, keep, field, leaderHeats)
	if best == nil || err != nil || slices.Contains(under, best) {
		return nil, err
	}
	return best, nil
}

// heats holds some drills against each other, in few runs first and the best of
// them in more, and returns the best; nil where the purse reaches for none.
func (g *Game) heats(ctx context.Context, purse *purse, keep guard, field []*candidate, list []heat) (*candidate, error) {
	for _, s := range list {
		var err error
		if field, err = g.play(ctx, purse, keep, field, s.runs); err != nil {
			return nil, err
		}
		field = field[:min(len(field), s.keep)]
	}
	if len(field) == 0 {
		return nil, nil
	}
	return field[0], nil
}

// better looks for a better order of a team, from the orders there are and the best
// splits on, and puts it in the place of the best split into as many groups where
// it is sooner.
func (g *Game) better(ctx context.Context, purse *purse, keep guard, bare *sim.Drill, winners, orders []*candidate, drills int) ([]*candidate, error) {
	found, err := g.improved(ctx, purse, keep, bare, slices.Concat(orders, winners), drills)
	if found == nil || err != nil {
		return winners, err
	}
	at := slices.IndexFunc(winners, func(c *candidate) bool { return len(c.drill.Groups) == len(found.drill.Groups) })
	if at < 0 {
		return append(winners, found), nil
	}
	ranked, err := g.play(ctx, purse, keep, []*candidate{found, winners[at]}, chosenRuns)
	if err == nil && len(ranked) > 0 && ranked[0] == found {
		winners = slices.Clone(winners)
		winners[at] = found
	}
	return winners, err
}

// improveOne looks for a better order under one thing more: what a thing is worth is
// what it wins under an order that is good with it.
func (g *Game) improveOne(ctx context.Context, purse *purse, w *Worth, drills int) error {
	found, err := g.improved(ctx, purse, w.keep, w.Drill, []*candidate{{drill: w.Drill}}, drills)
	if err != nil {
		return err
	}
	if found != nil {
		w.Drill, w.found = found.drill, true
	}
	return nil
}

// spread tries the orders found under single things without them, and the best of
// those under each: what a better order alone wins, no thing is to be worth. Things
// that change who or what there is to do keep the order that was found with them.
func (g *Game) spread(ctx context.Context, purse *purse, better *Worth, list []*Worth) error {
	under := func(d, order *sim.Drill) *candidate { return &candidate{drill: d.Under(OrderOf(d, order))} }
	alike := slices.DeleteFunc(slices.Clone(list), func(w *Worth) bool {
		return w.Kind != Tool && w.Kind != Stove && w.Kind != Learned
	})
	field := []*candidate{{drill: better.Drill}}
	for _, w := range alike {
		if w.found {
			field = append(field, under(better.Drill, w.Drill))
		}
	}
	best, err := g.heats(ctx, purse, better.keep, field, leaderHeats)
	if best == nil || best == field[0] || err != nil {
		return err
	}
	better.Drill = best.drill
	for _, w := range alike {
		one, err := g.heats(ctx, purse, w.keep, []*candidate{{drill: w.Drill}, under(w.Drill, best.drill)}, leaderHeats[1:])
		if err != nil {
			return err
		}
		if one != nil {
			w.Drill = one.drill
		}
	}
	return nil
}
