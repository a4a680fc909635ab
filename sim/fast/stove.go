package fast

import "warmby/sim"

// addStoves makes more stoves of a kind available, up to how many work.
func (w *Worker) addStoves(kind, there int) {
	for len(w.stoves[kind]) < min(there, w.p.d.Stoves[kind].Count) {
		w.stoves[kind] = append(w.stoves[kind], unit{-1, -1})
	}
}

// unitFor returns the lowest-numbered stove that a task may have, -1 when
// none is free.
func (w *Worker) unitFor(t *task) int32 {
	pots := w.p.d.Stoves[t.stove].HoldsPots
	for i, u := range w.stoves[t.stove] {
		taken := u.melt >= 0 || u.warm >= 0
		if pots && t.Kind == sim.Melt {
			taken = u.melt >= 0
		} else if pots {
			taken = u.warm >= 0
		}
		if !taken {
			return int32(i)
		}
	}
	return -1
}

// light gives a task its stove.
func (w *Worker) light(i int32, n int32) {
	t := &w.tasks[i]
	if t.Kind == sim.Melt {
		w.stoves[t.stove][n].melt = i
	} else {
		w.stoves[t.stove][n].warm = i
	}
}

// putOut takes it back.
func (w *Worker) putOut(i int32) {
	t := &w.tasks[i]
	u := &w.stoves[t.stove][w.jobs[i].unit]
	if t.Kind == sim.Melt {
		u.melt = -1
		w.todo |= toHeat
	} else {
		u.warm = -1
		w.warming--
	}
}
