package search

import (
	"context"
	"math/rand/v2"

	"warmby/sim"
	"warmby/sim/bound"
)

// inTurnList looks for the list of all tasks that, played in turn with usual
// values, reaches a milestone soonest, in a drill in which only fixed lengths,
// tools and people count; nil when the drill is not of that kind. It makes no
// more schedules than it is allowed to, and says how many it has made.
//
// A list in the sequence of the starts of a schedule, played in turn, starts no task
// later than the schedule does: whatever was at work at a moment there is at work
// or done here. So waiting on purpose is kept; a group that overtakes would lose
// it. Where people with skills are called it may be lost as well, for crews are
// picked by the rule of the scenario. Such lists are judged as played.
func inTurnList(ctx context.Context, d *sim.Drill, b *bound.Bounds, luck *sim.Luck, milestone, schedules int, random *rand.Rand) (list []int, made int) {
	least := b.Sharp(luck, nil)[milestone]
	p := newPlain(d, luck, b.Begun(milestone))
	if p == nil || least == sim.Never {
		return nil, 0
	}
	e := newEvolution(p, int32((least+p.unit-1)/p.unit), schedules, random)
	e.ctx = ctx
	job := make([]int32, len(d.Tasks))
	for j, i := range p.task {
		job[i] = int32(j)
	}
	var seeds [][]int32
	rest := ruleList(b, ruleLFT, luck, milestone)[len(p.task):]
	for rule := range ruleCount {
		var seed []int32
		for _, i := range ruleList(b, rule, luck, milestone)[:len(p.task)] {
			seed = append(seed, job[i])
		}
		seeds = append(seeds, seed)
	}
	run := e.run
	if p.mirror != nil && !p.skilled {
		run = newTwoSided(e).run
	}
	best := run(seeds)
	if best.forward == nil {
		return nil, e.s.made()
	}
	for _, j := range best.forward {
		list = append(list, p.task[j])
	}
	return append(list, rest...), e.s.made()
}
