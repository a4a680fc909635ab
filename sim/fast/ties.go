package fast

import (
	"math/bits"
	"slices"

	"warmby/sim"
)

// ties is what a task has to do with lookouts.
type ties struct {
	begins []int32  // lookouts that begin with it: it stands in their from
	ends   []int32  // lookouts that end when work on it starts
	covers []int32  // lookouts that need nobody while people are at work on it
	gives  []giving // lookouts whose people count as free for it
}

// giving is a lookout that gives its people up for a task: for good, when it ends
// with the task.
type giving struct {
	lookout int32
	good    bool
}

// compileTies links tasks with lookouts that begin and end with them, or need
// nobody while somebody works there.
func (p *Program) compileTies() {
	of := func(task int) *ties {
		t := &p.tasks[task]
		if t.ties == nil {
			t.ties = new(ties)
		}
		return t.ties
	}
	for k := range p.lookouts {
		l, i := p.lookouts[k].Lookout, int32(k)
		p.tied = p.tied || p.lookouts[k].tied || len(l.FromTasks) > 0 || l.Until > 0
		for _, task := range l.FromTasks {
			of(task).begins = append(of(task).begins, i)
		}
		good := make([]bool, len(p.tasks))
		for _, task := range l.UntilTasks {
			of(task).ends = append(of(task).ends, i)
			good[task] = true
		}
		for task := range p.tasks {
			t := &p.tasks[task]
			in := p.d.Spots[l.Spot].In
			there := l.UnlessWorked && !t.nobody && (t.Spot == l.Spot || in >= 0 && in == int(t.in))
			if there {
				of(task).covers = append(of(task).covers, i)
			}
			if there || good[task] {
				of(task).gives = append(of(task).gives, giving{i, good[task]})
			}
		}
	}
	p.compileAirs()
}

// compileWants works out which groups have tasks for which who stands at a
// lookout counts as free, and at which positions, in some memory.
func (p *Program) compileWants(news []uint64) {
	n := len(p.words)
	for k := range p.lookouts {
		p.lookouts[k].wants, p.lookouts[k].news = 0, news[n*k:][:n]
	}
	for i := range p.tasks {
		if t := &p.tasks[i]; t.ties != nil {
			for _, g := range t.ties.gives {
				for _, at := range t.at {
					l := &p.lookouts[g.lookout]
					l.wants |= bitOf(at.group)
					l.news[at.word] |= at.bit
				}
			}
		}
	}
}

// fewestFree returns how many people must be free for a task to be looked at, at
// most smallCrews: none when people at lookouts count for it, and when wide, where
// nobody counts those who are free.
func (p *Program) fewestFree(t *task) int {
	if p.wide || t.tied {
		return 0
	}
	return min(int(t.low), smallCrews)
}

// standing returns those who stand at lookouts and count as free for a task, when
// not wide.
func (w *Worker) standing(t *task) (people uint64) {
	for _, g := range t.ties.gives {
		people |= w.lookouts[g.lookout].there
	}
	if w.p.hurts {
		for m := people; m != 0; m &= m - 1 {
			if who := lowest(m); w.hurt(who) {
				people &^= 1 << who
			}
		}
	}
	return people
}

// leavePlaces takes those whom a task has called from where they stand. From then
// on the lookouts at the same place need nobody.
func (w *Worker) leavePlaces(i int32) {
	t := &w.tasks[i]
	took := uint64(0) // by index in gives
	for n, g := range t.ties.gives {
		run, gone := &w.lookouts[g.lookout], false
		for k := range run.places {
			s := &run.places[k]
			if s.who < 0 || !w.isThere(i, s.who) {
				continue
			}
			run.vacate(s)
			s.relief = sim.Never
			took |= 1 << (n & 63)
			gone = true
			if g.good {
				w.unowe(run, s)
				s.closed = true
			}
		}
		if gone {
			w.setNext(g.lookout)
		}
	}
	for m := took; m != 0; m &= m - 1 {
		lookout := t.ties.gives[bits.TrailingZeros64(m)].lookout
		if k := t.coversAt(lookout); k >= 0 {
			w.cover(i, k)
		}
	}
}

// coversAt returns the index of a lookout among those that need nobody while
// people are at work on a task, -1 when it is none of them.
func (t *task) coversAt(lookout int32) int {
	for k, c := range t.ties.covers {
		if c == lookout {
			return k
		}
	}
	return -1
}

// unowe lets a place wait for nobody.
func (w *Worker) unowe(run *lookoutRun, s *place) {
	if s.owed {
		s.owed = false
		run.owed--
		w.owed--
	}
	s.waits = false
}

// cover counts a task as one at which people are at work where a lookout stands,
// once.
func (w *Worker) cover(i int32, k int) {
	j, lookout := &w.jobs[i], w.tasks[i].ties.covers[k]
	if j.covers>>k&1 == 1 {
		return
	}
	j.covers |= 1 << k
	run := &w.lookouts[lookout]
	if run.covered++; run.covered == 1 && run.begun && !run.over {
		w.leaveAlone(lookout)
	}
}

// startTies is what the start of work on a task means for lookouts.
func (w *Worker) startTies(i int32) {
	t := &w.tasks[i]
	for _, lookout := range t.ties.ends {
		if run := &w.lookouts[lookout]; !run.over {
			run.over, run.due = true, sim.Never
			w.leaveAlone(lookout)
		}
	}
	for k := range t.ties.covers {
		w.cover(i, k)
	}
}

// endTies is what the end of a task means for lookouts.
func (w *Worker) endTies(i int32) {
	j, t := &w.jobs[i], &w.tasks[i]
	for _, lookout := range t.ties.begins {
		if run := &w.lookouts[lookout]; run.from > 0 {
			if run.from--; run.from == 0 && !run.over {
				run.due = w.now
				w.setNext(lookout)
			}
		}
	}
	for k, lookout := range t.ties.covers {
		if j.covers>>k&1 == 0 {
			continue
		}
		j.covers &^= 1 << k
		run := &w.lookouts[lookout]
		if run.covered--; run.covered == 0 && run.begun && !run.over {
			w.oweAll(lookout)
			w.setNext(lookout)
		}
	}
}

// leaveAlone lets all go who stand at a lookout, and calls nobody there.
func (w *Worker) leaveAlone(lookout int32) {
	run := &w.lookouts[lookout]
	for k := range run.places {
		s := &run.places[k]
		w.unowe(run, s)
		s.relief = sim.Never
		if s.who >= 0 {
			who := s.who
			run.vacate(s)
			w.release(who)
		}
	}
	w.setNext(lookout)
}

// oweAll makes every place due of a lookout whose places have hours of their own.
func (w *Worker) oweAll(i int32) {
	for k := range w.lookouts[i].places {
		w.owePlace(i, k)
	}
}

func (w *Worker) owePlace(i int32, k int) {
	run := &w.lookouts[i]
	s := &run.places[k]
	if s.onWay < 0 && !s.owed && !s.closed {
		s.owed = true
		run.owed++
		w.owed++
	}
	w.nextRelief(i, s)
}

// nextRelief sets when a place with an hour of its own is next to be relieved.
func (w *Worker) nextRelief(i int32, s *place) {
	s.relief = sim.Never
	if r := w.p.lookouts[i].Relief; r > 0 && !s.closed {
		s.relief = w.now + r
	}
}

// setNext works out anew when a lookout next begins, ends or is to be relieved.
func (w *Worker) setNext(lookout int32) {
	w.nextOf[lookout] = w.nextOfLookout(w.p, int(lookout))
	w.nextLookout = slices.Min(w.nextOf)
}

func (r *lookoutRuns) nextOfLookout(p *Program, i int) sim.Time {
	run, l := &r.lookouts[i], p.lookouts[i].Lookout
	if run.over {
		return sim.Never
	}
	at := run.due
	if l.Until > 0 {
		at = min(at, l.Until)
	}
	if l.UnlessWorked {
		for k := range run.places {
			at = min(at, run.places[k].relief)
		}
	}
	return at
}

// oweTied is owe for a lookout that ends, or that needs nobody at times.
func (w *Worker) oweAt(i int32) {
	run, l := &w.lookouts[i], w.p.lookouts[i].Lookout
	switch {
	case l.Until > 0 && l.Until <= w.now:
		w.events++
		run.over, run.due = true, sim.Never
		w.leaveAlone(i)
	case !l.UnlessWorked:
		w.oweHour(run, &w.p.lookouts[i])
	case run.due == w.now:
		w.events++
		run.due, run.begun = sim.Never, true
		if run.covered == 0 {
			w.oweAll(i)
		}
	case run.begun && run.covered == 0:
		for k := range run.places {
			if run.places[k].relief <= w.now {
				w.owePlace(i, k)
			}
		}
	}
}

// nearestOf returns the one of some people, when not wide, who has the shortest walk
// to a spot, of equals the first of the roster.
func (w *Worker) nearestOf(people uint64, spot int32) int32 {
	best, least, to := int32(-1), sim.Never, w.p.walksTo(spot)
	for ; people != 0; people &= people - 1 {
		who := lowest(people)
		if walk := to[w.crew[who].spot]; walk < least {
			best, least = who, walk
		}
	}
	return best
}

// nearestTo returns the person of a lookout for whom something is true and who has
// the shortest walk, of equals the first of the roster, -1 for none.
func (w *Worker) nearestTo(i int, is func(int32) bool) int32 {
	l := &w.p.lookouts[i]
	best, least := int32(-1), sim.Never
	for _, who := range l.Who {
		if walk := w.p.walksTo(int32(l.Spot))[w.crew[who].spot]; walk < least && is(int32(who)) {
			best, least = int32(who), walk
		}
	}
	return best
}
