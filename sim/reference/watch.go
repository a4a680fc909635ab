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
	places []place
	next   int // index into Who from which the next call looks on, cyclically
}

// place is one place of a lookout.
type place struct {
	who   *person // who stands there
	onWay *person // who walks there to take over
	owed  bool    // somebody is to be called
	waits bool    // nobody could be spared for it: it waits for somebody to come free
	call  int     // number of the last call to the place; for who longest ago
}

func (c *camp) addWatch(i int) {
	w := &watch{i: i, l: &c.d.Lookouts[i]}
	w.places = make([]place, w.l.Places)
	c.watches = append(c.watches, w)
	c.setting++
	c.Process(func(proc simgo.Process) {
		c.setting--
		for t := w.l.From; !c.over; t += w.l.Relief {
			c.until(proc, t)
			if c.dismissed {
				return
			}
			w.due = true
			c.happen()
			if w.l.Relief == 0 {
				return
			}
		}
	})
}

// owe makes every place due for relief, unless one is on the way or owed.
func (w *watch) owe() {
	for k := range w.places {
		if w.places[k].onWay == nil {
			w.places[k].owed = true
		}
	}
	w.due = false
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
		if w.due {
			w.owe()
		}
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
// moves its pointer past them.
func (c *camp) nextOf(w *watch, is func(*person) bool) *person {
	for k := range w.l.Who {
		at := (w.next + k) % len(w.l.Who)
		if p := c.people[w.l.Who[at]]; is(p) {
			w.next = at + 1
			return p
		}
	}
	return nil
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
// there is free there and then.
func (c *camp) takeOver(p *person, e *errand) {
	pl := &e.watch.places[e.place]
	if old := pl.who; old != nil {
		old.relieved = c.now()
		c.release(old)
	}
	pl.who, pl.onWay = p, nil
	e.there = true
	c.stay(p, sim.Watching)
}
