package search

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/portable"
)

// evenings are runs of an order as far as they are asked about.
type evenings struct {
	times  [][]sim.Time // by column (milestone and case), then run
	chills [][]float64  // by case, then run: see chillOf; empty when nobody asks
}

// chillOf says how cold the coldest person gets, in shares of the limit: from 1
// on somebody has passed it. This is all that the search knows of cold.
func chillOf(peaks []cold.Peak) float64 {
	worst := 0.0
	for _, p := range peaks {
		if p.Known {
			worst = max(worst, p.Debt/cold.HeatLimit)
		}
		if p.Known && p.PassedAt != sim.Never {
			worst = max(worst, 1)
		}
	}
	return worst
}

// ramp turns a distance past a limit into how much it is missed, 0 to 1. Over a
// width about the limit it rises evenly, so that a search on few runs sees
// that one order misses by less than another; with width 0 it is a step.
func ramp(past, width float64) float64 {
	if width == 0 {
		if past > 0 {
			return 1
		}
		return 0
	}
	return max(0, min(1, 0.5+past/width))
}

// missed returns how much a goal is missed in one run of a case, 0 to 1, with
// ramps of some width, a share of the scale.
func (g *game) missed(goal Goal, milestone int, by sim.Time, e *evenings, in, run int, width float64) float64 {
	first := in * len(g.d.Milestones)
	met := 1.0
	late := func(m int, by sim.Time) {
		met *= 1 - ramp((moment(e.times[first+m][run])-moment(by))/g.scale, width)
	}
	if goal == Reached {
		late(milestone, by)
	}
	if goal.targets() {
		for _, m := range g.targets {
			late(m, g.d.Milestones[m].By)
		}
	}
	if goal.cold() && len(e.chills) > 0 {
		past := e.chills[in][run] - 1
		if width == 0 && past == 0 {
			met = 0 // at the limit is over it
		}
		met *= 1 - ramp(past, 2*width)
	}
	return 1 - met
}

// far returns how far a goal is from being met in one run, as a share of the
// scale: of two orders that always miss, the one that misses by less is nearer.
func (g *game) far(goal Goal, milestone int, by sim.Time, e *evenings, in, run int) (far float64) {
	first := in * len(g.d.Milestones)
	late := func(m int, by sim.Time) {
		far += max(0, moment(e.times[first+m][run])-moment(by)) / g.scale
	}
	if goal == Reached {
		late(milestone, by)
	}
	if goal.targets() {
		for _, m := range g.targets {
			late(m, g.d.Milestones[m].By)
		}
	}
	if goal.cold() && len(e.chills) > 0 {
		far += max(0, min(10, e.chills[in][run])-1)
	}
	return far
}

const (
	// beyond is what being far from a goal weighs beside missing it.
	beyond = 0.02
	// blur is the width of the ramps for one run, as a share of the scale. A share of
	// evenings is read off few runs so, as a density is smoothed: the width shrinks with
	// the fifth root of their number, which is best for that (B. W. Silverman, Density
	// Estimation, 1986, section 3.3).
	blur = 0.1
	// thenFinish is what the mean finish weighs beside a share of evenings: a tenth
	// of the finish as much as one evening in 200.
	thenFinish = 0.05
	// besides is what the mean of all milestones weighs beside the aims: an order
	// that is hardly behind in the aim and far ahead in all else is the better one.
	besides = 0.01
	// fewest is from how many runs on a quantile is taken from the runs; before,
	// from their mean and scatter as that of a normal law.
	fewest = 48
)

// tally adds up what an objective makes of some runs: the value, what each run
// has to do with it (numbers whose mean is the value and whose scatter is its),
// and what the mean over cases would be.
type tally struct {
	value, mean float64
	influence   []float64
}

func (t *tally) add(weight, value float64, influence []float64) {
	t.value += weight * value
	for r := range t.influence {
		t.influence[r] += weight * influence[r]
	}
}

// weigh returns what a heading makes of the first runs of an order. What is
// missing of what is asked for is added to the aims, so that an order that comes
// near and is good otherwise is not lost. All terms are shares: of evenings, or of
// what the order to beat takes.
func (g *game) weigh(h heading, e *evenings, runs int) tally {
	t := tally{influence: make([]float64, runs)}
	width := blur * portable.Pow(float64(max(1, runs)), -0.2)
	for k, a := range g.o.Aims {
		g.weighAim(&t, h.w[k], a, e, runs, width)
	}
	for k := range g.limits {
		l := &g.limits[k]
		for in := range int(g.cases()) {
			v, influence := g.shortOf(l, e, in, runs, width, h.margin)
			t.add(h.dear, v, influence)
		}
	}
	all, sum := 0.0, make([]float64, runs)
	for m := range e.times {
		for r := range runs {
			sum[r] += moment(e.times[m][r]) / g.scale / float64(len(e.times))
			all += moment(e.times[m][r]) / g.scale / float64(len(e.times)*runs)
		}
	}
	t.add(besides, all, sum)
	return t
}

// weighAim adds an aim, as it is in its latest case.
func (g *game) weighAim(t *tally, weight float64, a Aim, e *evenings, runs int, width float64) {
	most, influence := math.Inf(-1), []float64(nil)
	for in := range int(g.cases()) {
		v, by := g.aimIn(a, e, in, runs, width)
		t.mean += weight * v / float64(g.cases())
		if v > most {
			most, influence = v, by
		}
	}
	t.add(weight, most, influence)
}

// aimIn returns the value of an aim in a case, with what each run has to do with
// it.
func (g *game) aimIn(a Aim, e *evenings, in, runs int, width float64) (float64, []float64) {
	if a.Goal == Reached {
		return roughly(a.Statistic, e.times[in*len(g.d.Milestones)+a.Milestone][:runs])
	}
	total, by := 0.0, make([]float64, runs)
	finish := e.times[(in+1)*len(g.d.Milestones)-1]
	for r := range by {
		by[r] = g.missed(a.Goal, 0, 0, e, in, r, width) + beyond*min(1, g.far(a.Goal, 0, 0, e, in, r)) + thenFinish*moment(finish[r])/g.scale
		total += by[r]
	}
	return total / float64(runs), by
}

// shortOf returns by what share of runs a limit is missed in a case, and a little
// for how far it is missed by.
func (g *game) shortOf(l *limit, e *evenings, in, runs int, width, margin float64) (float64, []float64) {
	by, total := make([]float64, runs), 0.0
	for r := range by {
		by[r] = g.missed(l.goal, l.milestone, l.by, e, in, r, width)
		total += by[r] / float64(runs)
	}
	short := total - max(0, 1-l.odds-margin)
	if runs == 1 {
		short = total
	}
	if short <= 1e-12 {
		clear(by)
		return 0, by
	}
	for r := range by {
		far := beyond * min(1, g.far(l.goal, l.milestone, l.by, e, in, r))
		by[r] += far - (total - short)
		short += far / float64(runs)
	}
	return short, by
}

// roughly is the statistic of some moments with what each has to do with it. With
// few runs a quantile is taken as that of a normal law,
//
//	mean + z sd, to which x adds x + z ((x - mean)^2 - sd^2) / (2 sd)
//
// Moments that never come count as [never].
func roughly(s Statistic, times []sim.Time) (float64, []float64) {
	n := float64(len(times))
	if s != Mean && len(times) >= fewest {
		capped := make([]sim.Time, len(times))
		for r, t := range times {
			capped[r] = min(t, sim.Time(never))
		}
		if v, by := s.influence(capped, nil); !math.IsNaN(by[0]) {
			return v, by
		}
	}
	mean, by := 0.0, make([]float64, len(times))
	for r, t := range times {
		by[r] = moment(t)
		mean += by[r] / n
	}
	if s == Mean || len(times) < 2 {
		return mean, by
	}
	square := 0.0
	for _, x := range by {
		square += (x - mean) * (x - mean) / n
	}
	scatter, z := math.Sqrt(square), distuv.UnitNormal.Quantile(float64(s))
	if scatter == 0 {
		return mean, by
	}
	for r, x := range by {
		by[r] = x + z*((x-mean)*(x-mean)-square)/(2*scatter)
	}
	return mean + z*scatter, by
}

// score is how good an order is: by its objective in the latest case, then by the
// mean over all cases, then by all milestones together.
type score struct{ total, mean, rest float64 }

func (s score) less(o score) bool {
	switch {
	case s.total != o.total:
		return s.total < o.total
	case s.mean != o.mean:
		return s.mean < o.mean
	}
	return s.rest < o.rest
}

func (g *game) scored(h heading, e *evenings, runs int) score {
	t := g.weigh(h, e, runs)
	s := score{total: t.value, mean: t.mean}
	for m := range e.times {
		for _, at := range e.times[m][:runs] {
			s.rest += moment(at) / float64(runs)
		}
	}
	return s
}
