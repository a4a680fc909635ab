package checker

import (
	"cmp"
	"slices"

	"warmby/sim"
)

// spell is one person's time on one task or one place of a lookout, from the
// call until released.
type spell struct {
	Person         int
	Task           int // -1 for a lookout
	Lookout, Place int // -1, 0 for a task
	Called         sim.Time
	Arrives        sim.Time // the call and the walk
	Left           sim.Time // when released; the end of the timeline at the latest
	Origin         int      // where the person was when called
	Walked         bool     // whether there is a walk
	There          sim.Time // when first seen there; Never when never seen
	Next           int      // the task to which the person goes at once; -1 if none
	ToLookout      bool     // whether the person went from here to a lookout at once
}

// during reports whether the person is bound at t.
func (s spell) during(t sim.Time) bool { return s.Called <= t && t < s.Left }

// readSpells cuts the stretches of everyone into spells. A walk always begins
// one; so does a change of task or place.
func (c *check) readSpells() {
	c.on = make([][]spell, len(c.d.Tasks))
	c.at = make([][]spell, len(c.d.Lookouts))
	for p, list := range c.tl.People {
		open := false
		var now spell
		var last sim.Stretch // of it
		finish := func(next *sim.Stretch) {
			if open {
				now.Next = -1
				if next != nil {
					now.Next = next.Task
				}
				now.ToLookout = now.Task >= 0 && next != nil && c.pulledTo(p, last, *next)
				c.spells = append(c.spells, now)
			}
			open = false
		}
		was := c.d.People[p].Begin
		for i := range list {
			s := &list[i]
			bound := s.Task >= 0 || s.Lookout >= 0
			same := open && s.What != sim.Walking && s.Task == now.Task && s.Lookout == now.Lookout &&
				(s.Lookout < 0 || s.Place == now.Place)
			if !same {
				finish(s)
				if bound {
					open = true
					now = spell{Person: p, Task: s.Task, Lookout: s.Lookout, Place: s.Place, Called: s.From,
						Origin: was, There: sim.Never, Walked: s.What == sim.Walking}
					now.Arrives = s.From + c.walk(was, s.Spot)
				}
			}
			if bound {
				now.Left, last = s.To, *s
				if s.What != sim.Walking && now.There == sim.Never {
					now.There = s.From
				}
			}
			was = s.Spot
		}
		finish(nil)
	}
	slices.SortStableFunc(c.spells, func(a, b spell) int {
		return cmp.Or(cmp.Compare(a.Called, b.Called), cmp.Compare(a.Person, b.Person))
	})
	for _, s := range c.spells {
		if s.Task >= 0 {
			c.on[s.Task] = append(c.on[s.Task], s)
		} else {
			c.at[s.Lookout] = append(c.at[s.Lookout], s)
		}
	}
}

// crewOf returns the spells of those whom the call of a task took, as opposed
// to its joiners. Whoever walks to a task whose crew was whole at its call is
// a joiner. (One that joins at that very instant without a walk cannot be
// told apart here; the allocation tells.)
func (c *check) crewOf(k int) []spell {
	t := c.tl.Tasks[k]
	var crew []spell
	for _, s := range c.on[k] {
		if s.Called == t.Called && !(t.Start == t.Called && s.Walked) {
			crew = append(crew, s)
		}
	}
	return crew
}

// joinersOf returns the spells on a task that are not of its called crew.
func (c *check) joinersOf(k int) []spell {
	t := c.tl.Tasks[k]
	var joiners []spell
	for _, s := range c.on[k] {
		if s.Called != t.Called || t.Start == t.Called && s.Walked {
			joiners = append(joiners, s)
		}
	}
	return joiners
}

// unseen reports whether the crew of a task was called at the very end of a
// drill that never finishes and has a walk to make: the stretches would have no
// length and are left out, so nothing tells who they are.
func (c *check) unseen(k int) bool {
	t := c.tl.Tasks[k]
	return t.Called == c.tl.End && t.Start == sim.Never
}

// walk returns how long it takes from spot a to spot b: out to the centre of
// camp and on, and nothing when one is already there.
func (c *check) walk(a, b int) sim.Time {
	if a == b {
		return 0
	}
	return c.d.Spots[a].Walk + c.d.Spots[b].Walk
}
