package rehearse

import (
	"cmp"
	"slices"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// ShortenBy is by how much a task is made shorter on the clock, or by a quarter
// of what it takes when that is less: nobody serves tea in no time.
const ShortenBy = 5 * sim.Minute

// shortenRuns is in how many evenings at most each task is made shorter.
const shortenRuns = 200

// leastGain is what a shorter task must win to be worth saying.
const leastGain = sim.Minute

// leastWork is how long a task must last to be worth practising: ten minutes, as
// the clock rounds them. What is over sooner has little to give.
const leastWork = 10*sim.Minute - sim.Minute/2

// Shorten is the task that is best made shorter.
type Shorten struct {
	Task int
	By   sim.Time // on the clock, in the timeline
	// Milestone is the one that it was chosen for: of those with a target the
	// one that is in time least often; the finish without a target.
	Milestone int
	Sooner    sim.Time // the milestone, on average over the evenings
}

// shorten returns the task that is best made shorter for the milestone that is in
// time least often or, where nothing of it is worth practising, for the next one.
// What is never reached in the timeline is left out.
func (r *Rehearsal) shorten(b compare.Batch) *Shorten {
	w := fast.Compile(r.Drill).Worker()
	for _, milestone := range r.hardestFirst() {
		if r.Milestones[milestone] == sim.Never {
			continue
		}
		t := &trial{w: w, milestone: milestone, lucks: []*sim.Luck{r.Luck}}
		if r.Evenings != nil {
			t.draw(r.Drill, b.Seed, min(b.Runs, shortenRuns))
		}
		if best := r.shortenFor(milestone, t); best != nil {
			return best
		}
	}
	return nil
}

// shortenFor tries each task whose length is given, at which somebody works for some
// ten minutes or more, and which decided a milestone in the timeline; it returns the
// one that wins most.
func (r *Rehearsal) shortenFor(milestone int, t *trial) (best *Shorten) {
	for _, luck := range t.lucks {
		t.before = append(t.before, t.at(luck))
	}
	for task, critical := range r.Critical(milestone) {
		lasts := r.Tasks[task].End - r.Tasks[task].Start
		if own := &r.Drill.Tasks[task]; !critical || own.Amount == nil || own.Crew.Max == 0 || lasts < leastWork {
			continue
		}
		by := min(ShortenBy, lasts/4)
		sooner := t.shorter(task, lasts, by)
		if sooner >= leastGain && (best == nil || sooner > best.Sooner) {
			best = &Shorten{task, by, milestone, sooner}
		}
	}
	return best
}

// hardestFirst returns the milestones with a target that is not always met, those in
// time least often first; the finish when none has a target.
func (r *Rehearsal) hardestFirst() (list []int) {
	often := func(m int) int {
		switch {
		case r.Evenings != nil:
			return r.InTime(m)
		case r.Met(m):
			return 1
		}
		return 0
	}
	all, some := 1, false
	if r.Evenings != nil {
		all = len(r.Evenings.Times[0])
	}
	for m := range r.Drill.Milestones {
		if r.Drill.Milestones[m].By != sim.Never {
			some = true
			if often(m) < all || r.Evenings == nil {
				list = append(list, m)
			}
		}
	}
	if !some {
		return []int{len(r.Milestones) - 1}
	}
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(often(a), often(b)) })
	return list
}

// trial plays the same evenings again and again, with one task shorter.
type trial struct {
	w         *fast.Worker
	milestone int
	lucks     []*sim.Luck
	before    []sim.Time // when the milestone came, by evening
}

func (t *trial) draw(d *sim.Drill, seed uint64, runs int) {
	t.lucks = nil
	for run := range runs {
		t.lucks = append(t.lucks, draw.Run(d, seed, run))
	}
}

// at returns when the milestone comes with some luck.
func (t *trial) at(luck *sim.Luck) sim.Time {
	var r fast.Result
	t.w.Play(luck, &r)
	return r.Milestones[t.milestone]
}

// shorter returns how much sooner the milestone comes, on average over the
// evenings that reach it both ways, when a task takes less of its length: each
// evening as large a part of its length as "by" is of "lasts".
func (t *trial) shorter(task int, lasts, by sim.Time) sim.Time {
	var sum, n sim.Time
	for i, l := range t.lucks {
		luck := *l
		luck.Amount = append([]sim.Time(nil), l.Amount...)
		luck.Amount[task] -= part(luck.Amount[task], by, lasts)
		at := t.at(&luck)
		if at != sim.Never && t.before[i] != sim.Never {
			sum, n = sum+t.before[i]-at, n+1
		}
	}
	if n == 0 {
		return 0
	}
	return sum / n
}

// part returns amount * by / of. By is at most ShortenBy and amounts are below a
// year of person-time, so the product fits.
func part(amount, by, of sim.Time) sim.Time { return amount * by / of }
