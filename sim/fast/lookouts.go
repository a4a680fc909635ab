package fast

import (
	"math"
	"slices"

	"warmby/sim"
)

// owe makes the places of lookouts that begin or are to be relieved now due.
func (w *Worker) owe() {
	if w.p.tied {
		for i, at := range w.nextOf {
			if at <= w.now {
				w.oweAt(int32(i))
				w.setNext(int32(i))
			}
		}
		return
	}
	w.nextLookout = sim.Never
	for i := range w.lookouts {
		run := &w.lookouts[i]
		if run.due == w.now {
			w.oweHour(run, &w.p.lookouts[i])
		}
		w.nextLookout = min(w.nextLookout, run.due)
	}
}

// oweHour makes the places of a lookout due that begins or is to be relieved now.
func (w *Worker) oweHour(run *lookoutRun, l *lookout) {
	w.events++
	more := 0
	for k := range run.places {
		if s := &run.places[k]; s.onWay < 0 && !s.owed && !s.closed {
			s.owed = true
			more++
		}
	}
	run.owed += more
	w.owed += more
	run.begun, run.due = true, sim.Never
	if l.relief > 0 {
		run.due = w.now + l.relief
	}
}

// giveUp drops what could not be filled, where the lookout says so.
func (w *Worker) giveUp() {
	for i := range w.lookouts {
		run := &w.lookouts[i]
		if run.owed == 0 || w.p.lookouts[i].IfNobody != sim.Skip {
			continue
		}
		w.owed -= run.owed
		run.owed = 0
		for k := range run.places {
			run.places[k].owed = false
		}
	}
}

// fillPlaces calls people to the places that are due. Who is hurt is out first,
// and at once when relieved here.
func (w *Worker) fillPlaces() bool {
	if !w.p.hurts {
		return w.fill(false)
	}
	called := w.fill(true)
	called = w.fill(false) || called
	return w.fill(true) || called
}

// fill calls people to the places that are due of those who are hurt, or of all
// other lookouts.
func (w *Worker) fill(hurt bool) bool {
	called, atOnce := false, w.atOnce
	for i := range w.lookouts {
		run, l := &w.lookouts[i], &w.p.lookouts[i]
		switch {
		case run.owed == 0 || l.hurt != hurt:
		case atOnce && !l.tied && l.ifNobody != sim.Pull:
			called = w.relieve(int32(i), run, l) || called
		default:
			called = w.fillLookout(i, run, l) || called
		}
	}
	return called
}

// fillLookout calls people to the places of a lookout that are due: vacant places
// first, then the one called longest ago.
func (w *Worker) fillLookout(i int, run *lookoutRun, l *lookout) bool {
	called, mayPull := false, l.ifNobody == sim.Pull
	for run.owed > 0 {
		who := w.nextFree(i)
		k := run.first(mayPull && who < 0)
		if who < 0 && k >= 0 && mayPull {
			if who = w.pull(i); who < 0 {
				run.places[k].waits = true
				continue
			}
		}
		if who < 0 || k < 0 {
			break
		}
		s := &run.places[k]
		w.fills(run, s)
		called = true
		s.onWay = who
		w.sendToPlace(who, int32(i), int32(k))
	}
	return called
}

// fills says that a place is due no more.
func (w *Worker) fills(run *lookoutRun, s *place) {
	w.calls++
	s.owed, s.waits, s.call = false, false, w.calls
	run.owed--
	w.owed--
}

// relieve is fillLookout where nobody walks and none is pulled from a task: who is
// called takes over at once.
func (w *Worker) relieve(i int32, run *lookoutRun, l *lookout) bool {
	owed := run.owed
	for run.owed > 0 {
		m := w.free & l.who
		if w.barredAt == w.now && !l.hurt {
			m &^= w.barred
		}
		if m == 0 {
			break
		}
		k := run.first(false)
		s := &run.places[k]
		w.fills(run, s)
		w.swap(s, run.nextAmong(m), i, int32(k), l.spot)
	}
	return run.owed < owed
}

// first returns the place that is filled first, -1 for none; of those for
// which somebody may be pulled only, if asked for.
func (run *lookoutRun) first(pulls bool) int {
	best, call := -1, int64(math.MaxInt64)
	for k := range run.places {
		s := &run.places[k]
		if !s.owed || pulls && s.waits {
			continue
		}
		if s.who < 0 {
			return k
		}
		if s.call < call {
			best, call = k, s.call
		}
	}
	return best
}

// nextFree returns the next free person of a lookout in roster order,
// cyclically after the last one called there, -1 for none.
func (w *Worker) nextFree(i int) int32 {
	run, l := &w.lookouts[i], &w.p.lookouts[i]
	if w.p.wide {
		return w.nextFor(i, func(who int32) bool { return w.idle.has(who) && (l.Hurt || w.crew[who].relieved != w.now) })
	}
	m := w.free & l.who
	if w.barredAt == w.now && !l.Hurt {
		m &^= w.barred
	}
	switch {
	case m == 0:
		return -1
	case l.UnlessWorked:
		return w.nearestOf(m, int32(l.Spot))
	}
	return run.nextAmong(m)
}

// nextAmong returns the next of some people, cyclically after the last one called.
func (run *lookoutRun) nextAmong(people uint64) int32 {
	if after := people >> uint32(run.next) << uint32(run.next); after != 0 {
		people = after
	}
	who := lowest(people)
	run.next = who + 1
	return who
}

// nextFor returns the next person of a lookout for whom something is true.
func (w *Worker) nextFor(i int, is func(int32) bool) int32 {
	if w.p.lookouts[i].UnlessWorked {
		return w.nearestTo(i, is)
	}
	run, who := &w.lookouts[i], w.p.lookouts[i].Who
	first, _ := slices.BinarySearch(who, int(run.next))
	for k := range who {
		if person := int32(who[(first+k)%len(who)]); is(person) {
			run.next = person + 1
			return person
		}
	}
	return -1
}

// pull takes the next person who is there on a joinable task whose work goes
// on, if those left there still fill its minimum and its roles.
func (w *Worker) pull(i int) int32 {
	who := w.nextFor(i, func(who int32) bool {
		m := &w.crew[who]
		return m.here && !w.isFree(who) && m.task >= 0 && w.isThere(m.task, who) && w.canSpare(m.task, who) &&
			(!w.p.hurts || w.p.lookouts[i].Hurt || !w.hurt(who))
	})
	if who >= 0 {
		w.leave(who)
	}
	return who
}

// hurt reports whether a person is hurt and not out yet.
func (w *Worker) hurt(who int32) bool {
	for i := range w.lookouts {
		if l := &w.p.lookouts[i]; l.Hurt && w.lookouts[i].owed > 0 && l.Who[0] == int(who) {
			return true
		}
	}
	return false
}

// isThere reports whether a person is at the spot of a task.
func (w *Worker) isThere(i, who int32) bool {
	if w.p.wide {
		return slices.Contains(w.thereOn(i), who)
	}
	return w.jobs[i].crew>>who&1 == 1
}

func (w *Worker) canSpare(i, who int32) bool {
	j, t := &w.jobs[i], &w.tasks[i]
	if j.phase != working || !t.joinable || int(j.there) <= t.Crew.Min {
		return false
	}
	if len(t.Roles) == 0 {
		return true
	}
	w.startRoles(t)
	filled := 0
	for _, o := range w.thereOn(i) {
		if o != who && w.takeRole(o) {
			filled++
		}
	}
	return filled == len(w.picker.slots)
}

// leave takes a person away from a task that goes on.
func (w *Worker) leave(who int32) {
	i := w.crew[who].task
	j, t := &w.jobs[i], &w.tasks[i]
	if there := w.slots[t.crew : t.crew+j.there]; w.p.wide {
		k := slices.Index(there, who)
		copy(there[k:], there[k+1:])
	}
	j.crew &^= 1 << who
	j.there--
	j.paces -= w.pace(who)
	if t.each {
		j.each--
		w.addEach(t, 1)
		w.look |= t.shares
		w.tell(t.news)
	}
	w.changed = w.now
	w.openJoin(t)
	w.release(who)
	w.spoil(i)
}

// swap lets a person take a place over at once, where nobody walks.
func (w *Worker) swap(s *place, who, i, k, spot int32) {
	m := &w.crew[who]
	m.task, m.lookout, m.place, m.spot = -1, i, k, spot
	w.free &^= bitOf(who)
	if s.who >= 0 {
		w.bar(s.who)
		if w.p.alike(s.who, who) {
			w.free |= bitOf(s.who) // nothing can be done with them that could not before
		} else {
			w.freed(bitOf(s.who))
		}
	}
	s.who = who
}

// alike reports whether two people can do the same for the same group, as far
// as starting a task goes.
func (p *Program) alike(a, b int32) bool {
	return !p.named && p.people[a].skills == p.people[b].skills && p.people[a].group == p.people[b].group
}

// sendToPlace calls a person to a place of a lookout.
func (w *Worker) sendToPlace(who, i, place int32) {
	m := w.occupy(who)
	m.task, m.lookout, m.place = -1, i, place
	spot := int32(w.p.lookouts[i].Spot)
	walk := w.p.walksTo(spot)[m.spot]
	m.spot = spot
	if walk > 0 {
		w.walk(who, walk)
	} else {
		w.takeOver(who)
	}
}

// vacate leaves a place at which somebody stands.
func (run *lookoutRun) vacate(s *place) {
	run.there &^= 1 << (s.who & 63)
	s.who = -1
}

// occupy gives a place to who has been on the way there.
func (run *lookoutRun) occupy(s *place, who int32) {
	if s.who >= 0 {
		run.vacate(s)
	}
	s.who, s.onWay = who, -1
	run.there |= 1 << (who & 63)
}

// takeOver is what follows when the relief has walked to a place: who stood
// there is free there and then. A place that needs nobody any more lets the
// relief go.
func (w *Worker) takeOver(who int32) {
	m := &w.crew[who]
	run := &w.lookouts[m.lookout]
	s := &run.places[m.place]
	if run.over || run.covered > 0 || s.closed {
		s.onWay = -1
		w.release(who)
		return
	}
	if s.who >= 0 {
		w.bar(s.who)
		w.release(s.who)
	}
	run.occupy(s, who)
	if l := &w.p.lookouts[m.lookout]; l.tied {
		w.look |= l.wants
		w.tell(l.news)
		if l.UnlessWorked {
			w.nextRelief(m.lookout, s)
			w.setNext(m.lookout) // the hour that it had before is no instant any more
		}
	}
	if w.rec != nil {
		w.rec.watches(w, who)
	}
}

// bar keeps a person who has just been relieved from any lookout at this moment.
func (w *Worker) bar(who int32) {
	w.crew[who].relieved = w.now
	if w.barredAt != w.now {
		w.barred, w.barredAt = 0, w.now
	}
	w.barred |= 1 << who
}
