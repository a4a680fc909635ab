package search

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"warmby/sim"
	"warmby/sim/internal/drills"
)

const multiskillFolder = "../../../shared/multiskill"

// skilledProjects reads the 216 instances of set 1a of MSPSP-InstLib (Young,
// Feydy and Schutt, CP 2017) as drills: tasks that need so many people with a
// skill, each counting for one skill at a time.
func skilledProjects(t testing.TB) (list []project) {
	t.Helper()
	f, err := os.Open(filepath.Join(multiskillFolder, "best-known.csv"))
	if err != nil {
		t.Skipf("the multi-skill problems are not here, and not part of the source: %v", err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] { // set, instance, proven_optimal, lb, makespan
		if row[0] != "set-1a" {
			continue
		}
		src, err := os.ReadFile(filepath.Join(multiskillFolder, row[0], row[1]+".dzn"))
		if err != nil {
			t.Fatal(err)
		}
		best, err := strconv.Atoi(row[4])
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, project{row[1], skilledDrill(t, string(src)), sim.Time(best) * sim.Minute, row[2] == "1"})
	}
	if len(list) != 216 {
		t.Fatalf("%d instances, want 216", len(list))
	}
	return list
}

// array matches one assignment of a .dzn file.
var array = regexp.MustCompile(`(?s)(\w+) = \[(.*?)\];`)

func skilledDrill(t testing.TB, src string) *sim.Drill {
	t.Helper()
	rows := map[string][][]int{}
	for _, m := range array.FindAllStringSubmatch(src, -1) {
		text := strings.NewReplacer("true", "1", "false", "0", ",", " ").Replace(m[2])
		for _, line := range strings.Split(text, "|") {
			if row, ok := whole(strings.Fields(line)); ok {
				rows[m[1]] = append(rows[m[1]], row)
			}
		}
	}
	d := &sim.Drill{Spots: []sim.Spot{{In: -1}}}
	for p, row := range rows["mastery"] {
		person := sim.Person{Name: fmt.Sprintf("P%d", p+1), Pace: 1000}
		for skill, has := range row {
			if has == 1 {
				person.Skills = person.Skills.With(skill)
			}
		}
		d.People = append(d.People, person)
	}
	finish := sim.Milestone{Name: sim.FinishName, By: sim.Never}
	for i, n := range rows["dur"][0] {
		task := sim.Task{Name: fmt.Sprintf("task %d", i+1), Kind: sim.Takes, Amount: drills.Fixed(60000 * n), Item: -1}
		for skill, count := range rows["sreq"][i] {
			if count > 0 {
				task.Roles = append(task.Roles, sim.Role{Skill: skill, Count: count})
			}
		}
		crew := task.RoleCount()
		task.Crew = sim.Crew{Min: crew, Max: crew}
		d.Tasks = append(d.Tasks, task)
		finish.When = append(finish.When, i)
	}
	for skill := range rows["sreq"][0] {
		d.Skills = append(d.Skills, fmt.Sprintf("S%d", skill+1))
	}
	pred, succ := rows["pred"][0], rows["succ"][0]
	for k := range pred {
		to := &d.Tasks[succ[k]-1]
		to.After = append(to.After, sim.After{Task: pred[k] - 1})
	}
	if len(d.Tasks) != 22 || len(d.People) < 10 || len(pred) == 0 {
		t.Fatalf("%d tasks, %d people, %d arcs", len(d.Tasks), len(d.People), len(pred))
	}
	d.Milestones = []sim.Milestone{finish}
	return d
}
