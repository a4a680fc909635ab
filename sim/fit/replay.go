package fit

import (
	"slices"

	"warmby/sim"
	"warmby/sim/fast"
	"warmby/sim/timed"
)

// Evening is a drill as it was timed beside the drill of the scenario, under the
// order that was followed and with the conditions of that day.
type Evening = timed.Evening

// Replayed is an evening played again with the lengths that the log gives.
type Replayed struct {
	Luck     *sim.Luck
	Timeline *sim.Timeline
	// Drill is that of the evening; its stoves burn hotter where the log has a
	// melt or a warm-up that was done sooner than the file's stove can.
	Drill *sim.Drill
	// Off holds the jobs whose ends could not be met, as indices into
	// Timed.Jobs: by the scenario the task could not have begun before it ended.
	Off []int
}

// closeTo is how near an end must come to that of the log.
const closeTo = 500 * sim.Millisecond

// Replay plays an evening so that each task ends when the log says. Starts
// follow from when crew and kit were there. Base has the lengths of what the log
// does not have, and is not changed.
//
// Ends are met one after the other as time goes by: what ends later cannot
// change what ended before, but for people who would join.
func Replay(e Evening, base *sim.Luck) *Replayed { return newPlayer(e).replay(base) }

// player plays one evening again and again.
type player struct {
	Evening
	jobs   []timed.Job // by their ends
	worker *fast.Worker
}

func newPlayer(e Evening) *player {
	p := &player{e, slices.Clone(e.Timed.Jobs), fast.Compile(e.Drill).Worker()}
	slices.SortStableFunc(p.jobs, func(a, b timed.Job) int { return int(a.End - b.End) })
	return p
}

func (p *player) replay(base *sim.Luck) *Replayed {
	r := &replay{p, p.worker, &Replayed{Luck: clone(base), Drill: p.Drill, Timeline: &sim.Timeline{}}}
	r.known()
	for round := 0; round < 4*len(r.jobs)+12; round++ {
		if r.play(); r.mend(round < 4) {
			return r.end()
		}
	}
	r.play()
	return r.end()
}

// replay is a replay under way.
type replay struct {
	*player
	worker *fast.Worker // the player's, or that of hotter stoves
	out    *Replayed
}

func clone(l *sim.Luck) *sim.Luck {
	c := *l
	c.Amount, c.Mishap, c.Mishaps = slices.Clone(l.Amount), slices.Clone(l.Mishap), slices.Clone(l.Mishaps)
	c.MishapThen, c.MishapsThen = slices.Clone(l.MishapThen), slices.Clone(l.MishapsThen)
	return &c
}

// known puts what the log says of mishaps into the luck: none where it has none.
func (r *replay) known() {
	for _, j := range r.jobs {
		r.out.Luck.SetMishaps(j.Task, j.Mishaps, mishapTime(&j))
	}
}

func mishapTime(j *timed.Job) sim.Time {
	if j.MishapTime == sim.Never {
		return 0
	}
	return j.MishapTime
}

func (r *replay) play() {
	r.worker.Replay(r.out.Luck, r.out.Timeline)
	r.out.Timeline.Luck = r.out.Luck
}

// mend brings ends that are off nearer: all of them, or only the first.
func (r *replay) mend(all bool) (done bool) {
	done = true
	for i := range r.jobs {
		j := &r.jobs[i]
		if r.met(j) {
			continue
		}
		if r.set(j) {
			if done = false; !all {
				return false
			}
		}
	}
	return done
}

func (r *replay) met(j *timed.Job) bool {
	end := r.out.Timeline.Tasks[j.Task].End
	if j.Unfinished {
		return end > j.End
	}
	return end-j.End <= closeTo && j.End-end <= closeTo
}

// set gives a job the length with which it would have ended when it did, had
// nothing else changed. It reports whether that is another one.
func (r *replay) set(j *timed.Job) (changed bool) {
	t, times := &r.Drill.Tasks[j.Task], r.out.Timeline.Tasks[j.Task]
	worked := j.End - mishapTime(j)
	if j.Unfinished {
		worked += sim.Minute
	}
	heat := t.Kind == sim.Melt || t.Kind == sim.Warm
	var to sim.Time
	switch {
	case times.Start == sim.Never || times.Start >= worked:
		to = 1
		if heat {
			return false
		}
	case heat:
		return r.setHeat(j, worked-times.Start)
	case t.Kind == sim.Takes:
		to = worked - times.Start
	default:
		to = r.work(j.Task, times, worked)
	}
	amount := &r.out.Luck.Amount[j.Task]
	changed = *amount != to
	*amount = to
	return changed
}

// work returns the amount with which a task would have been done at a moment,
// with the crew that it has in the timeline; at the end it stays as it is.
func (r *replay) work(task int, times sim.TaskTimes, at sim.Time) sim.Time {
	crew := ofTimeline(r.out.Timeline, task)
	ms, rate, _ := amount(r.Drill, r.Drill.Steps(r.out.Luck.Weather), task, crew, min(at, times.Worked))
	if at > times.Worked {
		ms += rate * float64(at-times.Worked)
	}
	return max(1, sim.Milliseconds(ms))
}

// setHeat makes a melt or a warm-up as long as it was: what it took more than
// the file's stove takes is added, and where it took less its stove is made as
// much hotter.
func (r *replay) setHeat(j *timed.Job, length sim.Time) (changed bool) {
	times := r.out.Timeline.Tasks[j.Task]
	own := times.Worked - times.Start
	if times.Worked == sim.Never {
		own = 10 * length
	}
	if more := length - own + mishapTime(j); more >= 0 {
		changed = r.out.Luck.Mishap[j.Task] != more
		r.out.Luck.SetMishaps(j.Task, j.Mishaps, more)
		return changed
	}
	d := *r.out.Drill
	d.Stoves = slices.Clone(d.Stoves)
	stove := stoveOf(&d.Tasks[j.Task])
	d.Stoves[stove].Power *= min(4, 1.02*float64(own)/float64(max(length, sim.Second)))
	if d.Stoves[stove].Power > 20*r.Drill.Stoves[stove].Power {
		return false // no stove does that: handling alone takes longer
	}
	r.out.Drill, r.worker = &d, fast.Compile(&d).Worker()
	return true
}

func stoveOf(t *sim.Task) int {
	if t.Kind == sim.Melt {
		return t.Melt.Stove
	}
	return t.Warm.Stove
}

// tolerance is by how much an end may be off and its row still be used.
const tolerance = sim.Minute

func (r *replay) end() *Replayed {
	for i := range r.Timed.Jobs {
		j := &r.Timed.Jobs[i]
		end := r.out.Timeline.Tasks[j.Task].End
		if !j.Unfinished && (end-j.End > tolerance || j.End-end > tolerance) {
			r.out.Off = append(r.out.Off, i)
		}
	}
	return r.out
}
