package fast

import (
	"math/bits"

	"warmby/sim"
)

// picker is the scratch space of crew choice.
type picker struct {
	order []int32 // candidates
	walks []sim.Time
	crew  []int32
	slots []int // skill of each role
	taken []int32
	tried []bool
}

func (k *picker) prepare(p *Program) {
	n := len(p.people)
	roles := 0
	for i := range p.tasks {
		roles = max(roles, p.tasks[i].RoleCount())
	}
	k.order, k.walks, k.crew = make([]int32, 0, n), make([]sim.Time, 0, n), make([]int32, 0, n)
	k.slots, k.taken, k.tried = make([]int, 0, roles), make([]int32, 0, roles), make([]bool, 0, roles)
}

// pick returns the crew that a task calls from the people of a detail, nil
// when they cannot fill it. See [sim.Picker] for the rule; ranks put those
// with the fewest skills first, so that where nobody walks the crew is the
// lowest bits.
func (w *Worker) pick(t *task, di, most int32) []int32 {
	k := &w.picker
	if !w.p.wide {
		m := w.free & w.pools[di] & t.able
		size := min(t.high, most, int32(bits.OnesCount64(m)))
		if size < t.low || size == 0 {
			return nil
		}
		if len(t.Roles) == 0 && w.p.still {
			k.crew = k.crew[:0]
			for range size {
				k.crew = append(k.crew, lowest(m))
				m &= m - 1
			}
			return k.crew
		}
	}
	w.candidates(t, di)
	size := min(t.high, most, int32(len(k.order)))
	if size < t.low || size == 0 {
		return nil
	}
	if len(t.Roles) == 0 {
		return k.order[:size]
	}
	return w.pickRoles(t, size)
}

// candidates puts the free people of a detail who have the skills asked of
// everyone in the order in which they are taken: fewest skills, shortest
// walk, roster.
func (w *Worker) candidates(t *task, di int32) {
	k := &w.picker
	k.order, k.walks = k.order[:0], k.walks[:0]
	if w.p.wide {
		for rank := range w.crew {
			if w.usable(di, int32(rank)) && w.p.people[rank].skills.Holds(t.All) {
				w.candidate(t, int32(rank))
			}
		}
		return
	}
	for m := w.free & w.pools[di] & t.able; m != 0; m &= m - 1 {
		w.candidate(t, lowest(m))
	}
}

// candidate puts a person into the order; they come by rising rank.
func (w *Worker) candidate(t *task, rank int32) {
	k := &w.picker
	walk := w.p.walk[int(w.crew[rank].spot)*w.p.spots+int(t.spot)]
	skills := w.p.people[rank].skills.Count()
	i := len(k.order)
	k.order, k.walks = append(k.order, rank), append(k.walks, walk)
	for i > 0 && k.walks[i-1] > walk && w.p.people[k.order[i-1]].skills.Count() == skills {
		k.order[i], k.walks[i] = k.order[i-1], k.walks[i-1]
		i--
	}
	k.order[i], k.walks[i] = rank, walk
}

// pickRoles takes people in order, passing over anyone who would leave the
// roles of the task unfillable.
func (w *Worker) pickRoles(t *task, size int32) []int32 {
	k := &w.picker
	w.startRoles(t)
	filled := 0
	for _, rank := range k.order {
		if filled < len(k.slots) && w.place(rank) {
			filled++
		}
	}
	if filled < len(k.slots) {
		return nil
	}
	w.startRoles(t)
	k.crew = k.crew[:0]
	spare := size - int32(len(k.slots))
	for _, rank := range k.order {
		if int32(len(k.crew)) == size {
			break
		}
		if !w.place(rank) {
			if spare == 0 {
				continue
			}
			spare--
		}
		k.crew = append(k.crew, rank)
	}
	return k.crew
}

func (w *Worker) startRoles(t *task) {
	k := &w.picker
	k.slots, k.taken, k.tried = k.slots[:0], k.taken[:0], k.tried[:0]
	for _, r := range t.Roles {
		for range r.Count {
			k.slots, k.taken, k.tried = append(k.slots, r.Skill), append(k.taken, -1), append(k.tried, false)
		}
	}
}

// place gives a person a role, moving others if need be.
func (w *Worker) place(rank int32) bool {
	clear(w.picker.tried)
	return w.augment(rank)
}

func (w *Worker) augment(rank int32) bool {
	k := &w.picker
	for i, skill := range k.slots {
		if k.tried[i] || !w.p.people[rank].skills.Has(skill) {
			continue
		}
		k.tried[i] = true
		if k.taken[i] < 0 || w.augment(k.taken[i]) {
			k.taken[i] = rank
			return true
		}
	}
	return false
}
