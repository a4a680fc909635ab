package split

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"warmby/sim"
	"warmby/sim/search"
)

// How many drills the search for a better order plays for a size, and for one thing
// more, when nobody says how many may be played.
const (
	improvedDrills = 12_000
	worthDrills    = 2_500
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
// and returns it; nil when it finds none. It plays no more drills than some.
func (g *Game) improved(ctx context.Context, purse *purse, bare *sim.Drill, under []*sim.Drill, drills int) (*sim.Drill, error) {
	drills, _ = purse.pay(drills, 1)
	if drills <= len(under) {
		return nil, nil
	}
	o := search.Options{Aims: []search.Aim{{Milestone: g.Milestone}}, Evaluations: drills, Runs: min(g.Runs, chosenRuns), Seed: g.searchSeed(), Workers: g.Workers}
	for k, d := range under {
		order := OrderOf(bare, d)
		order.Name = fmt.Sprintf("order %d", k+1) // told apart from what is found
		o.Orders = append(o.Orders, order)
	}
	r, err := search.Improve(ctx, bare, o)
	switch {
	case errors.Is(err, search.ErrNothingToSearch) || never(err):
		return nil, nil
	case err != nil:
		return nil, err
	case r.Interrupted:
		return nil, ctx.Err()
	case r.Orders[0].Known != "":
		return nil, nil
	}
	found := r.Orders[0].Order
	found.Name = ""
	return bare.Under(found), nil
}

// better looks for a better order of a team, from the orders there are and the best
// splits on, and puts it in the place of the best split into as many groups where
// it is sooner.
func (g *Game) better(ctx context.Context, purse *purse, bare *sim.Drill, winners, orders []*candidate, drills int) ([]*candidate, error) {
	var under []*sim.Drill
	for _, c := range slices.Concat(orders, winners) {
		under = append(under, c.drill)
	}
	d, err := g.improved(ctx, purse, bare, under, drills)
	if d == nil || err != nil {
		return winners, err
	}
	found := &candidate{drill: d}
	at := slices.IndexFunc(winners, func(c *candidate) bool { return len(c.drill.Groups) == len(d.Groups) })
	if at < 0 {
		return append(winners, found), nil
	}
	ranked, err := g.play(ctx, purse, []*candidate{found, winners[at]}, chosenRuns)
	if err == nil && len(ranked) > 0 && ranked[0] == found {
		winners = slices.Clone(winners)
		winners[at] = found
	}
	return winners, err
}

// improveAll looks for a better order under each thing more: what a thing is worth
// is what it wins under an order that is good with it.
func (g *Game) improveAll(ctx context.Context, purse *purse, list []*Worth) error {
	drills := worthDrills
	if purse.capped {
		drills = max(0, purse.left) / max(1, len(list))
	}
	for _, w := range list {
		d, err := g.improved(ctx, purse, w.Drill, []*sim.Drill{w.Drill}, drills)
		if err != nil {
			return err
		}
		if d != nil {
			w.Drill = d
		}
	}
	return nil
}
