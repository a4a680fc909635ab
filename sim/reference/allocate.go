package reference

import (
	"slices"

	"warmby/sim"
)

// allocate hands out the work: lookouts due, then each group in turn, its
// tasks in sequence. A task that may start is called; one that may not is
// passed over, or stops the scan of a group that works in turn. It reports
// whether it has started anything.
func (c *camp) allocate() bool {
	started := c.fillPlaces()
	for di := range c.d.Groups {
		det := &c.d.Groups[di]
		for k, i := range det.Sequence {
			j := c.jobs[i]
			if j.phase != waiting {
				continue
			}
			if crew, ok := c.mayStart(j, di); ok {
				c.callCrew(j, di, crew)
				c.fill(true) // its start may have freed somebody who is hurt
				started = true
			} else if det.InTurn && k >= det.Lead {
				break
			}
		}
	}
	return started
}

// mayStart reports whether a task may start, and with which crew of a group.
func (c *camp) mayStart(j *job, group int) (crew []int, ok bool) {
	t := j.task
	if !c.afterMet(t) || !c.itemsThere(t) {
		return nil, false
	}
	if stoveOf(t) >= 0 && c.unitFor(t) < 0 {
		return nil, false
	}
	most, ok := c.toolsFor(t)
	if !ok {
		return nil, false
	}
	if t.Crew.Max == 0 {
		return nil, true
	}
	crew = c.picker.Pick(c.d, t, c.callable(t, c.pool(group)), c.at, most)
	return crew, crew != nil
}

// afterMet reports whether all that a task comes after has ended, or started,
// plus the lag.
func (c *camp) afterMet(t *sim.Task) bool {
	for _, a := range t.After {
		from := c.jobs[a.Task].times.End
		if a.FromStart {
			from = c.jobs[a.Task].times.Start
		}
		if from == sim.Never || from+a.Lag > c.now() {
			return false
		}
	}
	return true
}

// itemsThere reports whether the items that a task needs are off their load.
// An unloading needs its load there and every item above it off.
func (c *camp) itemsThere(t *sim.Task) bool {
	for _, item := range t.Needs {
		if !c.offLoad[item] {
			return false
		}
	}
	if !t.Unloads() {
		return true
	}
	load := c.d.Items[t.Item].Load
	above := t.Item - 1
	return c.loadThere[load] && (above < 0 || c.d.Items[above].Load != load || c.offLoad[above])
}

// toolsFor reports whether the tools that a task needs are free, and the
// largest crew for which they are enough.
func (c *camp) toolsFor(t *sim.Task) (most int, ok bool) {
	most = len(c.people)
	for _, n := range t.Tools {
		if n.Each {
			most = min(most, c.toolsFree[n.Tool])
		} else if c.toolsFree[n.Tool] < n.Count {
			return 0, false
		}
	}
	return most, true
}

// pool returns whom a group can use, in roster order: its own people and
// those lent to it.
func (c *camp) pool(group int) []int {
	people := slices.Clone(c.d.Groups[group].People)
	for e := range c.d.Groups {
		if e != group && c.lends(e, group, make([]bool, len(c.d.Groups))) {
			people = append(people, c.d.Groups[e].People...)
		}
	}
	slices.Sort(people)
	return people
}

// lends reports whether a group with nothing left to start lends its people
// to another, by way of others with nothing left if need be.
func (c *camp) lends(from, to int, seen []bool) bool {
	if seen[from] || !c.nothingLeft(from) {
		return false
	}
	seen[from] = true
	for _, next := range c.d.Groups[from].Then {
		if next == to || c.lends(next, to, seen) {
			return true
		}
	}
	return false
}

// nothingLeft reports whether every task of a group's sequence has been
// called; unloading that the order does not name does not count.
func (c *camp) nothingLeft(group int) bool {
	det := &c.d.Groups[group]
	for _, i := range det.Sequence[det.Lead:] {
		if c.jobs[i].phase == waiting {
			return false
		}
	}
	return true
}

// callCrew calls the crew of a task and takes its tools and its stove.
func (c *camp) callCrew(j *job, group int, crew []int) {
	j.phase, j.times.Called, j.times.Group = called, c.now(), group
	c.changed()
	for k, n := range j.task.Tools {
		j.holding[k] = n.Count
		if n.Each {
			j.holding[k] = len(crew)
		}
		c.toolsFree[n.Tool] -= j.holding[k]
	}
	c.light(j)
	for _, i := range crew {
		c.leavePlace(c.people[i], j)
		j.onWay = append(j.onWay, c.people[i])
		c.call(c.people[i], &errand{job: j}, j.task.Spot)
	}
	c.settle()
	if len(j.onWay) == 0 {
		c.begin(j)
	}
}
