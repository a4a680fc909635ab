package checker

import (
	"warmby/sim"
	"warmby/sim/heat"
)

// ends checks to the millisecond when each task's work was done and when it
// ended: what a mishap adds follows the work. A drill not finished seven days
// after arrival never finishes, and what has then not ended never does.
func (c *check) ends() {
	for k := range c.d.Tasks {
		t := c.tl.Tasks[k]
		if t.Start == sim.Never {
			if t.Worked != sim.Never || t.End != sim.Never {
				c.broken(t.Called, "end", c.task(k), "worked until "+clock(t.Worked)+", ends "+clock(t.End)+" without a start", "never")
			}
			continue
		}
		worked, end := c.length(k), sim.Never
		if worked != sim.Never && worked+c.luck.Mishap[k] <= sim.Horizon {
			end = worked + c.luck.Mishap[k]
		}
		if t.End != end {
			c.broken(min(t.End, end), "end", c.task(k), "ends at "+clock(t.End), clock(end))
		}
		if end != sim.Never && t.Worked != worked {
			c.broken(worked, "worked", c.task(k), "the work is done at "+clock(t.Worked), clock(worked))
		}
	}
}

// length returns when a task that has begun is done but for mishaps. Takes is
// clock time: crew, pace and slowdowns do not change it.
func (c *check) length(k int) sim.Time {
	task, start := &c.d.Tasks[k], c.tl.Tasks[k].Start
	switch task.Kind {
	case sim.Takes:
		return start + c.luck.Amount[k]
	case sim.Melt:
		long := heat.Melt(&c.d.Site, &c.d.Stoves[task.Melt.Stove], task.Melt).Time
		if long > sim.Horizon {
			return sim.Never
		}
		return start + long
	case sim.Warm:
		return c.warm(k)
	}
	return c.worked(k)
}
