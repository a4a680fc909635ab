package sim

import (
	"fmt"
	"slices"
	"strings"
)

// Possible returns a *[NeverError] of what [Impossible] finds, nil when that is
// nothing.
func Possible(d *Drill) error {
	if causes := Impossible(d); len(causes) > 0 {
		return &NeverError{Causes: causes}
	}
	return nil
}

// Impossible returns what in the drill can never start whatever happens: a
// circle of tasks that come after each other, fewer people, people with a
// skill, tools or stoves than a task needs. A drill in which it finds nothing
// may still come to a stop when it is played.
func Impossible(d *Drill) (causes []Cause) {
	for i := range d.Tasks {
		t := &d.Tasks[i]
		for _, why := range []func(*Drill, *Task) (string, string){lacksPeople, lacksTools, lacksStove} {
			if w, hint := why(d, t); w != "" {
				causes = append(causes, Cause{Task: t.Name, Why: "can never start: " + w, Hint: hint})
				break
			}
		}
	}
	if circle := findCircle(d); circle != nil {
		var names []string
		for _, i := range circle {
			names = append(names, fmt.Sprintf("%q", d.Tasks[i].Name))
		}
		causes = append(causes, Cause{Task: d.Tasks[circle[0]].Name,
			Why:  "can never start: a circle of after: " + strings.Join(append(names, names[0]), " after "),
			Hint: "one of them must not come after the other"})
	}
	return causes
}

func lacksPeople(d *Drill, t *Task) (why, hint string) {
	low, _ := t.CrewBounds()
	if t.Crew.Max == 0 {
		return "", ""
	}
	var everyone []int
	for i := range d.People {
		if d.MayDo(t, i) {
			everyone = append(everyone, i)
		}
	}
	switch {
	case low > len(everyone) && t.Who != nil:
		are := fmt.Sprintf("%d are", len(everyone))
		switch len(everyone) {
		case 0:
			are = "none is"
		case 1:
			are = "1 is"
		}
		return fmt.Sprintf("%s needed, and of those who may do it %s there", people(low), are),
			"name more people in \"who\""
	case low > len(everyone):
		return fmt.Sprintf("%s needed, the team has %d", people(low), len(everyone)), "make its crew smaller"
	}
	var p Picker
	able := slices.Clone(p.Rank(d, t, everyone, make([]int, len(d.People))))
	if len(able) < low {
		return fmt.Sprintf("%s needed who all have %s, %d there", people(low), d.SkillNames(t.All), len(able)),
			"give somebody the skill, or ask it of one person only"
	}
	for _, r := range t.Roles {
		n := 0
		for _, i := range able {
			if d.People[i].Skills.Has(r.Skill) {
				n++
			}
		}
		if n < r.Count {
			return fmt.Sprintf("%s with the skill %q needed, %d there", people(r.Count), d.Skills[r.Skill], n),
				"give somebody the skill"
		}
	}
	if !p.FillsRoles(d, t, able) {
		return fmt.Sprintf("%d different people needed for its skills, and no such crew can be found", t.RoleCount()),
			"nobody counts for two skills at once"
	}
	return "", ""
}

func lacksTools(d *Drill, t *Task) (why, hint string) {
	low, _ := t.CrewBounds()
	for _, n := range t.Tools {
		there := d.Tools[n.Tool].Count
		for _, item := range d.Items {
			for _, b := range item.Brings {
				if b.Tool == n.Tool {
					there += b.Count
				}
			}
		}
		need := n.Count
		if n.Each {
			need = low
		}
		if need > there {
			return fmt.Sprintf("%d %q needed, %d there", need, d.Tools[n.Tool].Name, there),
				"bring more, or need fewer"
		}
	}
	return "", ""
}

func lacksStove(d *Drill, t *Task) (why, hint string) {
	var kind int
	switch t.Kind {
	case Melt:
		kind = t.Melt.Stove
	case Warm:
		kind = t.Warm.Stove
	default:
		return "", ""
	}
	there := d.Stoves[kind].Count
	if d.Stoves[kind].Brought {
		brought := 0
		for _, item := range d.Items {
			for _, b := range item.Brings {
				if b.Stove == kind {
					brought += b.Count
				}
			}
		}
		there = min(there, brought)
	}
	if there < 1 {
		return fmt.Sprintf("no %q works (count 0)", d.Stoves[kind].Name), "burn another stove, or give its count"
	}
	return "", ""
}

// findCircle returns tasks of which each comes after the next and the last
// after the first, or nil.
func findCircle(d *Drill) []int {
	const (
		unseen = iota
		open
		done
	)
	state := make([]int, len(d.Tasks))
	var path []int
	var visit func(i int) []int
	visit = func(i int) []int {
		state[i] = open
		path = append(path, i)
		for _, next := range d.Tasks[i].waitsFor() {
			switch state[next] {
			case open:
				return path[slices.Index(path, next):]
			case unseen:
				if c := visit(next); c != nil {
					return c
				}
			}
		}
		path = path[:len(path)-1]
		state[i] = done
		return nil
	}
	for i := range d.Tasks {
		if state[i] == unseen {
			if c := visit(i); c != nil {
				return slices.Clone(c)
			}
		}
	}
	return nil
}

// waitsFor returns the tasks that must come before, those of after and the
// unloading of what it needs.
func (t *Task) waitsFor() []int {
	var out []int
	for _, a := range t.After {
		out = append(out, a.Task)
	}
	return append(out, t.Needs...) // the unloading of item i is task i
}

// SkillNames names the skills of a set, in quotation marks.
func (d *Drill) SkillNames(s SkillSet) string {
	var names []string
	for i, n := range d.Skills {
		if s.Has(i) {
			names = append(names, fmt.Sprintf("%q", n))
		}
	}
	return strings.Join(names, " and ")
}

func people(n int) string {
	if n == 1 {
		return "1 person"
	}
	return fmt.Sprintf("%d people", n)
}
