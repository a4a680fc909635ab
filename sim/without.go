package sim

import (
	"fmt"
	"slices"
)

// WithoutAll returns the drill with several tasks left out, as
// [Drill.Without] leaves out one: the parts of a task that each person does for
// himself, see [Drill.Parts].
func (d *Drill) WithoutAll(tasks []int) *Drill {
	tasks = slices.Sorted(slices.Values(tasks))
	for _, i := range slices.Backward(tasks) {
		d = d.Without(i)
	}
	return d
}

// Parts returns the tasks that stand for one task of the file: a task itself or,
// where each person does it for himself, all of them.
func (d *Drill) Parts(task int) []int {
	each := d.Tasks[task].Each
	if each == "" {
		return []int{task}
	}
	var parts []int
	for i := range d.Tasks {
		if d.Tasks[i].Each == each {
			parts = append(parts, i)
		}
	}
	return parts
}

// Without returns the drill with a task left out, as if it took no time, nobody
// and nothing: what comes after it waits for what it came after, with both lags
// added up. Milestones no longer ask for it; one that asks for nothing else is
// left without tasks. What it makes of a shelter is not made. The items that it
// needs are unloaded all the same, but nothing waits for them on its account. A
// lookout from it begins with what it came after; one until it stands to the end
// when it was until nothing else.
//
// The receiver is not changed. Tasks that stand behind it move up by one index.
// Unloading cannot be left out: item i and task i belong together.
func (d *Drill) Without(task int) *Drill {
	if task < len(d.Items) || task >= len(d.Tasks) {
		panic(fmt.Sprintf("sim: drill without task %d of %d, of which %d unload", task, len(d.Tasks), len(d.Items)))
	}
	out := *d
	out.Tasks = nil
	for i, t := range d.Tasks {
		if i == task {
			continue
		}
		t.After = d.afterWithout(&d.Tasks[i], task)
		out.Tasks = append(out.Tasks, t)
	}
	out.Milestones = append([]Milestone(nil), d.Milestones...)
	for i := range out.Milestones {
		out.Milestones[i].When = indicesWithout(d.Milestones[i].When, task)
	}
	out.Lookouts = append([]Lookout(nil), d.Lookouts...)
	for i := range out.Lookouts {
		l := &out.Lookouts[i]
		l.FromTasks = indicesWithout(d.fromWithout(l.FromTasks, task), task)
		l.UntilTasks = indicesWithout(l.UntilTasks, task)
	}
	out.Groups = append([]Group(nil), d.Groups...)
	for i := range out.Groups {
		out.Groups[i].Sequence = indicesWithout(d.Groups[i].Sequence, task)
	}
	return &out
}

// afterWithout returns what t comes after, in the new indices, when task is
// left out.
func (d *Drill) afterWithout(t *Task, task int) []After {
	var after []After
	add := func(a After) {
		if a.Task > task {
			a.Task--
		}
		for _, b := range after {
			if a == b {
				return
			}
		}
		after = append(after, a)
	}
	for _, a := range t.After {
		if a.Task != task {
			add(a)
			continue
		}
		for _, b := range d.Tasks[task].After {
			if b.Task != task { // a circle of one is refused elsewhere
				add(After{Task: b.Task, FromStart: b.FromStart, Lag: b.Lag + a.Lag})
			}
		}
	}
	return after
}

// fromWithout returns the tasks with which a lookout begins when one is left out.
func (d *Drill) fromWithout(from []int, task int) []int {
	if !slices.Contains(from, task) {
		return from
	}
	out := slices.Clone(from)
	for _, a := range d.Tasks[task].After {
		if !slices.Contains(out, a.Task) {
			out = append(out, a.Task)
		}
	}
	return out
}

// indicesWithout returns task indices as they are when task is left out.
func indicesWithout(tasks []int, task int) []int {
	var out []int
	for _, i := range tasks {
		switch {
		case i < task:
			out = append(out, i)
		case i > task:
			out = append(out, i-1)
		}
	}
	return out
}
