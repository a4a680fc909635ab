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
//
// What each person does for himself goes with the person, and comes with a new one;
// a task that only some may do is left to those of them who stay.
func Team(d *sim.Drill, n int) *sim.Drill {
	if n < 1 {
		panic(fmt.Sprintf("split: team of %d people", n))
	}
	d = withoutPartsFrom(d, n)
	out := *d
	out.Tasks = slices.Clone(d.Tasks)
	for i := range out.Tasks {
		if t := &out.Tasks[i]; t.Who != nil {
			t.Who = append([]int{}, below(t.Who, n)...)
		}
	}
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
		p.Name, p.Skills, p.Hurt, p.Helps, p.Casualty = fmt.Sprintf("Person %d", len(out.People)+1), 0, nil, false, false
		out = *withPerson(&out, p, 0)
	}
	recount(&out)
	return &out
}

// withoutPartsFrom leaves out what the people from the n-th on do for themselves.
func withoutPartsFrom(d *sim.Drill, n int) *sim.Drill {
	var gone []int
	for i := range d.Tasks {
		if d.Tasks[i].Each != "" && d.Tasks[i].Who[0] >= n {
			gone = append(gone, i)
		}
	}
	return d.WithoutAll(gone)
}

// recount counts the crews of everybody anew.
func recount(d *sim.Drill) {
	for i := range d.Tasks {
		t := &d.Tasks[i]
		if !t.Everybody {
			continue
		}
		least := len(d.People)
		for _, g := range d.Groups {
			if slices.Contains(g.Sequence, i) {
				least = min(least, d.Everybody(t, g.People))
			}
		}
		t.Crew = sim.Crew{Min: max(1, least), Max: max(1, least)}
	}
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
	addParts(&out, who, group)
	recount(&out)
	return &out
}

// addParts adds what each person does for himself for one more person, in the
// sequence of a group after the parts of the others, and to all that waits for
// them.
func addParts(d *sim.Drill, who, group int) {
	d.Tasks = slices.Clone(d.Tasks)
	done := map[string]bool{}
	for i := range len(d.Tasks) {
		each := d.Tasks[i].Each
		if each == "" || done[each] {
			continue
		}
		done[each] = true
		part := d.Tasks[i]
		part.Name, part.Who = fmt.Sprintf("%s: %s", each, d.People[who].Name), []int{who}
		addTask(d, part, d.Parts(i), group)
	}
}

// addTask adds a task that stands beside others for one of the file.
func addTask(d *sim.Drill, t sim.Task, beside []int, group int) {
	i := len(d.Tasks)
	with := func(list []int) []int {
		if slices.ContainsFunc(list, func(k int) bool { return slices.Contains(beside, k) }) {
			return append(slices.Clip(list), i)
		}
		return list
	}
	for k := range d.Tasks {
		for _, a := range d.Tasks[k].After {
			if slices.Contains(beside, a.Task) {
				a.Task = i
				d.Tasks[k].After = append(slices.Clip(d.Tasks[k].After), a)
				break
			}
		}
	}
	d.Tasks = append(d.Tasks, t)
	d.Milestones = slices.Clone(d.Milestones)
	for k := range d.Milestones {
		d.Milestones[k].When = with(d.Milestones[k].When)
	}
	d.Lookouts = slices.Clone(d.Lookouts)
	for k := range d.Lookouts {
		d.Lookouts[k].FromTasks, d.Lookouts[k].UntilTasks = with(d.Lookouts[k].FromTasks), with(d.Lookouts[k].UntilTasks)
	}
	d.Groups = slices.Clone(d.Groups)
	sequence := d.Groups[group].Sequence
	at := len(sequence) // after the last of those beside it: others may wait for them in turn
	for k, task := range sequence {
		if slices.Contains(beside, task) {
			at = k + 1
		}
	}
	d.Groups[group].Sequence = slices.Insert(slices.Clone(sequence), at, i)
}
