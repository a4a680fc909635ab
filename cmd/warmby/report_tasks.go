package main

import (
	"cmp"
	"slices"
	"strings"

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
func tasksText(tl *sim.Timeline, width int) string {
	d := tl.Drill
	letter := letters(tl)
	rows := [][]string{{"", "task", "from", "to", "lasts", "clock", "who"}}
	for _, i := range byCall(tl) {
		t := tl.Tasks[i]
		if t.Called == sim.Never {
			rows = append(rows, []string{"", d.Tasks[i].Name, "never", "", "", "", ""})
			continue
		}
		who := ""
		if d.Tasks[i].Crew.Max > 0 {
			who = whoWasThere(tl, i)
		}
		lasts := ""
		if t.End != sim.Never {
			lasts = short(t.End - t.Start)
		}
		rows = append(rows, []string{letter[i], d.Tasks[i].Name, short(t.Start), short(t.End), lasts, clockOf(d, t.Start), who})
	}
	return table("  ", wrapLast(rows, width-2), 2, 3, 4)
}

// whoWasThere names those who were on a task: who joined it, from when; who was
// pulled away, until when.
func whoWasThere(tl *sim.Timeline, task int) string {
	t := tl.Tasks[task]
	var names []string
	for _, p := range t.People {
		name := tl.Drill.People[p].Name
		from, to := sim.Never, sim.Time(0)
		for _, s := range tl.People[p] {
			if s.What == sim.Working && s.Task == task {
				from, to = min(from, s.From), max(to, s.To)
			}
		}
		if from > t.Start && from != sim.Never {
			name += " from " + short(from)
		}
		if to < t.End && t.End != sim.Never && from != sim.Never {
			name += " to " + short(to)
		}
		names = append(names, name)
	}
	return list(names)
}

// wrapLast breaks the last column of a table where it would make a line longer
// than width, but leaves it some room.
func wrapLast(rows [][]string, width int) [][]string {
	last := len(rows[0]) - 1
	for i := range last {
		width -= columnWidth(rows, i) + 2
	}
	var out [][]string
	for _, r := range rows {
		for k, line := range strings.Split(strings.TrimSuffix(wrap(r[last], max(width, 24), "", ""), "\n"), "\n") {
			row := make([]string, len(r))
			if k == 0 {
				copy(row, r)
			}
			row[last] = line
			out = append(out, row)
		}
	}
	return out
}

// short writes a time as minutes and seconds, "72:30".
func short(t sim.Time) string {
	if t == sim.Never {
		return "never"
	}
	s := (int64(t) + 500) / 1000
	return itoa(s/60) + ":" + itoa2(s%60)
}
