package search

import (
	"context"
	"math"
	"slices"

	"warmby/sim"
	"warmby/sim/bound"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/stats"
)

// hurried is on how many runs orders are judged when the search is broken off.
const hurried = 500

// judge plays what was found on fresh runs and says what can be said of it.
func (g *game) judge(players []*player, before *candidate, found []*candidate) (*Result, error) {
	r := &Result{Drill: g.d, Aims: g.o.Aims, Evaluations: int(g.played.Load()), Runs: g.o.Runs, Interrupted: g.ctx.Err() != nil}
	if r.Interrupted {
		r.Runs = min(r.Runs, hurried)
		g.ctx = context.WithoutCancel(g.ctx)
	}
	r.UsualBound = g.bounds.Sharp(g.usual, nil)
	if !slices.Contains(found, before) {
		found = append(found, before)
	}
	j := &jury{game: g, r: r, found: found, met: make([]evenings, len(found)), speaker: players[0]}
	if r.Runs > 0 {
		r.Judged = len(found)
		j.hear(players, found)
	}
	j.bound()
	j.rule(slices.Index(found, before))
	j.complain(players[0], r.Orders[0])
	return r, nil
}

// jury judges candidates.
type jury struct {
	*game
	r       *Result
	found   []*candidate
	met     []evenings // by candidate: the fresh runs
	speaker *player
	bounds  [][]sim.Time // by milestone and fresh run
}

const juryChunk = 250

// hear plays all on the fresh runs, and works out their bounds.
func (j *jury) hear(players []*player, found []*candidate) {
	runs, milestones := j.r.Runs, len(j.d.Milestones)
	drills := j.drills()
	chunks := (runs + juryChunk - 1) / juryChunk
	lucks, samplers := make([][]sim.Luck, len(drills)), make([]*draw.Sampler, len(drills))
	for c, d := range drills {
		lucks[c], samplers[c] = make([]sim.Luck, runs), draw.NewSampler(d)
	}
	j.bounds = make([][]sim.Time, milestones*len(drills))
	for m := range j.bounds {
		j.bounds[m] = make([]sim.Time, runs)
	}
	j.each(players, chunks, func(p *player, chunk int) {
		var at []sim.Time
		for c, d := range drills {
			b := bound.New(d)
			for k := chunk * juryChunk; k < min(runs, (chunk+1)*juryChunk); k++ {
				samplers[c].Run(j.o.Seed, k, &lucks[c][k])
				at = b.Of(&lucks[c][k], at)
				for m := range milestones {
					own := m
					if c > 0 {
						own = j.scenes[c-1].milestone[m]
					}
					j.bounds[c*milestones+m][k] = reached(at, own)
				}
			}
		}
	})
	parts := make([]evenings, len(found)*chunks)
	j.each(players, len(parts), func(p *player, job int) {
		p.set(found[job/chunks].order)
		from := job % chunks * juryChunk
		for k := from; k < min(runs, from+juryChunk); k++ {
			p.play(lucks, k, true, &parts[job])
		}
	})
	for job, part := range parts {
		i := job / chunks
		if j.met[i].times == nil {
			j.met[i] = evenings{make([][]sim.Time, milestones*len(drills)), make([][]float64, len(drills))}
		}
		for m := range part.times {
			j.met[i].times[m] = append(j.met[i].times[m], part.times[m]...)
		}
		for c := range part.chills {
			j.met[i].chills[c] = append(j.met[i].chills[c], part.chills[c]...)
		}
	}
}

// bound sets what no order can beat.
func (j *jury) bound() {
	j.r.Cases = j.asked
	k := -1 // scene
	for c := range j.r.Cases {
		r := &j.r.Cases[c]
		if r.Why != "" {
			continue
		}
		k++
		for _, a := range j.r.Aims {
			v, half := j.boundIn(a, k)
			r.Bound, r.BoundLow, r.BoundHigh = append(r.Bound, v), append(r.BoundLow, v-half), append(r.BoundHigh, v+half)
		}
	}
	for a := range j.r.Aims { // in its latest case no order is sooner than the latest bound
		most := 0
		for c, r := range j.r.Cases {
			if r.Why == "" && r.Bound[a] > j.r.Cases[most].Bound[a] {
				most = c
			}
		}
		r := j.r.Cases[most]
		j.r.Bound, j.r.BoundLow, j.r.BoundHigh = append(j.r.Bound, r.Bound[a]), append(j.r.BoundLow, r.BoundLow[a]), append(j.r.BoundHigh, r.BoundHigh[a])
	}
}

// boundIn returns what no order can beat in a case, and how far its interval
// reaches.
func (j *jury) boundIn(a Aim, in int) (v, half float64) {
	e, runs := &evenings{times: j.bounds}, j.r.Runs
	if runs == 0 {
		e, runs = j.usualBounds(), 1
	}
	v, influence := j.exactly(a, e, in, runs)
	if j.r.Runs > 0 && !math.IsInf(v, 1) {
		half = differ(v, 0, influence, make([]float64, len(influence))).half(level)
	}
	return v, half
}

// usualBounds returns the bounds with usual values as one evening.
func (j *jury) usualBounds() *evenings {
	e := &evenings{}
	for in := range int(j.cases()) {
		at := j.r.UsualBound
		if in > 0 {
			at = j.scenes[in-1].bounds.Sharp(j.scenes[in-1].usual, nil)
		}
		for m := range j.d.Milestones {
			e.times = append(e.times, []sim.Time{reached(at, j.milestoneIn(in, m))})
		}
	}
	return e
}

// exactly returns the value of an aim in a case, with what each run has to do
// with it.
func (j *jury) exactly(a Aim, e *evenings, in, runs int) (float64, []float64) {
	if !a.Goal.Share() {
		times := e.times[j.columns(a.Milestone)[in]][:runs]
		if j.r.Runs == 0 {
			return infinite(times[0]), nil
		}
		return a.Statistic.influence(times, nil)
	}
	missed, total := make([]float64, runs), 0.0
	for r := range missed {
		missed[r] = j.missed(a.Goal, 0, 0, e, in, r, 0)
		total += missed[r]
	}
	return total / float64(runs), missed
}

// infinite returns a moment, infinite for one that never comes.
func infinite(t sim.Time) float64 {
	if t == sim.Never {
		return math.Inf(1)
	}
	return float64(t)
}

// heard returns the evenings by which a candidate is judged.
func (j *jury) heard(i int) (*evenings, int) {
	if j.r.Runs == 0 {
		return j.found[i].usual(), 1
	}
	return &j.met[i], j.r.Runs
}

// value returns the statistic of an aim for a candidate, with its influence.
func (j *jury) value(i, aim int) (float64, []float64) {
	latest, influence := j.valueIn(i, aim, 0)
	for k := range j.scenes {
		if v, in := j.valueIn(i, aim, k+1); v > latest {
			latest, influence = v, in
		}
	}
	return latest, influence
}

// valueIn is value in one case.
func (j *jury) valueIn(i, aim, in int) (float64, []float64) {
	e, runs := j.heard(i)
	return j.exactly(j.r.Aims[aim], e, in, runs)
}

// shortfall is how far a candidate is from what is asked for: how often too
// seldom in the fresh runs. One that keeps to it with a margin, the standard error
// of these runs, will do so in others.
func (j *jury) shortfall(i int) (short float64) {
	e, runs := j.heard(i)
	for k := range j.limits {
		for in := range int(j.cases()) {
			exactly, _ := j.shortOf(&j.limits[k], e, in, runs, 0, 0)
			closely, _ := j.shortOf(&j.limits[k], e, in, runs, 0, j.margin(1, runs))
			short += exactly + closely/10
		}
	}
	return short
}

// share returns in what share of evenings of a case a limit is kept.
func (j *jury) share(l *limit, i, in int) float64 {
	e, runs := j.heard(i)
	missed := 0.0
	for r := range runs {
		missed += j.missed(l.goal, l.milestone, l.by, e, in, r, 0)
	}
	return 1 - missed/float64(runs)
}

// evenings tells how often an evening goes as it should under a candidate, in the
// worst case.
func (j *jury) evenings(i int) (out Evenings) {
	worst := func(l limit) float64 {
		least := 1.0
		for in := range int(j.cases()) {
			least = min(least, j.share(&l, i, in))
		}
		return least
	}
	for m := range j.d.Milestones {
		share := math.NaN()
		if by := j.d.Milestones[m].By; by != sim.Never {
			share = worst(limit{goal: Reached, milestone: m, by: by})
		}
		out.InTime = append(out.InTime, share)
	}
	out.AllTargets, out.NobodyCold, out.AllWell = worst(limit{goal: AllTargets}), worst(limit{goal: NobodyCold}), worst(limit{goal: AllWell})
	out.Cold = cold.Kept(j.d)
	return out
}

// caseName returns the name of a case that is judged.
func (j *jury) caseName(c int) string {
	for _, r := range j.r.Cases {
		if r.Why == "" {
			if c--; c < 0 {
				return r.Name
			}
		}
	}
	return ""
}

// peopleUnder returns by person what each works on with usual values.
func (j *jury) peopleUnder(c *candidate) [][]int {
	p := j.speaker
	p.set(c.order)
	tl := p.actors[0].Timeline(j.usual)
	return peopleOf(tl)
}

// p returns how likely two statistics differ so much by luck.
func (j *jury) p(a, b float64, inA, inB []float64) float64 {
	if j.r.Runs == 0 {
		if a == b {
			return 1
		}
		return 0
	}
	if math.IsInf(a, 1) || math.IsInf(b, 1) {
		if math.IsInf(a, 1) && math.IsInf(b, 1) {
			return 1
		}
		return 0
	}
	return differ(a, b, inA, inB).p()
}

// mayTell reports whether the runs may tell orders so far apart in an aim: that they
// are not few and, where it is a mean, that nothing they see too seldom can turn it
// round.
func (j *jury) mayTell(aim int, g Gain) bool {
	if j.r.Runs < stats.FewRuns {
		return false
	}
	if a := j.r.Aims[aim]; a.Goal != Reached || a.Statistic != Mean {
		return true
	}
	apart := stats.Difference{Mean: stats.Mean{Value: g.Value, Low: g.Low, High: g.High, Runs: int64(j.r.Runs)}}
	doubtful := func(d *sim.Drill) bool { return compare.DoubtfulForRare(d, d, apart) != "" }
	return !doubtful(j.d) && !slices.ContainsFunc(j.scenes, func(s *scene) bool { return doubtful(s.d) })
}

// gain is how much sooner b is than a in an aim.
func (j *jury) gain(aim int, a, b float64, inA, inB []float64) Gain {
	if math.IsInf(a, 1) || math.IsInf(b, 1) {
		nan := math.NaN()
		return Gain{nan, nan, nan, false, "not reached in every run, or in too few"}
	}
	if j.r.Runs == 0 {
		return Gain{a - b, a - b, a - b, a != b, ""}
	}
	d := differ(a, b, inA, inB)
	half := d.half(level)
	g := Gain{Value: d.mean, Low: d.mean - half, High: d.mean + half}
	g.Told = d.p() <= 1-level && d.mean != 0 && j.mayTell(aim, g)
	return g
}

// complain sets what the best order still does not keep to.
func (j *jury) complain(p *player, best Found) {
	for k := range j.limits {
		l := &j.limits[k]
		for in := range int(j.cases()) {
			u := Unmet{InTime: l.inTime, AtLeast: l.atLeast, Case: j.caseName(in), Share: j.share(l, best.index, in)}
			if u.Share >= l.odds {
				continue
			}
			if l.inTime != nil {
				u.At, u.Least = j.asOften(l, best.index, in), j.usualBounds().times[j.columns(l.milestone)[in]][0]
			}
			if l.goal.cold() {
				u.Person, u.Peak = p.coldest(best.Order, in)
			}
			j.r.Unmet = append(j.r.Unmet, u)
		}
	}
}

// asOften returns the moment by which a milestone is reached as often as asked.
func (j *jury) asOften(l *limit, i, in int) sim.Time {
	e, runs := j.heard(i)
	sorted := slices.Sorted(slices.Values(e.times[j.columns(l.milestone)[in]][:runs]))
	return sorted[max(0, min(runs, int(math.Ceil(l.odds*float64(runs))))-1)]
}

// coldest returns who loses the most heat under an order with usual values in a
// case, and how much: Wh/m2. It is 0 when there is no account.
func (p *player) coldest(o sim.Order, in int) (person string, peak float64) {
	p.set(o)
	luck := p.usual
	if in > 0 {
		luck = p.scenes[in-1].usual
	}
	tl := p.actors[in].Timeline(luck)
	for _, acc := range cold.Account(tl) {
		if acc.Why == "" && acc.Peak > peak {
			person, peak = acc.Name, acc.Peak
		}
	}
	return person, peak
}
