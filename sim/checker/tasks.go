package checker

import (
	"fmt"
	"slices"

	"warmby/sim"
)

// calls checks that each task was called only when it might be: by a group
// that has it, after what it comes after, with its items off their loads.
func (c *check) calls() {
	for k := range c.d.Tasks {
		t := c.tl.Tasks[k]
		if t.Called == sim.Never {
			if t.Start != sim.Never || t.End != sim.Never || len(c.on[k]) > 0 {
				c.broken(sim.Never, "called", c.task(k), "people or times without a call", "neither")
			}
			continue
		}
		if t.Called < 0 || t.Called > c.tl.End {
			c.broken(t.Called, "called", c.task(k), "called at "+clock(t.Called), "within the drill")
		}
		c.calledBy(k)
		if why := c.notBefore(k, t.Called); why != "" {
			c.broken(t.Called, "after", c.task(k), "called although "+why, "to wait for it")
		}
	}
}

// calledBy checks that the group that called a task has it in its sequence.
func (c *check) calledBy(k int) {
	t := c.tl.Tasks[k]
	if t.Group >= 0 {
		for _, other := range c.d.Groups[t.Group].Sequence {
			if other == k {
				return
			}
		}
	}
	c.broken(t.Called, "called", c.task(k), fmt.Sprintf("called by group %d", t.Group), "a group whose sequence has it")
}

// notBefore says what a task still has to wait for at a moment by its own
// rules: "" when nothing. Everything that has ended or begun at that very
// moment counts.
func (c *check) notBefore(k int, at sim.Time) string {
	return c.waitsFor(k, at, func(k int) bool { return c.tl.Tasks[k].End <= at },
		func(k int) bool { return c.tl.Tasks[k].Start <= at })
}

// waitsFor is notBefore with what has ended and begun as told.
func (c *check) waitsFor(k int, at sim.Time, ended, begun func(int) bool) string {
	task := &c.d.Tasks[k]
	// A task may start when all it comes after have ended, plus lag; or from
	// the start of work on it.
	for _, a := range task.After {
		t := c.tl.Tasks[a.Task]
		from, past := t.End, ended(a.Task)
		if a.FromStart {
			from, past = t.Start, begun(a.Task)
		}
		if !past || from == sim.Never || at < from+a.Lag {
			return fmt.Sprintf("%s and a lag of %s are not past", c.task(a.Task), clock(a.Lag))
		}
	}
	// Items are there once off their load.
	for _, i := range task.Needs {
		if u := c.unpacking(i); u < 0 || !ended(u) {
			return fmt.Sprintf("item %q is not off its load", c.d.Items[i].Name)
		}
	}
	if !task.Unloads() {
		return ""
	}
	// Unloading is one job of a load after the other, top first.
	load := c.d.Items[task.Item].Load
	if c.luck.Load[load] > at {
		return fmt.Sprintf("load %q has not arrived", c.d.Loads[load].Name)
	}
	for i := 0; i < task.Item; i++ {
		if c.d.Items[i].Load == load && !ended(c.unpacking(i)) {
			return fmt.Sprintf("item %q lies above it", c.d.Items[i].Name)
		}
	}
	return ""
}

// unpacking returns the task that takes an item off its load; -1 if none.
func (c *check) unpacking(item int) int {
	for k := range c.d.Tasks {
		if c.d.Tasks[k].Item == item {
			return k
		}
	}
	return -1
}

// starts checks that work starts when the whole crew is there: when the last
// of those called has arrived. A task that needs nobody starts at its call.
func (c *check) starts() {
	for k := range c.d.Tasks {
		t := c.tl.Tasks[k]
		if t.Called == sim.Never || c.unseen(k) {
			continue
		}
		whole := t.Called
		for _, s := range c.crewOf(k) {
			whole = max(whole, s.Arrives)
		}
		if t.Start != sim.Never && t.Start != whole || t.Start == sim.Never && whole <= c.tl.End && whole != c.stop {
			c.broken(t.Called, "start", c.task(k), "work begins at "+clock(t.Start), "when the whole crew is there, "+clock(whole))
		}
		for _, s := range c.crewOf(k) {
			if s.There == sim.Never && t.Start != sim.Never && s.Arrives <= t.Start && t.Start < c.tl.End {
				c.broken(s.Called, "start", c.task(k), c.d.People[s.Person].Name+" was called and is never there", "there from "+clock(s.Arrives))
			}
		}
	}
}

// peopleThere checks that the people of a task are all who worked on it, in
// roster order, and nobody else: a joiner whom the end overtakes was not there.
// Work is told even where it has no length, so nobody is there unseen.
func (c *check) peopleThere() {
	for k, t := range c.tl.Tasks {
		var worked []int
		for p, list := range c.tl.People {
			for _, s := range list {
				if s.What == sim.Working && s.Task == k {
					worked = append(worked, p)
					break
				}
			}
		}
		if !slices.Equal(t.People, worked) {
			c.broken(t.Start, "people", c.task(k), c.names(t.People)+" listed", c.names(worked)+", who worked on it, in roster order")
		}
	}
}
