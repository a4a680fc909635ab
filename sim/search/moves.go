package search

import (
	"math/rand/v2"
	"slices"

	"warmby/sim"
	"warmby/sim/bound"
)

// mover changes plans at random.
type mover struct {
	d      *sim.Drill
	random *rand.Rand
	linked [][]bool // linked[a][b]: b comes straight after a
	loose  []int    // tasks whose crew may be narrowed
	kinds  [][]int  // what moves as one: the parts of what each does for himself, and every other task alone
}

func newMover(d *sim.Drill, b *bound.Bounds, random *rand.Rand) *mover {
	m := &mover{d: d, random: random, linked: make([][]bool, len(d.Tasks))}
	for i := range d.Tasks {
		m.linked[i] = make([]bool, len(d.Tasks))
		if c := d.Tasks[i].Crew; c.Max > c.Min && d.Tasks[i].Worked() {
			m.loose = append(m.loose, i)
		}
		if parts := d.Parts(i); parts[0] == i {
			m.kinds = append(m.kinds, parts)
		}
	}
	for _, l := range b.Links() {
		m.linked[l.From][l.To] = true
	}
	return m
}

// change makes one small change. Much of what may be drawn changes nothing in a plan
// of one group, or in any: then it is drawn again.
func (m *mover) change(p *plan) {
	was := p.clone()
	for range mostDraws {
		if m.perhaps(p); !p.equal(was) {
			return
		}
	}
}

// mostDraws is after how many draws a plan is left as it is.
const mostDraws = 20

// perhaps draws a change: mostly one to the sequence, now and then one to something
// else.
func (m *mover) perhaps(p *plan) {
	switch n := m.random.IntN(20); {
	case n < 7:
		m.insert(p)
	case n < 11:
		m.swap(p)
	case n < 13:
		m.narrow(p)
	case n < 15:
		m.moveTask(p)
	case n < 16:
		m.movePerson(p)
	case n < 17:
		k := m.random.IntN(len(p.groups))
		p.groups[k].inTurn = !p.groups[k].inTurn
	case n < 18:
		m.regroup(p)
	case n < 19:
		m.lend(p)
	default:
		m.unload(p)
	}
}

// insert moves a task to another place: either between what it comes after and what
// comes after it, or anywhere and these with it. The parts of what each does for
// himself mostly move together.
func (m *mover) insert(p *plan) {
	kind := m.kind(p)
	switch {
	case len(kind) > 1 && m.random.IntN(4) > 0, len(kind) == 1 && m.random.IntN(2) > 0:
		p.list = m.shifted(p.list, kind, m.random.IntN(len(p.list)))
	default:
		m.insertOne(p, kind[m.random.IntN(len(kind))])
	}
}

// kind returns what moves as one, at random, mostly of what the plan names.
func (m *mover) kind(p *plan) (kind []int) {
	for range 8 {
		if kind = m.kinds[m.random.IntN(len(m.kinds))]; p.has[kind[0]] != 0 {
			break
		}
	}
	return kind
}

// insertOne moves a task to another place between what it comes after and what
// comes after it.
func (m *mover) insertOne(p *plan, i int) {
	k := slices.Index(p.list, i)
	low, high := k, k
	for low > 0 && !m.linked[p.list[low-1]][i] {
		low--
	}
	for high < len(p.list)-1 && !m.linked[i][p.list[high+1]] {
		high++
	}
	to := low + m.random.IntN(high-low+1)
	if to < k {
		copy(p.list[to+1:k+1], p.list[to:k])
	} else {
		copy(p.list[k:to], p.list[k+1:to+1])
	}
	p.list[to] = i
}

// shifted returns a list in which some tasks stand from a place on or, where the
// first of them stood before it, up to it. What they come after and would pass goes
// with them on the way to the front, and what comes after them on the way to the
// back: a chain of tasks moves as a whole.
func (m *mover) shifted(list, tasks []int, to int) []int {
	along := make([]bool, len(list))
	for _, i := range tasks {
		along[i] = true
	}
	forward := slices.Index(list, tasks[0]) >= to
	from, upTo := 0, to+1 // the stretch that is passed
	if forward {
		from, upTo = to, len(list)
		for k := upTo - 1; k >= from; k-- {
			i := list[k]
			along[i] = along[i] || slices.ContainsFunc(list[k+1:], func(j int) bool { return along[j] && m.linked[i][j] })
		}
	} else {
		for k, i := range list[:upTo] {
			along[i] = along[i] || slices.ContainsFunc(list[:k], func(j int) bool { return along[j] && m.linked[j][i] })
		}
	}
	var moved, passed []int
	for _, i := range list[from:upTo] {
		if along[i] {
			moved = append(moved, i)
		} else {
			passed = append(passed, i)
		}
	}
	if !forward {
		moved, passed = passed, moved
	}
	return slices.Concat(list[:from], moved, passed, list[upTo:])
}

// swap changes two neighbours over, unless one comes after the other.
func (m *mover) swap(p *plan) {
	if len(p.list) < 2 {
		return
	}
	k := m.random.IntN(len(p.list) - 1)
	if !m.linked[p.list[k]][p.list[k+1]] {
		p.list[k], p.list[k+1] = p.list[k+1], p.list[k]
	}
}

// narrow gives a task another crew within its own.
func (m *mover) narrow(p *plan) {
	if len(m.loose) == 0 {
		return
	}
	i := m.loose[m.random.IntN(len(m.loose))]
	own := m.d.Tasks[i].Crew
	low := own.Min + m.random.IntN(own.Max-own.Min+1)
	high := low + m.random.IntN(own.Max-low+1)
	switch {
	case m.random.IntN(3) == 0:
		low, high = own.Min, own.Max
	case high < max(1, m.d.Tasks[i].RoleCount()):
		return
	}
	p.crews[i] = sim.Crew{Min: low, Max: high}
}

// moveTask gives a task to other groups.
func (m *mover) moveTask(p *plan) {
	if len(p.groups) < 2 {
		return
	}
	kind := m.kind(p)
	i := kind[0]
	if p.has[i] == 0 || len(kind) > 1 {
		return // unloading is everybody's, and what each does for himself goes with him
	}
	k := m.random.IntN(len(p.groups))
	if m.random.IntN(3) > 0 {
		p.has[i] = 1 << k
	} else if had := p.has[i] ^ 1<<k; had != 0 {
		p.has[i] = had
	}
}

// movePerson moves a person to another group.
func (m *mover) movePerson(p *plan) {
	if len(p.groups) < 2 {
		return
	}
	who := m.random.IntN(len(p.of))
	left := 0
	for _, k := range p.of {
		if k == p.of[who] {
			left++
		}
	}
	if left > 1 {
		p.of[who] = m.random.IntN(len(p.groups))
	}
}

// lend changes to whom a group lends its people.
func (m *mover) lend(p *plan) {
	if len(p.groups) < 2 {
		return
	}
	k := m.random.IntN(len(p.groups))
	p.groups[k].then = p.others(k, m.random.IntN(len(p.groups)+1), len(p.groups))
}

// others returns one other group of a group, or all when which is the number
// of all; none for itself.
func (p *plan) others(k, which, all int) uint16 {
	switch {
	case which == k:
		return 0
	case which == all:
		return (1<<all - 1) &^ (1 << k)
	}
	return 1 << which
}

// regroup splits some people and tasks off into a group of their own, or
// puts a group's into the first again.
func (m *mover) regroup(p *plan) {
	n := len(p.groups)
	if n > 1 && (n >= mostGroups || m.random.IntN(2) == 0) {
		m.dissolve(p, n-1)
		return
	}
	var from []int
	for who, k := range p.of {
		if k == 0 {
			from = append(from, who)
		}
	}
	if n >= mostGroups || len(from) < 2 {
		return
	}
	m.random.Shuffle(len(from), func(a, b int) { from[a], from[b] = from[b], from[a] })
	for _, who := range from[:1+m.random.IntN(len(from)-1)] {
		p.of[who] = n
	}
	p.groups = append(p.groups, squad{name: p.fresh(), inTurn: m.random.IntN(2) == 0})
	if p.groups[0].name == sim.Everyone {
		p.groups[0].name = p.fresh()
	}
	for k := range p.groups {
		p.groups[k].then = p.others(k, n+1, n+1)
	}
	// A chain of tasks goes along, and some stay with both.
	share := 1 + m.random.IntN(3)
	for _, i := range p.list {
		if p.has[i] == 0 {
			continue
		}
		switch m.random.IntN(4) {
		case 0:
			p.has[i] = 1 << n
		case 1:
			if share > 1 {
				p.has[i] |= 1 << n
			}
		}
	}
}

// dissolve puts the last group into the first.
func (m *mover) dissolve(p *plan, last int) {
	for who, k := range p.of {
		if k == last {
			p.of[who] = 0
		}
	}
	for i, has := range p.has {
		if has>>last&1 == 1 {
			p.has[i] = has&^(1<<last) | 1
		}
	}
	p.groups = p.groups[:last]
	for k := range p.groups {
		p.groups[k].then &^= 1 << last
	}
	if last == 1 {
		p.groups[0].name, p.groups[0].then = sim.Everyone, 0
	}
}

// unload names an unloading in the sequence of every group, or no longer.
func (m *mover) unload(p *plan) {
	if len(m.d.Items) == 0 {
		return
	}
	i := m.random.IntN(len(m.d.Items))
	if p.has[i] != 0 {
		p.has[i] = 0
		return
	}
	p.has[i] = 1<<len(p.groups) - 1
}

// cross returns a child: the mother's, with a stretch of the list in the
// father's sequence and crews from either.
func (m *mover) cross(mother, father *plan) *plan {
	p := mother.clone()
	n := len(p.list)
	from, to := m.random.IntN(n+1), m.random.IntN(n+1)
	if from > to {
		from, to = to, from
	}
	taken := make([]bool, n)
	for _, i := range mother.list[:from] {
		taken[i] = true
	}
	k := from
	for _, i := range father.list {
		if k < to && !taken[i] {
			p.list[k], taken[i] = i, true
			k++
		}
	}
	for _, i := range mother.list {
		if !taken[i] {
			p.list[k] = i
			k++
		}
	}
	for _, i := range m.loose {
		if m.random.IntN(2) == 0 {
			p.crews[i] = father.crews[i]
		}
	}
	return p
}
