package search

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/bound"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/internal/drills"
)

// plainDrillOf draws a drill in which only lengths, tools and people count:
// skills, roles, crews larger than the roles, skills asked of all, lags.
func plainDrillOf(t *rapid.T) *sim.Drill {
	n := func(from, to int, what string) int { return rapid.IntRange(from, to).Draw(t, what) }
	d := &sim.Drill{Spots: []sim.Spot{{In: -1}}, Skills: []string{"a", "b", "c", "d"}}
	skilled := n(0, 2, "skilled") > 0
	for i := range n(1, 7, "people") {
		person := sim.Person{Name: fmt.Sprint("P", i), Pace: 1000}
		for s := range 4 {
			if skilled && n(0, 1, "has") == 1 {
				person.Skills = person.Skills.With(s)
			}
		}
		d.People = append(d.People, person)
	}
	for k := range n(0, 6, "tools") {
		d.Tools = append(d.Tools, sim.Tool{Name: fmt.Sprint("T", k), Count: n(1, 4, "there")})
	}
	finish := sim.Milestone{Name: sim.FinishName, By: sim.Never}
	for i := range n(2, 9, "tasks") {
		task := sim.Task{Name: fmt.Sprint(i), Kind: sim.Takes, Item: -1, Amount: drills.Fixed(60000 * n(1, 9, "minutes"))}
		low := n(0, len(d.People), "crew")
		task.Crew = sim.Crew{Min: low, Max: low}
		for s := range 4 {
			if skilled && low > 0 && n(0, 3, "role") == 0 {
				task.Roles = append(task.Roles, sim.Role{Skill: s, Count: n(1, 2, "parts")})
			}
		}
		if r := task.RoleCount(); r > low {
			task.Crew = sim.Crew{Min: r, Max: r}
		}
		if skilled && n(0, 5, "all") == 0 && low > 0 {
			task.All = task.All.With(n(0, 3, "of"))
		}
		for k := range d.Tools {
			switch n(0, 5, "needs") {
			case 0:
				task.Tools = append(task.Tools, sim.ToolNeed{Tool: k, Count: n(1, 2, "count")})
			case 1:
				if low > 0 {
					task.Tools = append(task.Tools, sim.ToolNeed{Tool: k, Each: true})
				}
			}
		}
		for a := range i {
			if n(0, 4, "after") == 0 {
				task.After = append(task.After, sim.After{Task: a, FromStart: n(0, 3, "from start") == 0, Lag: sim.Time(n(0, 2, "lag")) * sim.Minute})
			}
		}
		d.Tasks = append(d.Tasks, task)
		finish.When = append(finish.When, i)
	}
	d.Milestones = []sim.Milestone{finish}
	return d
}

// A list played in turn by the scheduler gives what the engine gives, and a
// schedule of the serial scheme played so in the sequence of its starts is no
// longer where nobody needs a skill.
func TestSchedulesAreWhatTheEnginePlays(t *testing.T) {
	played, skilled := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		d := plainDrillOf(t)
		if sim.Possible(d) != nil {
			return
		}
		b, luck := bound.New(d), draw.Usual(d)
		p := newPlain(d, luck, b.Begun(0))
		if p == nil {
			t.Fatal("the drill is not taken for a plain one")
		}
		random := []int32{}
		for _, i := range ruleList(b, rapid.IntRange(0, ruleCount-1).Draw(t, "rule"), luck, 0) {
			random = append(random, int32(i))
		}
		s := newScheduler(p)
		serial := s.serial(p, random)
		list := make([]int32, len(random))
		s.byStart(list, random)
		span := s.inTurn(p, list)
		if !p.skilled && span > serial {
			t.Fatalf("%d units in turn, %d by the serial scheme", span, serial)
		}
		var sequence []int
		for _, j := range list {
			sequence = append(sequence, p.task[j])
		}
		program := fast.Compile(d.Under(sim.Order{Groups: []sim.Group{{Sequence: sequence, InTurn: true}}}))
		var r fast.Result
		program.Worker().Play(luck, &r)
		for j, i := range p.task {
			if got := sim.Time(s.start[j]) * p.unit; got != r.Start[i] {
				t.Fatalf("task %d starts at %s, played by the engine at %s", i, sim.Clock(got), sim.Clock(r.Start[i]))
			}
		}
		if sim.Time(span)*p.unit != r.Milestones[0] {
			t.Fatalf("finish at %s, played by the engine at %s", sim.Clock(sim.Time(span)*p.unit), sim.Clock(r.Milestones[0]))
		}
		played++
		if p.skilled {
			skilled++
		}
	})
	if played == 0 || skilled == 0 {
		t.Errorf("%d drills played, %d with skills: the test says nothing", played, skilled)
	}
}
