package split

import (
	"fmt"
	"slices"

	"warmby/sim"
)

// Team returns a drill with n people, 1 or more: the first of the roster; when
// there are too few, copies of the last one, without skills and in the first
// group. Those left out stand at no lookout either, and a lookout of whom
// nobody is left is not stood. The drill itself is not changed.
func Team(d *sim.Drill, n int) *sim.Drill {
	if n < 1 {
		panic(fmt.Sprintf("split: team of %d people", n))
	}
	out := *d
	out.People = slices.Clone(d.People[:min(n, len(d.People))])
	out.Groups = slices.Clone(d.Groups)
	for i := range out.Groups {
		out.Groups[i].People = below(d.Groups[i].People, n)
	}
	out.Lookouts = nil
	for _, l := range d.Lookouts {
		if l.Who = below(l.Who, n); len(l.Who) > 0 {
			out.Lookouts = append(out.Lookouts, l)
		}
	}
	for len(out.People) < n {
		p := d.People[len(d.People)-1]
		p.Name, p.Skills = fmt.Sprintf("Person %d", len(out.People)+1), 0
		out = *withPerson(&out, p, 0)
	}
	return &out
}

// below returns those of a rising list that are under n.
func below(list []int, n int) []int {
	var out []int
	for _, i := range list {
		if i < n {
			out = append(out, i)
		}
	}
	return out
}

// withPerson returns a drill with one more person in a group, last in the
// roster. Lookouts at which everybody stands are stood by the new one as well.
func withPerson(d *sim.Drill, p sim.Person, group int) *sim.Drill {
	out := *d
	who := len(d.People)
	out.People = append(slices.Clip(d.People), p)
	out.Groups = slices.Clone(d.Groups)
	out.Groups[group].People = append(slices.Clip(d.Groups[group].People), who)
	out.Lookouts = slices.Clone(d.Lookouts)
	for i, l := range d.Lookouts {
		if len(l.Who) == len(d.People) {
			out.Lookouts[i].Who = append(slices.Clip(l.Who), who)
		}
	}
	return &out
}
