package sim

import "fmt"

// Without returns the drill with a task left out, as if it took no time, nobody
// and nothing: what comes after it waits for what it came after, with both lags
// added up. Milestones no longer ask for it; one that asks for nothing else is
// left without tasks. What it makes of a shelter is not made. The items that it
// needs are unloaded all the same, but nothing waits for them on its account.
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
