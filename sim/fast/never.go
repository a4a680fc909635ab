package fast

import "warmby/sim"

// couldFinish tells a drill that waits for a warm-up which never gets there,
// for which it returns nil, from one that can never finish: it lets such
// warm-ups end all the same and plays on.
func (w *Worker) couldFinish() error {
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
		if w.clash != nil {
			return w.clash
		}
		if w.allStarted() {
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
func (w *Worker) stuck() error {
	var causes []sim.Cause
	for i := range w.jobs {
		switch ph := w.jobs[i].phase; {
		case ph < working:
			causes = append(causes, sim.Cause{Task: w.tasks[i].Name, Why: "can never start"})
		case ph < ended:
			causes = append(causes, sim.Cause{Task: w.tasks[i].Name, Why: "has not ended 7 days after arrival"})
		}
	}
	return &sim.NeverError{Causes: causes}
}
