package fast_test

import (
	"bufio"
	"encoding/csv"
	"encoding/json"
	"os"
	"strconv"
	"strings"
	"testing"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/reference"
)

// r1Folder holds model R1, a yardstick for speed with the results of an
// independent model in a general-purpose simulation library (SimPy 3.0.11).
const r1Folder = "../../../shared/bench/"

type r1Model struct {
	Workers    int
	Stove      []int
	Lead       []int
	Tools      []int
	RotateMin  int `json:"rotate_min"`
	MilestoneA int `json:"milestone_a"`
	MilestoneB int `json:"milestone_b"`
	Priority   []int
	Tasks      []struct {
		Min, Mode, Max float64
		Cmin, Cmax     int
		Skill          string
		Tools          []int
		Preds          []struct{ Task, Lag int }
	}
}

func readR1(t testing.TB) (m r1Model) {
	t.Helper()
	data, err := os.ReadFile(r1Folder + "r1.json")
	if err != nil {
		t.Skip("model R1 is not there: ", err)
	}
	if err := json.Unmarshal(data, &m); err != nil {
		t.Fatal(err)
	}
	return m
}

// r1 returns model R1 as a drill: teamwork 0.85, nobody joins, the skill asked
// of all, reliefs that nobody is free for given up.
func r1(t testing.TB) *sim.Drill {
	t.Helper()
	m := readR1(t)
	d := &sim.Drill{Title: "R1", Spots: []sim.Spot{{In: -1}}, Skills: []string{"stove", "lead"}}
	skill := map[string]sim.SkillSet{"none": 0, "stove": 1, "lead": 2}
	for i := range m.Workers {
		d.People = append(d.People, sim.Person{Name: "worker " + strconv.Itoa(i), Pace: 1000})
	}
	for _, i := range m.Stove {
		d.People[i].Skills = skill["stove"]
	}
	for _, i := range m.Lead {
		d.People[i].Skills = skill["lead"]
	}
	for i, name := range []string{"shovel", "saw", "hammer"} {
		d.Tools = append(d.Tools, sim.Tool{Name: name, Count: m.Tools[i]})
	}
	finish := sim.Milestone{Name: sim.FinishName, By: sim.Never}
	for i, r := range m.Tasks {
		law, err := draw.Triangular(60e3*r.Min, 60e3*r.Mode, 60e3*r.Max)
		if err != nil {
			t.Fatal(err)
		}
		task := sim.Task{Name: "task " + strconv.Itoa(i), Kind: sim.Work, Amount: law, Item: -1, Teamwork: 0.85,
			Crew: sim.Crew{Min: r.Cmin, Max: r.Cmax}, All: skill[r.Skill]}
		for k, n := range r.Tools {
			if n > 0 {
				task.Tools = append(task.Tools, sim.ToolNeed{Tool: k, Count: n})
			}
		}
		for _, p := range r.Preds {
			task.After = append(task.After, sim.After{Task: p.Task, Lag: sim.Time(p.Lag) * sim.Minute})
		}
		d.Tasks = append(d.Tasks, task)
		finish.When = append(finish.When, i)
	}
	who := make([]int, m.Workers)
	for i := range who {
		who[i] = i
	}
	relief := sim.Time(m.RotateMin) * sim.Minute
	d.Lookouts = []sim.Lookout{{Name: "lookout", Places: 2, Relief: relief, Who: who, IfNobody: sim.Skip}}
	d.Milestones = []sim.Milestone{
		{Name: "A", When: []int{m.MilestoneA}, By: sim.Never}, {Name: "B", When: []int{m.MilestoneB}, By: sim.Never}, finish}
	return d.Under(sim.Order{Groups: []sim.Group{{Name: sim.Everyone, Sequence: m.Priority}}})
}

// r1Runs returns the drawn works in minutes and the independent model's times.
func r1Runs(t testing.TB) (works, want [][]float64) {
	t.Helper()
	f, err := os.Open(r1Folder + "r1-works.txt")
	if err != nil {
		t.Skip("the works of model R1 are not there: ", err)
	}
	defer f.Close()
	for lines := bufio.NewScanner(f); lines.Scan(); {
		works = append(works, numbers(t, strings.Fields(lines.Text())))
	}
	g, err := os.Open(r1Folder + "r1-expected.csv")
	if err != nil {
		t.Skip("the results of model R1 are not there: ", err)
	}
	defer g.Close()
	rows, err := csv.NewReader(g).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		want = append(want, numbers(t, row[1:]))
	}
	return works, want
}

func numbers(t testing.TB, words []string) []float64 {
	var out []float64
	for _, w := range words {
		x, err := strconv.ParseFloat(w, 64)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, x)
	}
	return out
}

// Model R1 played with the works given: both engines within 10 ms of the
// independent model on all 100 sets.
func TestModelR1AgreesWithAnIndependentModel(t *testing.T) {
	const tolerance = 10 // ms; works are rounded to whole person-milliseconds
	d := r1(t)
	works, want := r1Runs(t)
	p := fast.Compile(d)
	w := p.Worker()
	luck := draw.Usual(d)
	var r fast.Result
	if len(works) != 100 || len(want) != 100 {
		t.Fatalf("%d sets of works and %d results, want 100", len(works), len(want))
	}
	for run := range works {
		for i, minutes := range works[run] {
			luck.Amount[i] = sim.Milliseconds(60e3 * minutes)
		}
		tl := reference.Play(d, luck)
		w.Play(luck, &r)
		for m := range want[run] {
			ms := 60e3 * want[run][m]
			if off := float64(tl.Milestones[m]) - ms; off > tolerance || off < -tolerance {
				t.Errorf("set %d: reference reaches %s at %d ms, the independent model at %.1f", run, d.Milestones[m].Name, tl.Milestones[m], ms)
			}
			if r.Milestones[m] != tl.Milestones[m] {
				t.Errorf("set %d: fast reaches %s at %d ms, reference at %d", run, d.Milestones[m].Name, r.Milestones[m], tl.Milestones[m])
			}
		}
	}
}

// One op is one run of model R1, draws included: as a drill on both engines,
// and by a program that plays nothing else.
func BenchmarkR1(b *testing.B) {
	d := r1(b)
	play := func(d *sim.Drill) func(*testing.B) {
		return func(b *testing.B) {
			p := fast.Compile(d)
			w := p.Worker()
			var r fast.Result
			events := 0
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				w.Run(1, i, &r)
				events += r.Events
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(events), "ns/event")
		}
	}
	b.Run("fast", play(d))
	general := *d
	general.Loads = []sim.Load{{Name: "empty"}} // changes nothing but the loop that it is played by
	b.Run("general loop", play(&general))
	b.Run("by hand", func(b *testing.B) {
		k := newHandR1(b)
		var works [28]int64
		for i := 0; b.Loop(); i++ {
			k.draw(uint64(i), &works)
			k.play(&works)
		}
	})
	b.Run("reference", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			reference.Play(d, draw.Run(d, 1, i))
		}
	})
}
