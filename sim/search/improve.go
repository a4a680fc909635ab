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
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// ErrNothingToSearch says that a drill has no two orders: fewer than two tasks.
var ErrNothingToSearch = errors.New("a drill of one task has one order only: there is nothing to search")

// Improve looks for a better order of a drill. The drill should be without an
// order, as the scenario means it: the orders that it has are options. A drill
// that can never finish is refused with a *[sim.NeverError]; so is one that
// comes to a stop under every order tried.
//
// When the context is done the best so far is judged in a hurry and returned;
// that is no error.
//
// The search goes: priority rules and the scenario's own orders; an
// evolutionary search on usual values, where only lengths, tools and people
// count with forward-backward improvement; a race under common luck; small
// changes to the winner; judgement on fresh runs.
func Improve(ctx context.Context, d *sim.Drill, o Options) (*Result, error) {
	g, err := newGame(ctx, d, &o)
	if err != nil {
		return nil, err
	}
	g.prepare()
	players := g.players()
	before, err := g.before(players[0])
	if err != nil {
		return nil, err
	}
	return g.judge(players, before, g.search(players, before))
}

// Judge holds orders of a drill against each other on fresh runs, without any
// search: the first is the one to beat, and taken for the best unless the runs
// say otherwise. Of the options, Aims, InTime, ColdLimit, Runs, Seed and Workers
// count.
func Judge(ctx context.Context, d *sim.Drill, orders []sim.Order, o Options) (*Result, error) {
	o.Orders = orders
	g, err := newGame(ctx, d, &o)
	if err != nil {
		return nil, err
	}
	g.limit = math.MaxInt64 // nothing is searched
	g.prepare()
	players := g.players()
	before, err := g.before(players[0])
	if err != nil {
		return nil, err
	}
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
	if len(o.Aims) == 0 {
		o.Aims = []Aim{{Milestone: len(d.Milestones) - 1, Statistic: Mean}}
	}
	for _, a := range o.Aims {
		if a.Milestone < 0 || a.Milestone >= len(d.Milestones) {
			panic(fmt.Sprintf("search: milestone %d of %d", a.Milestone, len(d.Milestones)))
		}
	}
	if len(o.Orders) == 0 {
		o.Orders = []sim.Order{{}}
	}
	if o.Evaluations <= 0 {
		o.Evaluations = DefaultEvaluations
	}
	if err := sim.Possible(d.Under(o.Orders[0])); err != nil {
		return nil, err
	}
	// A trial may narrow crews, not widen them: it starts from the drill's own.
	program, err := fast.Compile(d.Under(sim.Order{}))
	if err != nil {
		return nil, err
	}
	return &game{ctx: ctx, d: d, o: o, program: program, bounds: bound.New(d), usual: draw.Usual(d), limit: int64(o.Evaluations)}, nil
}

// before plays the order to beat. It is an error when it comes to a stop.
func (g *game) before(p *player) (*candidate, error) {
	g.bases = make([]float64, len(g.o.Aims))
	for k := range g.bases {
		g.bases[k] = 1
	}
	c := &candidate{plan: planOf(g.d, g.o.Orders[0]), order: g.o.Orders[0], known: g.o.Orders[0].Name, own: true}
	if p.tryOrder(make(objective, len(g.o.Aims)), c) == nil {
		p.set(c.order)
		return nil, p.trial.Play(g.usual, &p.r)
	}
	for k, a := range g.o.Aims {
		g.bases[k] = max(1, moment(c.milestones[a.Milestone]))
	}
	c.score = g.scoreOf(g.objectives()[0], c.milestones)
	if c.warmed = g.left() < g.cases(); !c.warmed { // no drill left for the account
		p.keepWarm(c)
	}
	return c, nil
}

// ownOrders returns the scenario's own orders, the one to beat first, but for those
// that come to a stop and for what may not be played any more.
func (g *game) ownOrders(p *player, before *candidate) []*candidate {
	list := []*candidate{before}
	for _, o := range g.o.Orders[1:] {
		if g.left() < g.cost() {
			break
		}
		c := &candidate{plan: planOf(g.d, o), order: o, known: o.Name, own: true}
		if p.tryOrder(g.objectives()[0], c) != nil {
			p.keepWarm(c)
			list = append(list, c)
		}
	}
	return list
}

// search returns what is worth judging, the best first, the scenario's own
// orders last.
func (g *game) search(players []*player, before *candidate) []*candidate {
	goals := g.objectives()
	own := g.ownOrders(players[0], before)
	kept := g.islands(players, goals, g.starts(players, own))
	var found []*candidate
	for k, w := range goals {
		var list []*candidate
		for i := k * islandsEach; i < (k+1)*islandsEach; i++ {
			list = append(list, kept[i]...)
		}
		list = ranked(list)
		list = append(list[:min(len(list), max(4, g.o.Evaluations/racing/len(goals)))], own...)
		if g.o.Runs > 0 && len(g.lucks) > 0 {
			// A tenth is left for simplifying.
			g.limit = g.played.Load() + max(0, int64(g.o.Evaluations)*9/10-g.played.Load())/int64(len(goals)-k)
			list = g.race(players, w, list)
			list = g.climb(players, w, list, rand.New(rand.NewPCG(searchSeed(g.o.Seed), uint64(1000+k))))
			g.limit = int64(g.o.Evaluations)
		}
		list = list[:min(len(list), 10)]
		if len(g.o.Aims) == 1 { // of a front each is simplified that is on it
			g.simplify(players, w, list[:min(len(list), 4)])
		}
		found = append(found, list...)
	}
	if len(g.o.Aims) > 1 {
		found = g.outlook(players, goals[0], found, kept)
	}
	for _, c := range own {
		if !slices.Contains(found, c) {
			found = append(found, c)
		}
	}
	return g.distinct(found)
}

// islandsEach is how many islands each goal has, on any number of workers.
const islandsEach = 2

// islandRuns is in how many drawn runs an island tries each plan.
const islandRuns = 10

// islands searches with usual values and, unless they are all that counts, then
// in drawn runs.
func (g *game) islands(players []*player, goals []objective, starts []*candidate) [][]*candidate {
	kept := make([][]*candidate, islandsEach*len(goals))
	share := func() int64 { return g.left() / int64(len(kept)) }
	usual, drawn := share(), int64(0)
	if all := share(); g.o.Runs > 0 && all >= leastDrawn {
		g.drawLucks(searchRuns)
		usual, drawn = all/8, all/2
	}
	serial := true // still to be tried
	if pl := g.serialAlone(goals); pl != nil {
		if c := players[0].try(goals[0], pl); c != nil {
			starts = append([]*candidate{c}, starts...)
		}
		serial = false
		// What is left is for the other milestones; some is kept for simplifying.
		usual = max(0, min(g.left()-20, int64(max(1000, g.o.Evaluations/20)))/int64(len(kept)))
	}
	g.each(players, len(kept), func(p *player, k int) {
		goal, random := k/islandsEach, rand.New(rand.NewPCG(searchSeed(g.o.Seed), uint64(k)))
		from, share := starts, usual
		if serial {
			if pl, made := g.serial(goal, share/2, random); pl != nil {
				share -= int64(made)
				if share >= g.cost() {
					share -= g.cost()
					if c := p.try(goals[goal], pl); c != nil {
						p.keepWarm(c)
						from = append([]*candidate{c}, starts...)
					}
				}
			}
		}
		kept[k] = p.evolve(goals[goal], from, 0, share, random)
		if drawn == 0 {
			return
		}
		from = append(slices.Clone(from), kept[k][:min(len(kept[k]), islandSize)]...)
		kept[k] = p.evolve(goals[goal], from, islandRuns, drawn, random)
	})
	return kept
}

// serialAlone searches for one aim with usual values, where only lengths, tools
// and people count: nothing finds more with as many evaluations, so it gets
// nearly all of them.
func (g *game) serialAlone(goals []objective) *plan {
	if g.o.Runs > 0 || len(goals) > 1 || len(g.o.InTime) > 0 || g.o.ColdLimit || g.left() < 100 {
		return nil
	}
	pl, _ := g.serial(0, g.left()*19/20-1, rand.New(rand.NewPCG(searchSeed(g.o.Seed), 999)))
	return pl
}

// leastDrawn is from how many evaluations for each on islands try orders in
// drawn runs, too.
const leastDrawn = 400

// racing is how many evaluations of a search there are for each order that
// goes into the race. Those that are best with usual values are often not so in
// the drawn runs, so many are let in.
const racing = 150

// mostOnFront is how many orders of a front are simplified and judged.
const mostOnFront = 24

// outlook returns orders for several aims: those found of which none is better
// in all, by the runs of the search, and those of the islands by usual values.
func (g *game) outlook(players []*player, w objective, found []*candidate, kept [][]*candidate) []*candidate {
	for _, list := range kept {
		found = append(found, list...)
	}
	found = ranked(found)
	front := g.front(found, func(c *candidate, a Aim) float64 {
		latest, _ := g.latest(c.milestones, a.Milestone)
		return latest
	})
	first := g.o.Aims[0].Milestone
	if len(g.lucks) > 0 && g.ctx.Err() == nil {
		front = spaced(front, max(6, g.o.Evaluations/10/searchRuns), first)
		for _, c := range found {
			if c.times != nil && len(c.times[0]) == searchRuns {
				front = append(front, c)
			}
		}
		front = ranked(front)
		if len(g.affordable(front, searchRuns, 0)) < len(front) {
			return front[:min(len(front), mostOnFront)] // too few drills are left: judgement will tell
		}
		g.each(players, len(front), func(p *player, i int) { p.run(front[i], searchRuns) })
		front = g.front(front, func(c *candidate, a Aim) float64 {
			if c.times == nil || len(c.times[0]) < searchRuns {
				return never // interrupted
			}
			latest := 0.0
			for _, m := range g.columns(a.Milestone) {
				latest = max(latest, a.Statistic.Of(c.times[m]))
			}
			return latest
		})
	}
	front = spaced(front, mostOnFront, first)
	g.simplify(players, w, front)
	return front
}

// spaced returns no more than some candidates of a front, evenly spread from one
// end by a milestone to the other.
func spaced(list []*candidate, most, milestone int) (out []*candidate) {
	if len(list) <= most {
		return list
	}
	slices.SortStableFunc(list, func(a, b *candidate) int { return cmp.Compare(a.milestones[milestone], b.milestones[milestone]) })
	for k := range most {
		out = append(out, list[k*(len(list)-1)/(most-1)])
	}
	return out
}

// front returns those candidates than which none fails less in what is asked,
// and of these those than which none is as good in all aims and better in one.
func (g *game) front(list []*candidate, value func(c *candidate, a Aim) float64) (out []*candidate) {
	least := math.Inf(1)
	for _, c := range list {
		least = min(least, c.score.fails)
	}
	var values [][]float64
	for _, c := range list {
		if c.score.fails > least {
			continue
		}
		var v []float64
		for _, a := range g.o.Aims {
			v = append(v, value(c, a))
		}
		out, values = append(out, c), append(values, v)
	}
	n := 0
	for i, c := range out {
		if !dominated(values, i) {
			out[n] = c
			n++
		}
	}
	return out[:n]
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
		}
	}
	return out
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
	for _, a := range g.o.Aims {
		for rule := range ruleCount {
			seq := ruleList(g.bounds, rule, g.usual, a.Milestone)
			plans = append(plans, newPlan(g.d, seq, false), newPlan(g.d, seq, true))
		}
	}
	tried := make([]*candidate, min(int64(len(plans)), g.left()/g.cost()))
	g.each(players, len(tried), func(p *player, k int) {
		if tried[k] = p.try(g.objectives()[0], plans[k]); tried[k] != nil {
			p.keepWarm(tried[k])
		}
	})
	for _, c := range tried {
		if c != nil {
			list = append(list, c)
		}
	}
	return list
}

// serial searches for one aim as long as only lengths, tools and people count.
func (g *game) serial(goal int, schedules int64, random *rand.Rand) (*plan, int) {
	if goal >= len(g.o.Aims) || len(g.scenes) > 0 {
		return nil, 0
	}
	list, made := inTurnList(g.ctx, g.d, bound.New(g.d), g.usual, g.o.Aims[goal].Milestone, int(schedules), random)
	g.played.Add(int64(made))
	if list == nil {
		return nil, 0
	}
	return newPlan(g.d, list, true), made
}
