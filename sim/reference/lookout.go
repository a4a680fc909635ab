package reference

import (
	"cmp"
	"slices"

	"github.com/fschuetz04/simgo"

	"warmby/sim"
)

// lookout is a lookout of the drill with its places. Its process rings the hours: the
// beginning and every relief.
type lookout struct {
	i int
	*sim.Lookout
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

func (c *camp) addLookout(i int) {
	l := &lookout{i: i, Lookout: &c.d.Lookouts[i]}
	l.places = make([]place, l.Places)
	c.lookouts = append(c.lookouts, l)
	if l.FromTasks == nil {
		c.ring(l, l.From)
	}
	if l.Until > 0 {
		c.timerWhile(l.Until, func() bool { return !l.over })
	}
}

// ring makes a lookout due from a moment on, at every relief.
func (c *camp) ring(l *lookout, from sim.Time) {
	c.setting++
	c.Process(func(proc simgo.Process) {
		c.setting--
		for t := from; !c.over && !l.over; t += l.Relief {
			c.until(proc, t)
			if c.dismissed || l.over {
				return
			}
			l.due = true
			c.happen()
			if l.Relief == 0 || l.UnlessWorked {
				return
			}
		}
	})
}

// beginLookouts lets those lookouts begin of which the last task of from has
// ended.
func (c *camp) beginLookouts() {
	for _, l := range c.lookouts {
		if l.begun || l.due || l.over || len(l.FromTasks) == 0 {
			continue
		}
		if !slices.ContainsFunc(l.FromTasks, func(i int) bool { return c.jobs[i].phase != ended }) {
			l.due = true
			if l.Relief > 0 && !l.UnlessWorked {
				c.ring(l, c.now()+l.Relief)
			}
		}
	}
}

// endLookouts ends those lookouts that stand until work on a task starts, or,
// without a task, until now.
func (c *camp) endLookouts(j *job) {
	for _, l := range c.lookouts {
		if l.over {
			continue
		}
		if j != nil && slices.Contains(l.UntilTasks, j.i) || j == nil && l.Until > 0 && l.Until <= c.now() {
			l.over, l.due = true, false
			c.leaveAlone(l)
		}
	}
}

// leaveAlone lets all go who stand at a lookout, and calls nobody there.
func (c *camp) leaveAlone(l *lookout) {
	for k := range l.places {
		pl := &l.places[k]
		pl.owed, pl.waits, pl.relief = false, false, sim.Never
		if pl.who != nil {
			c.release(pl.who)
			pl.who = nil
		}
	}
}

// isThere reports whether a spot is that of a lookout, or in the same shelter.
func (c *camp) isThere(l *lookout, spot int) bool {
	in := c.d.Spots[spot].In
	return spot == l.Spot || in >= 0 && in == c.d.Spots[l.Spot].In
}

// settle looks at each lookout that needs nobody while people are at work there:
// whether they are.
func (c *camp) settle() {
	for _, l := range c.lookouts {
		if !l.UnlessWorked || !l.begun || l.over {
			continue
		}
		worked := slices.ContainsFunc(c.jobs, func(j *job) bool { return c.worksAt(j, l) })
		switch {
		case worked && !l.worked:
			c.leaveAlone(l)
		case !worked && l.worked:
			c.oweAll(l)
		}
		l.worked = worked
	}
}

// worksAt reports whether people are at work on a task where a lookout stands.
// One that has called somebody from there counts from then on.
func (c *camp) worksAt(j *job, l *lookout) bool {
	return j.task.Crew.Max > 0 && c.isThere(l, j.task.Spot) &&
		(j.phase == working || j.phase == mishap || j.phase == called && slices.Contains(j.took, l))
}

// givesUp reports whether a person stands at a lookout that gives people up for
// a task: one that it ends with, or one at the same place.
func (c *camp) givesUp(p *person, t *sim.Task) bool {
	if p.errand == nil || p.errand.lookout == nil || !p.errand.there || c.hurt(p) {
		return false
	}
	l := p.errand.lookout
	return c.endsWith(l, t) || l.UnlessWorked && c.isThere(l, t.Spot)
}

func (c *camp) endsWith(l *lookout, t *sim.Task) bool {
	return slices.ContainsFunc(l.UntilTasks, func(i int) bool { return c.jobs[i].task == t })
}

// leavePlace takes a person from a lookout to whom a task is called.
func (c *camp) leavePlace(p *person, j *job) {
	if p.errand == nil {
		return
	}
	l, pl := p.errand.lookout, &p.errand.lookout.places[p.errand.place]
	pl.who, pl.relief = nil, sim.Never
	if c.endsWith(l, j.task) {
		pl.owed, pl.waits, pl.closed = false, false, true
	}
	if l.UnlessWorked && c.isThere(l, j.task.Spot) {
		j.took = append(j.took, l)
	}
	c.release(p)
}

// beginDue makes a lookout due that begins at this instant, or is to be relieved.
func (c *camp) beginDue(l *lookout) {
	l.due, l.begun = false, true
	if !l.UnlessWorked {
		l.owe()
		return
	}
	l.worked = slices.ContainsFunc(c.jobs, func(j *job) bool { return c.worksAt(j, l) })
	if !l.worked {
		c.oweAll(l)
	}
}

// oweAll makes every place due of a lookout whose places have hours of their own.
func (c *camp) oweAll(l *lookout) {
	for k := range l.places {
		c.owePlace(l, k)
	}
}

func (c *camp) owePlace(l *lookout, k int) {
	pl := &l.places[k]
	pl.owed = pl.owed || pl.onWay == nil && !pl.closed
	c.nextRelief(l, pl)
}

// nextRelief sets when a place with an hour of its own is next to be relieved.
func (c *camp) nextRelief(l *lookout, pl *place) {
	if pl.relief = sim.Never; l.Relief > 0 && !pl.closed {
		at := c.now() + l.Relief
		pl.relief = at
		c.timerWhile(at, func() bool { return pl.relief == at })
	}
}

// relieve makes the places due whose own hour has come.
func (c *camp) relieve(l *lookout) {
	for k := range l.places {
		if pl := &l.places[k]; l.UnlessWorked && l.begun && !l.over && !l.worked && pl.relief <= c.now() {
			c.owePlace(l, k)
		}
	}
}

// owe makes every place due for relief, unless one is on the way or owed.
func (l *lookout) owe() {
	for k := range l.places {
		if l.places[k].onWay == nil && !l.places[k].closed {
			l.places[k].owed = true
		}
	}
}

// endInstant gives up what could not be filled, where the lookout says so.
func (l *lookout) endInstant() {
	if l.IfNobody == sim.Skip {
		for k := range l.places {
			l.places[k].owed = false
		}
	}
}

// fillPlaces calls people to the places that are due, lookout by lookout. Who is
// hurt is out first, and at once when relieved here.
func (c *camp) fillPlaces() bool {
	c.endLookouts(nil)
	called := c.fill(true)
	called = c.fill(false) || called
	return c.fill(true) || called
}

// fill calls people to the places that are due of those who are hurt, or of all
// other lookouts: vacant places first, then the one called longest ago.
func (c *camp) fill(hurt bool) bool {
	called := false
	for _, l := range c.lookouts {
		if l.Hurt != hurt {
			continue
		}
		if l.due && !l.over {
			c.beginDue(l)
		}
		c.relieve(l)
		for _, k := range l.owedPlaces() {
			pl := &l.places[k]
			p := c.nextFree(l)
			if p == nil && l.IfNobody == sim.Pull && !pl.waits {
				p = c.pull(l)
				pl.waits = p == nil
			}
			if p == nil {
				continue
			}
			c.calls++
			pl.owed, pl.waits, pl.onWay, pl.call = false, false, p, c.calls
			c.call(p, &errand{lookout: l, place: k}, l.Spot)
			called = true
		}
	}
	return called
}

// owedPlaces returns the places that are due in the order in which they are
// filled.
func (l *lookout) owedPlaces() []int {
	var owed []int
	for k := range l.places {
		if l.places[k].owed {
			owed = append(owed, k)
		}
	}
	slices.SortStableFunc(owed, func(a, b int) int {
		pa, pb := &l.places[a], &l.places[b]
		switch {
		case pa.who == nil && pb.who == nil:
			return cmp.Compare(a, b)
		case pa.who == nil:
			return -1
		case pb.who == nil:
			return 1
		}
		return cmp.Compare(pa.call, pb.call)
	})
	return owed
}

// nextFree returns the next free person in roster order, cyclically after the
// last one called to the lookout; nobody who was relieved at this instant, unless
// hurt.
func (c *camp) nextFree(l *lookout) *person {
	return c.nextOf(l, func(p *person) bool { return p.free() && (l.Hurt || p.relieved != c.now()) })
}

// nextOf returns the next person of a lookout for whom something is true, and
// moves its pointer past them; where it has none, the nearest.
func (c *camp) nextOf(l *lookout, is func(*person) bool) *person {
	if l.UnlessWorked {
		return c.nearest(l, is)
	}
	for k := range l.Who {
		at := (l.next + k) % len(l.Who)
		if p := c.people[l.Who[at]]; is(p) {
			l.next = at + 1
			return p
		}
	}
	return nil
}

// nearest returns the person of a lookout for whom something is true and who has
// the shortest walk, of equals the first of the roster.
func (c *camp) nearest(l *lookout, is func(*person) bool) (best *person) {
	walk := func(p *person) sim.Time { return c.d.WalkTime(p.doing.Spot, l.Spot) }
	for _, i := range l.Who {
		if p := c.people[i]; is(p) && (best == nil || walk(p) < walk(best)) {
			best = p
		}
	}
	return best
}

// pull takes the next person who is there on a joinable task whose work goes
// on, if those left there still fill its minimum and its roles.
func (c *camp) pull(l *lookout) *person {
	p := c.nextOf(l, func(p *person) bool { return c.canBeSpared(p) && (l.Hurt || !c.hurt(p)) })
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
	return slices.ContainsFunc(c.lookouts, func(l *lookout) bool {
		return l.Hurt && l.places[0].owed && l.Who[0] == p.i
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
	l, pl := e.lookout, &e.lookout.places[e.place]
	if l.over || l.worked || pl.closed {
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
	if l.UnlessWorked {
		c.nextRelief(l, pl)
	}
}
