package checker

import (
	"fmt"
	"slices"

	"warmby/sim"
)

// tools checks that at no instant more of a tool is held than is there.
// Tools are held from the call until the task ends; those that count for
// each person come back at once when the person is pulled away.
func (c *check) tools() {
	for i := range c.d.Tools {
		for _, at := range c.calledAt() {
			held, have := c.held(i, at), c.toolsThere(i, c.endedBy(at))
			if held > have {
				c.broken(at, "tools", c.tool(i), fmt.Sprintf("%d held", held), fmt.Sprintf("%d at most, for so many are there", have))
			}
		}
	}
}

// calledAt lists the moments at which somebody or something is called: only
// then more is held than before.
func (c *check) calledAt() []sim.Time {
	var list []sim.Time
	for _, t := range c.tl.Tasks {
		list = append(list, t.Called)
	}
	for _, s := range c.spells {
		list = append(list, s.Called)
	}
	return rising(list)
}

// held returns how many of a tool are held right after a moment.
func (c *check) held(tool int, at sim.Time) int {
	n := 0
	for k := range c.d.Tasks {
		t := c.tl.Tasks[k]
		if t.Called == sim.Never || t.Called > at || t.End <= at {
			continue
		}
		for _, need := range c.d.Tasks[k].Tools {
			switch {
			case need.Tool != tool:
			case !need.Each:
				n += need.Count
			default:
				for _, s := range c.on[k] {
					if s.Called <= at && !(s.Posted && s.Left <= at) {
						n++
					}
				}
			}
		}
	}
	return n
}

// endedBy returns which tasks have ended at a moment.
func (c *check) endedBy(at sim.Time) func(int) bool {
	return func(k int) bool { return c.tl.Tasks[k].End <= at && c.tl.Tasks[k].End != sim.Never }
}

// toolsThere returns how many of a tool are there: carried by hand from the
// start, and brought by items that are off their load.
func (c *check) toolsThere(tool int, ended func(int) bool) int {
	n := c.d.Tools[tool].Count
	for i, item := range c.d.Items {
		for _, b := range item.Brings {
			if u := c.unpacking(i); b.Tool == tool && u >= 0 && ended(u) {
				n += b.Count
			}
		}
	}
	return n
}

// stovesThere is the same for a kind of stove: of those brought no more than
// work.
func (c *check) stovesThere(stove int, ended func(int) bool) int {
	s := c.d.Stoves[stove]
	if !s.Brought {
		return s.Count
	}
	n := 0
	for i, item := range c.d.Items {
		for _, b := range item.Brings {
			if u := c.unpacking(i); b.Stove == stove && u >= 0 && ended(u) {
				n += b.Count
			}
		}
	}
	return min(n, s.Count)
}

// stoves checks that each melt and warm-up holds a stove that is there, from
// its call until it ends, or of a warm-up until its stove is out, alone: but on a
// stove that holds pots a melt and a warm-up may share it.
func (c *check) stoves() {
	for k := range c.d.Tasks {
		t, stove := c.tl.Tasks[k], c.burns(k)
		if stove < 0 || t.Called == sim.Never {
			if t.Unit != -1 {
				c.broken(t.Called, "stoves", c.task(k), fmt.Sprintf("has stove %d", t.Unit), "none")
			}
			continue
		}
		if have := c.stovesThere(stove, c.endedBy(t.Called)); t.Unit < 0 || t.Unit >= have {
			c.broken(t.Called, "stoves", c.task(k), fmt.Sprintf("has number %d of %s", t.Unit, c.stove(stove)), fmt.Sprintf("one of the %d there, from 0", have))
		}
		for o := 0; o < k; o++ {
			u := c.tl.Tasks[o]
			from := max(t.Called, u.Called)
			if c.burns(o) == stove && u.Unit == t.Unit && from < min(c.letGo(k), c.letGo(o)) && !c.share(o, k) {
				c.broken(from, "stoves", c.task(o)+" and "+c.task(k), "hold one "+c.stove(stove)+" at once", "a stove for each")
			}
		}
	}
}

// letGo returns when a task gives back its stove: a melt when it ends, a warm-up
// when a task puts the stove out after it has ended (after the melt on it, if there
// is one), or when another takes it over; Never when the drill ends before.
func (c *check) letGo(k int) sim.Time {
	t := c.tl.Tasks[k]
	if c.d.Tasks[k].Kind != sim.Warm || t.End == sim.Never {
		return t.End
	}
	at := sim.Never
	for o := range c.d.Tasks {
		u := c.tl.Tasks[o]
		if c.sameShelter(o, k) && u.Unit == t.Unit && c.burns(o) == c.burns(k) && u.Called != sim.Never && u.Called >= t.End {
			at = min(at, u.Called)
		}
		in := c.d.Spots[c.d.Tasks[o].Spot].In
		if slices.Contains(c.d.Tasks[o].PutsOut, c.burns(k)) && u.End >= t.End && (in < 0 || in == c.d.Tasks[k].Warm.Shelter) {
			at = min(at, c.potOff(k, u.End))
		}
	}
	return at
}

// potOff returns when the melt ends that holds the stove of a warm-up at a moment:
// at once when there is none.
func (c *check) potOff(k int, at sim.Time) sim.Time {
	for i := range c.d.Tasks {
		if t := c.tl.Tasks[i]; c.sameUnit(i, k) && t.Called < at && t.End > at {
			return t.End
		}
	}
	return at
}

// sameShelter reports whether two different tasks warm one shelter.
func (c *check) sameShelter(a, b int) bool {
	x, y := c.d.Tasks[a].Warm, c.d.Tasks[b].Warm
	return a != b && x != nil && y != nil && x.Shelter == y.Shelter
}

// burns returns the kind of stove that a task burns; -1 if none.
func (c *check) burns(k int) int {
	switch t := &c.d.Tasks[k]; {
	case t.Kind == sim.Melt && t.Melt != nil:
		return t.Melt.Stove
	case t.Kind == sim.Warm && t.Warm != nil:
		return t.Warm.Stove
	}
	return -1
}

// share reports whether two tasks on a kind of stove may have the same one: a
// pot on a stove that holds pots.
func (c *check) share(a, b int) bool {
	return c.d.Stoves[c.burns(a)].HoldsPots && c.d.Tasks[a].Kind != c.d.Tasks[b].Kind
}
