package fast

import "warmby/sim"

// stops returns what a drill with tasks left comes to a stop at. It tells one
// that only waits for a warm-up which never gets there, for which it returns
// nil, by letting such warm-ups end all the same and playing on.
func (w *Worker) stops() []sim.Cause {
	if w.clash != nil {
		return []sim.Cause{*w.clash}
	}
	limit := sim.Time(sim.Horizon)
	for {
		forced := false
		for _, i := range w.p.warmers {
			if w.jobs[i].phase == working {
				w.reschedule(i, limit+1)
				forced = true
			}
		}
		if !forced {
			return w.stuck()
		}
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

// stuck names the tasks that cannot start or end; the reference engine says
// why.
func (w *Worker) stuck() (causes []sim.Cause) {
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
