package reference

import "warmby/sim"

// join sends joiners: group by group, in sequence, to tasks on which work
// goes on, from the group's own people and those lent to it. Only those join
// who would arrive before the work is done as things stand. It reports
// whether it has sent anybody.
func (c *camp) join() bool {
	sent := false
	for di := range c.d.Groups {
		for _, i := range c.d.Groups[di].Sequence {
			j := c.jobs[i]
			if j.phase == working && j.task.Joinable && j.task.Worked() {
				sent = c.joinTask(j, di) || sent
			}
		}
	}
	return sent
}

func (c *camp) joinTask(j *job, group int) bool {
	sent := false
	free := c.freeOf(c.pool(group))
	for _, i := range c.picker.Rank(c.d, j.task, free, c.at) {
		if len(j.there)+len(j.onWay) >= j.task.Crew.Max || !c.toolForOneMore(j.task) {
			break
		}
		p := c.people[i]
		if walk := c.d.WalkTime(p.doing.Spot, j.task.Spot); j.due != sim.Never && c.now()+walk >= j.due {
			continue
		}
		for k, n := range j.task.Tools {
			if n.Each {
				j.holding[k]++
				c.toolsFree[n.Tool]--
			}
		}
		j.onWay = append(j.onWay, p)
		c.call(p, &errand{job: j}, j.task.Spot)
		c.setRate(j)
		c.changed()
		sent = true
	}
	return sent
}

// toolForOneMore reports whether a joiner can have the tools that each person
// on the task needs.
func (c *camp) toolForOneMore(t *sim.Task) bool {
	for _, n := range t.Tools {
		if n.Each && c.toolsFree[n.Tool] < 1 {
			return false
		}
	}
	return true
}
