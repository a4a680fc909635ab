package checker

import (
	"math/big"

	"warmby/sim"
	"warmby/sim/heat"
)

// ends checks to the millisecond when each task's work was done and when it
// ended: what a mishap adds follows the work. A drill not finished seven days
// after arrival never finishes, and what has then not ended never does; nor does it
// in one that stops.
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
		if adds := c.mishap(k); worked != sim.Never && worked+adds <= min(c.stop, sim.Horizon) {
			end = worked + adds
		}
		if t.End != end {
			c.broken(min(t.End, end), "end", c.task(k), "ends at "+clock(t.End), clock(end))
		}
		if end != sim.Never && t.Worked != worked {
			c.broken(worked, "worked", c.task(k), "the work is done at "+clock(t.Worked), clock(worked))
		}
	}
}

// mishap returns what mishaps add to a task that has begun: where their chance
// hangs on a condition, by what it was like at its start.
func (c *check) mishap(k int) sim.Time {
	m := c.d.Tasks[k].Mishap
	if c.luck.MishapThen != nil && m != nil && m.When != nil && c.holds(*m.When, c.tl.Tasks[k].Start) {
		return c.luck.MishapThen[k]
	}
	return c.luck.Mishap[k]
}

// length returns when a task that has begun is done but for mishaps. Takes is
// clock time: crew, pace and slowdowns do not change it.
func (c *check) length(k int) sim.Time {
	task, start := &c.d.Tasks[k], c.tl.Tasks[k].Start
	switch task.Kind {
	case sim.Takes:
		return start + c.luck.Amount[k]
	case sim.Melt:
		return c.melted(k)
	case sim.Warm:
		return c.warm(k)
	}
	return c.worked(k)
}

// melted returns when a melt is done. Its heat takes so many milliseconds at full
// power, a million parts each; of these floor(10^9 / s) are done in a millisecond
// in which slowdowns of s thousandths hold. Handling comes after and is not slowed.
func (c *check) melted(k int) sim.Time {
	task, at := &c.d.Tasks[k], c.tl.Tasks[k].Start
	m := heat.Melt(&c.d.Site, &c.d.Stoves[task.Melt.Stove], task.Melt)
	if m.Time > sim.Horizon && len(task.Slowed) == 0 || m.Heating == sim.Never {
		return sim.Never
	}
	left := new(big.Int).Mul(big.NewInt(int64(m.Heating)), big.NewInt(1_000_000))
	for _, next := range append(rising(c.changes()), sim.Never) {
		if next <= at {
			continue
		}
		rate := big.NewInt(1_000_000_000 / c.slowed(task, at))
		need := timeFor(left, rate)
		switch {
		case need != sim.Never && need <= next-at:
			return at + need + m.Time - m.Heating
		case next == sim.Never:
			return sim.Never
		}
		left.Sub(left, rate.Mul(rate, big.NewInt(int64(next-at))))
		at = next
	}
	return sim.Never
}
