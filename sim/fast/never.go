package fast

import "warmby/sim"

// Stopped plays the drill with given draws and says why it comes to a stop, a
// *[sim.NeverError]; nil when it does not.
func (w *Worker) Stopped(l *sim.Luck) error {
	var r Result
	w.explain = true
	defer func() { w.explain = false }()
	if w.Play(l, &r); r.Stops == nil {
		return nil
	}
	return &sim.NeverError{Causes: r.Stops}
}

// stops returns what a drill with tasks left comes to a stop at. It tells one
// that only waits for a warm-up which never gets there, for which it returns
// nil, by letting such warm-ups end all the same and playing on.
func (w *Worker) stops() []sim.Cause {
	if w.clash != nil {
		return []sim.Cause{*w.clash}
	}
	limit, played := sim.Time(sim.Horizon), false
	for {
		forced := false
		for _, i := range w.p.warmers {
			if w.jobs[i].phase == working {
				w.reschedule(i, limit+1)
				forced = true
			}
		}
		if !forced {
			return w.stuck(!played)
		}
		played = true
		w.now = limit + 1
		limit += sim.Horizon
		w.until(limit)
		if w.clash != nil || w.allStarted() {
			return nil
		}
	}
}

func (w *Worker) allStarted() bool {
	for i := range w.jobs {
		if w.jobs[i].phase < working {
			return false
		}
	}
	return true
}

// stuck names the tasks that cannot start or end, and says why if that is asked
// for. Of those under way it is told only that they have not ended by now.
func (w *Worker) stuck(underWay bool) (causes []sim.Cause) {
	if w.explain {
		return w.standstill().Causes(underWay)
	}
	for i := range w.jobs {
		switch ph := w.jobs[i].phase; {
		case ph < working:
			causes = append(causes, sim.Cause{Task: w.tasks[i].Name, Why: "can never start"})
		case ph < ended:
			causes = append(causes, sim.Cause{Task: w.tasks[i].Name, Why: "has not ended 7 days after arrival"})
		}
	}
	return causes
}

// standstill is the drill as it lies.
func (w *Worker) standstill() *sim.Standstill {
	d := w.p.d
	s := &sim.Standstill{Drill: d}
	for i := range w.jobs {
		j, t := &w.jobs[i], &w.tasks[i]
		s.Tasks = append(s.Tasks, sim.Stuck{
			Called: j.phase > waiting, Started: j.phase >= working, Ended: j.phase == ended,
			NothingDone: j.phase == working && w.isSlowed(t) && j.rate == 0,
			HasStove:    t.stove < 0 || w.unitFor(t) >= 0,
		})
	}
	for i := range w.p.loads {
		s.LoadThere = append(s.LoadThere, w.luck.Load[i] <= w.now)
	}
	for _, units := range w.stoves {
		var burners []sim.Burner
		for _, u := range units {
			burners = append(burners, sim.Burner{Melt: int(u.melt), Warm: int(u.warm)})
		}
		s.Burners = append(s.Burners, burners)
	}
	for i := range d.Tools {
		s.FreeTools = append(s.FreeTools, int(w.freeTools(int32(i))))
	}
	for _, of := range w.pools {
		var pool []int
		for who := range w.p.people {
			if g := w.p.people[who].group; g >= 0 && of.lent>>g&1 == 1 {
				pool = append(pool, who)
			}
		}
		s.Pools = append(s.Pools, pool)
	}
	for who := range w.crew {
		s.People = append(s.People, sim.Bystander{Free: w.isFree(int32(who)), Spot: int(w.crew[who].spot), Lookout: -1})
	}
	for i := range w.lookouts {
		for _, place := range w.lookouts[i].places {
			if place.who >= 0 {
				s.People[place.who].Lookout = i
			}
		}
	}
	return s
}

// isSlowed reports whether the rate of a task under way is kept.
func (w *Worker) isSlowed(t *task) bool {
	return t.worked || t.kind == uint8(sim.Melt) && t.slowed != nil && t.fixed != sim.Never
}
