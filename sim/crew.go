package sim

import "sort"

// RoleCount returns how many people a task's roles ask for together.
func (t *Task) RoleCount() int {
	n := 0
	for _, r := range t.Roles {
		n += r.Count
	}
	return n
}

// CrewBounds returns the smallest and largest crew that the task calls: never
// fewer than its roles, and no more than that minimum unless it is done by
// work.
func (t *Task) CrewBounds() (low, high int) {
	low = max(t.Crew.Min, t.RoleCount())
	if t.Worked() {
		return low, max(low, t.Crew.Max)
	}
	return low, low
}

// Picker picks crews. The zero value is ready; it keeps scratch space between
// calls and is not safe for concurrent use.
type Picker struct {
	order  []int
	crew   []int
	slots  []int // skill of each role slot
	taken  []int // person in each slot, -1 for none
	tried  []bool
	skills []Person
}

// Pick returns the crew that a task calls, in roster order, or nil when the
// people free cannot fill it. Free lists people; at gives the spot where each
// person of the drill is; most bounds the size (tools for each may do so).
//
// Size first: the largest crew that can be filled, roles included. Then
// people by number of skills, by walk and by roster, passing over anyone who
// would leave the roles unfillable. The result is valid until the next call.
func (p *Picker) Pick(d *Drill, t *Task, free []int, at []int, most int) []int {
	low, high := t.CrewBounds()
	p.candidates(d, t, free, at)
	size := min(high, most, len(p.order))
	if size < low || size == 0 {
		return nil
	}
	p.crew = p.crew[:0]
	if len(t.Roles) == 0 {
		p.crew = append(p.crew, p.order[:size]...)
		sort.Ints(p.crew)
		return p.crew
	}
	p.start(d, t)
	filled := 0
	for _, person := range p.order {
		if p.place(person) {
			filled++
		}
	}
	if filled < len(p.slots) {
		return nil
	}
	p.start(d, t)
	spare := size - len(p.slots) // how many may be there without a role
	for _, person := range p.order {
		if len(p.crew) == size {
			break
		}
		if !p.place(person) {
			if spare == 0 {
				continue
			}
			spare--
		}
		p.crew = append(p.crew, person)
	}
	sort.Ints(p.crew)
	return p.crew
}

// Rank puts the free people who may do the task and have the skills asked of everyone in the
// order in which crews and joiners are taken: fewest skills, shortest walk to
// the task, roster. The result is valid until the next call.
func (p *Picker) Rank(d *Drill, t *Task, free []int, at []int) []int {
	p.candidates(d, t, free, at)
	return p.order
}

func (p *Picker) candidates(d *Drill, t *Task, free []int, at []int) {
	p.order = p.order[:0]
	for _, person := range free {
		if d.People[person].Skills.Holds(t.All) && d.MayDo(t, person) {
			p.order = append(p.order, person)
		}
	}
	sort.Slice(p.order, func(i, j int) bool {
		a, b := p.order[i], p.order[j]
		if sa, sb := d.People[a].Skills.Count(), d.People[b].Skills.Count(); sa != sb {
			return sa < sb
		}
		if wa, wb := d.WalkTime(at[a], t.Spot), d.WalkTime(at[b], t.Spot); wa != wb {
			return wa < wb
		}
		return a < b
	})
}

func (p *Picker) start(d *Drill, t *Task) {
	p.skills = d.People
	p.slots, p.taken, p.tried = p.slots[:0], p.taken[:0], p.tried[:0]
	for _, r := range t.Roles {
		for range r.Count {
			p.slots = append(p.slots, r.Skill)
			p.taken = append(p.taken, -1)
			p.tried = append(p.tried, false)
		}
	}
}

// place gives a person a role, moving others if need be, and reports whether
// it could: one augmenting path of a bipartite matching.
func (p *Picker) place(person int) bool {
	for i := range p.tried {
		p.tried[i] = false
	}
	return p.augment(person)
}

func (p *Picker) augment(person int) bool {
	for i, skill := range p.slots {
		if p.tried[i] || !p.skills[person].Skills.Has(skill) {
			continue
		}
		p.tried[i] = true
		if p.taken[i] < 0 || p.augment(p.taken[i]) {
			p.taken[i] = person
			return true
		}
	}
	return false
}

// FillsRoles reports whether some people can fill all roles of a task, each
// person at most one.
func (p *Picker) FillsRoles(d *Drill, t *Task, people []int) bool {
	p.start(d, t)
	filled := 0
	for _, person := range people {
		if p.place(person) {
			filled++
		}
	}
	return filled == len(p.slots)
}
