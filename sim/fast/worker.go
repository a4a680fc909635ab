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
	tasks []task // the program's
	luck  sim.Luck
	paces []int64   // room for those of a luck that is given
	rec   *recorder // nil unless a timeline is asked for

	recorder *recorder // kept for the next timeline
	plain    plainRun

	now         sim.Time
	bound       uint64   // events with a key below it are due
	queue       []uint64 // pending events, the soonest last
	todo        uint8    // what there is in come, whole and dirty, and heated: bits
	look        uint64   // groups for which something has come free or ready since they were last gone through
	stirred     bool     // whether anything that joiners wait for has changed since they were last looked for
	left        int      // tasks that have not ended
	joining     int      // how many tasks take joiners
	joins       uint64   // groups that have them in their sequences; some may have none left
	owed        int      // places that are due
	nextStep    sim.Time
	nextLookout sim.Time // when a lookout next begins or is to be relieved
	steps       []sim.Step
	step        int
	row         int32  // of rates, at this step
	free        uint64 // those with nothing to do, when not wide
	barred      uint64 // those relieved at barredAt, when not wide: no lookout for them then
	barredAt    sim.Time
	crew        []crewman
	slots       []int32 // people on each task, by task.crew
	jobs        []job
	pending     []int32    // by task: how many things it waits for
	start       []sim.Time // by task: when work began
	end         []sim.Time // by task
	dirty       []int32    // tasks whose rate is to be set anew
	come        []int32    // people who are there from the start
	whole       []int32    // tasks called whose crew is there
	puts        []int32    // tasks ended that put stoves out
	tools       []uint64   // free ones of each kind, in lanes
	stoves      [][]unit
	burns       []int32 // brought stoves of each kind

	ready    []uint64 // positions of tasks that wait for nothing but people, tools and stoves
	uncalled []uint64 // positions not called yet, of groups in turn
	join     []uint64 // positions of tasks that take joiners
	counts   []int32  // by group: how many of its tasks are not called yet
	lent     []uint64 // by group: groups whose people it can use
	pools    []uint64 // by group: the same people
	idle     crowd    // those with nothing to do, when wide
	crowds   []crowd  // by group: the same as pools, when wide
	able     crowd    // scratch space, when wide

	lookouts []lookoutRun
	calls    int64
	shelters []sim.Shelter
	airs     []air
	made     []int32 // tasks ended that make something, as they count
	warming  int     // warm-ups under way
	extra    uint64  // people at lookouts who count as free for the task at hand, when not wide
	picker   picker
	changed  sim.Time // when a task last changed
	clash    *sim.Cause
	events   int  // handled in this run
	explain  bool // whether stops are to say why
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
	d := p.d
	w := &Worker{
		p:        p,
		tasks:    p.tasks,
		crew:     apart[crewman](len(p.people)),
		slots:    apart[int32](p.slots),
		jobs:     apart[job](len(p.tasks)),
		pending:  apart[int32](len(p.tasks)),
		start:    apart[sim.Time](len(p.tasks)),
		end:      apart[sim.Time](len(p.tasks)),
		ready:    apart[uint64](int(p.words)),
		uncalled: apart[uint64](int(p.words)),
		join:     apart[uint64](int(p.words)),
		tools:    apart[uint64](p.toolWords()),
		stoves:   apart[[]unit](len(d.Stoves)),
		burns:    apart[int32](len(d.Stoves)),
		counts:   apart[int32](len(p.groups)),
		lent:     apart[uint64](len(p.groups)),
		pools:    apart[uint64](len(p.groups)),
		shelters: apart[sim.Shelter](len(d.Shelters)),
		airs:     apart[air](len(d.Shelters)),
		queue:    apart[uint64](len(p.tasks) + len(p.people) + 16)[:0],
		dirty:    apart[int32](len(p.tasks))[:0],
		whole:    apart[int32](len(p.tasks))[:0],
		puts:     apart[int32](len(p.tasks))[:0],
		come:     apart[int32](len(p.people))[:0],
		made:     apart[int32](len(p.tasks))[:0],
	}
	for i := range d.Stoves {
		w.stoves[i] = apart[unit](max(0, d.Stoves[i].Count))[:0]
	}
	for i := range p.lookouts {
		w.lookouts = append(w.lookouts, lookoutRun{places: apart[place](p.lookouts[i].Places)})
	}
	if p.wide {
		w.idle, w.able = crowdOf(len(p.people)), crowdOf(len(p.people))
		w.crowds = p.roomForCrowds(nil)
	}
	w.picker.prepare(p)
	return w
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
	w.luck.Pace = nil
	if l.Pace != nil {
		w.paces = append(w.paces[:0], l.Pace...)
		w.luck.Pace = w.paces
	}
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
	copy(r.Start, w.start)
	copy(r.End, w.end)
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
	p, d := w.p, w.p.d
	w.now, w.left, w.calls, w.owed, w.joining, w.joins, w.warming = 0, len(p.tasks), 0, 0, 0, 0, 0
	w.clash, w.todo, w.look, w.stirred, w.changed = nil, 0, p.all, true, 0
	w.queue, w.dirty, w.come, w.whole, w.puts, w.made = w.queue[:0], w.dirty[:0], w.come[:0], w.whole[:0], w.puts[:0], w.made[:0]
	weather := min(w.luck.Weather, len(p.steps)-1)
	w.steps, w.step, w.row = p.steps[weather], 0, p.rows[weather]
	w.nextStep = sim.Never
	if len(w.steps) > 1 {
		w.nextStep = w.steps[1].At
	}
	copy(w.tools, p.tools)
	for i := range w.stoves {
		w.stoves[i], w.burns[i] = w.stoves[i][:0], 0
		if !d.Stoves[i].Brought {
			w.addStoves(i, d.Stoves[i].Count)
		}
	}
	copy(w.shelters, d.Shelters)
	w.resetAirs()
	clear(w.join)
	copy(w.ready, p.ready)
	copy(w.uncalled, p.uncalled)
	for i := range p.groups {
		w.counts[i] = p.groups[i].counts
		w.alone(i)
	}
	if p.lends {
		w.lend()
	}
	copy(w.pending, p.pending)
	for i := range w.jobs {
		w.jobs[i].phase = waiting
	}
	copy(w.start, p.never)
	copy(w.end, p.never)
	w.resetLookouts()
	w.free, w.barredAt = 0, -1
	clear(w.idle)
	for who := range w.crew {
		w.crew[who] = crewman{relieved: -1, spot: p.people[who].begin}
		if at := w.luck.Person[who]; at > 0 {
			w.push(keyOf(at, walker, int32(who)))
		} else {
			w.come = append(w.come, int32(who))
			w.todo |= toCome
		}
	}
	for i := range p.loads {
		switch top := p.loads[i].top; {
		case top < 0:
		case w.luck.Load[i] > 0:
			w.push(keyOf(w.luck.Load[i], lagged, top))
		default:
			w.oneLess(top)
		}
	}
}

func (w *Worker) resetLookouts() {
	w.nextLookout = sim.Never
	for i := range w.lookouts {
		run := &w.lookouts[i]
		run.next, run.due, run.owed = 0, w.p.lookouts[i].From, 0
		if run.from = w.p.lookouts[i].from; run.from > 0 {
			run.due = sim.Never
		}
		run.begun, run.over, run.covered = false, false, 0
		for k := range run.places {
			run.places[k] = place{who: -1, onWay: -1, relief: sim.Never}
		}
		w.nextLookout = min(w.nextLookout, w.nextOfLookout(i))
	}
}
