package reference

import (
	"slices"

	"github.com/fschuetz04/simgo"

	"warmby/sim"
)

// chief is the process that looks after each instant once everything of it
// has happened: tasks end first, then walkers arrive, then tasks whose crew is
// whole start, then rates are set anew, then people are allocated. If that
// starts anything, the instant is gone through again until nothing more
// starts; only then are joiners sent. What needs no walk, a crew that is whole
// at its call, a relief, a joiner, is there at once and counts for all that is
// looked at after it.
func (c *camp) chief(proc simgo.Process) {
	for !c.over && c.clash == nil {
		proc.Wait(c.something)
		if c.dismissed {
			return
		}
		c.something = c.Event()
		for {
			for c.expects() {
				proc.Wait(proc.Timeout(0))
			}
			c.handle()
			if c.over || c.clash != nil {
				return
			}
			if !c.allocate() && !c.join() {
				break
			}
		}
		for _, l := range c.lookouts {
			l.endInstant()
		}
	}
}

// expects reports whether somebody still has to wake at this instant.
func (c *camp) expects() bool { return c.setting > 0 || c.due[c.now()] > 0 }

// handle deals with all events of the instant and sets rates anew, until none
// is left.
func (c *camp) handle() {
	for again := true; again; {
		for c.endings() || c.arrivals() || c.starts() {
		}
		again = false
		c.changeShelters()
		for _, j := range c.jobs {
			c.setRate(j)
			again = again || j.over(c)
		}
	}
	c.over = true
	for _, j := range c.jobs {
		c.over = c.over && j.phase == ended
	}
	if c.over {
		c.end = c.now()
	}
}

// over reports whether the phase of a job that is under way ends now.
func (j *job) over(c *camp) bool {
	return (j.phase == working || j.phase == mishap) && j.due <= c.now()
}

// endings ends what ends now; stoves are put out once all warm-ups have ended
// that do.
func (c *camp) endings() (any bool) {
	var over []*job
	for _, j := range c.jobs {
		for j.over(c) {
			c.finish(j)
			any = true
			if j.phase == ended {
				over = append(over, j)
			}
		}
	}
	for _, j := range over {
		c.putOut(j)
	}
	return any
}

func (c *camp) arrivals() (any bool) {
	for _, p := range c.people {
		if p.arrived {
			p.arrived = false
			c.arrive(p)
			any = true
		}
	}
	return any
}

// arrive is what follows when a person comes to the camp or to the spot of an
// errand.
func (c *camp) arrive(p *person) {
	e := p.errand
	switch {
	case e == nil:
		p.begin(freeAt(c.now(), c.d.People[p.i].Begin))
		p.here = true
	case e.lookout != nil:
		c.takeOver(p, e)
	case e.job.phase == ended: // the end has overtaken a joiner
		e.there = true
		c.release(p)
	default:
		e.there = true
		j := e.job
		j.onWay = slices.DeleteFunc(j.onWay, func(o *person) bool { return o == p })
		j.there = append(j.there, p)
		if j.phase == called {
			c.stay(p, sim.Ready)
			return
		}
		c.stay(p, sim.Working)
		c.changed()
		j.times.People = append(j.times.People, p.i)
	}
}

func (c *camp) starts() (any bool) {
	for _, j := range c.jobs {
		if j.phase == called && len(j.onWay) == 0 {
			c.begin(j)
			any = true
		}
	}
	return any
}
