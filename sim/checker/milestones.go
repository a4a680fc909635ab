package checker

import "warmby/sim"

// milestones checks that each milestone is reached when the last of its tasks
// has ended, finish with the last of all, and never when one of them never
// ends.
func (c *check) milestones() {
	for m, mile := range c.d.Milestones {
		want := sim.Time(0)
		tasks := mile.When
		if m == len(c.d.Milestones)-1 && mile.Name == sim.FinishName {
			tasks = nil
			for k := range c.d.Tasks {
				tasks = append(tasks, k)
			}
		}
		for _, k := range tasks {
			want = max(want, c.tl.Tasks[k].End)
		}
		if got := c.tl.Milestones[m]; got != want {
			c.broken(min(got, want), "milestone", "milestone \""+mile.Name+"\"", "reached at "+clock(got), clock(want))
		}
	}
}

// end checks when the timeline stops: when the last task has ended or, if one
// never does, at the last moment at which a task started, ended or changed
// hands.
func (c *check) end() {
	last := sim.Time(0)
	least, most := sim.Time(0), sim.Time(0)
	for k, t := range c.tl.Tasks {
		if t.End != sim.Never {
			last = max(last, t.End)
		}
		for _, at := range []sim.Time{t.Start, t.End} {
			if at != sim.Never {
				least = max(least, at)
			}
		}
		// a call, the end of work before a mishap and a joiner on the way may
		// be counted as hands changing or not
		for _, at := range []sim.Time{t.Called, t.Worked} {
			if at != sim.Never {
				most = max(most, at)
			}
		}
		for _, s := range c.on[k] {
			if s.There != sim.Never {
				least = max(least, s.There)
			}
			if s.ToLookout {
				least = max(least, s.Left)
			}
			most = max(most, s.Called)
		}
	}
	if c.finishes() {
		least, most = last, last
	}
	if most = max(least, most); c.tl.End < least || c.tl.End > most {
		c.broken(c.tl.End, "end", "timeline", "stops at "+clock(c.tl.End), clock(least))
	}
	if c.tl.End > sim.Horizon {
		c.broken(c.tl.End, "end", "timeline", "stops at "+clock(c.tl.End), "no later than seven days after arrival")
	}
}
