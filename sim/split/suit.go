package split

import (
	"context"

	"warmby/sim"
)

// mostPooled is how many of the orders that a search thought best are tried with each
// thing more.
const mostPooled = 8

// suitHeats are how orders are held against each other with one thing more; what is
// tried last is also asked whether the evening stays as good.
var (
	suitHeats = []heat{{4, 6}, {16, 3}, {64, 2}}
	suitLast  = []heat{{thingRuns, 1}}
)

// suit gives each of some things an order that is good with it, for what a thing is
// worth is what it wins then. It is one of a pool, that the search for the team found;
// for one person more there is a search.
func (g *Game) suit(ctx context.Context, purse *purse, keep guard, things []*Worth, pool []*candidate) error {
	var person []*sim.Drill // orders found for one person more
	for i, w := range things {
		purse.kept = purse.left - purse.part(len(things)-i, purse.left)
		field := []*candidate{{drill: w.Drill}}
		for _, c := range pool {
			if c.short == 0 {
				field = append(field, possible(w.under(c.drill)...)...)
			}
		}
		if w.Kind == Skilled {
			bare := w.under(g.Bare)[0]
			for _, d := range person {
				field = append(field, possible(bare.Under(OrderOf(bare, d)))...)
			}
		}
		best, err := g.suitable(ctx, purse, keep, field)
		if err != nil {
			return err
		}
		w.Drill = best.drill
		if w.Kind == Person {
			if person, err = g.withOneMore(ctx, purse, keep, w); err != nil {
				return err
			}
		}
	}
	purse.kept = 0
	return nil
}

// suitable returns the best of a field that leaves the evening as good as the first of
// it does; the first where the purse reaches for nothing.
func (g *Game) suitable(ctx context.Context, purse *purse, keep guard, field []*candidate) (*candidate, error) {
	own := field[0]
	best, err := g.ranked(ctx, purse, guard{}, field, suitHeats)
	if len(best) == 0 || best[0] == own || err != nil {
		return own, err
	}
	if keep, err = keep.with(ctx, g, purse, own.drill); err != nil || !keep.on() {
		return best[0], err
	}
	last, err := g.heats(ctx, purse, keep, append([]*candidate{own}, best...), suitLast)
	if last == nil {
		last = own
	}
	return last, err
}

// withOneMore looks for a better order of the team with one person more, and returns
// what it found.
func (g *Game) withOneMore(ctx context.Context, purse *purse, keep guard, w *Worth) (found []*sim.Drill, err error) {
	drills := purse.part(1, personDrills)
	if keep, err = keep.with(ctx, g, purse, w.Drill); err != nil {
		return nil, err
	}
	best, leaders, err := g.improved(ctx, purse, keep, w.under(g.Bare)[0], []*candidate{{drill: w.Drill}}, drills)
	if best != nil {
		w.Drill = best.drill
	}
	found = []*sim.Drill{w.Drill}
	for _, c := range leaders {
		if c.short == 0 {
			found = append(found, c.drill)
		}
	}
	return found, err
}

// possible returns those of some drills as candidates under which every task can start.
func possible(drills ...*sim.Drill) (list []*candidate) {
	for _, d := range drills {
		if sim.Possible(d) == nil {
			list = append(list, &candidate{drill: d})
		}
	}
	return list
}
