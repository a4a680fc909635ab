package played

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
)

const multiskill = "../../../shared/multiskill"

// The 216 instances of set 1a of MSPSP-InstLib (Young, Feydy and Schutt, CP
// 2017): tasks that need so many people with a skill, each counting for one
// skill at a time. In file order, allocation is no search; but nothing it
// gives may be better than the best known.
func TestMultiSkillProblemsAreNeverBeaten(t *testing.T) {
	f, err := os.Open(filepath.Join(multiskill, "best-known.csv"))
	if err != nil {
		t.Skipf("the multi-skill problems are not here, and not part of the source: %v", err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	played, optimal := 0, 0
	for _, row := range rows[1:] { // set, instance, proven_optimal, lb, makespan
		if row[0] != "set-1a" {
			continue
		}
		src, err := os.ReadFile(filepath.Join(multiskill, row[0], row[1]+".dzn"))
		if err != nil {
			t.Fatal(err)
		}
		best, err := strconv.Atoi(row[4])
		if err != nil {
			t.Fatal(err)
		}
		tl := usual(t, drill(t, row[1], readSkills(t, string(src)).scenario(row[1]), ""))
		got, want := tl.Finish(), sim.Time(best)*sim.Minute
		if got < want || got%sim.Minute != 0 {
			t.Errorf("%s: finish %s, better than the best known %s", row[1], sim.Clock(got), sim.Clock(want))
		}
		if got == want {
			optimal++
		}
		played++
	}
	if played != 216 {
		t.Errorf("%d instances played, want 216", played)
	}
	t.Logf("%d of %d as good as the best known", optimal, played)
}

// skilled is an instance of the multi-skill problem.
type skilled struct {
	dur        []int
	sreq       [][]int // by task and skill
	mastery    [][]int // by person and skill, 1 for yes
	pred, succ []int   // from 1
}

// array matches one assignment of a .dzn file.
var array = regexp.MustCompile(`(?s)(\w+) = \[(.*?)\];`)

func readSkills(t testing.TB, src string) (s skilled) {
	t.Helper()
	for _, m := range array.FindAllStringSubmatch(src, -1) {
		rows := matrix(m[2])
		switch m[1] {
		case "dur":
			s.dur = rows[0]
		case "sreq":
			s.sreq = rows
		case "mastery":
			s.mastery = rows
		case "pred":
			s.pred = rows[0]
		case "succ":
			s.succ = rows[0]
		}
	}
	if len(s.dur) != 22 || len(s.sreq) != 22 || len(s.mastery) < 10 || len(s.pred) == 0 || len(s.pred) != len(s.succ) {
		t.Fatalf("%d durations, %d requests, %d people, %d and %d arcs", len(s.dur), len(s.sreq), len(s.mastery), len(s.pred), len(s.succ))
	}
	return s
}

func matrix(text string) (rows [][]int) {
	for _, line := range strings.Split(text, "|") {
		var row []int
		for _, f := range strings.FieldsFunc(line, func(r rune) bool { return strings.ContainsRune(", \t\r\n", r) }) {
			switch f {
			case "true":
				row = append(row, 1)
			case "false":
				row = append(row, 0)
			default:
				n, err := strconv.Atoi(f)
				if err != nil {
					return nil
				}
				row = append(row, n)
			}
		}
		if len(row) > 0 {
			rows = append(rows, row)
		}
	}
	return rows
}

func (s skilled) scenario(name string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "warmby: 1\ntitle: %s\npeople:\n", name)
	for p, row := range s.mastery {
		fmt.Fprintf(&b, "  - {name: P%d, skills: [", p+1)
		k := 0
		for skill, has := range row {
			if has == 1 {
				fmt.Fprintf(&b, "%sS%d", comma(k), skill+1)
				k++
			}
		}
		b.WriteString("]}\n")
	}
	b.WriteString("tasks:\n")
	for i, n := range s.dur {
		crew := 0
		var skills []string
		for skill, count := range s.sreq[i] {
			if crew += count; count > 0 {
				skills = append(skills, fmt.Sprintf("S%d: %d", skill+1, count))
			}
		}
		fmt.Fprintf(&b, "  task %d: {takes: %d min, crew: %d", i+1, n, crew)
		if crew > 0 {
			fmt.Fprintf(&b, ", skills: {%s}", strings.Join(skills, ", "))
		}
		b.WriteString(", after: [")
		k := 0
		for a, to := range s.succ {
			if to == i+1 {
				fmt.Fprintf(&b, "%stask %d", comma(k), s.pred[a])
				k++
			}
		}
		b.WriteString("]}\n")
	}
	return b.String()
}
