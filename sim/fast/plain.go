// A loop of its own for plain drills, in which nobody walks or joins and nothing
// is unloaded: model R1 and the like, by which speed is measured. No shipped
// scenario is one.

package fast

import (
	"math/bits"

	"warmby/sim"
)

// mostPlain is how many tasks a plain drill may have: bits in a word.
const mostPlain = 64

// plainDrill is what playing needs to know of a plain drill: one in which
// nobody walks, joins or is pulled away, no stove burns, nothing is unloaded
// and nothing outside slows any task otherwise than before. All that can
// happen then is that a task ends, a lag runs out, somebody arrives or a
// lookout is relieved, and a moment fits one loop. Tasks are named by their
// places in the sequence of the one group.
type plainDrill struct {
	tasks   [mostPlain]plainTask
	ready   uint64 // those that wait for nothing at the start
	pending [mostPlain]int32
	fit     crews
}

type plainTask struct {
	able, need uint64
	low, high  int32
	index      int32 // in the file
	unit       uint64
	rates      []int64 // by people; nil when it takes clock time
	afterEnd   []plainAfter
	afterFrom  []plainAfter
}

// plainAfter is a task that comes after another, by its place.
type plainAfter struct {
	lag sim.Time
	pos uint8
}

// isPlain reports whether the drill is plain.
func (p *Program) isPlain() bool {
	if !p.bulk || !p.even || p.hurts || p.ties || len(p.groups) != 1 || p.groups[0].inTurn || len(p.tasks) > mostPlain || len(p.loads) > 0 || p.toolWords() > 1 {
		return false
	}
	for i := range p.tasks {
		t := &p.tasks[i]
		joins := t.joinable && t.Crew.Max > t.Crew.Min
		if !t.plain || t.roles || joins || t.stride > 0 || t.kind == uint8(sim.Melt) || t.kind == uint8(sim.Warm) {
			return false
		}
	}
	return true
}

// compilePlain sets up the drill as a plain one, if it is.
func (p *Program) compilePlain() {
	if !p.isPlain() {
		p.plain = nil
		return
	}
	if p.plain == nil {
		p.plain = new(plainDrill)
	}
	pd, det := p.plain, &p.groups[0]
	pd.ready, pd.fit = 0, crews{}
	if len(det.atMost) > 0 {
		pd.fit = det.atMost[0]
	}
	var place [mostPlain]uint8
	for pos, i := range det.sequence {
		place[i] = uint8(pos)
	}
	// moved names the followers by their places.
	moved := func(to []plainAfter, from []follower) []plainAfter {
		to = to[:0]
		for _, f := range from {
			to = append(to, plainAfter{f.lag, place[f.task]})
		}
		return to
	}
	for pos, i := range det.sequence {
		t, k := &p.tasks[i], &pd.tasks[pos]
		*k = plainTask{able: t.able & det.own, need: t.need, low: t.low, high: t.high, index: i,
			unit: t.unit, rates: t.rates, afterEnd: moved(k.afterEnd, t.afterEnd), afterFrom: moved(k.afterFrom, t.afterFrom)}
		pd.pending[pos] = t.pending
		if t.pending == 0 {
			pd.ready |= 1 << pos
		}
	}
}

// plainRun is what changes as a plain drill is played.
type plainRun struct {
	pending   [mostPlain]int32
	crew      [mostPlain]uint64
	inTrouble uint64 // tasks whose mishaps are under way
}

// lessPending takes one from what a task waits for, and reports whether that
// was the last.
func (r *plainRun) lessPending(pos uint8) bool {
	n := &r.pending[pos%mostPlain]
	*n--
	return *n == 0
}

// playPlain plays a plain drill to its end, as until does; it leaves what it
// has to tell in start, end, left and now.
func (w *Worker) playPlain() {
	w.reset()
	pd, run, q := w.p.plain, &w.plain, w.queue
	run.pending, run.inTrouble = pd.pending, 0
	free, tools, ready := w.free, w.tools[0], pd.ready
	guards := w.p.lanes.guards
	left, now, news := w.left, sim.Time(0), true
	for _, who := range w.come {
		free |= 1 << who
	}
	for {
		if w.nextPost == now || w.owed > 0 {
			w.now, w.free, w.look = now, free, 0
			if w.nextPost == now {
				w.owe()
			}
			w.fillPosts()
			free = w.free
			news = news || w.look != 0
		}
		if news {
			news = false
			m := ready & pd.fit[min(bits.OnesCount64(free), smallCrews)]
			for m != 0 {
				pos := bits.TrailingZeros64(m) & (mostPlain - 1)
				m &= m - 1
				t := &pd.tasks[pos]
				if (tools|guards-t.need)&guards != guards {
					continue
				}
				crew := free & t.able
				n := int32(bits.OnesCount64(crew))
				if n < t.low {
					continue
				}
				if n > t.high {
					n = t.high
					crew = w.pick(crew, n, 0)
				}
				free &^= crew
				tools -= t.need
				ready &^= 1 << pos
				run.crew[pos] = crew
				w.start[t.index] = now
				due, amount := now, w.luck.Amount[t.index]
				if t.rates == nil {
					due += amount
				} else if takes := sim.WorkOf(amount, t.unit).Takes(t.rates[n]); takes < beyond {
					due += takes
				} else {
					due = sim.Never
				}
				if due < sim.Never {
					q = insert(q, keyOf(due, jobEnds, int32(pos)))
				}
				for _, f := range t.afterFrom {
					if f.lag > 0 {
						q = insert(q, keyOf(now+f.lag, lagged, int32(f.pos)))
					} else if run.lessPending(f.pos) {
						ready |= 1 << (f.pos & 63)
						news = true
						m |= 1 << (f.pos & 63) & (^uint64(1) << pos)
					}
				}
				m &= pd.fit[min(bits.OnesCount64(free), smallCrews)]
			}
		}
		at := min(w.nextPost, w.nextStep)
		if n := len(q); n > 0 {
			at = min(at, sim.Time(q[n-1]>>(indexBits+kindBits)))
		}
		if at > now && w.owed > 0 && !news {
			w.giveUp()
		}
		if at > sim.Horizon {
			break
		}
		if !news {
			now = at
			if now == w.nextStep {
				w.stepOn()
			}
		}
		for bound := keyOf(now+1, 0, 0); len(q) > 0 && q[len(q)-1] < bound; {
			key := q[len(q)-1]
			q = q[:len(q)-1]
			w.events++
			pos := key & (mostPlain - 1)
			switch key >> indexBits & (1<<kindBits - 1) {
			case jobEnds:
				t := &pd.tasks[pos]
				if adds := w.luck.Mishap[t.index]; adds > 0 && run.inTrouble>>pos&1 == 0 {
					run.inTrouble |= 1 << pos
					q = insert(q, keyOf(now+adds, jobEnds, int32(pos)))
					continue
				}
				w.end[t.index] = now
				left--
				free |= run.crew[pos]
				tools += t.need
				news = true
				for _, f := range t.afterEnd {
					if f.lag > 0 {
						q = insert(q, keyOf(now+f.lag, lagged, int32(f.pos)))
					} else if run.lessPending(f.pos) {
						ready |= 1 << (f.pos & 63)
					}
				}
			case walker:
				free |= 1 << pos
				news = true
			default:
				if run.lessPending(uint8(pos)) {
					ready |= 1 << pos
					news = true
				}
			}
		}
		if left == 0 {
			break
		}
	}
	w.queue, w.left, w.now = q[:0], left, now
}
