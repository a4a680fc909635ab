package reference

import (
	"fmt"

	"warmby/sim"
	"warmby/sim/heat"
)

// stoveOf returns the kind of stove that a task burns, -1 for none.
func stoveOf(t *sim.Task) int {
	switch t.Kind {
	case sim.Melt:
		return t.Melt.Stove
	case sim.Warm:
		return t.Warm.Stove
	}
	return -1
}

// unitFor returns the lowest-numbered stove that a task may have, -1 when
// none is free. A stove that holds pots may carry one pot and warm one
// shelter at once.
func (c *camp) unitFor(t *sim.Task) int {
	kind := stoveOf(t)
	pots := c.d.Stoves[kind].HoldsPots
	for i, u := range c.stoves[kind] {
		taken := u.melt != nil || u.warm != nil
		if pots && t.Kind == sim.Melt {
			taken = u.melt != nil
		} else if pots {
			taken = u.warm != nil
		}
		if !taken {
			return i
		}
	}
	return -1
}

// light gives a job its stove.
func (c *camp) light(j *job) {
	if kind := stoveOf(j.task); kind >= 0 {
		j.times.Unit = c.unitFor(j.task)
		u := &c.stoves[kind][j.times.Unit]
		if j.task.Kind == sim.Melt {
			u.melt = j
		} else {
			u.warm = j
		}
	}
}

// putOut takes it back.
func (c *camp) putOut(j *job) {
	if kind := stoveOf(j.task); kind >= 0 {
		u := &c.stoves[kind][j.times.Unit]
		if j.task.Kind == sim.Melt {
			u.melt = nil
		} else {
			u.warm = nil
		}
	}
}

// surroundings returns what a warm-up works with and against now.
func (c *camp) surroundings(j *job) heat.Surroundings {
	w := j.task.Warm
	stove := &c.d.Stoves[w.Stove]
	pot := c.stoves[w.Stove][j.times.Unit].melt
	potOn := pot != nil && pot.phase >= working
	return heat.Surroundings{
		Shelter: c.shelters[w.Shelter],
		Power:   heat.WarmPower(stove, w.People, potOn),
		Air:     c.steps[c.step].Air,
	}
}

// refuseTwoWarmUps stops the drill when a warm-up begins in a shelter in
// which another is under way.
func (c *camp) refuseTwoWarmUps(j *job) {
	for _, o := range c.jobs {
		if o != j && o.task.Kind == sim.Warm && o.task.Warm.Shelter == j.task.Warm.Shelter &&
			(o.phase == working || o.phase == mishap) && c.refused == nil {
			c.refused = &sim.NeverError{Causes: []sim.Cause{{
				Task: j.task.Name,
				Why: fmt.Sprintf("begins while %q still warms the same shelter %q (%s)",
					o.task.Name, c.d.Shelters[j.task.Warm.Shelter].Name, sim.Clock(c.now())),
				Hint: "let one come after the other",
			}}}
		}
	}
}
