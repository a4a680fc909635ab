package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"warmby/sim"
)

// missed reports as odd what nobody may do any more when some people are gone,
// one line for each skill and for each other reason, and whether there is any.
func (o *overlay) missed(gone map[string]bool) bool {
	before := len(o.odd.List)
	d := o.drill
	told := map[string]bool{}
	for i := range d.Tasks {
		t := &d.Tasks[i]
		if t.Each != "" {
			continue // the one of somebody who is gone goes as well
		}
		who, reason := o.cannot(t, gone)
		if reason == "" || told[reason] {
			continue
		}
		told[reason] = true
		o.odd.add("without", strings.Join(who, ", "), fmt.Sprintf(reason, t.Name), o.learn(t))
	}
	return len(o.odd.List) > before
}

// cannot says why a task cannot be done without some people: who of them is
// missed, and the reason, with %q for the task's name; "" when it can.
func (o *overlay) cannot(t *sim.Task, gone map[string]bool) (who []string, reason string) {
	d := o.drill
	count := func(may func(person int) bool) (there, left int, who []string) {
		for p := range d.People {
			switch {
			case !d.MayDo(t, p) || !may(p):
			case gone[d.People[p].Name]:
				there, who = there+1, append(who, d.People[p].Name)
			default:
				there, left = there+1, left+1
			}
		}
		return there, left, who
	}
	for _, r := range t.Roles {
		there, left, who := count(func(p int) bool { return d.People[p].Skills.Has(r.Skill) })
		if left < r.Count && there >= r.Count {
			return who, fmt.Sprintf("%s the skill %q, which %%q asks for", onlyLeft(left, "has", "have"), strings.ReplaceAll(d.Skills[r.Skill], "%", "%%"))
		}
	}
	if there, left, who := count(func(p int) bool { return d.People[p].Skills.Holds(t.All) }); left < t.Crew.Min && there >= t.Crew.Min {
		if left == 0 && t.Who != nil {
			return who, "nobody else may do %q"
		}
		return who, fmt.Sprintf("%s for the %d that %%q asks for", onlyLeft(left, "is left", "are left"), t.Crew.Min)
	}
	return nil, ""
}

// onlyLeft begins a sentence about so many people.
func onlyLeft(n int, one, many string) string {
	switch n {
	case 0:
		return "nobody else " + one
	case 1:
		return "only one other " + one
	}
	return fmt.Sprintf("only %d others %s", n, many)
}

// learn is the cure for work that nobody may do.
func (o *overlay) learn(t *sim.Task) string {
	if len(t.Roles) > 0 {
		return "give somebody else the skill in the file, or keep one of them"
	}
	return fmt.Sprintf("let fewer or others do it: \"crew\" and \"who\" of %q in the file", t.Name)
}

// burning returns the first task that burns a kind of stove, "" when none does.
func (o *overlay) burning(kind int) string {
	i := slices.IndexFunc(o.drill.Tasks, func(t sim.Task) bool {
		return t.Melt != nil && t.Melt.Stove == kind || t.Warm != nil && t.Warm.Stove == kind
	})
	if i < 0 {
		return ""
	}
	return o.drill.Tasks[i].Name
}

// otherStove says how a task may burn another kind of stove.
func (o *overlay) otherStove(kind int, task string) string {
	for i, s := range o.drill.Stoves {
		if i == kind || s.Count == 0 {
			continue
		}
		way := "melt"
		for _, t := range o.drill.Tasks {
			if t.Name == task && t.Warm != nil {
				way = "warm"
			}
		}
		return fmt.Sprintf("if it can burn another: --set %q, and so for every task that burns it", fmt.Sprintf("tasks.%s.%s.stove=%s", task, way, s.Name))
	}
	return "keep one, or play a copy of the file without the tasks that burn it"
}
