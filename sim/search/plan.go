package search

import (
	"fmt"
	"slices"

	"warmby/sim"
)

// plan is an order in the making: one list of all tasks, and for each group
// which of them and which people are its own. The sequence of a group is the
// list without the tasks that are not its own.
type plan struct {
	list   []int
	has    []uint16   // by task: groups that have it; none only for unloading that is not named
	of     []int      // by person: group
	crews  []sim.Crew // by task
	groups []squad
}

// squad is what a plan says of a group, but for tasks and people.
type squad struct {
	name   string
	inTurn bool
	then   uint16 // groups
}

// mostGroups is up to how many groups are tried.
const mostGroups = 3

// newPlan returns the plan of a list in one group of everyone, unloading not
// named.
func newPlan(d *sim.Drill, list []int, inTurn bool) *plan {
	p := &plan{list: list, has: make([]uint16, len(d.Tasks)), of: make([]int, len(d.People)),
		crews: make([]sim.Crew, len(d.Tasks)), groups: []squad{{name: sim.Everyone, inTurn: inTurn}}}
	for i := range d.Tasks {
		p.crews[i] = d.Tasks[i].Crew
		if !d.Tasks[i].Unloads() {
			p.has[i] = 1
		}
	}
	return p
}

// planOf returns an order as a plan. Where groups have the same tasks in
// contrary sequences it is not quite the same order. It returns nil for more
// groups than a plan can hold.
func planOf(d *sim.Drill, o sim.Order) *plan {
	full := d.Under(o)
	if len(full.Groups) > 16 {
		return nil
	}
	p := newPlan(d, nil, false)
	p.groups = nil
	clear(p.has)
	sequences := make([][]int, len(full.Groups))
	for k, det := range full.Groups {
		sq := squad{name: det.Name, inTurn: det.InTurn}
		for _, t := range det.Then {
			sq.then |= 1 << t
		}
		p.groups = append(p.groups, sq)
		for _, person := range det.People {
			p.of[person] = k
		}
		sequences[k] = det.Sequence[det.Lead:]
		for _, i := range sequences[k] {
			p.has[i] |= 1 << k
		}
	}
	for _, c := range o.Crews {
		p.crews[c.Task] = c.Crew
	}
	p.list = merged(d, sequences)
	return p
}

// merged returns a list of all tasks in which those of each sequence stand as
// they do there, where that can be. Tasks of no sequence stand first.
func merged(d *sim.Drill, sequences [][]int) []int {
	named, placed := make([]bool, len(d.Tasks)), make([]bool, len(d.Tasks))
	for _, seq := range sequences {
		for _, i := range seq {
			named[i] = true
		}
	}
	var list []int
	place := func(i int) {
		placed[i] = true
		list = append(list, i)
	}
	for i := range d.Tasks {
		if !named[i] {
			place(i)
		}
	}
	at := make([]int, len(sequences))
	head := func(k int) int {
		for at[k] < len(sequences[k]) && placed[sequences[k][at[k]]] {
			at[k]++
		}
		if at[k] == len(sequences[k]) {
			return -1
		}
		return sequences[k][at[k]]
	}
	free := func(i int) bool { // nothing that it comes after, and no other sequence, puts something before it
		for _, a := range d.Tasks[i].After {
			if !placed[a.Task] {
				return false
			}
		}
		for k := range sequences {
			if h := head(k); h >= 0 && h != i && slices.Contains(sequences[k][at[k]:], i) {
				return false
			}
		}
		return true
	}
	for len(list) < len(d.Tasks) {
		next := -1
		for k := range sequences {
			h := head(k)
			if h >= 0 && (next < 0 || free(h) && !free(next)) {
				next = h
			}
		}
		place(next)
	}
	return list
}

func (p *plan) clone() *plan {
	return &plan{slices.Clone(p.list), slices.Clone(p.has), slices.Clone(p.of), slices.Clone(p.crews), slices.Clone(p.groups)}
}

// equal reports whether two plans are the same.
func (p *plan) equal(o *plan) bool {
	return slices.Equal(p.list, o.list) && slices.Equal(p.has, o.has) && slices.Equal(p.of, o.of) && slices.Equal(p.crews, o.crews) && slices.Equal(p.groups, o.groups)
}

// able returns, by task, the groups that have it: where only some people may do
// it those that have one of them, whatever the plan says.
func (p *plan) able(d *sim.Drill) []uint16 {
	has := slices.Clone(p.has)
	for i := range has {
		t := &d.Tasks[i]
		if t.Who == nil || has[i] == 0 {
			continue
		}
		theirs := uint16(0)
		for who, k := range p.of {
			if d.MayDo(t, who) {
				theirs |= 1 << k
			}
		}
		switch {
		case has[i]&theirs != 0:
			has[i] &= theirs
		case theirs != 0:
			has[i] = theirs & -theirs
		}
	}
	return has
}

// order returns the plan as an order of a drill.
func (p *plan) order(d *sim.Drill) sim.Order {
	has := p.able(d)
	o := sim.Order{Groups: make([]sim.Group, len(p.groups))}
	for k, sq := range p.groups {
		det := &o.Groups[k]
		det.Name, det.InTurn = sq.name, sq.inTurn
		for t := range p.groups {
			if sq.then>>t&1 == 1 && t != k {
				det.Then = append(det.Then, t)
			}
		}
		for _, i := range p.list {
			if has[i]>>k&1 == 1 {
				det.Sequence = append(det.Sequence, i)
			}
		}
	}
	for person, k := range p.of {
		o.Groups[k].People = append(o.Groups[k].People, person)
	}
	for i, c := range p.crews {
		if c != d.Tasks[i].Crew {
			o.Crews = append(o.Crews, sim.CrewChoice{Task: i, Crew: c})
		}
	}
	return o
}

// fresh returns a name that no group has.
func (p *plan) fresh() string {
	for n := 1; ; n++ {
		name := fmt.Sprintf("group %d", n)
		if !slices.ContainsFunc(p.groups, func(s squad) bool { return s.name == name }) {
			return name
		}
	}
}
