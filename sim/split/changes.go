package split

import (
	"slices"

	"warmby/sim"
)

// OneMoreTool returns a drill with one more tool of a kind. It comes with the
// first item that brings such tools; where none does, it is there from the start.
func OneMoreTool(d *sim.Drill, tool int) *sim.Drill {
	out := *d
	if brings(&out, func(b sim.Bring) bool { return b.Tool == tool }) {
		return &out
	}
	out.Tools = slices.Clone(d.Tools)
	out.Tools[tool].Count++
	return &out
}

// OneMoreStove returns a drill with one more stove of a kind, which works and
// comes as the others of its kind do.
func OneMoreStove(d *sim.Drill, stove int) *sim.Drill {
	out := *d
	brings(&out, func(b sim.Bring) bool { return b.Stove == stove })
	out.Stoves = slices.Clone(d.Stoves)
	out.Stoves[stove].Count++
	return &out
}

// brings adds one to the first thing brought that is of a kind, and reports
// whether there is one.
func brings(d *sim.Drill, of func(sim.Bring) bool) bool {
	for i, item := range d.Items {
		if k := slices.IndexFunc(item.Brings, of); k >= 0 {
			d.Items = slices.Clone(d.Items)
			d.Items[i].Brings = slices.Clone(item.Brings)
			d.Items[i].Brings[k].Count++
			return true
		}
	}
	return false
}

// Learns returns a drill in which a person has one more skill.
func Learns(d *sim.Drill, person, skill int) *sim.Drill {
	out := *d
	out.People = slices.Clone(d.People)
	out.People[person].Skills = d.People[person].Skills.With(skill)
	return &out
}

// OnTop returns a drill in which an item lies on top of its load, the rest of
// the load under it as it was. Tasks change their indices with the items.
// In a sequence its unloading moves to just before the first unloading of its
// load; all others keep their places.
func OnTop(d *sim.Drill, item int) *sim.Drill {
	first := item
	for first > 0 && d.Items[first-1].Load == d.Items[item].Load {
		first--
	}
	now := make([]int, len(d.Tasks)) // the index that each task has afterwards
	for i := range now {
		now[i] = i
		switch {
		case i == item:
			now[i] = first
		case i >= first && i < item:
			now[i] = i + 1
		}
	}
	moved := func(list []int) []int {
		var out []int
		for _, i := range list {
			out = append(out, now[i])
		}
		return out
	}
	out := *d
	out.Items = slices.Clone(d.Items)
	out.Tasks = slices.Clone(d.Tasks)
	for i := range d.Items {
		out.Items[now[i]] = d.Items[i]
	}
	for i, t := range d.Tasks {
		t.After = slices.Clone(t.After)
		for k := range t.After {
			t.After[k].Task = now[t.After[k].Task]
		}
		t.Needs = moved(t.Needs) // items and their unloadings have the same index
		if t.Unloads() {
			t.Item = now[t.Item]
		}
		out.Tasks[now[i]] = t
	}
	out.Milestones = slices.Clone(d.Milestones)
	for i := range out.Milestones {
		out.Milestones[i].When = moved(out.Milestones[i].When)
	}
	out.Groups = slices.Clone(d.Groups)
	for i := range out.Groups {
		seq := moved(d.Groups[i].Sequence)
		at := slices.Index(seq, first) // what is on top has the first index of its load
		before := slices.IndexFunc(seq, func(t int) bool {
			return t < len(d.Items) && out.Items[t].Load == d.Items[item].Load
		})
		if at >= 0 {
			seq = slices.Insert(slices.Delete(seq, at, at+1), before, first)
		}
		out.Groups[i].Sequence = seq
	}
	return &out
}
