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

// pick returns so many of the people who are able, as bits; there are more. See
// [sim.Picker] for the rule.
func (w *Worker) pick(able uint64, size, spot int32) (crew uint64) {
	for _, class := range w.p.classes {
		c := able & class
		k := int32(bits.OnesCount64(c))
		if k >= size {
			return crew | w.nearest(c, k, size, spot)
		}
		crew |= c
		size -= k
	}
	return crew
}

// pickRoled returns the crew that a task with roles to fill calls, and its size: 0
// when they cannot be filled.
func (w *Worker) pickRoled(t *task, di, most int32) (crew uint64, size int32) {
	for _, who := range w.pickList(t, di, most) {
		crew |= 1 << who
		size++
	}
	return crew, size
}

// nearest returns some of k people, those with the shortest walk to a spot, by
// roster among equals.
func (w *Worker) nearest(m uint64, k, some, spot int32) uint64 {
	if k == some {
		return m
	}
	if w.p.still {
		rest := m
		for range some {
			rest &= rest - 1
		}
		return m &^ rest
	}
	var crew uint64
	for range some {
		best := w.nearestOf(m, spot)
		crew |= 1 << best
		m &^= 1 << best
	}
	return crew
}

// pickList is pickRoled with the crew as a list, which is valid until the next
// call.
func (w *Worker) pickList(t *task, di, most int32) []int32 {
	w.candidates(t, di, true)
	return w.pickRoles(t, min(t.high, most, int32(len(w.picker.order))))
}

// candidates puts the free people of a group who have the skills asked of
// everyone in the order in which they are taken: fewest skills, shortest
// walk, roster. Those at lookouts are among them who count as free where a crew is
// called.
func (w *Worker) candidates(t *task, di int32, called bool) {
	k := &w.picker
	k.order, k.walks = k.order[:0], k.walks[:0]
	if w.p.wide {
		able, _ := w.ableIn(t, di, called)
		for k, m := range able {
			for ; m != 0; m &= m - 1 {
				w.candidate(t, int32(k)<<6|lowest(m))
			}
		}
		return
	}
	for m := (w.free | w.extra) & w.pools[di].people & t.able; m != 0; m &= m - 1 {
		w.candidate(t, lowest(m))
	}
}

// candidate puts a person into the order; they come by roster.
func (w *Worker) candidate(t *task, who int32) {
	k := &w.picker
	walk := w.p.walksTo(t.spot)[w.crew[who].spot]
	skills := w.p.people[who].skills.Count()
	i := len(k.order)
	k.order, k.walks = append(k.order, who), append(k.walks, walk)
	for ; i > 0; i-- {
		before := w.p.people[k.order[i-1]].skills.Count()
		if before < skills || before == skills && k.walks[i-1] <= walk {
			break
		}
		k.order[i], k.walks[i] = k.order[i-1], k.walks[i-1]
	}
	k.order[i], k.walks[i] = who, walk
}

// pickRoles takes people in order, passing over anyone who would leave the
// roles of the task unfillable.
func (w *Worker) pickRoles(t *task, size int32) []int32 {
	k := &w.picker
	w.startRoles(t)
	filled := 0
	for _, who := range k.order {
		if filled < len(k.slots) && w.takeRole(who) {
			filled++
		}
	}
	if filled < len(k.slots) {
		return nil
	}
	w.startRoles(t)
	k.crew = k.crew[:0]
	spare := size - int32(len(k.slots))
	for _, who := range k.order {
		if int32(len(k.crew)) == size {
			break
		}
		if !w.takeRole(who) {
			if spare == 0 {
				continue
			}
			spare--
		}
		k.crew = append(k.crew, who)
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

// takeRole gives a person a role, moving others if need be.
func (w *Worker) takeRole(who int32) bool {
	clear(w.picker.tried)
	return w.augment(who)
}

func (w *Worker) augment(who int32) bool {
	k := &w.picker
	for i, skill := range k.slots {
		if k.tried[i] || !w.p.people[who].skills.Has(skill) {
			continue
		}
		k.tried[i] = true
		if k.taken[i] < 0 || w.augment(k.taken[i]) {
			k.taken[i] = who
			return true
		}
	}
	return false
}
