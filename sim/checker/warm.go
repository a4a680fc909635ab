package checker

import (
	"sort"

	"warmby/sim"
	"warmby/sim/heat"
)

// warm returns when a warm-up reaches its temperature: from the outside air
// of the moment it starts, by the heat balance solved between changes, which
// are weather rows, makes of tasks that end, and melts on the same stove.
func (c *check) warm(k int) sim.Time {
	start := c.tl.Tasks[k].Start
	if c.warmedBefore(k) {
		return c.tl.Tasks[k].Worked
	}
	changes := c.changes()
	for i := range c.d.Tasks {
		t := c.tl.Tasks[i]
		if len(c.d.Tasks[i].Makes) > 0 && i != k {
			changes = append(changes, t.End)
		}
		if c.sameUnit(i, k) {
			changes = append(changes, t.Start, t.End)
		}
	}
	w := heat.Begin(start, c.around(k, start), c.d.Tasks[k].Warm.To)
	for _, at := range rising(changes) {
		if at <= start {
			continue
		}
		if w.Reaches() <= at {
			break
		}
		w.Change(at, c.around(k, at))
	}
	return w.Reaches()
}

// around returns what a warm-up depends on at a moment.
func (c *check) around(k int, at sim.Time) heat.Surroundings {
	warm := c.d.Tasks[k].Warm
	row, _ := c.weather(at)
	pot := false
	for i := range c.d.Tasks {
		t := c.tl.Tasks[i]
		pot = pot || c.sameUnit(i, k) && t.Start <= at && at < t.End
	}
	return heat.Surroundings{
		Shelter: c.shelter(k, at),
		Power:   heat.WarmPower(&c.d.Stoves[warm.Stove], warm.People, pot),
		Air:     row.Air,
	}
}

// warmedBefore reports whether the shelter of a warm-up may be warmer than the air
// outside when it starts: what it starts from then is not worked out here.
func (c *check) warmedBefore(k int) bool {
	if c.d.Shelters[c.d.Tasks[k].Warm.Shelter].AtStart != nil {
		return true
	}
	for o := range c.d.Tasks {
		if c.sameShelter(o, k) && c.tl.Tasks[o].Start < c.tl.Tasks[k].Start {
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

// shelter returns the shelter of a warm-up as it is at a moment: what a task
// makes holds from its end; of two, that of the one that ends later; at one
// instant in file order. What the warm-up itself makes comes too late for it.
func (c *check) shelter(k int, at sim.Time) sim.Shelter {
	shelter := c.d.Tasks[k].Warm.Shelter
	var makers []int
	for i := range c.d.Tasks {
		if i != k && c.tl.Tasks[i].End <= at && c.tl.Tasks[i].End != sim.Never {
			makers = append(makers, i)
		}
	}
	sort.SliceStable(makers, func(i, j int) bool { return c.tl.Tasks[makers[i]].End < c.tl.Tasks[makers[j]].End })
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

// shelters checks that no shelter is warmed twice at once.
func (c *check) shelters() {
	for a := range c.d.Tasks {
		for b := a + 1; b < len(c.d.Tasks); b++ {
			if c.d.Tasks[a].Warm == nil || c.d.Tasks[b].Warm == nil || c.d.Tasks[a].Warm.Shelter != c.d.Tasks[b].Warm.Shelter {
				continue
			}
			x, y := c.tl.Tasks[a], c.tl.Tasks[b]
			if from := max(x.Start, y.Start); from < min(x.End, y.End) {
				c.broken(from, "shelter", c.task(a)+" and "+c.task(b), "warm one shelter at once", "one warm-up at a time")
			}
		}
	}
}
