package fast

import "warmby/sim"

// addStoves makes so many stoves of a kind available, up to how many work.
func (s *site) addStoves(kind, there, most int) {
	for len(s.stoves[kind]) < min(there, most) {
		s.stoves[kind] = append(s.stoves[kind], unit{-1, -1, false})
	}
}

// unitFor returns the stove that a task may have: the one that keeps the shelter
// of a warm-up warm already, else the lowest-numbered; -1 when none is free.
func (w *Worker) unitFor(t *task) int32 {
	if t.kind == uint8(sim.Warm) {
		if u, n := w.keeps(t.Warm.Shelter, t.stove); u != nil && u.warm == w.airs[t.Warm.Shelter].fire {
			return n
		}
	}
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
		u := &w.stoves[t.stove][n]
		u.warm, u.dies = i, false
	}
}

// takeOff takes the stove back that a melt has.
func (w *Worker) takeOff(i int32) {
	u := &w.stoves[w.tasks[i].stove][w.jobs[i].unit]
	u.melt = -1
	w.todo |= toHeat
	if u.dies {
		w.goOut(u)
	}
}

// putOut puts out the stoves that a task says: of their kinds, those that keep the
// task's shelter warm or, outdoors, any. A stove with a pot on it since before this
// moment goes out after the melt.
func (w *Worker) putOut(t *task) {
	for _, kind := range t.puts {
		for s := range w.airs {
			u, _ := w.keeps(s, kind)
			switch {
			case u == nil || t.in >= 0 && int(t.in) != s:
			case u.melt < 0 || w.jobs[u.melt].called == w.now:
				w.airs[s].out(u)
			case u.warm == w.airs[s].fire:
				u.dies = true
			}
		}
	}
	w.todo |= toHeat
}

// keeps returns the stove of a kind that keeps a shelter warm after a warm-up,
// and its number; nil when there is none.
func (w *Worker) keeps(s int, kind int32) (u *unit, n int32) {
	f := w.airs[s].fire
	if f < 0 || w.jobs[f].phase != ended || w.tasks[f].stove != kind {
		return nil, -1
	}
	return &w.stoves[kind][w.jobs[f].unit], w.jobs[f].unit
}

// goOut puts out a stove that keeps a shelter warm.
func (w *Worker) goOut(u *unit) {
	for s := range w.airs {
		if f := w.airs[s].fire; f >= 0 && f == u.warm {
			w.airs[s].out(u)
			return
		}
	}
}

// out is what follows when a stove goes out; one that another warm-up has been
// called to stays its own.
func (a *air) out(u *unit) {
	if u.warm == a.fire {
		u.warm = -1
	}
	u.dies = false
	a.fire = -1
}
