package sim

import "slices"

// Order is a drill order: who does which tasks in which sequence. It may name
// only some of the tasks and people; [Drill.Under] completes it.
type Order struct {
	Name  string
	Crews []CrewChoice
	// Groups, at least one. Their Lead is 0 and their Sequence holds only
	// what the order names.
	Groups []Group
}

// CrewChoice narrows the crew of a task under one order.
type CrewChoice struct {
	Task int
	Crew Crew
}

// Group is some people with a sequence of tasks of their own.
type Group struct {
	Name   string
	People []int // rising roster order
	// Sequence holds tasks in the order in which they are looked at. The
	// first Lead of them are unloadings that the order does not name: they
	// never stop a scan in turn, and do not count when the group is asked
	// whether it has anything left to start.
	Sequence []int
	Lead     int
	InTurn   bool  // a task that may not start stops the scan
	Then     []int // groups that get the people when nothing is left to start
}

// Everyone is the name of the one group of an order without groups.
const Everyone = "everyone"

// FileOrder returns the order that a drill without one is played in: everybody
// in one group, and all tasks as they stand in the file.
func (d *Drill) FileOrder(name string) Order {
	group := Group{Name: Everyone}
	for p := range d.People {
		group.People = append(group.People, p)
	}
	for i := range d.Tasks {
		if !d.Tasks[i].Unloads() {
			group.Sequence = append(group.Sequence, i)
		}
	}
	return Order{Name: name, Groups: []Group{group}}
}

// Under returns the drill as it is played under an order: crews narrowed and
// groups completed. Unloading that the order does not name stands before all
// tasks in every group; tasks that no sequence names follow in file order in
// the first group, but those that only some may do in the first that has one of
// them; people whom no group names belong to the first. A crew of everybody is
// counted. The receiver is not changed.
func (d *Drill) Under(o Order) *Drill {
	out := *d
	out.Order = o.Name
	out.Tasks = append([]Task(nil), d.Tasks...)
	for _, c := range o.Crews {
		out.Tasks[c.Task].Crew = c.Crew
	}
	groups := o.Groups
	if len(groups) == 0 {
		groups = []Group{{Name: Everyone}}
	}
	named := make([]bool, len(d.Tasks))
	placed := make([]bool, len(d.People))
	for _, det := range groups {
		for _, t := range det.Sequence {
			named[t] = true
		}
		for _, p := range det.People {
			placed[p] = true
		}
	}
	out.Groups = make([]Group, len(groups))
	for i, det := range groups {
		people := make([]bool, len(d.People))
		for _, p := range det.People {
			people[p] = true
		}
		det.People = nil
		for p, in := range people {
			if in || i == 0 && !placed[p] {
				det.People = append(det.People, p)
			}
		}
		out.Groups[i] = det
	}
	var lead []int
	rest := make([][]int, len(groups))
	for i := range d.Tasks {
		switch {
		case named[i]:
		case d.Tasks[i].Unloads():
			lead = append(lead, i)
		default:
			home := out.home(&d.Tasks[i])
			rest[home] = append(rest[home], i)
		}
	}
	for i := range out.Groups {
		det := &out.Groups[i]
		det.Sequence, det.Lead = slices.Concat(lead, det.Sequence, rest[i]), len(lead)
	}
	out.countEverybody()
	return &out
}

// home returns the group in which a task that no sequence names follows.
func (d *Drill) home(t *Task) int {
	for i := range d.Groups {
		if slices.ContainsFunc(d.Groups[i].People, func(p int) bool { return t.Who != nil && d.MayDo(t, p) }) {
			return i
		}
	}
	return 0
}

// countEverybody counts the crews of everybody: those of the group that has the
// task, of several the smallest.
func (d *Drill) countEverybody() {
	for i := range d.Tasks {
		t := &d.Tasks[i]
		if !t.Everybody {
			continue
		}
		least := -1
		for k := range d.Groups {
			if !slices.Contains(d.Groups[k].Sequence, i) {
				continue
			}
			if n := d.Everybody(t, d.Groups[k].People); least < 0 || n < least {
				least = n
			}
		}
		t.Crew = Crew{max(1, least), max(1, least)}
	}
}

// Everybody returns how many of some people are of a crew of everybody of a
// task: all who may do it but those hurt and who stays with them.
func (d *Drill) Everybody(t *Task, people []int) int {
	n := 0
	for _, p := range people {
		if d.People[p].Hurt == nil && !d.People[p].Helps && d.MayDo(t, p) {
			n++
		}
	}
	return n
}
