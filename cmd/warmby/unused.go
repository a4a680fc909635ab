package main

import "warmby/sim"

// unused finds what a scenario names and nothing ever uses: often a
// misspelling, or a task that was forgotten.
func unused(d *sim.Drill) []finding {
	var found []finding
	tell := func(what, name string, used bool, hint string) {
		if !used {
			f := warnf("%s %q is never used", what, name)
			f.Hint = hint
			found = append(found, f)
		}
	}
	tools, stoves, spots, skills, needed := uses(d)
	for i, t := range d.Tools {
		tell("tool", t.Name, tools[i], "name it in \"tools\" of a task")
	}
	for i, item := range d.Items {
		used := needed[i]
		for _, b := range item.Brings {
			used = used || b.Tool >= 0 && tools[b.Tool] || b.Stove >= 0 && stoves[b.Stove]
		}
		tell("item", item.Name, used, "name it in \"needs\" of a task, or leave it packed: it still has to be unloaded")
	}
	for i, s := range d.Stoves {
		tell("stove", s.Name, stoves[i], "burn it in a \"melt\" or \"warm\"")
	}
	for i, s := range d.Spots {
		tell("spot", s.Name, i == 0 || spots[i], "name it as the \"spot\" of a task or lookout")
	}
	for i, name := range d.Skills {
		tell("skill", name, skills[i], "ask for it in \"skills\" of a task")
	}
	return found
}

// uses returns which tools, stoves, spots and skills something uses, and which
// items a task needs.
func uses(d *sim.Drill) (tools, stoves, spots, skills, needed []bool) {
	tools, stoves = make([]bool, len(d.Tools)), make([]bool, len(d.Stoves))
	spots, skills, needed = make([]bool, len(d.Spots)), make([]bool, len(d.Skills)), make([]bool, len(d.Items))
	for i := range d.Tasks {
		t := &d.Tasks[i]
		spots[t.Spot] = true
		for _, n := range t.Tools {
			tools[n.Tool] = true
		}
		for _, item := range t.Needs {
			needed[item] = true
		}
		for _, r := range t.Roles {
			skills[r.Skill] = true
		}
		for s := range skills {
			skills[s] = skills[s] || t.All.Has(s)
		}
		if t.Melt != nil {
			stoves[t.Melt.Stove] = true
		}
		if t.Warm != nil {
			stoves[t.Warm.Stove] = true
		}
	}
	for _, l := range d.Lookouts {
		spots[l.Spot] = true
	}
	return
}
