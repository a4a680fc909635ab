// A loop of its own for plain drills, in which nobody walks or joins and nothing
// is unloaded: model R1 and the like, by which speed is measured. No shipped
// scenario is one. The loop for any drill takes 1.5 times as long for R1.

package fast

import (
	"math/bits"

	"warmby/sim"
)

// mostPlain is how many tasks a plain drill may have: bits in a word.
const mostPlain = 64

// plainDrill is what playing needs to know of a plain drill: one in which
// nobody walks, joins or is pulled away, no stove burns, nothing is unloaded
// and nothing outside slows any task otherwise than before or has to do with its
// mishaps. All that can
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
	if !p.bulk || !p.even || p.hurts || p.tied || len(p.groups) != 1 || p.groups[0].inTurn || len(p.tasks) > mostPlain || len(p.loads) > 0 || p.toolWords() > 1 {
		return false
	}
	for i := range p.tasks {
		t := &p.tasks[i]
		joins := t.joinable && t.Crew.Max > t.Crew.Min
		hangs := t.Mishap != nil && t.Mishap.When != nil
		if !t.plain || t.roles || joins || hangs || t.stride > 0 || t.kind == uint8(sim.Melt) || t.kind == uint8(sim.Warm) {
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
	if len(p.words) > 0 {
		pd.fit = p.words[0].fit
	}
	var place [mostPlain]uint8
	sequence := p.d.Groups[0].Sequence
	for pos, i := range sequence {
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
	for pos, i := range sequence {
		t, k := &p.tasks[i], &pd.tasks[pos]
		*k = plainTask{able: t.able & det.own, need: t.need, low: t.low, high: t.high, index: int32(i),
			unit: t.unit, rates: t.rates, afterEnd: moved(k.afterEnd, t.afterEnd), afterFrom: moved(k.afterFrom, t.afterFrom)}
		pd.pending[pos] = t.pending
		if t.pending == 0 {
			pd.ready |= 1 << pos
		}
	}
}

// plainRun is what changes as a plain drill is played, beside what the worker
// keeps for any drill.
type plainRun struct {
	pending   [mostPlain]int32
	crew      [mostPlain]uint64
	inTrouble uint64 // tasks whose mishaps are under way
}

// plainState is what each moment of a plain drill begins with. It is handed from
// one function to the next, so that it stays in registers.
type plainState struct {
	free, tools uint64
	ready       uint64 // tasks that wait for nothing but people and tools
	news        bool   // whether something has come free or ready
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
	w.plain.pending, w.plain.inTrouble = w.p.plain.pending, 0
	s, now := plainState{free: w.free, tools: w.tools, ready: w.p.plain.ready, news: true}, sim.Time(0)
	for _, who := range w.come {
		s.free |= 1 << who
	}
	for {
		if w.nextLookout == now || w.owed > 0 {
			w.now = now
			s = w.plainLookouts(s)
		}
		if s.news {
			s = w.plainCalls(s, now)
		}
		at := min(w.nextLookout, w.nextStep)
		if n := len(w.queue); n > 0 {
			at = min(at, sim.Time(w.queue[n-1]>>(indexBits+kindBits)))
		}
		if at > now && w.owed > 0 && !s.news {
			w.giveUp()
		}
		if at > sim.Horizon {
			break
		}
		if !s.news { // else a start has made a task ready at this moment
			now = at
			if now == w.nextStep {
				w.stepOn()
			}
		}
		s = w.plainEvents(s, now)
		if w.left == 0 {
			break
		}
	}
	w.queue, w.now = w.queue[:0], now
}

// plainLookouts sends people to the places of lookouts that are due.
func (w *Worker) plainLookouts(s plainState) plainState {
	w.free, w.look = s.free, 0
	if w.nextLookout == w.now {
		w.owe()
	}
	w.fillPlaces()
	s.free, s.news = w.free, s.news || w.look != 0
	return s
}

// plainCalls calls crews to the tasks that are ready, in their sequence.
func (w *Worker) plainCalls(s plainState, now sim.Time) plainState {
	pd, run, q, guards := w.p.plain, &w.plain, w.queue, w.p.lanes.guards
	s.news = false
	m := s.ready & pd.fit[min(bits.OnesCount64(s.free), smallCrews)]
	for m != 0 {
		pos := bits.TrailingZeros64(m) & (mostPlain - 1)
		m &= m - 1
		t := &pd.tasks[pos]
		if (s.tools|guards-t.need)&guards != guards {
			continue
		}
		crew := s.free & t.able
		n := int32(bits.OnesCount64(crew))
		if n < t.low {
			continue
		}
		if n > t.high {
			n = t.high
			crew = w.pick(crew, n, 0)
		}
		s.free &^= crew
		s.tools -= t.need
		s.ready &^= 1 << pos
		run.crew[pos] = crew
		w.jobs[t.index].start = now
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
				s.ready |= 1 << (f.pos & 63)
				s.news = true
				m |= 1 << (f.pos & 63) & (^uint64(1) << pos)
			}
		}
		m &= pd.fit[min(bits.OnesCount64(s.free), smallCrews)]
	}
	w.queue = q
	return s
}

// plainEvents handles what happens at a moment.
func (w *Worker) plainEvents(s plainState, now sim.Time) plainState {
	pd, run, q := w.p.plain, &w.plain, w.queue
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
			w.jobs[t.index].end = now
			w.left--
			s.free |= run.crew[pos]
			s.tools += t.need
			s.news = true
			for _, f := range t.afterEnd {
				if f.lag > 0 {
					q = insert(q, keyOf(now+f.lag, lagged, int32(f.pos)))
				} else if run.lessPending(f.pos) {
					s.ready |= 1 << (f.pos & 63)
				}
			}
		case walker:
			s.free |= 1 << pos
			s.news = true
		default:
			if run.lessPending(uint8(pos)) {
				s.ready |= 1 << pos
				s.news = true
			}
		}
	}
	w.queue = q
	return s
}
