package fast

import (
	"math/bits"

	"warmby/sim"
)

// duty is what a task has to do with lookouts.
type duty struct {
	begins []int32  // lookouts of whose from it is one
	ends   []int32  // lookouts that end when work on it starts
	covers []int32  // lookouts that need nobody while people are at work on it
	gives  []giving // lookouts whose people count as free for it
}

// giving is a lookout that gives its people up for a task: for good, when it ends
// with the task.
type giving struct {
	watch int32
	good  bool
}

// compileDuties links tasks with lookouts that begin and end with them, or need
// nobody while somebody works there.
func (p *Program) compileDuties() {
	of := func(task int) *duty {
		t := &p.tasks[task]
		if t.duty == nil {
			t.duty = new(duty)
		}
		return t.duty
	}
	for k := range p.watches {
		l, i := p.watches[k].Lookout, int32(k)
		p.ties = p.ties || p.watches[k].tied || len(l.FromTasks) > 0 || l.Until > 0
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
// lookout counts as free.
func (p *Program) compileWants() {
	for k := range p.watches {
		p.watches[k].wants = 0
	}
	for i := range p.tasks {
		if t := &p.tasks[i]; t.duty != nil {
			for _, g := range t.duty.gives {
				for _, at := range t.at {
					p.watches[g.watch].wants |= 1 << at.group
				}
			}
		}
	}
}

// fewestFree returns how many people must be free for a task to be looked at, at
// most smallCrews: none when people at lookouts count for it.
func (t *task) fewestFree() int {
	if t.duty != nil && len(t.duty.gives) > 0 {
		return 0
	}
	return min(int(t.low), smallCrews)
}

// standing returns those who stand at lookouts and count as free for a task, when
// not wide.
func (w *Worker) standing(t *task) (people uint64) {
	for _, g := range t.duty.gives {
		for k := range w.posts[g.watch].seats {
			if who := w.posts[g.watch].seats[k].who; who >= 0 && !(w.p.hurts && w.hurt(who)) {
				people |= 1 << who
			}
		}
	}
	return people
}

// stands reports whether a person stands at a lookout and counts as free for a
// task.
func (w *Worker) stands(t *task, who int32) bool {
	if t.duty == nil {
		return false
	}
	for _, g := range t.duty.gives {
		for k := range w.posts[g.watch].seats {
			if w.posts[g.watch].seats[k].who == who {
				return !(w.p.hurts && w.hurt(who))
			}
		}
	}
	return false
}

// leavePosts takes those whom a task has called from where they stand. From then
// on the lookouts at the same place need nobody.
func (w *Worker) leavePosts(i int32, called func(who int32) bool) {
	t := &w.tasks[i]
	took := uint64(0) // by place in gives
	for n, g := range t.duty.gives {
		po := &w.posts[g.watch]
		for k := range po.seats {
			s := &po.seats[k]
			if s.who < 0 || !called(s.who) {
				continue
			}
			s.who, s.relief = -1, sim.Never
			took |= 1 << (n & 63)
			if g.good {
				w.unowe(po, s)
				s.closed = true
			}
		}
	}
	if took == 0 {
		return
	}
	for m := took; m != 0; m &= m - 1 {
		if watch := t.duty.gives[bits.TrailingZeros64(m)].watch; t.coversAt(watch) >= 0 {
			w.cover(i, t.coversAt(watch))
		}
	}
	w.setNextPost()
}

// coversAt returns the place of a lookout among those that need nobody while
// people are at work on a task, -1 when it is none of them.
func (t *task) coversAt(watch int32) int {
	for k, c := range t.duty.covers {
		if c == watch {
			return k
		}
	}
	return -1
}

// unowe lets a place wait for nobody.
func (w *Worker) unowe(po *post, s *seat) {
	if s.owed {
		s.owed = false
		po.owed--
		w.owed--
	}
	s.waits = false
}

// cover counts a task as one at which people are at work where a lookout stands,
// once.
func (w *Worker) cover(i int32, k int) {
	j, watch := &w.jobs[i], w.tasks[i].duty.covers[k]
	if j.covers>>k&1 == 1 {
		return
	}
	j.covers |= 1 << k
	po := &w.posts[watch]
	if po.covered++; po.covered == 1 && po.begun && !po.over {
		w.leaveAlone(po)
	}
}

// startDuties is what the start of work on a task means for lookouts.
func (w *Worker) startDuties(i int32) {
	t := &w.tasks[i]
	for _, watch := range t.duty.ends {
		if po := &w.posts[watch]; !po.over {
			po.over, po.due = true, sim.Never
			w.leaveAlone(po)
		}
	}
	for k := range t.duty.covers {
		w.cover(i, k)
	}
	w.setNextPost()
}

// endDuties is what the end of a task means for lookouts.
func (w *Worker) endDuties(i int32) {
	j, t := &w.jobs[i], &w.tasks[i]
	for _, watch := range t.duty.begins {
		if po := &w.posts[watch]; po.from > 0 {
			if po.from--; po.from == 0 && !po.over {
				po.due = w.now
			}
		}
	}
	for k, watch := range t.duty.covers {
		if j.covers>>k&1 == 0 {
			continue
		}
		j.covers &^= 1 << k
		po := &w.posts[watch]
		if po.covered--; po.covered == 0 && po.begun && !po.over {
			w.oweAll(watch)
		}
	}
	w.setNextPost()
}

// leaveAlone lets all go who stand at a lookout, and calls nobody there.
func (w *Worker) leaveAlone(po *post) {
	for k := range po.seats {
		s := &po.seats[k]
		w.unowe(po, s)
		s.relief = sim.Never
		if s.who >= 0 {
			who := s.who
			s.who = -1
			w.release(who)
		}
	}
}

// oweAll makes every place due of a lookout whose places have hours of their own.
func (w *Worker) oweAll(i int32) {
	for k := range w.posts[i].seats {
		w.owePlace(i, k)
	}
}

func (w *Worker) owePlace(i int32, k int) {
	po := &w.posts[i]
	s := &po.seats[k]
	if s.onWay < 0 && !s.owed && !s.closed {
		s.owed = true
		po.owed++
		w.owed++
	}
	w.nextRelief(i, s)
}

// nextRelief sets when a place with an hour of its own is next to be relieved.
func (w *Worker) nextRelief(i int32, s *seat) {
	s.relief = sim.Never
	if r := w.p.watches[i].Relief; r > 0 && !s.closed {
		s.relief = w.now + r
		w.nextPost = min(w.nextPost, s.relief)
	}
}

// setNextPost works out anew when a lookout next begins, ends or is to be
// relieved.
func (w *Worker) setNextPost() {
	w.nextPost = sim.Never
	for i := range w.posts {
		w.nextPost = min(w.nextPost, w.nextOfPost(i))
	}
}

func (w *Worker) nextOfPost(i int) sim.Time {
	po, l := &w.posts[i], w.p.watches[i].Lookout
	if po.over {
		return sim.Never
	}
	at := po.due
	if l.Until > 0 {
		at = min(at, l.Until)
	}
	if l.UnlessWorked {
		for k := range po.seats {
			at = min(at, po.seats[k].relief)
		}
	}
	return at
}

// oweTied is owe for a lookout that ends, or that needs nobody at times.
func (w *Worker) oweTied(i int32) {
	po, l := &w.posts[i], w.p.watches[i].Lookout
	switch {
	case po.over:
	case l.Until > 0 && l.Until <= w.now:
		w.events++
		po.over, po.due = true, sim.Never
		w.leaveAlone(po)
	case !l.UnlessWorked:
		w.oweHour(i)
	case po.due == w.now:
		w.events++
		po.due, po.begun = sim.Never, true
		if po.covered == 0 {
			w.oweAll(i)
		}
	case po.begun && po.covered == 0:
		for k := range po.seats {
			if po.seats[k].relief <= w.now {
				w.owePlace(i, k)
			}
		}
	}
}

// nearestTo returns the person of a lookout with the shortest walk of whom
// something is true, of equals the first of the roster, -1 for none.
func (w *Worker) nearestTo(i int, is func(int32) bool) int32 {
	l := &w.p.watches[i]
	best, least := int32(-1), sim.Never
	for _, who := range l.Who {
		if walk := w.p.walk[int(w.crew[who].spot)*w.p.spots+l.Spot]; walk < least && is(int32(who)) {
			best, least = int32(who), walk
		}
	}
	return best
}
