package checker

import (
	"fmt"
	"slices"

	"warmby/sim"
)

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
// when the stove is out or another warm-up takes it over; Never when the drill ends
// before.
func (c *check) letGo(k int) sim.Time {
	t := c.tl.Tasks[k]
	if c.d.Tasks[k].Kind != sim.Warm || t.End == sim.Never {
		return t.End
	}
	return min(c.putOut(k), c.takenOver(k))
}

// out returns when the stove that a warm-up has lit burns for it no more: when it
// is put out, or when work starts on the warm-up that has taken it over.
func (c *check) out(k int) sim.Time {
	out := c.putOut(k)
	if c.takenOver(k) < out {
		return sim.Never // until the next starts, which is looked at first
	}
	return out
}

// takenOver returns when the next warm-up of the same shelter with the same unit is
// called; Never if none is.
func (c *check) takenOver(k int) sim.Time {
	t, at := c.tl.Tasks[k], sim.Never
	for o := range c.d.Tasks {
		u := c.tl.Tasks[o]
		if c.sameShelter(o, k) && u.Unit == t.Unit && c.burns(o) == c.burns(k) && u.Called != sim.Never && u.Called >= t.End {
			at = min(at, u.Called)
		}
	}
	return at
}

// putOut returns when a task puts out the stove that a warm-up has lit, whatever
// has taken it over by then: after the warm-up has ended, and after the melt that
// holds the stove at that moment, if there is one.
func (c *check) putOut(k int) sim.Time {
	return c.putOutBy(k, func(k int) bool { return c.tl.Tasks[k].End != sim.Never })
}

// putOutBy is putOut with what has ended as told.
func (c *check) putOutBy(k int, ended func(int) bool) sim.Time {
	at := sim.Never
	for o := range c.d.Tasks {
		if u := c.tl.Tasks[o]; c.putsOut(o, k) && ended(o) && u.End >= c.tl.Tasks[k].End {
			at = min(at, c.potOff(k, u.End))
		}
	}
	return at
}

// putsOut reports whether a task puts out the stove of a warm-up when it ends: one
// of a kind that it names, in the shelter in which it is done or, at any other spot,
// in any.
func (c *check) putsOut(o, k int) bool {
	in := c.d.Spots[c.d.Tasks[o].Spot].In
	return slices.Contains(c.d.Tasks[o].PutsOut, c.burns(k)) && (in < 0 || in == c.d.Tasks[k].Warm.Shelter)
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
