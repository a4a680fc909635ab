package search

import (
	"context"
	"slices"
	"sync"
	"sync/atomic"

	"warmby/sim"
	"warmby/sim/bound"
	"warmby/sim/cold"
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// game is one search: the drill, what is asked, and the luck that all orders
// meet in it.
type game struct {
	ctx     context.Context
	d       *sim.Drill
	o       *Options
	program *fast.Program
	bounds  *bound.Bounds
	usual   *sim.Luck
	lucks   [][]sim.Luck // of the search, by case and run; none when only usual values count
	scenes  []*scene     // the other cases
	asked   []CaseResult // of all cases, the drill itself first
	bases   []float64    // by aim: what the order to beat takes, for weighing aims
	scale   float64      // when the order to beat finishes
	limits  []limit      // what is asked for
	targets []int        // milestones that have a target
	chilled bool         // whether somebody asks for it in the search
	stops   bool         // whether the drill comes to a stop under every order tried at first
	known   []*plan      // the scenario's own orders
	wins    []Win        // what wins most
	winsOn  *candidate   // on top of which order

	played  atomic.Int64
	limit   int64 // how many drills may have been played by the end of the stage at hand
	talk    sync.Mutex
	bestYet sim.Time
	told    int64
}

// candidate is an order under trial.
type candidate struct {
	plan  *plan // nil for an order that no plan can hold
	order sim.Order
	known string
	own   bool // one of the scenario's own
	// toBeat is whether it is the order to beat.
	toBeat bool

	score      score
	milestones []sim.Time // by column, with usual values
	chill      []float64  // by case, with usual values; see chillOf
	start, end []sim.Time
	evenings             // the search's runs played so far
	vector     []float64 // what an archive holds against others
	led        bool      // whether it has been the best of an archive
}

// objective weighs the aims. What it weighs are shares of what the order to
// beat takes.
type objective []float64

// aside is what the other aims weigh when a search is after one of several.
const aside = 0.1

// heading is what a part of the search is after: an objective, and how it keeps to
// limits.
type heading struct {
	w     objective
	width float64 // of the margin with which limits are to be kept, in standard errors
	// dear is what falling short of the odds asked for weighs: at 1, one evening in
	// 100 too few as much as 1 % of the aim.
	dear   float64
	margin float64 // the margin as a share of evenings
}

// rigours are how limits are kept in different parts of the search. An order that
// just keeps them in the runs of the search fails in half of all others, so margins
// of several widths are tried. Where a miss costs little, the search gets past
// orders that miss.
var rigours = []struct{ width, dear float64 }{{0, 0.3}, {1, 1}, {2, 4}}

// goals returns the headings without a margin.
func (g *game) goals() (list []heading) {
	for _, w := range g.objectives() {
		list = append(list, heading{w: w, dear: rigours[len(rigours)-1].dear})
	}
	return list
}

// headings lists what the search is after: each goal with each rigour that makes a
// difference.
func (g *game) headings() (list []heading) {
	goals := g.goals()
	if len(g.limits) == 0 || g.o.Runs == 0 {
		return goals
	}
	for _, r := range rigours {
		for _, h := range goals {
			list = append(list, heading{w: h.w, width: r.width, dear: r.dear})
		}
	}
	return list
}

// strict returns a heading with its margin, in so many runs.
func (g *game) strict(h heading, runs int) heading {
	h.margin = g.margin(h.width, runs)
	return h
}

// objectives returns what the search is after: the one aim; or each of several
// before the others, and all together.
func (g *game) objectives() (list []objective) {
	n := len(g.o.Aims)
	for k := range n + 1 {
		w := make(objective, n)
		for a := range w {
			w[a] = aside / g.bases[a]
			if a == k || k == n {
				w[a] = 1 / g.bases[a]
			}
		}
		list = append(list, w)
	}
	if n == 1 {
		return list[:1]
	}
	return list
}

// player plays orders one after the other, on one goroutine.
type player struct {
	*game
	actors []*actor // by case
}

// actor plays one case.
type actor struct {
	*fast.Trial
	meter *cold.Meter // nil without an account of cold
	r     fast.Result
	tl    sim.Timeline
	peaks []cold.Peak
}

func (g *game) player() *player {
	p := &player{game: g}
	programs := []*fast.Program{g.program}
	for _, s := range g.scenes {
		programs = append(programs, s.program)
	}
	for k, d := range g.drills() {
		a := &actor{Trial: programs[k].Trial()}
		if cold.Kept(d) {
			a.meter = cold.NewMeter(d)
		}
		p.actors = append(p.actors, a)
	}
	return p
}

// play plays the order that is set. A run that comes to a stop has reached what
// it has reached.
func (a *actor) play(luck *sim.Luck, chilled bool) (at []sim.Time, chill float64, stops bool) {
	if !chilled || a.meter == nil {
		a.Play(luck, &a.r)
		return a.r.Milestones, 0, a.r.Stops != nil
	}
	a.Replay(luck, &a.tl)
	a.peaks = a.meter.Peaks(&a.tl, a.peaks[:0])
	return a.tl.Milestones, chillOf(a.peaks), a.tl.Stops != nil
}

// never counts as this long.
const never = 2 * float64(sim.Horizon)

func moment(t sim.Time) float64 {
	if t == sim.Never {
		return never
	}
	return float64(t)
}

// set gives the trials of all cases an order.
func (p *player) set(o sim.Order) {
	p.actors[0].Reorder(p.d.Under(o))
	for k, s := range p.scenes {
		p.actors[k+1].Reorder(s.d.Under(s.order(p.d, o)))
	}
}

// left is how many drills may still be played in the stage at hand. Jobs that run
// at once get their part of it beforehand: what each may do does not depend on how
// far the others are.
func (g *game) left() int64 { return max(0, g.limit-g.played.Load()) }

// runs is how many there are.
func (e *evenings) runs() int {
	if e.times == nil {
		return 0
	}
	return len(e.times[0])
}

// affordable returns the first of some candidates, as many as may still be
// played in so many runs each, with some drills more for each.
func (g *game) affordable(list []*candidate, runs int, more int64) []*candidate {
	left := g.left()
	for k, c := range list {
		if left -= int64(max(0, runs-c.runs()))*g.cases() + more; left < 0 {
			return list[:k]
		}
	}
	return list
}

// try plays a plan with usual values. It returns nil when the drill comes to a
// stop under it and not under every order.
func (p *player) try(h heading, pl *plan) *candidate {
	return p.tryOrder(h, &candidate{plan: pl, order: pl.order(p.d)})
}

func (p *player) tryOrder(h heading, c *candidate) *candidate {
	p.set(c.order)
	p.played.Add(p.cases())
	for k, a := range p.actors {
		luck := p.usual
		if k > 0 {
			luck = p.scenes[k-1].usual
		}
		at, chill, stops := a.play(luck, p.chilled)
		if stops && !p.mayStop(c, k) {
			return nil // it must be one that can be played in every case
		}
		if k == 0 {
			c.start, c.end = p.times()
		}
		for m := range p.d.Milestones {
			c.milestones = append(c.milestones, reached(at, p.milestoneIn(k, m)))
		}
		c.chill = append(c.chill, chill)
	}
	c.score = p.scored(h, c.usual(), 1)
	return c
}

// mayStop reports whether a candidate may come to a stop in a case: where every
// order does, and where it is the order to beat or, in the other cases, one of
// the scenario's own.
func (p *player) mayStop(c *candidate, in int) bool {
	if in == 0 {
		return p.stops || c.toBeat
	}
	return p.scenes[in-1].stops || c.own
}

// times returns when the tasks of the drill itself started and ended in the run
// that was played last.
func (p *player) times() (start, end []sim.Time) {
	a := p.actors[0]
	if !p.chilled || a.meter == nil {
		return slices.Clone(a.r.Start), slices.Clone(a.r.End)
	}
	for i := range a.tl.Tasks {
		start, end = append(start, a.tl.Tasks[i].Start), append(end, a.tl.Tasks[i].End)
	}
	return start, end
}

// milestoneIn returns which milestone of a case one of the drill searched is.
func (g *game) milestoneIn(in, milestone int) int {
	if in == 0 {
		return milestone
	}
	return g.scenes[in-1].milestone[milestone]
}

// usual returns an order with usual values as if it were one evening.
func (c *candidate) usual() *evenings {
	e := &evenings{}
	for m := range c.milestones {
		e.times = append(e.times, c.milestones[m:m+1])
	}
	for k := range c.chill {
		e.chills = append(e.chills, c.chill[k:k+1])
	}
	return e
}

// run plays a candidate in the first runs of the search that it has not met.
func (p *player) run(c *candidate, runs int) {
	from := c.runs()
	if from >= runs {
		return
	}
	p.set(c.order)
	for k := from; k < runs; k++ {
		p.play(p.lucks, k, p.chilled, &c.evenings)
	}
	p.played.Add(int64(runs-from) * p.cases())
}

// play plays the order that is set and appends what comes of it. The luck is
// that of a run by case.
func (p *player) play(lucks [][]sim.Luck, run int, chilled bool, e *evenings) {
	n := len(p.d.Milestones)
	if e.times == nil {
		e.times, e.chills = make([][]sim.Time, n*len(p.actors)), make([][]float64, len(p.actors))
	}
	for k, a := range p.actors {
		at, chill, _ := a.play(&lucks[k][run], chilled)
		for m := range n {
			e.times[k*n+m] = append(e.times[k*n+m], reached(at, p.milestoneIn(k, m)))
		}
		e.chills[k] = append(e.chills[k], chill)
	}
}

// reached returns when a milestone was reached, Never for one that was not.
func reached(at []sim.Time, milestone int) sim.Time {
	if milestone < 0 || milestone >= len(at) {
		return sim.Never
	}
	return at[milestone]
}

// drawLucks draws the luck of the search's runs.
func (g *game) drawLucks(runs int) {
	g.lucks = nil
	for _, d := range g.drills() {
		sampler, lucks := draw.NewSampler(d), make([]sim.Luck, runs)
		for k := range lucks {
			sampler.Run(searchSeed(g.o.Seed), k, &lucks[k])
		}
		g.lucks = append(g.lucks, lucks)
	}
}

// drills returns the drills of all cases.
func (g *game) drills() []*sim.Drill {
	list := []*sim.Drill{g.d}
	for _, s := range g.scenes {
		list = append(list, s.d)
	}
	return list
}

// searchSeed returns the seed of the search's own runs: those of the seed
// itself are kept for judgement.
func searchSeed(seed uint64) uint64 { return uint64(draw.KeyOf("search", "")) ^ seed }

// report tells how far the search is.
func (g *game) report(best sim.Time) {
	if g.o.Progress == nil {
		return
	}
	g.talk.Lock()
	defer g.talk.Unlock()
	if g.bestYet == 0 || best < g.bestYet {
		g.bestYet = best
	}
	if done := g.played.Load(); done-g.told >= int64(g.o.Evaluations/100) {
		g.told = done
		g.o.Progress(min(int(done), g.o.Evaluations), g.o.Evaluations, g.bestYet)
	}
}

// each does jobs 0 to n-1 on the workers, each with a player of its own. Jobs
// must not depend on each other; then the outcome is the same for any number
// of workers.
func (g *game) each(players []*player, n int, do func(p *player, job int)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	for k := range min(n, len(players)) {
		wait.Go(func() {
			for {
				job := int(next.Add(1)) - 1
				if job >= n || g.ctx.Err() != nil {
					return
				}
				do(players[k], job)
			}
		})
	}
	wait.Wait()
}
