package fast

import "warmby/sim"

// Events are told apart within an instant so that tasks end before walkers
// arrive; among themselves tasks end in file order.
const (
	jobEnds  = iota
	walker   // a person arrives
	lagged   // one thing that a task waits for has come about
	gathered // the last of the crew that a task has called arrives
)

const (
	indexBits = 20
	kindBits  = 2
)

// beyond stands for moments after any that is played to.
const beyond = 1 << 40

// keyOf packs an event into a number; sooner events have smaller ones.
func keyOf(at sim.Time, kind uint64, index int32) uint64 {
	return uint64(min(at, beyond))<<(indexBits+kindBits) | kind<<indexBits | uint64(uint32(index))
}

// push puts an event into the queue, a small array with the soonest last.
func (w *Worker) push(key uint64) { w.queue = insert(w.queue, key) }

func insert(q []uint64, key uint64) []uint64 {
	q = append(q, key)
	i := len(q) - 1
	for i > 0 && q[i-1] < key {
		q[i] = q[i-1]
		i--
	}
	q[i] = key
	return q
}

// endsAt puts the end of a task's phase into the queue.
func (w *Worker) endsAt(i int32, j *job, due sim.Time) {
	j.due = due
	w.queue = insert(w.queue, keyOf(due, jobEnds, i))
}

// reschedule moves the end of a task's phase.
func (w *Worker) reschedule(i int32, due sim.Time) {
	j := &w.jobs[i]
	if j.due == due {
		return
	}
	if j.due != sim.Never {
		w.drop(keyOf(j.due, jobEnds, i))
	}
	if j.due = due; due != sim.Never {
		w.endsAt(i, j, due)
	}
}

// drop takes an event out of the queue.
func (w *Worker) drop(key uint64) {
	for k := len(w.queue) - 1; k >= 0; k-- {
		if w.queue[k] == key {
			w.queue = append(w.queue[:k], w.queue[k+1:]...)
			return
		}
	}
}

// soonest returns the moment of the next event of any kind.
func (w *Worker) soonest() sim.Time {
	at := min(w.nextStep, w.nextLookout)
	if n := len(w.queue); n > 0 {
		at = min(at, sim.Time(w.queue[n-1]>>(indexBits+kindBits)))
	}
	return at
}

// due reports whether the next event in the queue belongs to this moment.
func (w *Worker) due() bool {
	n := len(w.queue)
	return n > 0 && w.queue[n-1] < w.bound
}
