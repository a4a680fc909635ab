package checker

import "warmby/sim"

// twoFires returns when a warm-up starts while another stove burns in the same
// shelter, which stops the drill; Never when none does.
func (c *check) twoFires() sim.Time {
	at := sim.Never
	for k := range c.d.Tasks {
		for o := range c.d.Tasks {
			if c.sameShelter(o, k) && c.burnsBeside(o, k) {
				at = min(at, c.tl.Tasks[k].Start)
			}
		}
	}
	return at
}

// burnsBeside reports whether the stove of a warm-up burns when another of the same
// shelter starts: until it is put out, but not for one that takes it over. Of two
// that start at one moment the first in the file burns.
func (c *check) burnsBeside(o, k int) bool {
	first, next := c.tl.Tasks[o], c.tl.Tasks[k]
	if next.Start == sim.Never || first.Start > next.Start || first.Start == next.Start && o > k {
		return false
	}
	if c.burns(o) == c.burns(k) && first.Unit == next.Unit && first.End <= next.Called {
		return false // taken over
	}
	return first.End > next.Start || c.putOut(o) > next.Start
}

// shelters checks that a drill stops when a second stove is lit in a shelter: what
// has ended by then, at that moment too, is told, and the rest is never.
func (c *check) shelters() {
	if c.stop == sim.Never {
		return
	}
	if c.tl.End != c.stop {
		c.broken(c.stop, "shelter", "timeline", "goes on until "+clock(c.tl.End), "to stop with two stoves in one shelter")
	}
	for k, t := range c.tl.Tasks {
		if t.End != sim.Never && t.End > c.stop {
			c.broken(c.stop, "shelter", c.task(k), "ends at "+clock(t.End), "never, with two stoves in one shelter before")
		}
	}
}
