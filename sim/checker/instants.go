package checker

import (
	"slices"
	"sort"

	"warmby/sim"
)

// instants lists the moments at which anything happens: only then are people
// allocated. What an allocation itself does (a call, or a start that needs no
// walk) makes no new instant. In a drill that never finishes they go on beyond the end
// of the timeline, where nothing may start any more; but not with lookouts,
// for who stands where is told no further.
func (c *check) instants() []sim.Time {
	list := append([]sim.Time{0}, c.changes()...)
	list = append(list, c.luck.Person...)
	list = append(list, c.luck.Load...)
	for _, t := range c.tl.Tasks {
		list = append(list, t.Worked, t.End)
	}
	for k := range c.d.Tasks {
		for _, a := range c.d.Tasks[k].After {
			from := c.tl.Tasks[a.Task].End
			if a.FromStart {
				from = c.tl.Tasks[a.Task].Start
			}
			if from != sim.Never {
				list = append(list, from+a.Lag)
			}
		}
	}
	for _, s := range c.spells {
		if s.Walked {
			list = append(list, s.Arrives)
		}
	}
	for i := range c.d.Lookouts {
		look := &c.d.Lookouts[i]
		from, stop := c.begins(i), c.stops(i)
		if from == sim.Never {
			continue
		}
		list = append(list, from)
		if look.Until > 0 {
			list = append(list, look.Until)
		}
		for at := from + look.Relief; look.Relief > 0 && !look.UnlessWorked && at <= min(c.tl.End, stop); at += look.Relief {
			list = append(list, at)
		}
	}
	last := c.tl.End
	if len(c.d.Lookouts) == 0 && !c.finishes() {
		last = min(c.stop, sim.Horizon)
	}
	all := rising(list)
	n := sort.Search(len(all), func(i int) bool { return all[i] > last })
	all = all[:n]
	for len(all) > 0 && all[0] < 0 {
		all = all[1:]
	}
	return all
}

// next returns the first instant after another: one that is fixed, or when a place is
// to be relieved whose relief counts for each by itself. Never when there is none.
func (c *check) next(after sim.Time, fixed []sim.Time, lookouts []lookout) sim.Time {
	next := sim.Never
	if i, found := slices.BinarySearch(fixed, after); found && i+1 < len(fixed) {
		next = fixed[i+1]
	} else if !found && i < len(fixed) {
		next = fixed[i]
	}
	for l := range lookouts {
		for _, s := range lookouts[l].places {
			if c.d.Lookouts[l].UnlessWorked && s.next > after && s.next <= min(c.tl.End, c.stops(l)) {
				next = min(next, s.next)
			}
		}
	}
	return next
}

// calledInTime checks that tasks and people are called at such instants, and that
// lookouts are left then.
func (c *check) calledInTime(instants []sim.Time) {
	idle := func(at sim.Time) bool {
		_, found := slices.BinarySearch(instants, at)
		return at != sim.Never && !found
	}
	const got, want = "called now", "at an instant at which something happens"
	for k, t := range c.tl.Tasks {
		if idle(t.Called) {
			c.broken(t.Called, "instant", c.task(k), got, want)
		}
	}
	for _, s := range c.spells {
		if idle(s.Called) && (s.Task < 0 || s.Called != c.tl.Tasks[s.Task].Called) {
			c.broken(s.Called, "instant", c.person(s.Person), got, want)
		}
		if s.Lookout >= 0 && s.Left < c.tl.End && idle(s.Left) {
			c.broken(s.Left, "instant", c.person(s.Person), "leaves "+c.lookout(s.Lookout)+" now", want)
		}
	}
}

// rising returns moments in order, each once, without Never.
func rising(list []sim.Time) []sim.Time {
	slices.Sort(list)
	var out []sim.Time
	for _, t := range list {
		if t != sim.Never && (len(out) == 0 || t > out[len(out)-1]) {
			out = append(out, t)
		}
	}
	return out
}

// finishes reports whether every task has ended.
func (c *check) finishes() bool {
	for _, t := range c.tl.Tasks {
		if t.End == sim.Never {
			return false
		}
	}
	return true
}
