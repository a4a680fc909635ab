package fast

import (
	"warmby/sim"
)

// Result is what one run gives. Its slices are reused from run to run.
type Result struct {
	// Milestones holds when each milestone of the drill was reached, "finish"
	// last; sim.Never when it was not.
	Milestones []sim.Time
	// Start and End hold when work on each task began and when it ended.
	Start, End []sim.Time
	Events     int // how many events of the drill were handled
	// Stops names what the run came to a stop at, as in a [sim.Timeline];
	// [Worker.Stopped] says why.
	Stops []sim.Cause
}

// Worker plays runs of a program, one after the other.
type Worker struct {
	p     *Program
	luck  sim.Luck
	paces []int64   // room for those of a luck that is given
	then  mishaps   // the same of mishaps that hang on a condition
	rec   *recorder // nil unless a timeline is asked for

	recorder *recorder // kept for the next timeline
	plain    plainRun

	clock
	team
	work
	site
	lookoutRuns
	clash   *sim.Cause
	atOnce  bool // whether walks need not be told of: nobody walks, and no timeline is kept
	quick   bool // whether crews are there at once, whoever they are
	singly  bool // whether those who come free are told of one by one
	explain bool // whether stops are to say why
}

// What a moment may have to do besides events.
const (
	toPutOut = 1 << iota // tasks ended that put stoves out
	toCome               // people who are there from the start
	toBegin              // tasks called whose crew is there
	toRate               // tasks whose rate is to be set anew
	toHeat               // something that a warm-up depends on has changed
)

// crewman is a person as a worker sees one. Task, lookout and place are those of
// the last call.
type crewman struct {
	spot     int32
	task     int32 // -1 when called to a lookout
	lookout  int32 // -1 when called to a task
	place    int32 // which place of the lookout
	relieved sim.Time
	there    sim.Time // when they come to where they were last sent
	here     bool
}

// job is a task as a worker sees it; only its phase means anything until it has
// been called.
type job struct {
	crew         uint64 // people there, when not wide
	left         sim.Labour
	rate         int64
	since, due   sim.Time
	called       sim.Time
	worked       sim.Time
	start, end   sim.Time // when work began, and when the task ended
	paces        int64
	there, onWay int32
	group, unit  int32
	each         int32 // people who hold the tools that each needs
	phase        phase
	stale        bool   // in dirty
	covers       uint64 // lookouts that need nobody while it is under way, by index in ties.covers
}

type phase uint8

const (
	waiting phase = iota
	called
	working
	mishap
	ended
)

// unit is one stove: which melt and which warm-up are on it, -1 for none, the
// latter also when it has ended. It dies when it is to go out with the melt.
type unit struct {
	melt, warm int32
	dies       bool
}

// lookoutRun is what changes of a lookout as a drill is played.
type lookoutRun struct {
	next   int32 // index into who from which the next call looks on
	due    sim.Time
	places []place
	there  uint64 // those who stand at its places, when not wide
	owed   int

	// Of lookouts that are tied to tasks.
	from        int32 // how many tasks have yet to end before it begins
	covered     int32 // tasks at which people are at work there
	begun, over bool
}

// place is one place of a lookout: who stands there, and who is on the way.
type place struct {
	who, onWay int32 // people, -1 for nobody
	owed       bool
	waits      bool     // nobody could be spared: it waits for somebody to come free
	closed     bool     // it is filled no more
	relief     sim.Time // when it is next to be relieved, where each has an hour of its own
	call       int64
}

// Worker returns a new worker for the program.
func (p *Program) Worker() *Worker {
	return &Worker{p: p, clock: clockOf(p), team: teamOf(p), work: workOf(p), site: siteOf(p), lookoutRuns: lookoutsOf(p)}
}

// Run plays one run of a seed.
func (w *Worker) Run(seed uint64, run int, r *Result) {
	w.p.sampler.Run(seed, run, &w.luck)
	w.play(r)
}

// Usual plays the drill with usual values.
func (w *Worker) Usual(r *Result) {
	w.p.sampler.Usual(&w.luck)
	w.play(r)
}

// Play plays the drill with given draws.
func (w *Worker) Play(l *sim.Luck, r *Result) {
	w.copyLuck(l)
	w.play(r)
}

func (w *Worker) copyLuck(l *sim.Luck) {
	w.luck.Amount = append(w.luck.Amount[:0], l.Amount...)
	w.luck.Mishap = append(w.luck.Mishap[:0], l.Mishap...)
	w.luck.Mishaps = append(w.luck.Mishaps[:0], l.Mishaps...)
	w.luck.Person = append(w.luck.Person[:0], l.Person...)
	w.luck.Load = append(w.luck.Load[:0], l.Load...)
	w.luck.Weather = l.Weather
	w.luck.MishapThen, w.luck.MishapsThen = nil, nil
	if l.MishapThen != nil {
		w.then.adds = append(w.then.adds[:0], l.MishapThen...)
		w.then.times = append(w.then.times[:0], l.MishapsThen...)
		w.luck.MishapThen, w.luck.MishapsThen = w.then.adds, w.then.times
	}
	w.luck.Pace = nil
	if l.Pace != nil {
		w.paces = append(w.paces[:0], l.Pace...)
		w.luck.Pace = w.paces
	}
}

// mishaps is what a luck has of the mishaps of all tasks.
type mishaps struct {
	adds  []sim.Time
	times []int
}

// mishapOf returns what mishaps add to a task whose work is done. Where their
// chance hangs on a condition that is what it was like at the start of the work.
func (w *Worker) mishapOf(i int32) sim.Time {
	m := w.tasks[i].Mishap
	if m != nil && m.When != nil && m.When.Holds(&w.p.d.Site, w.steps[sim.StepAt(w.steps, w.jobs[i].start)]) {
		return w.luck.MishapThen[i]
	}
	return w.luck.Mishap[i]
}

// pace is that of a person in the run that is played.
func (w *Worker) pace(who int32) int64 {
	if w.luck.Pace == nil {
		return w.p.people[who].pace
	}
	return w.luck.Pace[who]
}

func (w *Worker) play(r *Result) {
	w.events = 0
	if w.p.plain != nil {
		w.playPlain()
	}
	if w.p.plain == nil || w.left > 0 {
		w.reset()
		w.events = 0
		w.until(sim.Horizon)
	}
	r.Events = w.events
	w.result(r)
	if r.Stops = nil; w.left > 0 {
		r.Stops = w.stops()
	}
}

// result copies what was reached so far.
func (w *Worker) result(r *Result) {
	n := len(w.jobs)
	if cap(r.Start) < n || cap(r.End) < n || cap(r.Milestones) < len(w.p.d.Milestones) {
		r.Start, r.End = make([]sim.Time, n), make([]sim.Time, n)
		r.Milestones = make([]sim.Time, len(w.p.d.Milestones))
	}
	r.Start, r.End, r.Milestones = r.Start[:n], r.End[:n], r.Milestones[:len(w.p.d.Milestones)]
	start, end := r.Start[:len(w.jobs)], r.End[:len(w.jobs)]
	for i := range w.jobs {
		start[i], end[i] = w.jobs[i].start, w.jobs[i].end
	}
	last := len(r.Milestones) - 1
	for i := range w.p.d.Milestones[:last] {
		at := sim.Time(0)
		for _, t := range w.p.d.Milestones[i].When {
			at = max(at, r.End[t])
		}
		r.Milestones[i] = at
	}
	r.Milestones[last] = sim.Never
	if w.left == 0 {
		r.Milestones[last] = w.now // everything has ended
	}
}

// reset puts everything back to the moment of arrival.
func (w *Worker) reset() {
	p := w.p
	w.clash, w.atOnce = nil, p.still && !p.wide && w.rec == nil
	w.quick = p.quick && w.rec == nil
	w.singly = p.wide || w.rec != nil
	w.clock.reset(p, w.luck.Weather)
	w.team.reset(p)
	w.work.reset(p)
	w.site.reset(p)
	w.lookoutRuns.reset(p)
	w.resetAirs()
	for i := range p.groups {
		w.alone(i)
	}
	if p.lends {
		w.lend()
	}
	w.expect()
}

// expect puts who and what has yet to come into the queue.
func (w *Worker) expect() {
	for who := range w.crew {
		if at := w.luck.Person[who]; at > 0 {
			w.push(keyOf(at, walker, int32(who)))
		} else {
			w.come = append(w.come, int32(who))
			w.todo |= toCome
		}
	}
	for i := range w.p.loads {
		switch top := w.p.loads[i].top; {
		case top < 0:
		case w.luck.Load[i] > 0:
			w.push(keyOf(w.luck.Load[i], lagged, top))
		default:
			w.oneLess(top)
		}
	}
}
