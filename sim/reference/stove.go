package reference

import (
	"warmby/sim"
	"warmby/sim/heat"
)

// stoveOf returns the kind of stove that a task burns, -1 for none.
func stoveOf(t *sim.Task) int {
	switch t.Kind {
	case sim.Melt:
		return t.Melt.Stove
	case sim.Warm:
		return t.Warm.Stove
	}
	return -1
}

// unitFor returns the stove that a task may have: the one that keeps the shelter
// of a warm-up warm already, else the lowest-numbered; -1 when none is free. A stove that holds pots may carry one pot and warm one
// shelter at once.
func (c *camp) unitFor(t *sim.Task) int {
	kind := stoveOf(t)
	pots := c.d.Stoves[kind].HoldsPots
	if t.Kind == sim.Warm {
		if u, n := c.keeps(t.Warm.Shelter, kind); u != nil && u.warm == c.airs[t.Warm.Shelter].fire {
			return n
		}
	}
	for i, u := range c.stoves[kind] {
		taken := u.melt != nil || u.warm != nil
		if pots && t.Kind == sim.Melt {
			taken = u.melt != nil
		} else if pots {
			taken = u.warm != nil
		}
		if !taken {
			return i
		}
	}
	return -1
}

// light gives a job its stove.
func (c *camp) light(j *job) {
	if kind := stoveOf(j.task); kind >= 0 {
		j.times.Unit = c.unitFor(j.task)
		u := &c.stoves[kind][j.times.Unit]
		if j.task.Kind == sim.Melt {
			u.melt = j
		} else {
			u.warm, u.dies = j, false
		}
	}
}

// giveBack takes the stove back that a melt has; that of a warm-up burns on.
func (c *camp) giveBack(j *job) {
	if j.task.Kind != sim.Melt {
		return
	}
	u := &c.stoves[j.task.Melt.Stove][j.times.Unit]
	u.melt = nil
	if u.dies {
		c.goOut(u)
	}
}

// putOut puts out the stoves that a task says: those of their kinds that keep
// the shelter warm in which it is done or, outdoors, any. Where a pot was on one
// before this instant it goes out after the melt.
func (c *camp) putOut(j *job) {
	in := c.d.PutsOutIn(j.task)
	for _, kind := range j.task.PutsOut {
		for s := range c.airs {
			u, _ := c.keeps(s, kind)
			switch {
			case u == nil || in >= 0 && in != s:
			case u.melt == nil || u.melt.times.Called == c.now():
				c.airs[s].out(u)
			case u.warm == c.airs[s].fire:
				u.dies = true
			}
		}
	}
}

// keeps returns the stove of a kind that keeps a shelter warm after a warm-up,
// and its number; nil when there is none.
func (c *camp) keeps(shelter, kind int) (u *unit, n int) {
	f := c.airs[shelter].fire
	if f == nil || f.phase != ended || f.task.Warm.Stove != kind {
		return nil, -1
	}
	return &c.stoves[kind][f.times.Unit], f.times.Unit
}

// goOut puts out a stove that keeps a shelter warm.
func (c *camp) goOut(u *unit) {
	for _, a := range c.airs {
		if a.fire != nil && a.fire == u.warm {
			a.out(u)
			return
		}
	}
}

// air is the air of a shelter.
type air struct {
	balance heat.Balance
	told    heat.Terms // what the balance goes by
	fire    *job       // the warm-up whose stove burns there, ended or not
	last    *job       // the last warm-up on which work has started: its people are there
}

func (c *camp) addAir(shelter int) {
	inside := c.steps[0].Air
	if at := c.d.Shelters[shelter].AtStart; at != nil {
		inside = *at
	}
	c.airs = append(c.airs, &air{})
	a := c.airs[shelter]
	a.told = c.terms(shelter)
	a.balance = heat.Start(0, inside, a.told)
}

// out is what follows when a stove goes out; one that another warm-up has been
// called to stays its own.
func (a *air) out(u *unit) {
	if u.warm == a.fire {
		u.warm = nil
	}
	u.dies = false
	a.fire = nil
}

// lightUp lets the stove of a warm-up burn.
func (c *camp) lightUp(j *job) {
	a := c.airs[j.task.Warm.Shelter]
	a.fire, a.last = j, j
	c.changeShelters()
}

// changeShelters tells the balances of all shelters what has changed, which moves
// the ends of warm-ups.
func (c *camp) changeShelters() {
	for s, a := range c.airs {
		t := c.terms(s)
		if t == a.told {
			continue
		}
		a.told = t
		a.balance.Change(c.now(), t)
		if j := a.fire; j != nil && j.phase == working {
			before := j.due
			j.due = max(a.balance.Reaches(j.task.Warm.To), j.times.Start+1)
			if j.due != before && j.changes != nil {
				c.moved(j)
			}
		}
	}
}

// terms returns what the air of a shelter depends on now.
func (c *camp) terms(shelter int) heat.Terms {
	a := c.airs[shelter]
	t := heat.Terms{Shelter: c.shelters[shelter], Outside: c.steps[c.step].Air, Fire: heat.Out}
	if a.last == nil && c.d.Shelters[shelter].AtStart == nil {
		t.Fire = heat.Unlit
	}
	if a.last != nil {
		t.People = heat.PersonPower * float64(a.last.task.Warm.People)
	}
	if f := a.fire; f != nil {
		w := f.task.Warm
		pot := c.stoves[w.Stove][f.times.Unit].melt
		t.Stove = heat.StovePower(&c.d.Stoves[w.Stove], pot != nil && pot.phase >= working)
		if t.Fire = heat.Full; f.phase > working {
			t.Fire, t.To = heat.Keeping, w.To
		}
	}
	return t
}

// clashes reports whether a warm-up begins in a shelter in which another stove
// burns. The drill stops there.
func (c *camp) clashes(j *job) bool {
	o := c.airs[j.task.Warm.Shelter].fire
	if o == nil {
		return false
	}
	if u, n := c.keeps(j.task.Warm.Shelter, j.task.Warm.Stove); u != nil && n == j.times.Unit {
		return false
	}
	if c.clash == nil {
		c.clash = c.d.TwoFires(o.i, j.i)
	}
	return true
}
