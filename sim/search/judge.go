package search

import (
	"context"
	"math"
	"slices"

	"warmby/sim"
	"warmby/sim/bound"
	"warmby/sim/cold"
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
	r.UsualBound = g.bounds.Of(g.usual, nil)
	if !slices.Contains(found, before) {
		found = append(found, before)
	}
	j := &jury{game: g, r: r, times: make([][][]sim.Time, len(found))}
	if r.Runs > 0 {
		r.Judged = len(found)
		j.hear(players, found)
	}
	j.bound()
	j.found = found
	j.rule(found, slices.Index(found, before))
	j.complain(players[0], r.Orders[0])
	return r, nil
}

// jury judges candidates.
type jury struct {
	*game
	r      *Result
	found  []*candidate
	times  [][][]sim.Time // by candidate, milestone and fresh run
	bounds [][]sim.Time   // by milestone and fresh run
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
	parts := make([][][]sim.Time, len(found)*chunks)
	j.each(players, len(parts), func(p *player, job int) {
		parts[job] = make([][]sim.Time, milestones*len(drills))
		p.set(found[job/chunks].order)
		from := job % chunks * juryChunk
		for k := from; k < min(runs, from+juryChunk); k++ {
			p.play(lucks, k, parts[job])
		}
	})
	for job, part := range parts {
		i := job / chunks
		if j.times[i] == nil {
			j.times[i] = make([][]sim.Time, milestones*len(drills))
		}
		for m := range part {
			j.times[i][m] = append(j.times[i][m], part[m]...)
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
			v, half := 0.0, 0.0
			switch {
			case j.r.Runs > 0:
				var in []float64
				v, in = a.Statistic.influence(j.bounds[j.columns(a.Milestone)[k]], nil)
				if !math.IsInf(v, 1) {
					half = differ(v, 0, in, make([]float64, len(in))).half(level)
				}
			case k == 0:
				v = limit(j.r.UsualBound[a.Milestone])
			default:
				s := j.scenes[k-1]
				v = limit(s.bounds.Of(s.usual, nil)[s.milestone[a.Milestone]])
			}
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

func limit(t sim.Time) float64 {
	if t == sim.Never {
		return math.Inf(1)
	}
	return float64(t)
}

// value returns the statistic of an aim for a candidate, with its influence.
func (j *jury) value(c *candidate, i, aim int) (float64, []float64) {
	latest, influence := j.valueIn(c, i, aim, 0)
	for k := range j.scenes {
		if v, in := j.valueIn(c, i, aim, k+1); v > latest {
			latest, influence = v, in
		}
	}
	return latest, influence
}

// valueIn is value in one case.
func (j *jury) valueIn(c *candidate, i, aim, in int) (float64, []float64) {
	a := j.r.Aims[aim]
	m := j.columns(a.Milestone)[in]
	if j.r.Runs == 0 {
		return limit(c.milestones[m]), nil
	}
	return a.Statistic.influence(j.times[i][m], nil)
}

// inCases tells what a candidate gives in each case.
func (j *jury) inCases(found []*candidate, i, before int) (list []CaseFound) {
	in := -1
	for _, r := range j.r.Cases {
		var f CaseFound
		if r.Why == "" {
			in++
			for k := range j.r.Aims {
				v, influence := j.valueIn(found[i], i, k, in)
				was, had := j.valueIn(found[before], before, k, in)
				f.Value, f.Gain = append(f.Value, v), append(f.Gain, j.gain(was, v, had, influence))
			}
		}
		list = append(list, f)
	}
	return list
}

// rule sets the orders of the result: with one aim the best and all that cannot
// be told from it, with several those of which none is better in all.
func (j *jury) rule(found []*candidate, before int) {
	aims := len(j.r.Aims)
	values, influences := make([][]float64, len(found)), make([][][]float64, len(found))
	for i, c := range found {
		for k := range aims {
			v, in := j.value(c, i, k)
			values[i], influences[i] = append(values[i], v), append(influences[i], in)
		}
	}
	against := func(i, k, other int) Gain { // how much sooner i is than other
		return j.gain(values[other][k], values[i][k], influences[other][k], influences[i][k])
	}
	best := 0
	for i := range found { // the search knows best, unless the fresh runs say otherwise
		if i != best && j.betterAsked(found, i, best) {
			best = i
		}
	}
	if aims == 1 {
		best = j.overrule(found, values, influences, best)
		best = j.kindest(found, values, influences, best)
		if values[before][0] <= values[best][0] && j.shortfall(found, before) <= j.shortfall(found, best) {
			best = before // nobody changes an order for one that has done no better
		}
	}
	var family [][]float64 // p values of being behind the best, by aim
	for k := range aims {
		var ps []float64
		for i := range found {
			ps = append(ps, j.p(values[i][k], values[best][k], influences[i][k], influences[best][k]))
		}
		family = append(family, holmOthers(ps, best))
	}
	describe := func(i int) Found {
		c := found[i]
		f := Found{Order: c.order, Known: c.known, Milestones: c.milestones[:len(j.d.Milestones)], Start: c.start, End: c.end, Value: values[i], index: i}
		for k := range aims {
			f.Gain = append(f.Gain, against(i, k, before))
			behind := against(best, k, i)
			behind.Told = i != best && j.enough() && family[k][i] <= 1-level && behind.Value != 0
			f.Behind = append(f.Behind, behind)
		}
		f.Cases = j.inCases(found, i, before)
		return f
	}
	kept := slices.Clone(values) // of those that keep to what is asked no less than the best
	for i := range kept {
		if j.shortfall(found, i) > j.shortfall(found, best) {
			kept[i] = nil
		}
	}
	j.r.Before = describe(before)
	j.r.Orders = []Found{describe(best)}
	for i := range found {
		if i == best || kept[i] == nil {
			continue
		}
		f := describe(i)
		switch {
		case aims > 1 && dominated(kept, i):
		case aims == 1 && (f.Behind[0].Told || j.r.Runs == 0 && f.Behind[0].Value > 0):
		default:
			j.r.Orders = append(j.r.Orders, f)
		}
	}
	if aims > 1 {
		if dominated(kept, best) {
			j.r.Orders = j.r.Orders[1:]
		}
		slices.SortStableFunc(j.r.Orders, func(a, b Found) int { return compareFloats(a.Value, b.Value) })
		j.r.Orders = thinned(j.r.Orders)
	} else {
		slices.SortStableFunc(j.r.Orders[1:], func(a, b Found) int { return compareFloats(a.Value, b.Value) })
	}
}

func compareFloats(a, b []float64) int { return slices.Compare(a, b) }

// thinned leaves out orders that hardly differ, in all aims, from one before
// them; of such the scenario's own stays.
func thinned(list []Found) (out []Found) {
	for _, f := range list {
		near := slices.IndexFunc(out, func(o Found) bool {
			for k := range f.Value {
				if !(math.Abs(f.Value[k]-o.Value[k]) <= hardly*o.Value[k]) && f.Value[k] != o.Value[k] {
					return false
				}
			}
			return true
		})
		switch {
		case near < 0:
			out = append(out, f)
		case f.Known != "" && out[near].Known == "":
			out[near] = f
		}
	}
	return out
}

// dominated reports whether another is no worse in any aim and better in one,
// or came first with the same. Those without values do not count.
func dominated(values [][]float64, i int) bool {
	for o := range values {
		if o == i || values[o] == nil {
			continue
		}
		worse, better := false, false
		for k := range values[i] {
			worse = worse || values[o][k] > values[i][k]
			better = better || values[o][k] < values[i][k]
		}
		if !worse && (better || o < i) {
			return true
		}
	}
	return false
}

// betterAsked reports whether one keeps better than another to what is asked.
func (j *jury) betterAsked(found []*candidate, i, than int) bool {
	return j.shortfall(found, i) < j.shortfall(found, than)
}

// shortfall is how far a candidate is from what is asked for: odds missed in
// the fresh runs, or milliseconds late, and what the cold account adds.
func (j *jury) shortfall(found []*candidate, i int) float64 {
	if j.r.Runs == 0 {
		return found[i].score.fails
	}
	short := 0.0
	for _, in := range j.o.InTime {
		for _, m := range j.columns(in.Milestone) {
			short += in.missed(j.times[i][m])
		}
	}
	short += found[i].chill
	return short
}

// share is in which share of some runs a milestone is in time.
func (in InTime) share(times []sim.Time) float64 {
	met := 0
	for _, t := range times {
		if t != sim.Never && t <= in.By {
			met++
		}
	}
	return float64(met) / float64(len(times))
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

// overrule returns the best: the one that the search found unless another is
// better in the fresh runs beyond what luck explains.
func (j *jury) overrule(found []*candidate, values [][]float64, influences [][][]float64, best int) int {
	var ps []float64
	for i := range found {
		ps = append(ps, j.p(values[i][0], values[best][0], influences[i][0], influences[best][0]))
	}
	ps = holmOthers(ps, best)
	over := best
	for i := range found {
		if ps[i] <= 1-level && values[i][0] < values[over][0] && j.shortfall(found, i) <= j.shortfall(found, best) {
			over = i
		}
	}
	return over
}

// hardly is how much later, as a share, an order may reach the aim and still be
// taken for as good.
const hardly = 0.005

// kindest returns of the orders that are as good in the aim as the best, or
// hardly behind with no telling whether they are, the one under which all
// milestones together come soonest with usual values; with several cases the one
// that is soonest on average over them.
func (j *jury) kindest(found []*candidate, values [][]float64, influences [][][]float64, best int) int {
	most := values[best][0]
	if j.r.Runs > 0 {
		most *= 1 + hardly
	}
	rest := func(i int) float64 {
		if len(j.scenes) == 0 {
			return found[i].score.rest
		}
		sum := 0.0
		for k := range j.cases() {
			v, _ := j.valueIn(found[i], i, 0, int(k))
			sum += v
		}
		return sum
	}
	kind := best
	for i := range found {
		if values[i][0] <= most && rest(i) < rest(kind) && j.shortfall(found, i) <= j.shortfall(found, best) &&
			j.p(values[i][0], values[best][0], influences[i][0], influences[best][0]) > 1-level {
			kind = i
		}
	}
	return kind
}

// holmOthers adjusts the p values of all but one, which gets 1.
func holmOthers(ps []float64, one int) []float64 {
	out := slices.Insert(holm(slices.Delete(slices.Clone(ps), one, one+1)), one, 1)
	return out
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

// enough reports whether there are runs enough to tell orders apart.
func (j *jury) enough() bool { return j.r.Runs >= stats.FewRuns }

// gain is how much sooner b is than a.
func (j *jury) gain(a, b float64, inA, inB []float64) Gain {
	if math.IsInf(a, 1) || math.IsInf(b, 1) {
		nan := math.NaN()
		return Gain{nan, nan, nan, false, "not reached in every run, or in too few"}
	}
	if j.r.Runs == 0 {
		return Gain{a - b, a - b, a - b, a != b, ""}
	}
	d := differ(a, b, inA, inB)
	half := d.half(level)
	return Gain{d.mean, d.mean - half, d.mean + half, j.enough() && d.p() <= 1-level && d.mean != 0, ""}
}

// complain sets what the best order still does not keep to.
func (j *jury) complain(p *player, best Found) {
	at := best.index
	for k := range j.o.InTime {
		in := &j.o.InTime[k]
		for c, m := range j.columns(in.Milestone) {
			u := Unmet{InTime: in, Case: j.caseName(c), At: j.found[at].milestones[m], Least: j.r.UsualBound[in.Milestone]}
			if c > 0 {
				s := j.scenes[c-1]
				u.Least = reached(s.bounds.Of(s.usual, nil), s.milestone[in.Milestone])
			}
			if j.r.Runs > 0 {
				if u.Share = in.share(j.times[at][m]); u.Share >= in.Odds {
					continue
				}
				sorted := slices.Sorted(slices.Values(j.times[at][m]))
				u.At = sorted[max(0, min(len(sorted), int(math.Ceil(in.Odds*float64(len(sorted)))))-1)]
			} else if u.At != sim.Never && u.At <= in.By {
				continue
			}
			j.r.Unmet = append(j.r.Unmet, u)
		}
	}
	if j.o.ColdLimit {
		if person, peak := p.coldest(best.Order); peak > cold.HeatLimit {
			j.r.Unmet = append(j.r.Unmet, Unmet{Person: person, Peak: peak})
		}
	}
}
