package sim

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
// the first group; people whom no group names belong to the first. The
// receiver is not changed.
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
	var lead, rest []int
	for i := range d.Tasks {
		switch {
		case named[i]:
		case d.Tasks[i].Unloads():
			lead = append(lead, i)
		default:
			rest = append(rest, i)
		}
	}
	out.Groups = make([]Group, len(groups))
	for i, det := range groups {
		seq := append([]int(nil), lead...)
		seq = append(seq, det.Sequence...)
		people := make([]bool, len(d.People))
		for _, p := range det.People {
			people[p] = true
		}
		if i == 0 {
			seq = append(seq, rest...)
			for p := range people {
				people[p] = people[p] || !placed[p]
			}
		}
		det.Sequence, det.Lead = seq, len(lead)
		det.People = nil
		for p, in := range people {
			if in {
				det.People = append(det.People, p)
			}
		}
		out.Groups[i] = det
	}
	return &out
}
