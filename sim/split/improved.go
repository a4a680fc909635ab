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
// the whole team, and for one person more, when nobody says how many may be played.
const (
	improvedDrills = 12_000
	betterDrills   = 10_000
	personDrills   = 1_500
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
// It also returns those that lead.
func (g *Game) improved(ctx context.Context, purse *purse, keep guard, bare *sim.Drill, under []*candidate, drills int) (best *candidate, lead []*candidate, err error) {
	if purse.capped {
		drills = drills * 3 / 4 // the rest is for the heats
	}
	drills, _ = purse.pay(drills, 1)
	if drills <= len(under) {
		return nil, nil, nil
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
		return nil, nil, nil
	case err != nil:
		return nil, nil, err
	case ctx.Err() != nil:
		return nil, nil, ctx.Err()
	}
	for _, order := range leaders {
		order.Name = ""
		lead = append(lead, &candidate{drill: bare.Under(order)})
	}
	best, err = g.heats(ctx, purse, keep, slices.Concat(under, lead), leaderHeats)
	if slices.Contains(under, best) {
		best = nil
	}
	return best, lead[:min(len(lead), mostPooled)], err
}

// heats holds some drills against each other, in few runs first and the best of
// them in more, and returns the best; nil where the purse reaches for none.
func (g *Game) heats(ctx context.Context, purse *purse, keep guard, field []*candidate, list []heat) (*candidate, error) {
	field, err := g.ranked(ctx, purse, keep, field, list)
	if len(field) == 0 {
		return nil, err
	}
	return field[0], err
}

// ranked is heats, and returns all that stay to the end, the best first.
func (g *Game) ranked(ctx context.Context, purse *purse, keep guard, field []*candidate, list []heat) ([]*candidate, error) {
	for _, s := range list {
		var err error
		if field, err = g.play(ctx, purse, keep, field, s.runs); err != nil {
			return nil, err
		}
		field = field[:min(len(field), s.keep)]
	}
	return field, nil
}

// better looks for a better order of a team, from the orders there are and the best
// splits on, and puts it in the place of the best split into as many groups where
// it is sooner. It also returns the orders that the search thought best.
func (g *Game) better(ctx context.Context, purse *purse, keep guard, bare *sim.Drill, winners, orders []*candidate, drills int) (_, lead []*candidate, err error) {
	found, lead, err := g.improved(ctx, purse, keep, bare, slices.Concat(orders, winners), drills)
	if found == nil || err != nil {
		return winners, lead, err
	}
	at := slices.IndexFunc(winners, func(c *candidate) bool { return len(c.drill.Groups) == len(found.drill.Groups) })
	if at < 0 {
		return append(winners, found), lead, nil
	}
	ranked, err := g.play(ctx, purse, keep, []*candidate{found, winners[at]}, chosenRuns)
	if err == nil && len(ranked) > 0 && ranked[0] == found {
		winners = slices.Clone(winners)
		winners[at] = found
	}
	return winners, lead, err
}
