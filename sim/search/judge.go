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
	j := &jury{game: g, r: r, met: make([]evenings, len(found)), speaker: players[0]}
	if r.Runs > 0 {
		r.Judged = len(found)
		j.hear(players, found)
	}
	j.found = found
	j.bound()
	j.rule(found, slices.Index(found, before))
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
			at = j.scenes[in-1].bounds.Of(j.scenes[in-1].usual, nil)
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
	e, runs := j.heard(i)
	return j.exactly(j.r.Aims[aim], e, in, runs)
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
		for i, c := range found { // what the scenario has is easiest to remember
			if c.own && values[i][0] < values[best][0] && j.shortfall(found, i) <= j.shortfall(found, best) {
				best = i
			}
		}
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
	known := before
	for i, c := range found {
		if c.own && (j.shortfall(found, i) < j.shortfall(found, known) || j.shortfall(found, i) == j.shortfall(found, known) && values[i][0] < values[known][0]) {
			known = i
		}
	}
	describe := func(i int) Found {
		c := found[i]
		f := Found{Order: c.order, Known: c.known, Milestones: c.milestones[:len(j.d.Milestones)], Start: c.start, End: c.end, Value: values[i], index: i,
			Evenings: j.evenings(i), Burden: j.burdenOf(c), Turned: j.turnedPairs(c), People: j.peopleUnder(c)}
		for k := range aims {
			f.Gain, f.Over = append(f.Gain, against(i, k, before)), append(f.Over, against(i, k, known))
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
	j.r.Before, j.r.Known = describe(before), describe(known)
	j.tellWins(found, against)
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
		j.r.Orders = j.thinned(j.r.Orders)
	} else {
		slices.SortStableFunc(j.r.Orders[1:], func(a, b Found) int { return compareFloats(a.Value, b.Value) })
		j.r.Orders = j.apart(j.r.Orders)
	}
}

func compareFloats(a, b []float64) int { return slices.Compare(a, b) }

// thinned leaves out orders that hardly differ, in all aims, from one before
// them; of such the scenario's own stays.
func (j *jury) thinned(list []Found) (out []Found) {
	for _, f := range list {
		near := slices.IndexFunc(out, func(o Found) bool { return j.near(f.Value, o.Value) })
		switch {
		case near < 0:
			out = append(out, f)
		case f.Known != "" && out[near].Known == "":
			out[near] = f
		}
	}
	return out
}

// near reports whether two orders hardly differ in any aim.
func (j *jury) near(a, b []float64) bool {
	for k, aim := range j.r.Aims {
		edge := hardly * b[k]
		if aim.Goal.Share() {
			edge = hardlyShare
		}
		if !(math.Abs(a[k]-b[k]) <= edge) && a[k] != b[k] {
			return false
		}
	}
	return true
}

// apart leaves out orders that are nearly one before them: a leader would see no
// difference. The best and the scenario's own stay.
func (j *jury) apart(list []Found) (out []Found) {
	for k, f := range list {
		if k == 0 || f.Known != "" || !slices.ContainsFunc(out, func(o Found) bool { return j.twins(f, o) }) {
			out = append(out, f)
		}
	}
	return out
}

// twins reports whether two orders are nearly one: a few changes apart, or every
// milestone within a minute and a half with usual values.
func (j *jury) twins(f, o Found) bool {
	if a, b := j.found[f.index].plan, j.found[o.index].plan; a != nil && b != nil && len(j.edits(a, b)) <= fewEdits {
		return true
	}
	for m, at := range f.Milestones {
		if d := at - o.Milestones[m]; d > 90*sim.Second || d < -90*sim.Second {
			return false
		}
	}
	return true
}

// fewEdits is how many changes make no other order.
const fewEdits = 3

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

// shortfall is how far a candidate is from what is asked for: how often too
// seldom in the fresh runs. One that keeps to it with a margin, the standard error
// of these runs, will do so in others.
func (j *jury) shortfall(found []*candidate, i int) (short float64) {
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

// hardlyShare is the same of an aim that is a share of evenings.
const hardlyShare = 0.005

// kindest returns of the orders that are as good in the aim as the best, or
// hardly behind with no telling whether they are, the one that is easiest to
// remember; of equals the one under which the finish, or with several cases the aim
// on average over them, comes soonest.
func (j *jury) kindest(found []*candidate, values [][]float64, influences [][][]float64, best int) int {
	most := values[best][0]
	switch {
	case j.r.Aims[0].Goal.Share():
		most += hardlyShare
	case j.r.Runs > 0:
		most *= 1 + hardly
	}
	kind := best
	for i := range found {
		if values[i][0] <= most && j.kinder(found, i, kind) && j.shortfall(found, i) <= j.shortfall(found, best) &&
			j.p(values[i][0], values[best][0], influences[i][0], influences[best][0]) > 1-level {
			kind = i
		}
	}
	return kind
}

// kinder reports whether one order is easier to remember than another or, as easy,
// sooner otherwise.
func (j *jury) kinder(found []*candidate, i, than int) bool {
	a, b := j.burdenOf(found[i]), j.burdenOf(found[than])
	if a != b {
		return a.less(b)
	}
	return j.otherwise(found, i) < j.otherwise(found, than)
}

// otherwise is what else counts of an order.
func (j *jury) otherwise(found []*candidate, i int) (sum float64) {
	e, runs := j.heard(i)
	for in := range int(j.cases()) {
		switch {
		case j.r.Aims[0].Goal.Share():
			v, _ := roughly(Mean, e.times[j.columns(len(j.d.Milestones) - 1)[in]][:runs])
			sum += v
		case len(j.scenes) > 0:
			v, _ := j.valueIn(found[i], i, 0, in)
			sum += v
		}
	}
	if sum == 0 {
		return found[i].score.rest
	}
	return sum
}

// tellWins says what each of the changes that win most is worth.
func (j *jury) tellWins(found []*candidate, against func(i, k, other int) Gain) {
	if len(j.wins) == 0 {
		return
	}
	index := func(c *candidate) int {
		return slices.IndexFunc(found, func(o *candidate) bool { return o == c || j.same(o, c) })
	}
	on := index(j.winsOn)
	if j.r.WinsOn = j.winsOn.known; on < 0 {
		return
	}
	at, pending := on, []Edit(nil)
	for _, w := range j.wins {
		now := index(w.found)
		if now < 0 {
			return
		}
		// What wins nothing on fresh runs is told with what comes on top of it.
		pending = append(pending, w.Edits...)
		if gain := against(now, 0, at); gain.Value > 0 {
			j.r.Wins = append(j.r.Wins, Win{Edits: pending, Gain: gain, Total: against(now, 0, on)})
			at, pending = now, nil
		}
	}
}

// peopleUnder returns by person what each works on with usual values.
func (j *jury) peopleUnder(c *candidate) [][]int {
	p := j.speaker
	p.set(c.order)
	tl := p.actors[0].Timeline(j.usual)
	return peopleOf(tl)
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
