package fast

import (
	"slices"

	"warmby/sim"
)

// owe makes the places of lookouts that begin or are to be relieved now due.
func (w *Worker) owe() {
	w.nextPost = sim.Never
	for i := range w.posts {
		po, l := &w.posts[i], w.p.watches[i].Lookout
		if po.due == w.now {
			w.events++
			for k := range po.seats {
				if s := &po.seats[k]; s.onWay < 0 && !s.owed {
					s.owed = true
					po.owed++
					w.owed++
				}
			}
			po.due = sim.Never
			if l.Relief > 0 {
				po.due = w.now + l.Relief
			}
		}
		w.nextPost = min(w.nextPost, po.due)
	}
}

// giveUp drops what could not be filled, where the lookout says so.
func (w *Worker) giveUp() {
	for i := range w.posts {
		po := &w.posts[i]
		if po.owed == 0 || w.p.watches[i].IfNobody != sim.Skip {
			continue
		}
		w.owed -= po.owed
		po.owed = 0
		for k := range po.seats {
			po.seats[k].owed = false
		}
	}
}

// fillPosts calls people to the places that are due: vacant places first, then
// the one called longest ago.
func (w *Worker) fillPosts() bool {
	called := false
	for i := range w.posts {
		po := &w.posts[i]
		mayPull := w.p.watches[i].IfNobody == sim.Pull
		for po.owed > 0 {
			rank := w.nextFree(i)
			k := po.first(mayPull && rank < 0)
			if rank < 0 && k >= 0 && mayPull {
				if rank = w.pull(i); rank < 0 {
					po.seats[k].waits = true
					continue
				}
			}
			if rank < 0 || k < 0 {
				break
			}
			s := &po.seats[k]
			w.calls++
			s.owed, s.waits, s.onWay, s.call = false, false, rank, w.calls
			po.owed--
			w.owed--
			w.sendToPost(rank, int32(i), int32(k))
			called = true
		}
	}
	return called
}

// first returns the place that is filled first, -1 for none; of those for
// which somebody may be pulled only, if asked for.
func (po *post) first(pulls bool) int {
	best := -1
	for k := range po.seats {
		s := &po.seats[k]
		if !s.owed || pulls && s.waits {
			continue
		}
		if s.who < 0 {
			return k
		}
		if best < 0 || s.call < po.seats[best].call {
			best = k
		}
	}
	return best
}

// nextFree returns the next free person of a lookout in roster order,
// cyclically after the last one called there, -1 for none.
func (w *Worker) nextFree(i int) int32 {
	po, who := &w.posts[i], w.p.watches[i].who
	at := int(po.next)
	for range who {
		if at >= len(who) {
			at = 0
		}
		rank := who[at]
		at++
		if w.isFree(rank) && w.crew[rank].relieved != w.now {
			po.next = int32(at)
			return rank
		}
	}
	return -1
}

// pull takes the next person who is there on a joinable task whose work goes
// on, if those left there still fill its minimum and its roles.
func (w *Worker) pull(i int) int32 {
	po, who := &w.posts[i], w.p.watches[i].who
	for k := range who {
		at := (int(po.next) + k) % len(who)
		rank := who[at]
		if m := &w.crew[rank]; !m.here || w.isFree(rank) || m.task < 0 || !w.isThere(m.task, rank) || !w.canSpare(m.task, rank) {
			continue
		}
		po.next = int32(at) + 1
		w.leave(rank)
		return rank
	}
	return -1
}

// isThere reports whether a person is at the spot of a task.
func (w *Worker) isThere(i, rank int32) bool {
	if w.p.wide {
		return slices.Contains(w.thereOn(i), rank)
	}
	return w.jobs[i].crew>>rank&1 == 1
}

func (w *Worker) canSpare(i, rank int32) bool {
	j, t := &w.jobs[i], &w.p.tasks[i]
	if j.phase != working || !t.joinable || int(j.there) <= t.Crew.Min {
		return false
	}
	if len(t.Roles) == 0 {
		return true
	}
	w.startRoles(t)
	filled := 0
	for _, o := range w.thereOn(i) {
		if o != rank && w.place(o) {
			filled++
		}
	}
	return filled == len(w.picker.slots)
}

// leave takes a person away from a task that goes on.
func (w *Worker) leave(rank int32) {
	i := w.crew[rank].task
	j, t := &w.jobs[i], &w.p.tasks[i]
	if there := w.slots[t.crew : t.crew+j.there]; w.p.wide {
		k := slices.Index(there, rank)
		copy(there[k:], there[k+1:])
	}
	j.crew &^= 1 << rank
	j.there--
	j.paces -= w.p.people[rank].pace
	if t.each {
		j.each--
		for _, n := range t.tools {
			if n.count == 0 {
				w.tools[n.tool]++
			}
		}
	}
	w.changed = w.now
	w.release(rank)
	w.spoil(i)
}

// sendToPost calls a person to a place of a lookout.
func (w *Worker) sendToPost(rank, i, seat int32) {
	m := w.occupy(rank)
	m.task, m.post, m.seat = -1, i, seat
	spot := int32(w.p.watches[i].Spot)
	walk := w.p.walk[int(m.spot)*w.p.spots+int(spot)]
	if w.rec != nil {
		w.rec.walk(w, rank, spot)
	}
	m.spot = spot
	if walk > 0 {
		w.push(w.now+walk, walker, rank)
	} else {
		w.takeOver(rank)
	}
}

// takeOver is what follows when the relief has walked to a place: who stood
// there is free there and then.
func (w *Worker) takeOver(rank int32) {
	m := &w.crew[rank]
	s := &w.posts[m.post].seats[m.seat]
	if s.who >= 0 {
		w.crew[s.who].relieved = w.now
		w.release(s.who)
	}
	s.who, s.onWay = rank, -1
	if w.rec != nil {
		w.rec.begin(w, rank, sim.Watching)
	}
}
