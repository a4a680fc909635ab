package search

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"warmby/sim"
	"warmby/sim/internal/drills"
)

const psplibFolder = "../../../shared/psplib"

// project is a problem with its known optimum, in minutes.
type project struct {
	name   string
	d      *sim.Drill
	best   sim.Time
	proved bool
}

// projects reads the 480 instances of PSPLIB j30 (Kolisch and Sprecher 1997,
// EJOR 96:205-216) as drills: resources are tools, jobs tasks that need
// nobody, a period is a minute. The optima are those of j30opt.sm.
func projects(t testing.TB) (list []project) {
	t.Helper()
	src, err := os.ReadFile(filepath.Join(psplibFolder, "j30opt.sm"))
	if err != nil {
		t.Skipf("PSPLIB is not here, and not part of the source: %v", err)
	}
	for _, line := range strings.Split(string(src), "\n") {
		f := strings.Fields(line)
		if len(f) < 3 {
			continue
		}
		row, ok := whole(f[:3])
		if !ok {
			continue
		}
		name := fmt.Sprintf("j30%d_%d", row[0], row[1])
		src, err := os.ReadFile(filepath.Join(psplibFolder, "j30", name+".sm"))
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, project{name, projectDrill(t, string(src)), sim.Time(row[2]) * sim.Minute, true})
	}
	if len(list) != 480 {
		t.Fatalf("%d instances, want 480", len(list))
	}
	return list
}

func whole(fields []string) (row []int, ok bool) {
	for _, f := range fields {
		n, err := strconv.Atoi(f)
		if err != nil {
			return nil, false
		}
		row = append(row, n)
	}
	return row, len(row) > 0
}

func projectDrill(t testing.TB, src string) *sim.Drill {
	t.Helper()
	_, body, ok1 := strings.Cut(src, "PRECEDENCE RELATIONS:")
	arcs, body, ok2 := strings.Cut(body, "REQUESTS/DURATIONS:")
	jobs, there, ok3 := strings.Cut(body, "RESOURCEAVAILABILITIES:")
	if !ok1 || !ok2 || !ok3 {
		t.Fatal("not a PSPLIB file")
	}
	rows := func(text string) (list [][]int) {
		for _, line := range strings.Split(text, "\n") {
			if row, ok := whole(strings.Fields(line)); ok {
				list = append(list, row)
			}
		}
		return list
	}
	d := &sim.Drill{Spots: []sim.Spot{{In: -1}}, People: []sim.Person{{Name: "Ann", Pace: 1000}}}
	for k, n := range rows(there)[0] {
		d.Tools = append(d.Tools, sim.Tool{Name: fmt.Sprintf("R%d", k+1), Count: n})
	}
	finish := sim.Milestone{Name: sim.FinishName, By: sim.Never}
	for i, f := range rows(jobs) { // job, mode, duration, requests
		task := sim.Task{Name: fmt.Sprintf("job %d", i+1), Kind: sim.Takes, Amount: drills.Fixed(60000 * f[2]), Item: -1}
		for k, n := range f[3:] {
			if n > 0 {
				task.Tools = append(task.Tools, sim.ToolNeed{Tool: k, Count: n})
			}
		}
		d.Tasks = append(d.Tasks, task)
		finish.When = append(finish.When, i)
	}
	for i, f := range rows(arcs) { // job, modes, how many successors, successors
		for _, s := range f[3:] {
			d.Tasks[s-1].After = append(d.Tasks[s-1].After, sim.After{Task: i})
		}
	}
	if len(d.Tasks) != 32 || len(d.Tools) != 4 {
		t.Fatalf("%d jobs and %d resources, want 32 and 4", len(d.Tasks), len(d.Tools))
	}
	d.Milestones = []sim.Milestone{finish}
	return d
}
