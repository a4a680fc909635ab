package reference

import "warmby/sim"

// stops says why a drill comes to a stop. It tells one that only waits for a
// warm-up which never gets there, for which it returns nil, by letting such
// warm-ups end all the same and playing on.
func (c *camp) stops() []sim.Cause {
	if c.clash != nil {
		return []sim.Cause{*c.clash}
	}
	causes := c.standstill().Causes(true)
	for {
		forced := false
		for _, j := range c.jobs {
			if j.phase == working && j.task.Kind == sim.Warm {
				j.due = c.now()
				c.moved(j)
				forced = true
			}
		}
		if !forced {
			break
		}
		c.happen()
		c.RunUntil(c.Now() + float64(sim.Horizon))
		if c.clash != nil {
			return nil
		}
		causes = c.standstill().Causes(false)
		if len(causes) == 0 {
			return nil
		}
	}
	return causes
}

// standstill is the camp as it lies.
func (c *camp) standstill() *sim.Standstill {
	s := &sim.Standstill{Drill: c.d, LoadThere: c.loadThere, FreeTools: c.toolsFree}
	for _, j := range c.jobs {
		s.Tasks = append(s.Tasks, sim.Stuck{
			Called: j.phase > waiting, Started: j.phase >= working, Ended: j.phase == ended,
			NothingDone: (j.phase == working || j.phase == mishap) && (j.task.Worked() || j.task.Kind == sim.Melt) && j.rate == 0,
			HasStove:    stoveOf(j.task) < 0 || c.unitFor(j.task) >= 0,
		})
	}
	for _, units := range c.stoves {
		var burners []sim.Burner
		for _, u := range units {
			burners = append(burners, sim.Burner{Melt: numberOf(u.melt), Warm: numberOf(u.warm)})
		}
		s.Burners = append(s.Burners, burners)
	}
	for di := range c.d.Groups {
		s.Pools = append(s.Pools, c.pool(di))
	}
	for _, p := range c.people {
		by := sim.Bystander{Free: p.free(), Spot: p.doing.Spot, Lookout: -1}
		if p.doing.What == sim.Watching {
			by.Lookout = p.doing.Lookout
		}
		s.People = append(s.People, by)
	}
	return s
}

// numberOf returns the task of a job, -1 for none.
func numberOf(j *job) int {
	if j == nil {
		return -1
	}
	return j.i
}
