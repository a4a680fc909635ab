package main

import (
	"cmp"
	"slices"

	"warmby/sim"
)

// byCall returns the tasks in the sequence in which they were called, never
// called ones last.
func byCall(tl *sim.Timeline) []int {
	tasks := make([]int, len(tl.Tasks))
	for i := range tasks {
		tasks[i] = i
	}
	slices.SortStableFunc(tasks, func(a, b int) int { return cmp.Compare(tl.Tasks[a].Called, tl.Tasks[b].Called) })
	return tasks
}

// tasksText writes who did what from when to when.
func tasksText(tl *sim.Timeline) string {
	d := tl.Drill
	letter := letters(tl)
	rows := [][]string{{"", "task", "from", "to", "lasts", "clock", "who"}}
	for _, i := range byCall(tl) {
		t := tl.Tasks[i]
		if t.Called == sim.Never {
			rows = append(rows, []string{"", d.Tasks[i].Name, "never", "", "", "", ""})
			continue
		}
		var names []string
		for _, p := range t.People {
			names = append(names, d.People[p].Name)
		}
		who := ""
		if d.Tasks[i].Crew.Max > 0 {
			who = list(names)
		}
		lasts := ""
		if t.End != sim.Never {
			lasts = short(t.End - t.Start)
		}
		rows = append(rows, []string{letter[i], d.Tasks[i].Name, short(t.Start), short(t.End), lasts, clockOf(d, t.Start), who})
	}
	return table("  ", rows, 2, 3, 4)
}

// short writes a time as minutes and seconds, "72:30".
func short(t sim.Time) string {
	if t == sim.Never {
		return "never"
	}
	s := (int64(t) + 500) / 1000
	return itoa(s/60) + ":" + itoa2(s%60)
}
