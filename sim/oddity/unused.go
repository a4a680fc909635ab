package oddity

import "warmby/sim"

// unused finds what a scenario names and nothing ever uses: often a misspelling, or
// a task that was forgotten.
func unused(d *sim.Drill) (found []Remark) {
	tell := func(kind Kind, index int, used bool) {
		if !used {
			r := remark(d, kind)
			r.Index = index
			found = append(found, r)
		}
	}
	u := usesOf(d)
	for i := range d.Tools {
		tell(UnusedTool, i, u.tools[i])
	}
	for i, item := range d.Items {
		used := u.needed[i]
		for _, b := range item.Brings {
			used = used || b.Tool >= 0 && u.tools[b.Tool] || b.Stove >= 0 && u.stoves[b.Stove]
		}
		tell(UnusedItem, i, used)
	}
	for i := range d.Stoves {
		tell(UnusedStove, i, u.stoves[i])
	}
	for i := range d.Spots {
		tell(UnusedSpot, i, i == 0 || u.spots[i])
	}
	for i := range d.Skills {
		tell(UnusedSkill, i, u.skills[i])
	}
	return found
}

// uses is which tools, stoves, spots and skills something uses, and which items a
// task needs.
type uses struct{ tools, stoves, spots, skills, needed []bool }

func usesOf(d *sim.Drill) uses {
	u := uses{make([]bool, len(d.Tools)), make([]bool, len(d.Stoves)), make([]bool, len(d.Spots)), make([]bool, len(d.Skills)), make([]bool, len(d.Items))}
	for i := range d.Tasks {
		u.task(&d.Tasks[i])
	}
	for _, l := range d.Lookouts {
		u.spots[l.Spot] = true
	}
	return u
}

func (u uses) task(t *sim.Task) {
	u.spots[t.Spot] = true
	for _, n := range t.Tools {
		u.tools[n.Tool] = true
	}
	for _, item := range t.Needs {
		u.needed[item] = true
	}
	for _, r := range t.Roles {
		u.skills[r.Skill] = true
	}
	for s := range u.skills {
		u.skills[s] = u.skills[s] || t.All.Has(s)
	}
	if t.Melt != nil {
		u.stoves[t.Melt.Stove] = true
	}
	if t.Warm != nil {
		u.stoves[t.Warm.Stove] = true
	}
}
