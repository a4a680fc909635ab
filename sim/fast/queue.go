package fast

import "warmby/sim"

// Events are told apart within an instant so that tasks end before walkers
// arrive; among themselves tasks end in file order.
const (
	jobEnds = iota
	walker  // a person arrives
	lagged  // one thing that a task waits for has come about
)

const (
	indexBits = 20
	kindBits  = 2
)

// push puts an event into the queue, a small array with the soonest last.
func (w *Worker) push(at sim.Time, kind uint64, index int32) {
	key := uint64(at)<<(indexBits+kindBits) | kind<<indexBits | uint64(uint32(index))
	q := append(w.queue, key)
	i := len(q) - 1
	for i > 0 && q[i-1] < key {
		q[i] = q[i-1]
		i--
	}
	q[i] = key
	w.queue = q
}

// reschedule moves the end of a task's phase.
func (w *Worker) reschedule(i int32, due sim.Time) {
	j := &w.jobs[i]
	if j.due == due {
		return
	}
	if j.due != sim.Never {
		old := uint64(j.due)<<(indexBits+kindBits) | uint64(uint32(i))
		for k := len(w.queue) - 1; k >= 0; k-- {
			if w.queue[k] == old {
				w.queue = append(w.queue[:k], w.queue[k+1:]...)
				break
			}
		}
	}
	j.due = due
	if due != sim.Never {
		w.push(due, jobEnds, i)
	}
}

// soonest returns the moment of the next event of any kind.
func (w *Worker) soonest() sim.Time {
	at := min(w.nextStep, w.nextPost)
	if n := len(w.queue); n > 0 {
		at = min(at, sim.Time(w.queue[n-1]>>(indexBits+kindBits)))
	}
	return at
}

// pop takes the next event if it is due now.
func (w *Worker) pop() (kind uint64, index int32, ok bool) {
	n := len(w.queue)
	if n == 0 {
		return 0, 0, false
	}
	key := w.queue[n-1]
	if sim.Time(key>>(indexBits+kindBits)) > w.now {
		return 0, 0, false
	}
	w.queue = w.queue[:n-1]
	return key >> indexBits & (1<<kindBits - 1), int32(key & (1<<indexBits - 1)), true
}
