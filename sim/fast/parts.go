package fast

import "warmby/sim"

// The parts of a worker, each with what it has on arrival.

// clock is what time it is, and what comes next.
type clock struct {
	now      sim.Time
	bound    uint64   // events with a key below it are due
	queue    []uint64 // pending events, the soonest last
	todo     uint8    // what a moment has to do besides: bits
	nextStep sim.Time
	steps    []sim.Step
	step     int
	row      int32 // of rates, at this step
	events   int   // handled in this run
}

func clockOf(p *Program) clock {
	return clock{queue: apart[uint64](len(p.tasks) + len(p.people) + 16)[:0]}
}

func (c *clock) reset(p *Program, weather int) {
	weather = min(weather, len(p.steps)-1)
	c.now, c.todo, c.queue = 0, 0, c.queue[:0]
	c.steps, c.step, c.row, c.nextStep = p.steps[weather], 0, p.rows[weather], sim.Never
	if len(c.steps) > 1 {
		c.nextStep = c.steps[1].At
	}
}

// team is who is where, and who is free for which group.
type team struct {
	crew     []crewman
	free     uint64 // those with nothing to do, when not wide
	barred   uint64 // those relieved at barredAt, when not wide: no lookout for them then
	barredAt sim.Time
	extra    uint64  // people at lookouts who count as free for the task at hand, when not wide
	come     []int32 // people who are there from the start
	pools    []pool  // by group
	idle     crowd   // those with nothing to do, when wide
	crowds   []crowd // by group: the same as pools, when wide
	able     crowd   // scratch space, when wide
	calls    int64
	picker   picker
}

func teamOf(p *Program) team {
	t := team{
		crew:  apart[crewman](len(p.people)),
		come:  apart[int32](len(p.people))[:0],
		pools: apart[pool](len(p.groups)),
	}
	if p.wide {
		t.idle, t.able = crowdOf(len(p.people)), crowdOf(len(p.people))
		t.crowds = p.roomForCrowds(nil)
	}
	t.picker.prepare(p)
	return t
}

func (t *team) reset(p *Program) {
	t.calls, t.free, t.barredAt, t.come = 0, 0, -1, t.come[:0]
	clear(t.idle)
	for i := range t.pools {
		t.pools[i].uncalled = p.groups[i].counts
	}
	for who := range t.crew {
		t.crew[who] = crewman{relieved: -1, spot: p.people[who].begin}
	}
}

// pool is whom a group can use.
type pool struct {
	lent     uint64 // groups whose people they are
	people   uint64 // when not wide
	uncalled int32  // how many of the group's own tasks are not called yet
}

// work is how far the tasks are, and which may be called.
type work struct {
	tasks   []task // the program's
	jobs    []job
	slots   []int32  // people on each task, by task.crew
	pending []int32  // by task: how many things it waits for
	left    int      // tasks that have not ended
	changed sim.Time // when a task last changed
	dirty   []int32  // tasks whose rate is to be set anew
	whole   []int32  // tasks called whose crew is there
	made    []int32  // tasks ended that make something, as they count

	look     uint64 // groups for which something has come free or ready since they were last gone through
	came     uint64 // people who have come free since, of whom news does not tell yet, when not wide
	stirred  bool   // whether anything that joiners wait for has changed since they were last looked for
	joining  int    // how many tasks take joiners
	joins    uint64 // groups that have them in their sequences; some may have none left
	segments []segment
}

// segment is a word's worth of positions in the sequence of a group.
type segment struct {
	ready    uint64 // tasks that wait for nothing but people, tools and stoves
	news     uint64 // for which something has come free or ready since their group was last gone through
	every    uint64 // which are tried whenever it is
	uncalled uint64 // not called yet, of groups in turn
	join     uint64 // which take joiners
}

func workOf(p *Program) work {
	n := len(p.tasks)
	return work{
		tasks:    p.tasks,
		jobs:     apart[job](n),
		slots:    apart[int32](p.slots),
		pending:  apart[int32](n),
		dirty:    apart[int32](n)[:0],
		whole:    apart[int32](n)[:0],
		made:     apart[int32](n)[:0],
		segments: apart[segment](len(p.words)),
	}
}

func (w *work) reset(p *Program) {
	w.left, w.changed, w.look, w.stirred, w.joining, w.joins = len(p.tasks), 0, p.all, true, 0, 0
	w.dirty, w.whole, w.made = w.dirty[:0], w.whole[:0], w.made[:0]
	copy(w.pending, p.pending)
	for i := range w.jobs {
		j := &w.jobs[i]
		j.phase, j.start, j.end = waiting, sim.Never, sim.Never
	}
	copy(w.segments, p.segments)
	w.came = 0
}

// site is what tools and stoves are free, and how warm the shelters are.
type site struct {
	tools     uint64   // free ones of each kind, in lanes
	moreTools []uint64 // the same of those that do not fit
	stoves    [][]unit
	burns     []int32 // brought stoves of each kind
	puts      []int32 // tasks ended that put stoves out
	shelters  []sim.Shelter
	airs      []air
	warming   int // warm-ups under way
}

func siteOf(p *Program) site {
	d := p.d
	s := site{
		moreTools: apart[uint64](p.toolWords() - 1),
		stoves:    apart[[]unit](len(d.Stoves)),
		burns:     apart[int32](len(d.Stoves)),
		puts:      apart[int32](len(p.tasks))[:0],
		shelters:  apart[sim.Shelter](len(d.Shelters)),
		airs:      apart[air](len(d.Shelters)),
	}
	for i := range d.Stoves {
		s.stoves[i] = apart[unit](max(0, d.Stoves[i].Count))[:0]
	}
	return s
}

func (s *site) reset(p *Program) {
	s.warming, s.puts = 0, s.puts[:0]
	s.tools = p.tools[0]
	copy(s.moreTools, p.tools[1:])
	for i := range s.stoves {
		s.stoves[i], s.burns[i] = s.stoves[i][:0], 0
		if kind := &p.d.Stoves[i]; !kind.Brought {
			s.addStoves(i, kind.Count, kind.Count)
		}
	}
	copy(s.shelters, p.d.Shelters)
}

// lookoutRuns is who stands where, and which places are due.
type lookoutRuns struct {
	lookouts    []lookoutRun
	owed        int        // places that are due
	nextOf      []sim.Time // when each of them next begins, ends or is to be relieved
	nextLookout sim.Time   // when a lookout next begins or is to be relieved
}

func lookoutsOf(p *Program) lookoutRuns {
	var l lookoutRuns
	for i := range p.lookouts {
		l.lookouts = append(l.lookouts, lookoutRun{places: apart[place](p.lookouts[i].Places)})
	}
	l.nextOf = apart[sim.Time](len(p.lookouts))
	return l
}

func (l *lookoutRuns) reset(p *Program) {
	l.owed, l.nextLookout = 0, sim.Never
	for i := range l.lookouts {
		run := &l.lookouts[i]
		run.next, run.due, run.owed = 0, p.lookouts[i].From, 0
		if run.from = p.lookouts[i].from; run.from > 0 {
			run.due = sim.Never
		}
		run.begun, run.over, run.covered, run.there = false, false, 0, 0
		for k := range run.places {
			run.places[k] = place{who: -1, onWay: -1, relief: sim.Never}
		}
		l.nextOf[i] = l.nextOfLookout(p, i)
		l.nextLookout = min(l.nextLookout, l.nextOf[i])
	}
}
