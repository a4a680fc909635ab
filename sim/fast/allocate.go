package fast

import (
	"math/bits"

	"warmby/sim"
)

// allocate hands out the work: lookouts due, then each group in turn. It
// reports whether it has started anything.
func (w *Worker) allocate() bool {
	started := false
	if w.nextLookout == w.now {
		w.owe()
	}
	if w.owed > 0 {
		started = w.fillPlaces()
	}
	if w.look == 0 {
		return started
	}
	for look := w.look; look != 0; {
		if w.came != 0 { // perhaps by a start in a group before
			w.tellFreed()
		}
		di := lowest(look)
		w.look &^= bitOf(di)
		if det := &w.p.groups[di]; det.inTurn {
			started = w.startInTurn(det, di) || started
		} else {
			started = w.startAny(det, di) || started
		}
		look = w.look & above(di)
	}
	return started
}

// tellFreed marks the tasks that hang on those who have come free.
func (w *Worker) tellFreed() {
	segments, does, came := w.segments, w.p.does, w.came
	if w.came = 0; len(segments) == 1 {
		news := uint64(0)
		for ; came != 0; came &= came - 1 {
			news |= does[lowest(came)]
		}
		segments[0].news |= news
		return
	}
	for n := len(segments); came != 0; came &= came - 1 {
		of := does[n*int(lowest(came)):][:n]
		for k := range segments {
			segments[k].news |= of[k]
		}
	}
}

// startAny starts the tasks of a group that are ready and may start, in sequence.
func (w *Worker) startAny(det *group, di int32) bool {
	started := false
	for k := det.first; k < det.end; k++ {
		if m := w.segments[k].worthATry(); m != 0 {
			started = w.start(k, di, m, ^uint64(0)) || started
		}
	}
	return started
}

// worthATry returns the tasks of a word that are ready, but for those that were tried
// before and for which nothing has come free since.
func (s *segment) worthATry() uint64 {
	m := s.ready & (s.news | s.every)
	s.news = 0
	return m
}

// start calls the crews of some tasks of a word that are ready, in sequence, where tools,
// a stove and people are free, and reports whether it has called any. Those that it makes
// ready by that are among them if a mask has them. Left out, at a stroke, are tasks that
// ask for more people than are free, and those that ask for just what was not free.
func (w *Worker) start(k, di int32, m, mask uint64) bool {
	of, s, pool := &w.p.words[k], &w.segments[k], &w.pools[di]
	started, guards := false, w.p.lanes.guards
	for m &= of.fit[min(bits.OnesCount64(w.free&pool.people), smallCrews)]; m != 0; {
		bit := lowest(m)
		m &= m - 1
		c := &of.calls[bit]
		if (w.tools|guards-c.need)&guards != guards {
			m &^= c.alike
			continue
		}
		if !c.odd {
			able, standing := w.free, uint64(0)
			if c.tied {
				standing = w.standing(c.t)
				able |= standing
			}
			if able &= c.able; w.p.lends {
				able &= pool.people
			}
			n := int32(bits.OnesCount64(able))
			if n < c.low {
				m &^= c.alike
				continue
			}
			if n > c.high {
				n = c.high
				able = w.pick(able, n, c.t.spot)
			}
			w.launch(c.task, c.t, di, -1, able, n, able&standing != 0)
		} else if !w.startOdd(c.task, c.t, di) {
			continue
		}
		started = true
		s.ready &^= bitOf(bit)
		if w.look&bitOf(di) != 0 { // the start has made others ready
			w.tellFreed()
			m |= s.ready & s.news & mask & above(bit)
		}
		m &= of.fit[min(bits.OnesCount64(w.free&pool.people), smallCrews)]
	}
	return started
}

// startInTurn starts the unloadings that the order does not name, then the tasks
// of the sequence up to the first that may not start.
func (w *Worker) startInTurn(det *group, di int32) bool {
	started := false
	for k, left := det.first, det.lead; left > 0; k, left = k+1, left-64 {
		mask := ^(^uint64(0) << left)
		started = w.start(k, di, w.segments[k].worthATry()&mask, mask) || started
	}
	for k := det.first; k < det.end; k++ {
		for s := &w.segments[k]; s.uncalled != 0; {
			if next := s.uncalled & -s.uncalled & s.ready; next == 0 || !w.start(k, di, next, 0) {
				return started
			}
			started = true
		}
	}
	return started
}

// freeIn returns how many people a group can use who are free.
func (w *Worker) freeIn(di int32) int {
	if w.p.wide {
		return w.idle.inBoth(w.crowds[di])
	}
	return bits.OnesCount64(w.free & w.pools[di].people)
}

// startOdd calls the crew of a task of which more has to be asked, if it can.
func (w *Worker) startOdd(i int32, t *task, di int32) bool {
	if t.more != nil && !w.moreFree(t) {
		return false
	}
	stove := int32(-1)
	if t.stove >= 0 {
		if stove = w.unitFor(t); stove < 0 {
			return false
		}
	}
	if t.nobody {
		w.launch(i, t, di, stove, 0, 0, false)
		return true
	}
	most := t.high
	if t.each {
		most = w.mostFor(t, most)
	}
	if w.p.wide {
		return w.callCrowd(i, di, most, stove)
	}
	if t.ties != nil {
		w.extra = w.standing(t)
	}
	crew, size := w.oddCrew(t, di, most)
	standing := w.extra
	if w.extra = 0; size < 0 {
		return false
	}
	w.launch(i, t, di, stove, crew, size, crew&standing != 0)
	return true
}

// oddCrew returns the crew of a task of at most so many people, and its size: -1
// when it cannot be called.
func (w *Worker) oddCrew(t *task, di, most int32) (crew uint64, size int32) {
	able := (w.free | w.extra) & w.pools[di].people & t.able
	n := int32(bits.OnesCount64(able))
	switch size = min(most, n); {
	case size < t.low:
		return 0, -1
	case t.roles:
		if crew, size = w.pickRoled(t, di, most); size == 0 {
			size = -1
		}
		return crew, size
	case size < n:
		return w.pick(able, size, t.spot), size
	}
	return able, size
}

// launch calls a crew of n to a task, as bits when not wide, and begins the work if
// all are there at once. It takes the tools and the stove for them, and those who
// stand at lookouts from there, if there are any.
func (w *Worker) launch(i int32, t *task, di, stove int32, crew uint64, n int32, standing bool) {
	j := &w.jobs[i]
	j.crew, j.there, j.onWay, j.paces = crew, n, 0, 1000*int64(n)
	j.group, j.unit, j.each = di, stove, n
	j.phase, j.stale, j.called, j.due = called, false, w.now, sim.Never
	j.covers = 0
	w.changed = w.now
	w.tools -= t.need
	if t.odd {
		w.takeMore(t, n)
		if stove >= 0 {
			w.light(i, stove)
		}
	}
	for k := range t.spread {
		at := &t.spread[k]
		s := &w.segments[at.word]
		s.ready &^= at.bit
		if !at.counts {
			continue
		}
		if at.inTurn {
			s.uncalled &^= at.bit
			if at.group != di {
				w.look |= bitOf(at.group) // it no longer stands in the way there
			}
		}
		if w.p.lends {
			w.oneCalled(at.group)
		}
	}
	if standing {
		w.leavePlaces(i)
	}
	w.free &^= crew
	if w.quick || w.setAllOut(i, j, t) {
		w.begin(i, j, t)
	}
	if w.p.outAtOnce {
		w.outWithTheHurt()
	}
}

// outWithTheHurt lets those be out at once who are hurt and whom the start of a
// task has just set free.
func (w *Worker) outWithTheHurt() {
	if w.p.outAtOnce && w.owed > 0 {
		w.fill(true)
	}
}

// setAllOut sends a whole crew to a task, and reports whether all are there at
// once. Work begins when the last is there, and until then nothing hangs on any
// of them: one event stands for all who walk.
func (w *Worker) setAllOut(i int32, j *job, t *task) bool {
	p := w.p
	longest, walking := sim.Time(0), int32(0)
	crew, wide := j.crew, p.wide
	to := p.walksTo(t.spot)
	for k := range j.there {
		who := lowest(crew)
		if crew &= crew - 1; wide {
			who = w.slots[t.crew+k]
		}
		m := &w.crew[who]
		walk := to[m.spot]
		m.task, m.lookout, m.spot, m.there = i, -1, t.spot, w.now+walk
		longest = max(longest, walk)
		walking += int32(uint64(-walk) >> 63) // one more if it is over 0
	}
	if !p.even {
		j.paces = w.pacesOf(j, t)
	}
	if walking == 0 {
		return true
	}
	if w.rec != nil {
		w.rec.gather(w, i, longest)
	}
	j.onWay = walking
	w.push(keyOf(w.now+longest, gathered, i))
	return false
}

// pacesOf returns the paces of the people of a task together.
func (w *Worker) pacesOf(j *job, t *task) (paces int64) {
	crew := j.crew
	for k := range j.there {
		who := lowest(crew)
		if crew &= crew - 1; w.p.wide {
			who = w.slots[t.crew+k]
		}
		paces += w.pace(who)
	}
	return paces
}

// walksTo returns the walks to a spot, by spot.
func (p *Program) walksTo(spot int32) []sim.Time {
	return p.walks[int(spot)*p.spots:][:p.spots]
}

// setOut makes a person one of those on a task, and returns how long they walk
// there.
func (w *Worker) setOut(who, i, spot int32) sim.Time {
	m := &w.crew[who]
	walk := w.p.walksTo(spot)[m.spot]
	m.task, m.lookout, m.spot, m.there = i, -1, spot, w.now+walk
	return walk
}

// send calls a person to a task on which work goes on; who is at its spot is
// there at once.
func (w *Worker) send(who, i int32) {
	w.occupy(who)
	if walk := w.setOut(who, i, w.tasks[i].spot); walk > 0 {
		w.walk(who, walk)
	} else {
		w.joinIn(i, who)
	}
}

// walk lets a person walk to where they have been sent.
func (w *Worker) walk(who int32, walk sim.Time) {
	w.push(keyOf(w.now+walk, walker, who))
	if w.rec != nil {
		w.rec.walks(w, who)
	}
}

// alone lets a group use nobody but its own people.
func (w *Worker) alone(di int) {
	w.pools[di].lent, w.pools[di].people = 1<<di, w.p.groups[di].own
	if w.p.wide {
		copy(w.crowds[di], w.p.groups[di].crowd)
	}
}

// oneCalled counts down what a group has left to start.
func (w *Worker) oneCalled(di int32) {
	pool := &w.pools[di]
	if pool.uncalled--; pool.uncalled == 0 {
		w.lend()
	}
}

// lend works out anew which groups use whose people. A group with nothing left to
// start lends its own people to those that it names. Where one of these has nothing
// left either, it hands them on.
func (w *Worker) lend() {
	w.look, w.stirred = w.p.all, true
	w.tell(w.p.anywhere)
	idle := uint64(0)
	for di := range w.pools {
		w.alone(di)
		if w.pools[di].uncalled == 0 {
			idle |= 1 << di
		}
	}
	for from := range w.p.groups {
		if idle>>from&1 == 0 {
			continue
		}
		det := &w.p.groups[from]
		users := det.then
		for more := users & idle; more != 0; {
			next := w.p.groups[lowest(more)].then &^ users
			users |= next
			more = more&(more-1) | next&idle
		}
		for m := users &^ (1 << from); m != 0; m &= m - 1 {
			to := lowest(m)
			w.pools[to].lent |= 1 << from
			w.pools[to].people |= det.own
			if w.p.wide {
				w.crowds[to].addAll(det.crowd)
			}
		}
	}
}
