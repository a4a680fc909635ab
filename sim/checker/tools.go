package checker

import (
	"fmt"

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
					if s.Called <= at && !(s.ToLookout && s.Left <= at) {
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
