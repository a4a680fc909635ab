package search

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"warmby/sim"
	"warmby/sim/bound"
	"warmby/sim/cold"
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// ErrNothingToSearch says that a drill has no two orders: fewer than two tasks.
var ErrNothingToSearch = errors.New("a drill of one task has one order only: there is nothing to search")

// Improve looks for a better order of a drill. The drill should be without an
// order, as the scenario means it: the orders that it has are options. A drill
// in which something can never start whatever the order, by [sim.Possible], is
// refused with a *[sim.NeverError].
//
// When the context is done the best so far is judged in a hurry and returned;
// that is no error.
//
// The search goes: priority rules and the scenario's own orders; then, round after
// round, evolutionary search on usual values and in a handful of drawn runs (where
// only lengths, tools and people count with forward-backward improvement), a
// race of what it found into an archive, and small changes to what is in it;
// then what is found is brought nearer to the orders that people know; then
// judgement on fresh runs.
func Improve(ctx context.Context, d *sim.Drill, o Options) (*Result, error) {
	g, err := newGame(ctx, d, &o)
	if err != nil {
		return nil, err
	}
	g.prepare()
	players := g.players()
	before := g.before(players[0])
	return g.judge(players, before, g.search(players, before))
}

// Judge holds orders of a drill against each other on fresh runs, without any
// search: the first is the one to beat, and taken for the best unless the runs
// say otherwise. Of the options, Aims, InTime, AtLeast, Runs, Seed and
// Workers count.
func Judge(ctx context.Context, d *sim.Drill, orders []sim.Order, o Options) (*Result, error) {
	o.Orders = orders
	g, err := newGame(ctx, d, &o)
	if err != nil {
		return nil, err
	}
	g.limit = math.MaxInt64 // nothing is searched
	g.prepare()
	players := g.players()
	before := g.before(players[0])
	return g.judge(players, before, g.ownOrders(players[0], before))
}

func (g *game) players() []*player {
	players := make([]*player, max(1, g.o.Workers))
	for k := range players {
		players[k] = g.player()
	}
	return players
}

func newGame(ctx context.Context, d *sim.Drill, o *Options) (*game, error) {
	if len(d.Tasks) < 2 {
		return nil, ErrNothingToSearch
	}
	settleAims(d, o)
	if len(o.Orders) == 0 {
		o.Orders = []sim.Order{{}}
	}
	if o.Evaluations <= 0 {
		o.Evaluations = DefaultEvaluations
	}
	if err := sim.Possible(d.Under(o.Orders[0])); err != nil {
		return nil, err
	}
	// A trial may narrow crews, not widen them: it starts from the drill's own. With
	// everybody in one group a crew of all may be more than there are tools for.
	program := fast.Compile(d.Under(sim.Order{Groups: o.Orders[0].Groups}))
	g := &game{ctx: ctx, d: d, o: o, program: program, bounds: bound.New(d), usual: draw.Usual(d), limit: int64(o.Evaluations), limits: limitsOf(o), targets: targetsOf(d)}
	for _, a := range o.Aims {
		g.chilled = g.chilled || a.Goal.cold()
	}
	for _, l := range g.limits {
		g.chilled = g.chilled || l.goal.cold()
	}
	return g, nil
}

// settleAims sets what is aimed at, in a sequence that does not depend on that in
// which it was asked for.
func settleAims(d *sim.Drill, o *Options) {
	if len(o.Aims) == 0 && (len(targetsOf(d)) > 0 || cold.Kept(d)) {
		o.Aims = []Aim{{Goal: AllWell}}
	} else if len(o.Aims) == 0 {
		o.Aims = []Aim{{Milestone: len(d.Milestones) - 1, Statistic: Mean}}
	}
	o.Aims = slices.Clone(o.Aims)
	for k, a := range o.Aims {
		if a.Milestone < 0 || a.Milestone >= len(d.Milestones) {
			panic(fmt.Sprintf("search: milestone %d of %d", a.Milestone, len(d.Milestones)))
		}
		if a.Goal.Share() {
			o.Aims[k] = Aim{Goal: a.Goal}
		}
	}
	slices.SortStableFunc(o.Aims, func(a, b Aim) int {
		return cmp.Or(cmp.Compare(b.Goal, a.Goal), cmp.Compare(a.Milestone, b.Milestone), cmp.Compare(a.Statistic, b.Statistic))
	})
	o.Aims = slices.Compact(o.Aims)
	if o.ColdLimit && !slices.ContainsFunc(o.AtLeast, func(l AtLeast) bool { return l.Goal == NobodyCold }) {
		o.AtLeast = append(slices.Clone(o.AtLeast), AtLeast{NobodyCold, coldOdds})
	}
}

// coldOdds is how often nobody passes the cold limit when that is asked for
// without odds.
const coldOdds = 0.9

// targetsOf lists the milestones that have a target.
func targetsOf(d *sim.Drill) (list []int) {
	for m := range d.Milestones {
		if d.Milestones[m].By != sim.Never {
			list = append(list, m)
		}
	}
	return list
}

// before plays the order to beat. Where it comes to a stop others are tried,
// for orders that do not are found only where there are any.
func (g *game) before(p *player) *candidate {
	g.bases, g.scale = make([]float64, len(g.o.Aims)), 1
	for k := range g.bases {
		g.bases[k] = 1
	}
	c := &candidate{plan: planOf(g.d, g.o.Orders[0]), order: g.o.Orders[0], known: g.o.Orders[0].Name, own: true, toBeat: true}
	p.tryOrder(heading{w: make(objective, len(g.o.Aims))}, c)
	g.stops = g.allStop()
	g.scale = max(1, moment(c.milestones[len(g.d.Milestones)-1]))
	for k, a := range g.o.Aims {
		if !a.Goal.Share() {
			g.bases[k] = max(1, moment(c.milestones[a.Milestone]))
		}
	}
	c.score = g.scored(g.goals()[0], c.usual(), 1)
	return c
}

// allStop reports whether the drill comes to a stop with usual values under each
// of the scenario's orders and of those of the priority rules.
func (g *game) allStop() bool {
	trial := g.program.Trial()
	var r fast.Result
	for k, o := range g.firstOrders(g.d, g.bounds, len(g.d.Milestones)-1) {
		if k > 0 && g.left() == 0 {
			return false // there is no telling
		}
		trial.Reorder(g.d.Under(o))
		if k > 0 { // the order to beat has been counted
			g.played.Add(1)
		}
		if trial.Play(g.usual, &r); r.Stops == nil {
			return false
		}
	}
	return true
}

// ownOrders returns the scenario's own orders, the one to beat first, but for those
// that come to a stop and for what may not be played any more.
func (g *game) ownOrders(p *player, before *candidate) []*candidate {
	list := []*candidate{before}
	defer func() {
		for _, c := range list {
			if c.plan != nil {
				g.known = append(g.known, c.plan)
			}
		}
	}()
	for _, o := range g.o.Orders[1:] {
		if g.left() < g.cases() {
			break
		}
		c := &candidate{plan: planOf(g.d, o), order: o, known: o.Name, own: true}
		if p.tryOrder(g.goals()[0], c) != nil {
			list = append(list, c)
		}
	}
	return list
}

// distinct leaves out candidates that do the same as one before them; the
// scenario's own stay.
func (g *game) distinct(list []*candidate) (out []*candidate) {
	for _, c := range list {
		twin := slices.IndexFunc(out, func(o *candidate) bool { return o == c || g.same(o, c) && g.same(c, o) })
		switch {
		case twin < 0:
			out = append(out, c)
		case c.own && (out[twin].known == "" || out[twin].known == c.known):
			out[twin] = c // better known, or the same one over again
		case !c.own && !out[twin].own && g.burdenOf(c).less(g.burdenOf(out[twin])):
			out[twin] = c // easier to remember
		}
	}
	return out
}

// wanted lists the milestones that aims and limits are about; the finish when
// they are about shares of evenings only.
func (g *game) wanted() (list []int) {
	add := func(m int) {
		if !slices.Contains(list, m) {
			list = append(list, m)
		}
	}
	for _, a := range g.o.Aims {
		switch {
		case a.Goal == Reached:
			add(a.Milestone)
		case a.Goal.targets():
			for _, m := range g.targets {
				add(m)
			}
		}
	}
	if len(list) == 0 {
		add(len(g.d.Milestones) - 1)
	}
	return list
}

// starts returns what the search starts from: the scenario's own orders and
// those that the priority rules give, as many as may be played.
func (g *game) starts(players []*player, own []*candidate) (list []*candidate) {
	for _, c := range own {
		if c.plan != nil {
			list = append(list, c)
		}
	}
	var plans []*plan
	for _, m := range g.wanted() {
		for rule := range ruleCount {
			seq := ruleList(g.bounds, rule, g.usual, m)
			plans = append(plans, newPlan(g.d, seq, false), newPlan(g.d, seq, true))
		}
	}
	tried := make([]*candidate, min(int64(len(plans)), g.left()/g.cases()))
	g.each(players, len(tried), func(p *player, k int) { tried[k] = p.try(g.goals()[0], plans[k]) })
	for _, c := range tried {
		if c != nil {
			list = append(list, c)
		}
	}
	return list
}

// serialAlone searches for one aim with usual values, where only lengths, tools
// and people count: nothing finds more with as many evaluations, so it gets
// nearly all of them.
func (g *game) serialAlone() *plan {
	if g.o.Runs > 0 || len(g.o.Aims) > 1 || g.o.Aims[0].Goal.Share() || len(g.limits) > 0 || g.left() < 100 {
		return nil
	}
	pl, _ := g.serial(0, g.left()*19/20-1, rand.New(rand.NewPCG(searchSeed(g.o.Seed), 999)))
	return pl
}

// serial searches for one aim as long as only lengths, tools and people count.
func (g *game) serial(goal int, schedules int64, random *rand.Rand) (*plan, int) {
	if goal >= len(g.o.Aims) || len(g.scenes) > 0 || g.o.Aims[goal].Goal.Share() || schedules < 10 {
		return nil, 0
	}
	list, made := inTurnList(g.ctx, g.d, bound.New(g.d), g.usual, g.o.Aims[goal].Milestone, int(schedules), random)
	g.played.Add(int64(made))
	if list == nil {
		return nil, 0
	}
	return newPlan(g.d, list, true), made
}
