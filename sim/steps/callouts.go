package steps

import (
	"cmp"
	"slices"

	"warmby/sim"
)

// MostCallOuts is how many ends of tasks are called out in a drill at most: as
// many as one person with a stop-watch writes down.
const MostCallOuts = 12

// CallOuts returns the tasks whose ends are called out, by when they end: when
// layers are on, what milestones wait for, the last of each first, then what
// lasts longest. Of what each does for himself only the last end is called out,
// and only where layers go on or a milestone waits for it.
func CallOuts(tl *sim.Timeline) []int {
	var list []int
	add := func(task int) {
		if task >= 0 && len(list) < MostCallOuts && !slices.Contains(list, task) {
			list = append(list, task)
		}
	}
	add(lastLayers(tl))
	later := waitedFor(tl)
	for _, task := range later {
		add(task)
	}
	for _, task := range longest(tl) {
		add(task)
	}
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(tl.Tasks[a].End, tl.Tasks[b].End) })
	return list
}

// lastLayers returns the task with whose end everybody has layers on; -1 for none.
func lastLayers(tl *sim.Timeline) int {
	last := -1
	for i := range tl.Drill.Tasks {
		if tl.Drill.Tasks[i].LayersOn && ended(tl, i) && (last < 0 || tl.Tasks[i].End > tl.Tasks[last].End) {
			last = i
		}
	}
	return last
}

// waitedFor returns the tasks of milestones: the last of each milestone, then all
// others that no person does for himself.
func waitedFor(tl *sim.Timeline) []int {
	var lasts, others []int
	for _, m := range tl.Drill.Milestones[:max(0, len(tl.Drill.Milestones)-1)] {
		last := -1
		for _, i := range m.When {
			if ended(tl, i) && (last < 0 || tl.Tasks[i].End > tl.Tasks[last].End) {
				last = i
			}
			if ended(tl, i) && tl.Drill.Tasks[i].Each == "" {
				others = append(others, i)
			}
		}
		if last >= 0 {
			lasts = append(lasts, last)
		}
	}
	return append(lasts, others...)
}

// longest returns the tasks of work by how long they usually take, the longest
// first; unloading and what each does for himself left out.
func longest(tl *sim.Timeline) []int {
	var list []int
	for i := range tl.Drill.Tasks {
		t := &tl.Drill.Tasks[i]
		if !t.Unloads() && t.Each == "" && t.Amount != nil && t.Amount.Usual() > 0 && ended(tl, i) {
			list = append(list, i)
		}
	}
	slices.SortStableFunc(list, func(a, b int) int {
		return cmp.Compare(tl.Drill.Tasks[b].Amount.Usual(), tl.Drill.Tasks[a].Amount.Usual())
	})
	return list
}

func ended(tl *sim.Timeline, task int) bool { return tl.Tasks[task].End != sim.Never }
