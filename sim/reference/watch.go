package reference

import (
	"slices"

	"github.com/fschuetz04/simgo"

	"warmby/sim"
)

// watch is a lookout with its places. Its process rings the hours: the
// beginning and every relief.
type watch struct {
	i      int
	l      *sim.Lookout
	due    bool // it begins, or is to be relieved, at this instant
	begun  bool
	over   bool
	worked bool // people are at work there, so that it needs nobody
	places []place
	next   int // index into Who from which the next call looks on, cyclically
}

// place is one place of a lookout.
type place struct {
	who    *person  // who stands there
	onWay  *person  // who walks there to take over
	owed   bool     // somebody is to be called
	waits  bool     // nobody could be spared for it: it waits for somebody to come free
	closed bool     // it is filled no more
	call   int      // number of the last call to the place; for who longest ago
	relief sim.Time // when it is next to be relieved, where each place has an hour of its own
}

func (c *camp) addWatch(i int) {
	w := &watch{i: i, l: &c.d.Lookouts[i]}
	w.places = make([]place, w.l.Places)
	c.watches = append(c.watches, w)
	if w.l.FromTasks == nil {
		c.ring(w, w.l.From)
	}
	if w.l.Until > 0 {
		c.timerWhile(w.l.Until, func() bool { return !w.over })
	}
}

// ring makes a lookout due from a moment on, at every relief.
func (c *camp) ring(w *watch, from sim.Time) {
	c.setting++
	c.Process(func(proc simgo.Process) {
		c.setting--
		for t := from; !c.over && !w.over; t += w.l.Relief {
			c.until(proc, t)
			if c.dismissed || w.over {
				return
			}
			w.due = true
			c.happen()
			if w.l.Relief == 0 || w.l.UnlessWorked {
				return
			}
		}
	})
}

// beginWatches lets those lookouts begin of which the last task of from has
// ended.
func (c *camp) beginWatches() {
	for _, w := range c.watches {
		if w.begun || w.due || w.over || len(w.l.FromTasks) == 0 {
			continue
		}
		if !slices.ContainsFunc(w.l.FromTasks, func(i int) bool { return c.jobs[i].phase != ended }) {
			w.due = true
			if w.l.Relief > 0 && !w.l.UnlessWorked {
				c.ring(w, c.now()+w.l.Relief)
			}
		}
	}
}

// endWatches ends those lookouts that stand until work on a task starts, or,
// without a task, until now.
func (c *camp) endWatches(j *job) {
	for _, w := range c.watches {
		if w.over {
			continue
		}
		if j != nil && slices.Contains(w.l.UntilTasks, j.i) || j == nil && w.l.Until > 0 && w.l.Until <= c.now() {
			w.over, w.due = true, false
			c.leaveAlone(w)
		}
	}
}

// leaveAlone lets all go who stand at a lookout, and calls nobody there.
func (c *camp) leaveAlone(w *watch) {
	for k := range w.places {
		pl := &w.places[k]
		pl.owed, pl.waits, pl.relief = false, false, sim.Never
		if pl.who != nil {
			c.release(pl.who)
			pl.who = nil
		}
	}
}

// isThere reports whether a spot is that of a lookout, or in the same shelter.
func (c *camp) isThere(w *watch, spot int) bool {
	in := c.d.Spots[spot].In
	return spot == w.l.Spot || in >= 0 && in == c.d.Spots[w.l.Spot].In
}

// settle looks at each lookout that needs nobody while people are at work there:
// whether they are.
func (c *camp) settle() {
	for _, w := range c.watches {
		if !w.l.UnlessWorked || !w.begun || w.over {
			continue
		}
		worked := slices.ContainsFunc(c.jobs, func(j *job) bool { return c.worksAt(j, w) })
		switch {
		case worked && !w.worked:
			c.leaveAlone(w)
		case !worked && w.worked:
			c.oweAll(w)
		}
		w.worked = worked
	}
}

// worksAt reports whether people are at work on a task where a lookout stands.
// One that has called somebody from there counts from then on.
func (c *camp) worksAt(j *job, w *watch) bool {
	return j.task.Crew.Max > 0 && c.isThere(w, j.task.Spot) &&
		(j.phase == working || j.phase == mishap || j.phase == called && slices.Contains(j.took, w))
}

// givesUp reports whether a person stands at a lookout that gives people up for
// a task: one that it ends with, or one at the same place.
func (c *camp) givesUp(p *person, t *sim.Task) bool {
	if p.errand == nil || p.errand.watch == nil || !p.errand.there || c.hurt(p) {
		return false
	}
	w := p.errand.watch
	return c.endsWith(w, t) || w.l.UnlessWorked && c.isThere(w, t.Spot)
}

func (c *camp) endsWith(w *watch, t *sim.Task) bool {
	return slices.ContainsFunc(w.l.UntilTasks, func(i int) bool { return c.jobs[i].task == t })
}

// leavePost takes a person from a lookout to whom a task is called.
func (c *camp) leavePost(p *person, j *job) {
	if p.errand == nil {
		return
	}
	w, pl := p.errand.watch, &p.errand.watch.places[p.errand.place]
	pl.who, pl.relief = nil, sim.Never
	if c.endsWith(w, j.task) {
		pl.owed, pl.waits, pl.closed = false, false, true
	}
	if w.l.UnlessWorked && c.isThere(w, j.task.Spot) {
		j.took = append(j.took, w)
	}
	c.release(p)
}

// beginDue makes a lookout due that begins at this instant, or is to be relieved.
func (c *camp) beginDue(w *watch) {
	w.due, w.begun = false, true
	if !w.l.UnlessWorked {
		w.owe()
		return
	}
	w.worked = slices.ContainsFunc(c.jobs, func(j *job) bool { return c.worksAt(j, w) })
	if !w.worked {
		c.oweAll(w)
	}
}

// oweAll makes every place due of a lookout whose places have hours of their own.
func (c *camp) oweAll(w *watch) {
	for k := range w.places {
		c.owePlace(w, k)
	}
}

func (c *camp) owePlace(w *watch, k int) {
	pl := &w.places[k]
	pl.owed = pl.owed || pl.onWay == nil && !pl.closed
	c.nextRelief(w, pl)
}

// nextRelief sets when a place with an hour of its own is next to be relieved.
func (c *camp) nextRelief(w *watch, pl *place) {
	if pl.relief = sim.Never; w.l.Relief > 0 && !pl.closed {
		at := c.now() + w.l.Relief
		pl.relief = at
		c.timerWhile(at, func() bool { return pl.relief == at })
	}
}

// relieve makes the places due whose own hour has come.
func (c *camp) relieve(w *watch) {
	for k := range w.places {
		if pl := &w.places[k]; w.l.UnlessWorked && w.begun && !w.over && !w.worked && pl.relief <= c.now() {
			c.owePlace(w, k)
		}
	}
}

// owe makes every place due for relief, unless one is on the way or owed.
func (w *watch) owe() {
	for k := range w.places {
		if w.places[k].onWay == nil && !w.places[k].closed {
			w.places[k].owed = true
		}
	}
}

// endInstant gives up what could not be filled, where the lookout says so.
func (w *watch) endInstant() {
	if w.l.IfNobody == sim.Skip {
		for k := range w.places {
			w.places[k].owed = false
		}
	}
}

// fillPosts calls people to the places that are due, lookout by lookout. Who is
// hurt is out first, and at once when relieved here.
func (c *camp) fillPosts() bool {
	c.endWatches(nil)
	called := c.fill(true)
	called = c.fill(false) || called
	return c.fill(true) || called
}

// fill calls people to the places that are due of those who are hurt, or of all
// other lookouts: vacant places first, then the one called longest ago.
func (c *camp) fill(hurt bool) bool {
	called := false
	for _, w := range c.watches {
		if w.l.Hurt != hurt {
			continue
		}
		if w.due && !w.over {
			c.beginDue(w)
		}
		c.relieve(w)
		for _, k := range w.owedPlaces() {
			pl := &w.places[k]
			p := c.nextFree(w)
			if p == nil && w.l.IfNobody == sim.Pull && !pl.waits {
				p = c.pull(w)
				pl.waits = p == nil
			}
			if p == nil {
				continue
			}
			c.calls++
			pl.owed, pl.waits, pl.onWay, pl.call = false, false, p, c.calls
			c.call(p, &errand{watch: w, place: k}, w.l.Spot)
			called = true
		}
	}
	return called
}

// owedPlaces returns the places that are due in the order in which they are
// filled.
func (w *watch) owedPlaces() []int {
	var owed []int
	for k := range w.places {
		if w.places[k].owed {
			owed = append(owed, k)
		}
	}
	slices.SortStableFunc(owed, func(a, b int) int {
		pa, pb := &w.places[a], &w.places[b]
		switch {
		case pa.who == nil && pb.who == nil:
			return a - b
		case pa.who == nil:
			return -1
		case pb.who == nil:
			return 1
		}
		return pa.call - pb.call
	})
	return owed
}

// nextFree returns the next free person in roster order, cyclically after the
// last one called to the lookout; nobody who was relieved at this instant, unless
// hurt.
func (c *camp) nextFree(w *watch) *person {
	return c.nextOf(w, func(p *person) bool { return p.free() && (w.l.Hurt || p.relieved != c.now()) })
}

// nextOf returns the next person of a lookout of whom something is true, and
// moves its pointer past them; where it has none, the nearest.
func (c *camp) nextOf(w *watch, is func(*person) bool) *person {
	if w.l.UnlessWorked {
		return c.nearest(w, is)
	}
	for k := range w.l.Who {
		at := (w.next + k) % len(w.l.Who)
		if p := c.people[w.l.Who[at]]; is(p) {
			w.next = at + 1
			return p
		}
	}
	return nil
}

// nearest returns the person of a lookout with the shortest walk of whom
// something is true, of equals the first of the roster.
func (c *camp) nearest(w *watch, is func(*person) bool) (best *person) {
	walk := func(p *person) sim.Time { return c.d.WalkTime(p.doing.Spot, w.l.Spot) }
	for _, i := range w.l.Who {
		if p := c.people[i]; is(p) && (best == nil || walk(p) < walk(best)) {
			best = p
		}
	}
	return best
}

// pull takes the next person who is there on a joinable task whose work goes
// on, if those left there still fill its minimum and its roles.
func (c *camp) pull(w *watch) *person {
	p := c.nextOf(w, func(p *person) bool { return c.canBeSpared(p) && (w.l.Hurt || !c.hurt(p)) })
	if p == nil {
		return nil
	}
	j := p.errand.job
	j.there = slices.DeleteFunc(j.there, func(o *person) bool { return o == p })
	for k, n := range j.task.Tools {
		if n.Each {
			j.holding[k]--
			c.toolsFree[n.Tool]++
		}
	}
	c.release(p)
	c.changed()
	return p
}

// hurt reports whether a person is hurt and not out yet.
func (c *camp) hurt(p *person) bool {
	return slices.ContainsFunc(c.watches, func(w *watch) bool {
		return w.l.Hurt && w.places[0].owed && w.l.Who[0] == p.i
	})
}

func (c *camp) canBeSpared(p *person) bool {
	if p.errand == nil || p.errand.job == nil || !p.errand.there {
		return false
	}
	j := p.errand.job
	if j.phase != working || !j.task.Joinable || !j.task.Worked() {
		return false
	}
	var left []int
	for _, o := range j.there {
		if o != p {
			left = append(left, o.i)
		}
	}
	return len(left) >= j.task.Crew.Min && c.picker.FillsRoles(c.d, j.task, left)
}

// takeOver is what follows when the relief has walked to a place: who stood
// there is free there and then. A place that needs nobody any more lets the
// relief go.
func (c *camp) takeOver(p *person, e *errand) {
	w, pl := e.watch, &e.watch.places[e.place]
	if w.over || w.worked || pl.closed {
		pl.onWay = nil
		c.release(p)
		return
	}
	if old := pl.who; old != nil {
		old.relieved = c.now()
		c.release(old)
	}
	pl.who, pl.onWay = p, nil
	e.there = true
	c.stay(p, sim.Watching)
	if w.l.UnlessWorked {
		c.nextRelief(w, pl)
	}
}
