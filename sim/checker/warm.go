package checker

import (
	"cmp"
	"slices"

	"warmby/sim"
	"warmby/sim/heat"
)

// warm returns when a warm-up reaches its temperature: from the temperature that
// there is when it starts, by the heat balance of the shelter solved between
// changes. Those are weather rows, makes of tasks that end, stoves lit and put out,
// and melts on the stove that burns.
func (c *check) warm(k int) sim.Time {
	air := c.airOf(k)
	at, start := sim.Time(0), c.tl.Tasks[k].Start
	b := heat.Start(0, air.begins, air.terms(-1))
	b.Change(0, air.terms(0))
	for _, next := range air.changes() {
		if at >= start && b.Reaches(air.to) <= next {
			break
		}
		if next > at {
			at = next
			b.Change(at, air.terms(at))
		}
	}
	return max(b.Reaches(air.to), start+1)
}

// air is that of a shelter up to the end of one of its warm-ups.
type air struct {
	c       *check
	shelter int
	until   int     // the warm-up, which goes on here until its time is worked out
	begins  float64 // degrees C at first
	given   bool    // whether that is told, and not as outside
	to      float64 // degrees C, what the warm-up is asked for
	warmups []int   // of the shelter up to that, as they started
}

func (c *check) airOf(k int) *air {
	warm := c.d.Tasks[k].Warm
	a := &air{c: c, shelter: warm.Shelter, until: k, to: warm.To}
	if at := c.d.Shelters[warm.Shelter].AtStart; at != nil {
		a.begins, a.given = *at, true
	}
	for o := range c.d.Tasks {
		if t := c.tl.Tasks[o]; c.sameShelter(o, k) && t.Start != sim.Never && t.Start <= c.tl.Tasks[k].Start && t.End <= c.tl.Tasks[k].Start {
			a.warmups = append(a.warmups, o)
		}
	}
	slices.SortStableFunc(a.warmups, func(i, j int) int { return cmp.Compare(c.tl.Tasks[i].Start, c.tl.Tasks[j].Start) })
	a.warmups = append(a.warmups, k)
	return a
}

// changes lists the moments at which the terms may change.
func (a *air) changes() []sim.Time {
	c := a.c
	list := c.changes()
	for i := range c.d.Tasks {
		if t := c.tl.Tasks[i]; i != a.until {
			list = append(list, t.Start, t.Worked, t.End)
		}
	}
	list = append(list, c.tl.Tasks[a.until].Start)
	for _, o := range a.warmups {
		list = append(list, c.letGo(o))
	}
	return rising(list)
}

// terms returns what the air depends on at a moment. People give heat from the
// start of work on their warm-up until that on the next, the stove all it can while
// a warm-up is under way and what keeps the temperature after it, until it is out.
func (a *air) terms(at sim.Time) heat.Terms {
	c := a.c
	row, _ := c.weather(max(0, at))
	in := heat.Terms{Shelter: c.shelter(a.shelter, a.until, at), Outside: row.Air, Fire: heat.Unlit}
	if a.given {
		in.Fire = heat.Out
	}
	last := -1
	for _, o := range a.warmups {
		if c.tl.Tasks[o].Start <= at {
			last = o
		}
	}
	if last < 0 {
		return in
	}
	warm := c.d.Tasks[last].Warm
	in.People, in.To, in.Fire = float64(warm.People)*heat.PersonPower, warm.To, heat.Out
	switch {
	case last == a.until || at < c.tl.Tasks[last].Worked:
		in.Fire = heat.Full
	case at < c.out(last):
		in.Fire = heat.Keeping
	}
	if in.Fire != heat.Out {
		in.Stove = heat.StovePower(&c.d.Stoves[warm.Stove], c.potOn(last, at))
	}
	return in
}

// potOn reports whether a melt is under way on the stove of a warm-up.
func (c *check) potOn(k int, at sim.Time) bool {
	for i := range c.d.Tasks {
		if t := c.tl.Tasks[i]; c.sameUnit(i, k) && t.Start <= at && at < t.End {
			return true
		}
	}
	return false
}

// sameUnit reports whether task i is a melt on the very stove of warm-up k.
func (c *check) sameUnit(i, k int) bool {
	melt, warm := c.d.Tasks[i].Melt, c.d.Tasks[k].Warm
	return melt != nil && melt.Stove == warm.Stove && c.tl.Tasks[i].Unit == c.tl.Tasks[k].Unit
}

// shelter returns a shelter as it is at a moment of a warm-up: what a task
// makes holds from its end; of two, that of the one that ends later; at one
// instant in file order. What the warm-up itself makes comes too late for it.
func (c *check) shelter(shelter, k int, at sim.Time) sim.Shelter {
	var makers []int
	for i := range c.d.Tasks {
		if i != k && c.tl.Tasks[i].End <= at && c.tl.Tasks[i].End != sim.Never {
			makers = append(makers, i)
		}
	}
	slices.SortStableFunc(makers, func(i, j int) int { return cmp.Compare(c.tl.Tasks[i].End, c.tl.Tasks[j].End) })
	is := c.d.Shelters[shelter]
	for _, i := range makers {
		for _, m := range c.d.Tasks[i].Makes {
			if m.Shelter == shelter {
				is = heat.Apply(is, m)
			}
		}
	}
	return is
}
