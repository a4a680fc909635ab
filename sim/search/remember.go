package search

import (
	"slices"

	"warmby/sim"
)

// remember makes orders easier to remember: step by step it takes back what sets
// them apart from the nearest of the scenario's own orders, wherever that costs
// next to nothing in the runs of the search. Groups come first, for they are the
// most to remember, then crews, rules and lends, then tasks that stand elsewhere.
// It returns the orders that came of it.
func (x *exploration) remember(list []*candidate, budget int64) (out []*candidate) {
	list = slices.DeleteFunc(slices.Clone(list), func(c *candidate) bool { // too few drills to tell what a step costs
		e, runs := x.archive.met(c)
		return e.runs() < runs
	})
	shares := budget / int64(max(1, len(list)))
	plain := make([]*candidate, len(list))
	x.each(x.players, len(list), func(p *player, k int) {
		t := &taking{player: p, archive: x.archive, h: x.goals[0], best: list[k], from: list[k], budget: shares}
		if plain[k] = t.all(); plain[k] == list[k] {
			plain[k] = nil
		}
	})
	for _, c := range plain {
		if c != nil {
			out = append(out, c)
		}
	}
	return out
}

// taking is the taking back in one order.
type taking struct {
	*player
	archive    *archive
	h          heading
	best, from *candidate
	budget     int64
}

// A step back may cost this much of the aim; all steps together may cost so many
// times as much.
const (
	stepMinutes = 0.1   // of a milestone
	stepShare   = 0.002 // of evenings
	mostSteps   = 4
)

// stepRuns is on how many runs a step is judged at most; all steps together are
// then judged on those of the archive.
const stepRuns = 128

// step returns what a step may cost, in the terms of the objective.
func (g *game) step(h heading) float64 {
	if len(g.o.Aims) > 1 {
		return 0
	}
	if g.o.Aims[0].Goal.Share() {
		return h.w[0] * stepShare
	}
	return h.w[0] * stepMinutes * float64(sim.Minute)
}

func (t *taking) all() *candidate {
	if t.best.plan == nil || t.best.own {
		return t.best
	}
	near := t.nearest(t.best.plan)
	for len(t.best.plan.groups) > 1 {
		was := t.best
		t.try(func(p *plan) { (&mover{d: t.d}).dissolve(p, len(p.groups)-1) })
		if t.best == was {
			break
		}
	}
	if near != nil && len(near.groups) == len(t.best.plan.groups) {
		t.try(func(p *plan) {
			p.of, p.has, p.groups = slices.Clone(near.of), slices.Clone(near.has), slices.Clone(near.groups)
		})
	}
	t.details()
	for again := near != nil; again; {
		again = t.moves(near)
	}
	return t.checked()
}

// moves takes back tasks that stand elsewhere than in the nearest order. It reports
// whether there was one.
func (t *taking) moves(near *plan) (some bool) {
	for k := 0; ; {
		all := t.edits(near, t.best.plan)
		if k >= len(all) {
			return some
		}
		was := t.best
		for _, behind := range []bool{false, true} {
			if t.best == was && all[k].Kind == Moves {
				t.try(func(p *plan) { *p = *combine(near, was.plan, without(all, k), behind) })
			}
		}
		if t.best == was {
			k++
		} else {
			some = true
		}
	}
}

// checked returns what came of it; or what it came from, where the steps together
// cost more than they may in all runs of the archive.
func (t *taking) checked() *candidate {
	if len(t.lucks) == 0 || t.best == t.from {
		return t.best
	}
	if need := int64(t.archive.runs-t.best.runs()) * t.cases(); t.budget < need || t.ctx.Err() != nil {
		return t.from
	}
	t.run(t.best, t.archive.runs)
	if t.loss(t.best, t.from, t.archive.runs) > mostSteps*t.step(t.h) {
		return t.from
	}
	return t.best
}

// details takes back crews, shared tasks, rules, lends and unloadings.
func (t *taking) details() {
	for i := range t.d.Tasks {
		t.try(func(p *plan) { p.crews[i] = t.d.Tasks[i].Crew })
		if t.d.Tasks[i].Unloads() {
			t.try(func(p *plan) { p.has[i] = 0 })
		} else {
			t.try(func(p *plan) { p.has[i] &= -p.has[i] }) // the first of its groups
		}
	}
	for k := range t.best.plan.groups {
		t.try(func(p *plan) { p.groups[k].inTurn = false })
		for to := range t.best.plan.groups {
			t.try(func(p *plan) { p.groups[k].then &^= 1 << to })
		}
	}
}

// try makes a step back if it costs next to nothing.
func (t *taking) try(change func(p *plan)) {
	pl := t.best.plan.clone()
	change(pl)
	if pl.equal(t.best.plan) || t.ctx.Err() != nil || t.budget < t.cases() {
		return
	}
	t.budget -= t.cases()
	c := t.player.try(t.h, pl)
	if c == nil || !t.burdenOf(c).less(t.burdenOf(t.best)) {
		return
	}
	if t.costsLittle(c) {
		t.best = c
	}
}

// costsLittle plays a candidate on more and more runs of the search and reports
// whether it is hardly behind.
func (t *taking) costsLittle(c *candidate) bool {
	step := t.step(t.h)
	if len(t.lucks) == 0 {
		return t.loss(c, t.best, 0) <= step && t.loss(c, t.from, 0) <= mostSteps*step
	}
	most := min(stepRuns, t.archive.runs)
	for _, runs := range append(slices.DeleteFunc(slices.Clone(laps), func(n int) bool { return n >= most }), most) {
		need := int64(max(0, runs-c.runs())) * t.cases()
		if t.budget < need {
			return false
		}
		t.budget -= need
		t.run(c, runs)
		if runs < most && t.loss(c, t.best, runs) > step && t.behindBy(t.h, c, t.best, runs) > 2 {
			return false
		}
	}
	return t.loss(c, t.best, most) <= step && t.loss(c, t.from, most) <= mostSteps*step
}

// loss returns by how much one is behind another in some runs, all limits kept
// with a margin; of several aims in any.
func (t *taking) loss(c, o *candidate, runs int) float64 {
	a, b := &c.evenings, &o.evenings
	if runs == 0 {
		a, b, runs = c.usual(), o.usual(), 1
	}
	if len(t.o.Aims) > 1 {
		if t.same(c, o) {
			return 0
		}
		return 1
	}
	h := t.h
	h.margin = t.margin(1, runs)
	return t.weigh(h, a, runs).value - t.weigh(h, b, runs).value
}
