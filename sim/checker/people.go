package checker

import (
	"fmt"

	"warmby/sim"
)

// stretches checks that what each person did is told without gaps or
// overlaps from the person's own arrival until the drill ends: so nobody is
// in two places.
func (c *check) stretches() {
	for p, list := range c.tl.People {
		next := c.luck.Person[p]
		if len(list) == 0 && next < c.tl.End {
			c.broken(next, "contiguous", c.person(p), "no stretch at all", "from arrival to the end of the drill")
		}
		for i, s := range list {
			what := fmt.Sprintf("%s, stretch %d", c.person(p), i)
			if s.From != next {
				c.broken(s.From, "contiguous", what, "from "+clock(s.From), clock(next))
			}
			if s.To < s.From {
				c.broken(s.From, "contiguous", what, "ends at "+clock(s.To), "no earlier than it begins")
			}
			// but for work on a task of no length, or one begun at the very
			// end, or one from which the person is pulled at that moment
			none := s.What == sim.Working && (c.tl.Tasks[s.Task].Start == c.tl.Tasks[s.Task].End || s.From == c.tl.End ||
				i+1 < len(list) && c.pulledTo(p, s, list[i+1]))
			if s.To == s.From && !none {
				c.broken(s.From, "contiguous", what, "no length", "to be left out")
			}
			next = s.To
		}
		if len(list) > 0 && next != c.tl.End {
			c.broken(next, "contiguous", c.person(p), "told until "+clock(next), clock(c.tl.End))
		}
	}
}

// walks checks that people stay where their last task or lookout was, that a
// walk begins there, leads to the spot of the task or lookout, and lasts
// walk(a) + walk(b). A walk that the end of the drill cuts short may be
// shorter. Everyone arrives at the spot where the person begins.
func (c *check) walks() {
	for p, list := range c.tl.People {
		was := c.d.People[p].Begin
		for _, s := range list {
			if s.What != sim.Walking && c.walk(was, s.Spot) == 0 && (s.Task >= 0 || s.Lookout >= 0) {
				was = s.Spot // two spots without a walk between them
			}
			if c.walk(was, s.Origin) == 0 && c.stoodUnseen(p, s.Origin, s.From, func(l *sim.Lookout) bool { return l.Spot == s.Origin }) {
				was = s.Origin
			}
			if origin := s.Origin; origin != was {
				c.broken(s.From, "where", c.person(p), "at "+c.d.Spots[s.Origin].Name, c.d.Spots[was].Name)
			}
			if s.What != sim.Walking && s.Spot != was {
				c.broken(s.From, "where", c.person(p), "is at "+c.d.Spots[s.Spot].Name+" without a walk", c.d.Spots[was].Name)
			}
			target := s.Spot
			if s.Task >= 0 {
				target = c.d.Tasks[s.Task].Spot
			} else if s.Lookout >= 0 {
				target = c.d.Lookouts[s.Lookout].Spot
			}
			if s.Spot != target {
				c.broken(s.From, "where", c.person(p), "at "+c.d.Spots[s.Spot].Name, c.d.Spots[target].Name)
			}
			if s.What == sim.Walking {
				long, got := c.walk(was, s.Spot), s.To-s.From
				if got != long && !(s.To == c.tl.End && got < long) {
					c.broken(s.From, "walk", c.person(p), "walks for "+clock(got), clock(long))
				}
			}
			was = s.Spot
		}
	}
}

// oneAfterTheOther checks what may follow what: after a walk one is there
// (unless the task has ended meanwhile), after getting ready one works, and
// from a task that goes on one leaves only for a lookout.
func (c *check) oneAfterTheOther() {
	for p, list := range c.tl.People {
		for i, s := range list {
			if s.To == c.tl.End {
				continue // cut off by the end of the drill
			}
			var next sim.Stretch
			if i+1 < len(list) {
				next = list[i+1]
			} else {
				next.Task, next.Lookout = -1, -1
			}
			toLookout := i+1 < len(list) && c.pulledTo(p, s, next)
			switch {
			case s.What == sim.Walking && s.Lookout >= 0: // whether the place is taken, see compareStanding
			case s.What == sim.Walking:
				t := c.tl.Tasks[s.Task]
				there := next.Task == s.Task && next.What != sim.Walking
				switch {
				case t.End <= s.To && there && t.Start < s.To:
					c.broken(s.To, "follows", c.person(p), "is on "+c.task(s.Task)+", which has ended", "free on arrival")
				case t.End > s.To && !there && !toLookout:
					c.broken(s.To, "follows", c.person(p), "walked to "+c.task(s.Task)+" and is not on it", "ready or working there")
				}
			case s.What == sim.Ready:
				if next.What != sim.Working || next.Task != s.Task {
					c.broken(s.To, "follows", c.person(p), "got ready for "+c.task(s.Task)+" and does not work on it", "working on it")
				}
			case s.What == sim.Working:
				if end := c.tl.Tasks[s.Task].End; s.To < end && !toLookout {
					c.broken(s.To, "follows", c.person(p), "leaves "+c.task(s.Task)+" at "+clock(s.To), "to stay until "+clock(end)+" or be pulled to a lookout")
				}
			}
		}
	}
}

// present checks each stretch against the times of its task: ready only
// before work begins, working only between start and end.
func (c *check) present() {
	for p, list := range c.tl.People {
		for _, s := range list {
			if s.Task < 0 {
				continue
			}
			t := c.tl.Tasks[s.Task]
			what := c.person(p) + " on " + c.task(s.Task)
			if s.From < t.Called {
				c.broken(s.From, "present", what, "bound from "+clock(s.From), "no earlier than the call at "+clock(t.Called))
			}
			switch s.What {
			case sim.Ready:
				if until := min(t.Start, c.tl.End); s.To != until {
					c.broken(s.To, "present", what, "ready until "+clock(s.To), "until work begins or the drill ends at "+clock(until))
				}
			case sim.Working:
				if s.From < t.Start || s.To > t.End || t.Start == sim.Never {
					c.broken(s.From, "present", what, "working from "+clock(s.From)+" to "+clock(s.To), "within "+clock(t.Start)+" to "+clock(t.End))
				}
			}
		}
	}
}
