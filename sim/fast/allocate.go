package fast

import (
	"math/bits"

	"warmby/sim"
)

// allocate hands out the work: lookouts due, then each detail in turn. It
// reports whether it has started anything.
func (w *Worker) allocate() bool {
	started := false
	if w.nextPost == w.now {
		w.owe()
	}
	if w.owed > 0 {
		started = w.fillPosts()
	}
	if w.look == 0 {
		return started
	}
	for from := ^uint64(0); w.look&from != 0; {
		di := lowest(w.look & from)
		w.look &^= 1 << di
		from = ^uint64(1) << di
		det := &w.p.details[di]
		switch {
		case det.inTurn:
			started = w.scanInTurn(det, di) || started
		case det.words != 1 || w.ready[det.first] != 0:
			started = w.scan(det, di, det.words, ^uint64(0)) || started
		}
	}
	return started
}

// scan tries the tasks of a detail that are ready, in sequence; of the last
// word only those in a mask. Tasks that ask for more people than are free are
// left out at a stroke.
func (w *Worker) scan(det *detail, di, words int32, mask uint64) bool {
	started := false
	for k := int32(0); k < words; k++ {
		m := w.ready[det.first+k]
		if k == words-1 {
			m &= mask
		}
		if m == 0 {
			continue
		}
		fit := &det.atMost[k]
		for {
			m &= fit[min(w.freeIn(di), smallCrews)]
			if m == 0 {
				break
			}
			bit := lowest(m)
			m &= m - 1
			if w.tryStart(det.sequence[k<<6|bit], di) {
				started = true
				if w.look>>di&1 == 1 { // the start has made others ready
					m = w.ready[det.first+k] & (^uint64(0) << bit << 1)
					if k == words-1 {
						m &= mask
					}
				}
			}
		}
	}
	return started
}

// scanInTurn tries the unloadings that the order does not name, then the tasks
// of the sequence up to the first that may not start.
func (w *Worker) scanInTurn(det *detail, di int32) bool {
	started := false
	if det.lead > 0 {
		words := (det.lead + 63) >> 6
		started = w.scan(det, di, words, ^uint64(0)>>(words<<6-det.lead))
	}
	for k := range det.words {
		for word := det.first + k; w.uncalled[word] != 0; {
			bit := lowest(w.uncalled[word])
			if w.ready[word]>>bit&1 == 0 || !w.tryStart(det.sequence[k<<6|bit], di) {
				return started
			}
			started = true
		}
	}
	return started
}

// freeIn returns how many people a detail can use who are free.
func (w *Worker) freeIn(di int32) int {
	if w.p.wide {
		n := 0
		for who := range w.crew {
			if w.usable(di, int32(who)) {
				n++
			}
		}
		return n
	}
	return bits.OnesCount64(w.free & w.pools[di])
}

// usable reports whether a person is free and the detail's to use.
func (w *Worker) usable(di, who int32) bool {
	return w.isFree(who) && w.lent[di]>>w.p.people[who].detail&1 == 1
}

// tryStart calls the crew of a task that is ready, if tools, a stove and
// people are free.
func (w *Worker) tryStart(i, di int32) bool {
	t := &w.tasks[i]
	if (w.tools[0]|guards-t.need)&guards != guards || t.more != nil && !w.moreFree(t) {
		return false
	}
	stove := int32(-1)
	if t.stove >= 0 {
		if stove = w.unitFor(t); stove < 0 {
			return false
		}
	}
	if t.nobody {
		w.call(i, di, 0, stove)
		w.begin(i)
		return true
	}
	most := t.high
	if t.each {
		most = w.mostFor(t, most)
	}
	if w.p.wide {
		return w.callOneByOne(i, di, most, stove)
	}
	able := w.free & w.pools[di] & t.able
	n := int32(bits.OnesCount64(able))
	size := min(most, n)
	if size < t.low {
		return false
	}
	crew := able
	if t.roles {
		if crew, size = w.pickRoled(t, di, most); size == 0 {
			return false
		}
	} else if size < n {
		crew = w.pick(able, size, t.spot)
	}
	w.call(i, di, size, stove)
	w.free &^= crew
	if w.sendAll(i, crew, size) {
		w.begin(i)
	}
	return true
}

// callOneByOne is what follows where people are a list.
func (w *Worker) callOneByOne(i, di, most, stove int32) bool {
	crew := w.pickList(&w.tasks[i], di, most)
	if len(crew) == 0 {
		return false
	}
	w.call(i, di, int32(len(crew)), stove)
	w.jobs[i].onWay = int32(len(crew))
	for _, who := range crew {
		w.send(who, i)
	}
	if w.jobs[i].onWay == 0 {
		w.begin(i)
	}
	return true
}

// call takes a task from what is to be called, and its tools and its stove
// for a crew of n.
func (w *Worker) call(i, di, n, stove int32) {
	j, t := &w.jobs[i], &w.tasks[i]
	j.phase, j.called, j.detail, j.each = called, w.now, di, n
	w.changed = w.now
	w.takeTools(t, n)
	if stove >= 0 {
		w.light(i, stove)
	}
	for k := range t.at {
		at := &t.at[k]
		w.ready[at.word] &^= at.bit
		if !at.counts {
			continue
		}
		w.uncalled[at.word] &^= at.bit
		if at.detail != di && w.p.details[at.detail].inTurn {
			w.look |= 1 << at.detail // it no longer stands in the way there
		}
		if w.counts[at.detail]--; w.counts[at.detail] == 0 && w.p.lends {
			w.lend()
		}
	}
}

// sendAll sends a whole crew to a task, and reports whether all are there at
// once.
func (w *Worker) sendAll(i int32, crew uint64, n int32) bool {
	j, t, p := &w.jobs[i], &w.tasks[i], w.p
	if p.bulk && p.even && w.rec == nil {
		j.crew, j.there, j.paces = crew, n, 1000*int64(n)
		return true
	}
	there, paces := crew, int64(0)
	for m := crew; m != 0; m &= m - 1 {
		who := lowest(m)
		c := &w.crew[who]
		walk := p.walk[int(c.spot)*p.spots+int(t.spot)]
		c.task, c.post = i, -1
		if w.rec != nil && walk > 0 {
			w.rec.walk(w, who, t.spot)
		}
		c.spot = t.spot
		if walk > 0 {
			there &^= 1 << who
			w.queue = insert(w.queue, keyOf(w.now+walk, walker, who))
			continue
		}
		paces += p.people[who].pace
	}
	j.crew, j.paces = there, paces
	j.there = int32(bits.OnesCount64(there))
	j.onWay = n - j.there
	if w.rec != nil && j.onWay > 0 {
		for m := there; m != 0; m &= m - 1 {
			w.rec.begin(w, lowest(m), sim.Ready)
		}
	}
	return j.onWay == 0
}

// send calls a person to a task; who is at its spot is there at once.
func (w *Worker) send(who, i int32) {
	m, t := w.occupy(who), &w.tasks[i]
	m.task, m.post = i, -1
	walk := sim.Time(0)
	if !w.p.still {
		walk = w.p.walk[int(m.spot)*w.p.spots+int(t.spot)]
	}
	if w.rec != nil && walk > 0 {
		w.rec.walk(w, who, t.spot)
	}
	m.spot = t.spot
	if walk > 0 {
		w.push(keyOf(w.now+walk, walker, who))
		return
	}
	w.jobs[i].onWay--
	w.arriveAt(i, who)
}

// lend works out anew which details use whose people.
func (w *Worker) lend() {
	w.look, w.stirred = w.p.all, true
	for to := range w.p.details {
		w.lent[to] = 1 << to
		for from := range w.p.details {
			if from != to && w.lendsTo(int32(from), int32(to), 0) {
				w.lent[to] |= 1 << from
			}
		}
		w.pools[to] = 0
		for from := range w.p.details {
			if w.lent[to]>>from&1 == 1 {
				w.pools[to] |= w.p.details[from].own
			}
		}
	}
}

// lendsTo reports whether a detail with nothing left to start lends its
// people to another, by way of others with nothing left if need be.
func (w *Worker) lendsTo(from, to int32, seen uint64) bool {
	if seen>>from&1 == 1 || w.counts[from] > 0 {
		return false
	}
	for _, next := range w.p.details[from].then {
		if next == to || w.lendsTo(next, to, seen|1<<from) {
			return true
		}
	}
	return false
}
