package search

import (
	"context"
	"math"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/stat/distuv"

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

	score      score
	warmed     bool    // whether chill is known, or not to be
	chill      float64 // how far the cold limit is passed with usual values, Wh/m2
	milestones []sim.Time
	start, end []sim.Time
	// times holds the moments of the search's runs played so far: by milestone,
	// then by run.
	times [][]sim.Time
}

// score is how good an order is with usual values: by what it fails in what is
// asked for, then by its aim in the latest case, then by the mean over all cases, then by all milestones together.
type score struct{ fails, aim, mean, rest float64 }

func (s score) less(o score) bool {
	switch {
	case s.fails != o.fails:
		return s.fails < o.fails
	case s.aim != o.aim:
		return s.aim < o.aim
	case s.mean != o.mean:
		return s.mean < o.mean
	}
	return s.rest < o.rest
}

// objective weighs the aims. What it weighs are shares of what the order to
// beat takes.
type objective []float64

// aside is what the other aims weigh when a search is after one of several.
const aside = 0.1

// objectives returns the goals of the search: the one aim; or each of several
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
	trial *fast.Trial
	other []*fast.Trial // by scene
	r     fast.Result
}

func (g *game) player() *player {
	p := &player{game: g, trial: g.program.Trial()}
	for _, s := range g.scenes {
		p.other = append(p.other, s.program.Trial())
	}
	return p
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
	p.trial.Reorder(p.d.Under(o))
	for k, s := range p.scenes {
		p.other[k].Reorder(s.d.Under(s.order(p.d, o)))
	}
}

// left is how many drills may still be played in the stage at hand. Jobs that
// run at once are given their part of it beforehand, so that what each may do does
// not depend on how far the others are.
func (g *game) left() int64 { return max(0, g.limit-g.played.Load()) }

// cost is how many drills it takes to try an order with usual values: with the
// cold limit a second one, for the account.
func (g *game) cost() int64 {
	if g.o.ColdLimit {
		return 2 * g.cases()
	}
	return g.cases()
}

// runs is how many runs of the search a candidate has met.
func (c *candidate) runs() int {
	if c.times == nil {
		return 0
	}
	return len(c.times[0])
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
// stop under it.
func (p *player) try(w objective, pl *plan) *candidate {
	return p.tryOrder(w, &candidate{plan: pl, order: pl.order(p.d)})
}

func (p *player) tryOrder(w objective, c *candidate) *candidate {
	p.set(c.order)
	p.played.Add(p.cases())
	if err := p.trial.Play(p.usual, &p.r); err != nil {
		return nil
	}
	c.milestones = append([]sim.Time(nil), p.r.Milestones...)
	c.start, c.end = append([]sim.Time(nil), p.r.Start...), append([]sim.Time(nil), p.r.End...)
	for k, s := range p.scenes {
		if err := p.other[k].Play(s.usual, &p.r); err != nil {
			if !c.own {
				return nil // it must be one that can be played in every case
			}
			p.r.Milestones = p.r.Milestones[:0]
		}
		for _, m := range s.milestone {
			c.milestones = append(c.milestones, reached(p.r.Milestones, m))
		}
	}
	c.score = p.scoreOf(w, c.milestones)
	return c
}

// scoreOf scores milestones with usual values. The cold limit is not looked at.
func (g *game) scoreOf(w objective, at []sim.Time) (s score) {
	for _, in := range g.o.InTime {
		for _, m := range g.columns(in.Milestone) {
			s.fails += max(0, moment(at[m])-moment(in.By))
		}
	}
	for k, a := range g.o.Aims {
		latest, mean := g.latest(at, a.Milestone)
		s.aim, s.mean = s.aim+w[k]*latest, s.mean+w[k]*mean
	}
	for _, t := range at {
		s.rest += moment(t)
	}
	return s
}

// coldest returns who loses the most heat under an order with usual values,
// and how much: Wh/m2. Peak is 0 when there is no account.
func (p *player) coldest(o sim.Order) (person string, peak float64) {
	p.set(o)
	tl, err := p.trial.Timeline(p.usual)
	if err != nil {
		return "", math.Inf(1)
	}
	lines := []*sim.Timeline{tl}
	for k, s := range p.scenes {
		if tl, err = p.other[k].Timeline(s.usual); err != nil {
			return "", math.Inf(1)
		}
		lines = append(lines, tl)
	}
	for _, tl := range lines {
		for _, acc := range cold.Account(tl) {
			if acc.Why == "" && acc.Peak > peak {
				person, peak = acc.Name, acc.Peak
			}
		}
	}
	return person, peak
}

// keepWarm adds to a score by how much the cold limit is passed, as if each
// Wh/m2 were a minute late.
func (p *player) keepWarm(c *candidate) {
	if p.o.ColdLimit {
		if !c.warmed {
			_, peak := p.coldest(c.order)
			p.played.Add(p.cases())
			c.chill, c.warmed = max(0, peak-cold.HeatLimit), true
		}
		c.score.fails += c.chill * float64(sim.Minute)
	}
}

// run plays a candidate in the first runs of the search that it has not met.
func (p *player) run(c *candidate, runs int) {
	if c.times == nil {
		c.times = make([][]sim.Time, len(c.milestones))
	}
	from := len(c.times[0])
	if from >= runs {
		return
	}
	p.set(c.order)
	for k := from; k < runs; k++ {
		p.play(p.lucks, k, c.times)
	}
	p.played.Add(int64(runs-from) * p.cases())
}

// play plays the order that is set and appends the moments of its milestones.
// The luck is that of a run by case.
func (p *player) play(lucks [][]sim.Luck, run int, times [][]sim.Time) {
	n := len(p.d.Milestones)
	p.r.Milestones = p.r.Milestones[:0]
	// A run that comes to a stop has reached what it has reached.
	_ = p.trial.Play(&lucks[0][run], &p.r)
	for m := range n {
		times[m] = append(times[m], reached(p.r.Milestones, m))
	}
	for k, s := range p.scenes {
		p.r.Milestones = p.r.Milestones[:0]
		_ = p.other[k].Play(&lucks[k+1][run], &p.r)
		for m := range n {
			at := (k+1)*n + m
			times[at] = append(times[at], reached(p.r.Milestones, s.milestone[m]))
		}
	}
}

// reached returns when a milestone was reached, Never for one that was not.
func reached(at []sim.Time, milestone int) sim.Time {
	if milestone < 0 || milestone >= len(at) {
		return sim.Never
	}
	return at[milestone]
}

// value returns what an objective makes of the first runs of a candidate, and
// the influence of each run on it. Runs that never come count as [never]. The
// mean over all milestones counts a little, too: an order that is hardly behind
// in the aim and far ahead in all else is the better one.
func (g *game) value(w objective, c *candidate, runs int) (float64, []float64) {
	total, sum := 0.0, make([]float64, runs)
	var in []float64
	of := func(milestone int, s Statistic) float64 {
		times := make([]sim.Time, runs)
		for r, t := range c.times[milestone][:runs] {
			times[r] = min(t, sim.Time(never))
		}
		var v float64
		v, in = s.influence(times, in)
		return v
	}
	add := func(weight float64, milestone int, s Statistic) {
		v := of(milestone, s)
		total += weight * v
		for r := range sum {
			sum[r] += weight * in[r]
		}
	}
	for k, a := range g.o.Aims {
		if w[k] > 0 {
			latest, most := a.Milestone, math.Inf(-1)
			if len(g.scenes) > 0 {
				for _, m := range g.columns(a.Milestone) {
					if v := of(m, a.Statistic); v > most {
						latest, most = m, v
					}
				}
			}
			add(w[k], latest, a.Statistic)
		}
	}
	for m := range c.times {
		add(besides/g.bases[0]/float64(len(c.times)), m, Mean)
	}
	return total, sum
}

// besides is what the mean of all milestones weighs beside the aims.
const besides = 0.01

// rough scores a candidate by a handful of runs: too few for a quantile, which
// is taken from mean and scatter as that of a normal law.
func (g *game) rough(w objective, c *candidate, runs int) score {
	s := score{fails: g.fails(c, runs) * float64(sim.Hour)}
	for k, a := range g.o.Aims {
		latest := 0.0
		for _, m := range g.columns(a.Milestone) {
			mean, scatter := spread(c.times[m][:runs])
			if a.Statistic != Mean {
				mean += distuv.UnitNormal.Quantile(float64(a.Statistic)) * scatter
			}
			latest = max(latest, mean)
			s.mean += w[k] * mean
		}
		s.aim += w[k] * latest
	}
	for m := range c.times {
		mean, _ := spread(c.times[m][:runs])
		s.rest += mean
	}
	s.aim += besides / g.bases[0] / float64(len(c.times)) * s.rest
	return s
}

// spread returns mean and standard deviation.
func spread(times []sim.Time) (mean, scatter float64) {
	for _, t := range times {
		mean += moment(t) / float64(len(times))
	}
	for _, t := range times {
		scatter += (moment(t) - mean) * (moment(t) - mean) / float64(len(times)-1)
	}
	return mean, math.Sqrt(scatter)
}

// fails returns by what share of some runs a candidate misses the odds asked
// for.
func (g *game) fails(c *candidate, runs int) (short float64) {
	for _, in := range g.o.InTime {
		for _, m := range g.columns(in.Milestone) {
			short += in.missed(c.times[m][:runs])
		}
	}
	return short
}

// missed returns by what share of runs the odds are missed, and a little for how
// late it is on average then, as a share of the horizon: of two that are always
// late the one that is less so is nearer.
func (in InTime) missed(times []sim.Time) float64 {
	met, late := 0, 0.0
	for _, t := range times {
		if t != sim.Never && t <= in.By {
			met++
			continue
		}
		late += min(1, (moment(t)-moment(in.By))/float64(sim.Horizon))
	}
	n := float64(len(times))
	if float64(met)/n >= in.Odds {
		return 0
	}
	return in.Odds - float64(met)/n + late/n
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
