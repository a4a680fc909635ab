package reference

import (
	"github.com/fschuetz04/simgo"

	"warmby/sim"
)

// person is one of the team, who is called, walks, arrives and stays until let
// go, over and over. Each walk is a process.
type person struct {
	i       int // in the roster
	here    bool
	errand  *errand // what the person is on; nil when free
	arrived bool    // has just arrived, and the chief has yet to see it
	// relieved is the moment at which the person last came off a lookout.
	relieved sim.Time

	stretches []sim.Stretch
	doing     sim.Stretch // under way
}

// errand is a call to a task or to a place of a lookout.
type errand struct {
	job     *job
	lookout *lookout
	place   int
	there   bool // has walked to the spot
}

func (c *camp) addPerson(i int) {
	p := &person{i: i, relieved: -1}
	c.people = append(c.people, p)
	c.setting++
	c.Process(func(proc simgo.Process) { c.come(proc, p) })
}

// come is the process of a person who comes to where he begins.
func (c *camp) come(proc simgo.Process, p *person) {
	c.setting--
	c.until(proc, c.luck.Person[p.i])
	p.arrived = true
	c.happen()
}

// walk is the process of a person who walks to the spot of an errand.
func (c *camp) walk(proc simgo.Process, p *person, there sim.Time) {
	c.setting--
	c.until(proc, there)
	if c.dismissed {
		return
	}
	p.arrived = true
	c.happen()
}

// free reports whether the person has arrived and has nothing to do.
func (p *person) free() bool { return p.here && p.errand == nil }

// call sends a person on an errand to a spot. Who needs no walk is there at
// once.
func (c *camp) call(p *person, e *errand, spot int) {
	now := c.now()
	p.errand = e
	from := p.doing.Spot
	s := sim.Stretch{What: sim.Walking, From: now, Task: -1, Lookout: -1, Spot: spot, Origin: from}
	e.mark(&s)
	p.begin(s)
	p.doing.To = now + c.d.WalkTime(from, spot)
	there := p.doing.To
	if there == now {
		c.arrive(p)
		return
	}
	c.setting++
	c.Process(func(proc simgo.Process) { c.walk(proc, p, there) })
}

// mark names the errand in a stretch.
func (e *errand) mark(s *sim.Stretch) {
	if e.job != nil {
		s.Task = e.job.i
	} else {
		s.Lookout, s.Place = e.lookout.i, e.place
	}
}

// release lets a person go where they stand.
func (c *camp) release(p *person) {
	p.errand = nil
	p.begin(freeAt(c.now(), p.doing.Spot))
}

// freeAt is the beginning of a stretch with nothing to do.
func freeAt(from sim.Time, spot int) sim.Stretch {
	return sim.Stretch{What: sim.Free, From: from, Task: -1, Lookout: -1, Spot: spot, Origin: spot}
}

// stay begins a stretch of being at the spot of the errand.
func (c *camp) stay(p *person, what sim.Activity) {
	s := sim.Stretch{What: what, From: c.now(), Task: -1, Lookout: -1, Spot: p.doing.Spot, Origin: p.doing.Spot}
	p.errand.mark(&s)
	p.begin(s)
}

// begin ends what the person is doing and begins something else.
func (p *person) begin(s sim.Stretch) {
	if p.here {
		p.close(s.From)
	}
	p.doing = s
}

// close keeps the stretch under way, unless it has no length and is not work.
func (p *person) close(end sim.Time) {
	s := p.doing
	s.To = end
	if s.To > s.From || s.What == sim.Working {
		p.stretches = append(p.stretches, s)
	}
}

// stretchesUntil returns what the person did, up to a moment.
func (p *person) stretchesUntil(end sim.Time) []sim.Stretch {
	var out []sim.Stretch
	if p.here {
		all := append([]sim.Stretch(nil), p.stretches...)
		last := p.doing
		last.To = end
		for _, s := range append(all, last) {
			s.To = min(s.To, end)
			if s.To > s.From || s.What == sim.Working && s.To == s.From {
				out = append(out, s)
			}
		}
	}
	return out
}

// callable returns those of some people whom a task may call: who is free, and
// who stands at a lookout that gives people up for it.
func (c *camp) callable(t *sim.Task, people []int) []int {
	var list []int
	for _, i := range people {
		if p := c.people[i]; p.free() || c.givesUp(p, t) {
			list = append(list, i)
			c.at[i] = p.doing.Spot
		}
	}
	return list
}

// freeOf returns those of some people who are free, in the same sequence.
func (c *camp) freeOf(people []int) []int {
	var free []int
	for _, i := range people {
		if c.people[i].free() {
			free = append(free, i)
			c.at[i] = c.people[i].doing.Spot
		}
	}
	return free
}
