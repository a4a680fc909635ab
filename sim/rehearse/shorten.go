package rehearse

import (
	"errors"

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

// Shorten is the task that is best made shorter.
type Shorten struct {
	Task int
	By   sim.Time // on the clock, in the timeline
	// Milestone is the one that it was chosen for: of those with a target the
	// one that is in time least often; the finish without a target.
	Milestone int
	Sooner    sim.Time // the milestone, on average over the evenings
}

// shorten tries each task whose length is given and which decided the milestone
// in the timeline, and returns the one that wins most.
func (r *Rehearsal) shorten(b compare.Batch) (*Shorten, error) {
	milestone := r.hardest()
	if r.Milestones[milestone] == sim.Never {
		return nil, nil
	}
	p, err := fast.Compile(r.Drill)
	if err != nil {
		return nil, nil // the engines differ; that is said elsewhere
	}
	t := &trial{w: p.Worker(), milestone: milestone, lucks: []*sim.Luck{r.Luck}}
	if r.Evenings != nil {
		t.draw(r.Drill, b.Seed, min(b.Runs, shortenRuns))
	}
	if err := t.play(); err != nil {
		return nil, err
	}
	var best *Shorten
	for task, critical := range r.Critical(milestone) {
		lasts := r.Tasks[task].End - r.Tasks[task].Start
		if !critical || r.Drill.Tasks[task].Amount == nil || lasts <= 0 {
			continue
		}
		by := min(ShortenBy, lasts/4)
		sooner, err := t.shorter(task, lasts, by)
		if err != nil {
			return nil, err
		}
		if sooner >= leastGain && (best == nil || sooner > best.Sooner) {
			best = &Shorten{task, by, milestone, sooner}
		}
	}
	return best, nil
}

// hardest returns the milestone with a target that is in time least often, the
// first of equals; the finish when none has a target.
func (r *Rehearsal) hardest() int {
	hardest, least := len(r.Milestones)-1, -1
	for m := range r.Drill.Milestones {
		if r.Drill.Milestones[m].By == sim.Never {
			continue
		}
		often := 0
		switch {
		case r.Evenings != nil:
			often = r.InTime(m)
		case r.Met(m):
			often = 1
		}
		if least < 0 || often < least {
			hardest, least = m, often
		}
	}
	return hardest
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

func (t *trial) play() error {
	for _, luck := range t.lucks {
		at, err := t.at(luck)
		if err != nil {
			return err
		}
		t.before = append(t.before, at)
	}
	return nil
}

// at returns when the milestone comes with some luck.
func (t *trial) at(luck *sim.Luck) (sim.Time, error) {
	var r fast.Result
	var never *sim.NeverError
	err := t.w.Play(luck, &r)
	switch {
	case errors.As(err, &never):
		return sim.Never, nil
	case err != nil:
		return 0, err
	}
	return r.Milestones[t.milestone], nil
}

// shorter returns how much sooner the milestone comes, on average over the
// evenings that reach it both ways, when a task takes less of its length: each
// evening as large a part of its length as "by" is of "lasts".
func (t *trial) shorter(task int, lasts, by sim.Time) (sim.Time, error) {
	var sum, n sim.Time
	for i, l := range t.lucks {
		luck := *l
		luck.Amount = append([]sim.Time(nil), l.Amount...)
		luck.Amount[task] -= part(luck.Amount[task], by, lasts)
		at, err := t.at(&luck)
		if err != nil {
			return 0, err
		}
		if at != sim.Never && t.before[i] != sim.Never {
			sum, n = sum+t.before[i]-at, n+1
		}
	}
	if n == 0 {
		return 0, nil
	}
	return sum / n, nil
}

// part returns amount * by / of. By is at most ShortenBy and amounts are below a
// year of person-time, so the product fits.
func part(amount, by, of sim.Time) sim.Time { return amount * by / of }
