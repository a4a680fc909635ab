package split

import (
	"context"
	"fmt"
	"slices"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// Kind says what there is more of.
type Kind string

// The kinds of what may be worth something.
const (
	Person  Kind = "person"  // one more, without skills
	Skilled Kind = "skilled" // one more, with one skill
	Learned Kind = "skill"   // one of the team has one more skill
	Tool    Kind = "tool"
	Stove   Kind = "stove"
	Packing Kind = "packing" // an item lies on top of its load
	Better  Kind = "order"   // nothing but a better order
)

// Worth is what one thing more, or a load packed otherwise, does.
type Worth struct {
	Kind Kind
	What string // the skill, tool, stove or item; "" for a person without skills
	// Where is the group that the person belongs to, "" for one of his own, who has
	// the skill, or the load of the item; of several the one that did best in the
	// search.
	Where string
	Drill *sim.Drill
	// Change is the drill with it (a) against the drill as it is (b) at the
	// milestone of the game, each under the best order that as long a search finds: a
	// negative mean is won. For a better order it is the drill under that against
	// the drill as it is. All intervals of a list hold together with 95 %.
	Change stats.Difference

	played *compare.Played // the drill with it, as it is told of
	// under returns the drill with it under another order of the team, in each place
	// where it may be.
	under func(*sim.Drill) []*sim.Drill
}

// Worth tells what is worth how much to a split that has been played with the runs
// of the game: first a better order, then each thing more on top of that. The order
// starts from the best split there is, where that is sooner.
func (g *Game) Worth(ctx context.Context, base *Split, own *Size) ([]*Worth, error) {
	d, best, keep := base.Drill, own.BestSplit(), own.keep
	if best.Stopped <= base.Stopped && (g.sum(best) < g.sum(base) || !base.kept) {
		d = best.Drill
	}
	purse := g.open()
	defer func() { g.close(purse) }()
	better, lead, err := g.improved(ctx, purse, keep, g.Bare, []*candidate{{drill: d}}, purse.part(4, betterDrills))
	if err != nil {
		return nil, err
	}
	if better != nil {
		d = better.drill
	}
	list, err := g.more(ctx, purse, d)
	if err != nil {
		return nil, err
	}
	felt, err := g.felt(ctx, purse, d, list)
	if err != nil {
		return nil, err
	}
	if err := g.suit(ctx, purse, keep, felt, append(lead, own.pool...)); err != nil {
		return nil, err
	}
	list = append([]*Worth{{Kind: Better, Drill: d}}, list...)
	return list, g.tell(ctx, base, list)
}

// feltRuns is in how many runs a thing that changes nothing is told from others.
const feltRuns = 32

// felt returns the things of a list that change any milestone of a drill, in some run
// of the search. No order is looked for under the others, such as a shovel that
// nobody ever waits for.
func (g *Game) felt(ctx context.Context, purse *purse, d *sim.Drill, list []*Worth) (felt []*Worth, err error) {
	drills := []*sim.Drill{d}
	for _, w := range list {
		drills = append(drills, w.Drill)
	}
	within, runs := purse.pay(len(drills), feltRuns)
	if within < len(drills) {
		return list, nil
	}
	played, err := g.playOf(ctx, drills, g.searchSeed(), runs)
	if err != nil {
		return nil, err
	}
	for i, w := range list {
		if !slices.EqualFunc(played[0].Times, played[1+i].Times, slices.Equal) {
			felt = append(felt, w)
		}
	}
	return felt, nil
}

// more lists each thing that there may be one more of, in the drill with it.
func (g *Game) more(ctx context.Context, purse *purse, d *sim.Drill) (list []*Worth, err error) {
	for skill := -1; skill < len(d.Skills); skill++ {
		w, err := g.bestPlace(ctx, purse, onePersonMore(d, skill))
		if err != nil {
			return nil, err
		}
		if w != nil {
			list = append(list, w)
		}
	}
	for skill := range d.Skills {
		w, err := g.bestPlace(ctx, purse, whoLearns(d, skill))
		if err != nil {
			return nil, err
		}
		if w != nil {
			list = append(list, w)
		}
	}
	add := func(w Worth, change func(*sim.Drill, int) *sim.Drill, i int) {
		w.Drill, w.under = change(d, i), func(d *sim.Drill) []*sim.Drill { return []*sim.Drill{change(d, i)} }
		list = append(list, &w)
	}
	for i, t := range d.Tools {
		add(Worth{Kind: Tool, What: t.Name}, OneMoreTool, i)
	}
	for i, s := range d.Stoves {
		add(Worth{Kind: Stove, What: s.Name}, OneMoreStove, i)
	}
	for i, item := range d.Items {
		if i > 0 && d.Items[i-1].Load == item.Load {
			add(Worth{Kind: Packing, What: item.Name, Where: d.Loads[item.Load].Name}, OnTop, i)
		}
	}
	return list, nil
}

// tell plays the first of a list against the base, and the others against the
// first.
func (g *Game) tell(ctx context.Context, base *Split, list []*Worth) error {
	var drills []*sim.Drill
	for _, w := range list {
		drills = append(drills, w.Drill)
	}
	played, err := g.tellOf(ctx, drills)
	if err != nil {
		return err
	}
	var family []*stats.Paired
	against := func(i int) *compare.Played {
		if i == 0 {
			return base.Played
		}
		return played[0]
	}
	for i, p := range played {
		list[i].played = p
		family = append(family, compare.Pair(p.Times[g.Milestone], against(i).Times[g.Milestone]))
	}
	for i, change := range stats.Simultaneous(family) {
		change.Doubt = compare.Doubtful(played[i], against(i), g.Milestone, change)
		list[i].Change = change
	}
	return nil
}

// bestPlace returns that of a list which is soonest on the runs of the search,
// the first of equals; nil where none can be played. With a spent purse it is the
// first there is.
func (g *Game) bestPlace(ctx context.Context, purse *purse, list []*Worth) (*Worth, error) {
	field := map[*candidate]*Worth{}
	var in []*candidate
	for _, w := range list {
		if sim.Possible(w.Drill) != nil {
			continue // one more in a crew of everybody, and no tool for them
		}
		c := &candidate{drill: w.Drill}
		field[c] = w
		in = append(in, c)
	}
	if len(in) > 0 && !purse.within(len(in)) {
		return field[in[0]], nil
	}
	best, err := g.heats(ctx, purse, guard{}, in, placeHeats)
	if err != nil || best == nil {
		return nil, err
	}
	return field[best], nil
}

// onePersonMore returns the drill with one more person in each of the groups, and
// in one of his own with nothing in it but what everybody does for himself: who finds
// no work must not get in the way. He is dressed as the last of the roster, and has a
// skill or, for -1, none.
func onePersonMore(d *sim.Drill, skill int) []*Worth {
	p := d.People[len(d.People)-1]
	p.Name, p.Skills, p.Pace, p.Arrives = fmt.Sprintf("Person %d", len(d.People)+1), 0, 1000, nil
	p.Hurt, p.Helps, p.Casualty = nil, false, false
	w := Worth{Kind: Person}
	if skill >= 0 {
		p.Skills = p.Skills.With(skill)
		w.Kind, w.What = Skilled, d.Skills[skill]
	}
	w.under = func(d *sim.Drill) (list []*sim.Drill) {
		for i := range d.Groups {
			list = append(list, withPerson(d, p, i))
		}
		return list
	}
	var list []*Worth
	for i, with := range w.under(d) {
		one := w
		one.Where, one.Drill = d.Groups[i].Name, with
		list = append(list, &one)
	}
	alone := *d
	alone.Groups = append(slices.Clip(d.Groups), sim.Group{Name: p.Name})
	w.Drill = withPerson(&alone, p, len(d.Groups))
	return append(list, &w)
}

// whoLearns returns the drill with each person who has not got a skill having
// it.
func whoLearns(d *sim.Drill, skill int) []*Worth {
	var list []*Worth
	for who, p := range d.People {
		if !p.Skills.Has(skill) {
			learns := func(d *sim.Drill) []*sim.Drill { return []*sim.Drill{Learns(d, who, skill)} }
			list = append(list, &Worth{Kind: Learned, What: d.Skills[skill], Where: p.Name, Drill: learns(d)[0], under: learns})
		}
	}
	return slices.Clip(list)
}
