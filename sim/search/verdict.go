package search

import (
	"math"
	"slices"

	"warmby/sim"
)

// verdict is what the fresh runs make of the orders found, which it names by their
// places among them.
type verdict struct {
	*jury
	values     [][]float64   // by order and aim
	influences [][][]float64 // by order, aim and run: what the run has to do with the value

	before int // the order to beat
	best   int
	known  int // the best of the scenario's own

	// behind holds, by aim and order, how likely luck alone puts it so far behind
	// the best, adjusted for how many are compared.
	behind [][]float64
}

// rule sets the orders of the result: with one aim the best and all that cannot
// be told from it, with several those of which none is better in all.
func (j *jury) rule(before int) {
	v := j.weighAll(before)
	v.best = v.choose()
	v.known = v.bestKnown()
	v.behind = v.allBehind()
	j.r.Before, j.r.Known = v.describe(before), v.describe(v.known)
	v.tellWins()
	if len(j.r.Aims) == 1 {
		j.r.Orders = v.level()
	} else {
		j.r.Orders = v.front()
	}
}

// weighAll works out the value of every order in every aim.
func (j *jury) weighAll(before int) *verdict {
	v := &verdict{jury: j, before: before, values: make([][]float64, len(j.found)), influences: make([][][]float64, len(j.found))}
	for i := range j.found {
		for k := range j.r.Aims {
			value, influence := j.value(i, k)
			v.values[i], v.influences[i] = append(v.values[i], value), append(v.influences[i], influence)
		}
	}
	return v
}

// sooner is how much sooner one order is than another in an aim.
func (v *verdict) sooner(i, k, than int) Gain {
	return v.gain(k, v.values[than][k], v.values[i][k], v.influences[than][k], v.influences[i][k])
}

// luck returns how likely two orders differ so much in an aim by luck.
func (v *verdict) luck(i, k, other int) float64 {
	return v.p(v.values[i][k], v.values[other][k], v.influences[i][k], v.influences[other][k])
}

// missesNoMore reports whether one order keeps to what is asked as well as another.
func (v *verdict) missesNoMore(i, than int) bool { return v.shortfall(i) <= v.shortfall(than) }

// choose returns the best order. The search knows best, unless the fresh runs say
// otherwise.
func (v *verdict) choose() int {
	best := 0
	for i := range v.found {
		if !v.missesNoMore(best, i) {
			best = i
		}
	}
	if len(v.r.Aims) > 1 {
		return best
	}
	best = v.kindest(v.overrule(best))
	for i, c := range v.found { // what the scenario has is easiest to remember
		if c.own && v.values[i][0] < v.values[best][0] && v.missesNoMore(i, best) {
			best = i
		}
	}
	if v.values[v.before][0] <= v.values[best][0] && v.missesNoMore(v.before, best) {
		return v.before // nobody changes an order for one that has done no better
	}
	return best
}

// overrule returns the best: the one that the search found unless another is
// better in the fresh runs beyond what luck explains.
func (v *verdict) overrule(best int) int {
	ps := v.behindIn(0, best)
	over := best
	for i := range v.found {
		if ps[i] <= 1-level && v.values[i][0] < v.values[over][0] && v.missesNoMore(i, best) {
			over = i
		}
	}
	return over
}

// behindIn returns by order how likely luck alone makes it differ so much from the
// best in an aim, adjusted for how many are compared.
func (v *verdict) behindIn(k, best int) []float64 {
	var ps []float64
	for i := range v.found {
		ps = append(ps, v.luck(i, k, best))
	}
	return holmOthers(ps, best)
}

// allBehind is behindIn for every aim.
func (v *verdict) allBehind() (family [][]float64) {
	for k := range v.r.Aims {
		family = append(family, v.behindIn(k, v.best))
	}
	return family
}

// holmOthers adjusts the p values of all but one, which gets 1.
func holmOthers(ps []float64, one int) []float64 {
	return slices.Insert(holm(slices.Delete(slices.Clone(ps), one, one+1)), one, 1)
}

// hardly is how much later, as a share, an order may reach the aim and still be
// taken for as good.
const hardly = 0.005

// hardlyShare is the same of an aim that is a share of evenings.
const hardlyShare = 0.005

// kindest returns of the orders that are as good in the aim as the best, or
// hardly behind with no telling whether they are, the one that is easiest to
// remember. Of equals it is the one under which the finish comes soonest or, with
// several cases, the aim on average over them.
func (v *verdict) kindest(best int) int {
	most := v.values[best][0]
	switch {
	case v.r.Aims[0].Goal.Share():
		most += hardlyShare
	case v.r.Runs > 0:
		most *= 1 + hardly
	}
	kind := best
	for i := range v.found {
		if v.values[i][0] <= most && v.kinder(i, kind) && v.missesNoMore(i, best) && v.luck(i, 0, best) > 1-level {
			kind = i
		}
	}
	return kind
}

// kinder reports whether one order is easier to remember than another or, as easy,
// sooner otherwise.
func (j *jury) kinder(i, than int) bool {
	a, b := j.burdenOf(j.found[i]), j.burdenOf(j.found[than])
	if a != b {
		return a.less(b)
	}
	return j.otherwise(i) < j.otherwise(than)
}

// otherwise is what else counts of an order.
func (j *jury) otherwise(i int) (sum float64) {
	e, runs := j.heard(i)
	for in := range int(j.cases()) {
		switch {
		case j.r.Aims[0].Goal.Share():
			v, _ := roughly(Mean, e.times[j.columns(len(j.d.Milestones) - 1)[in]][:runs])
			sum += v
		case len(j.scenes) > 0:
			v, _ := j.valueIn(i, 0, in)
			sum += v
		}
	}
	if sum == 0 {
		return j.found[i].score.rest
	}
	return sum
}

// bestKnown returns the best of the scenario's own orders.
func (v *verdict) bestKnown() int {
	known := v.before
	for i, c := range v.found {
		if !c.own {
			continue
		}
		if a, b := v.shortfall(i), v.shortfall(known); a < b || a == b && v.values[i][0] < v.values[known][0] {
			known = i
		}
	}
	return known
}

// describe tells all there is to say of an order.
func (v *verdict) describe(i int) Found {
	c := v.found[i]
	f := Found{Order: c.order, Known: c.known, Milestones: c.milestones[:len(v.d.Milestones)], Start: c.start, End: c.end, Value: v.values[i], index: i,
		Evenings: v.evenings(i), Burden: v.burdenOf(c), Turned: v.turnedPairs(c), People: v.peopleUnder(c), Cases: v.inCases(i)}
	for k := range v.r.Aims {
		behind := v.sooner(v.best, k, i)
		behind.Told = i != v.best && v.behind[k][i] <= 1-level && behind.Value != 0 && v.mayTell(k, behind)
		f.Gain, f.Over, f.Behind = append(f.Gain, v.sooner(i, k, v.before)), append(f.Over, v.sooner(i, k, v.known)), append(f.Behind, behind)
	}
	return f
}

// inCases tells what an order gives in each case.
func (v *verdict) inCases(i int) (list []CaseFound) {
	in := -1
	for _, r := range v.r.Cases {
		var f CaseFound
		if r.Why == "" {
			in++
			for k := range v.r.Aims {
				is, influence := v.valueIn(i, k, in)
				was, had := v.valueIn(v.before, k, in)
				f.Value, f.Gain = append(f.Value, is), append(f.Gain, v.gain(k, was, is, had, influence))
			}
		}
		list = append(list, f)
	}
	return list
}

// level returns the best order and all that cannot be told from it.
func (v *verdict) level() []Found {
	list := []Found{v.describe(v.best)}
	for i := range v.found {
		if i == v.best || !v.missesNoMore(i, v.best) {
			continue
		}
		f := v.describe(i)
		if told := f.Behind[0].Told || v.r.Runs == 0 && f.Behind[0].Value > 0; !told {
			list = append(list, f)
		}
	}
	sortByValue(list[1:])
	return v.apart(list)
}

// front returns the Pareto front of the orders that keep to what is asked as well
// as the best.
func (v *verdict) front() (list []Found) {
	kept := slices.Clone(v.values)
	for i := range kept {
		if !v.missesNoMore(i, v.best) {
			kept[i] = nil
		}
	}
	for i := range v.found {
		if kept[i] != nil && !dominated(kept, i) {
			list = append(list, v.describe(i))
		}
	}
	sortByValue(list)
	return v.thinned(list)
}

func sortByValue(list []Found) {
	slices.SortStableFunc(list, func(a, b Found) int { return slices.Compare(a.Value, b.Value) })
}

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

// tellWins says what each of the changes that win most is worth.
func (v *verdict) tellWins() {
	if len(v.wins) == 0 {
		return
	}
	index := func(c *candidate) int {
		return slices.IndexFunc(v.found, func(o *candidate) bool { return o == c || v.same(o, c) })
	}
	on := index(v.winsOn)
	if v.r.WinsOn = v.winsOn.known; on < 0 {
		return
	}
	at, pending := on, []Edit(nil)
	for _, step := range v.wins {
		now := index(step.found)
		if now < 0 {
			return
		}
		// What wins nothing that can be told on fresh runs is told with what comes on
		// top of it.
		pending = append(pending, step.Edits...)
		if gain := v.sooner(now, 0, at); gain.Low > 0 {
			w := Win{Edits: pending, Gain: gain, Total: v.sooner(now, 0, on)}
			if slices.ContainsFunc(pending, func(e Edit) bool { return e.Kind == Splits }) {
				w.Regroups = v.regroups(v.winsOn.plan, step.found.plan)
			}
			v.r.Wins = append(v.r.Wins, w)
			at, pending = now, nil
		}
	}
}
