package checker

import (
	"cmp"
	"slices"

	"warmby/sim"
)

// fewEnough is how many candidates there may be for every crew to be tried.
const fewEnough = 12

// choose returns the crew that a task calls of the people free, who are at
// the given spots, and whether there is one; most bounds its size.
//
// Size first: the largest crew from minimum to maximum that they can fill,
// roles included. Of those the one whose members have the fewest skills
// altogether; of equals those with the shortest walk, then by roster.
func (c *check) choose(task *sim.Task, free []int, spot []int, most int) ([]int, bool) {
	low, high := bounds(task)
	list := c.rank(task, free, spot)
	if high == 0 {
		return nil, true // needs nobody
	}
	size := min(high, most, len(list))
	if size < low || size == 0 || !c.fills(task, list) {
		return nil, false
	}
	// More people never fill fewer roles, and low is at least the number of
	// roles: so the size is settled and only who goes is left to choose.
	var crew []int
	if len(list) <= fewEnough {
		crew = c.best(task, list, size, spot)
	} else {
		crew = c.greedy(task, list, size)
	}
	slices.Sort(crew)
	return crew, true
}

// rank returns those who may do a task and have the skills asked of everyone,
// fewest skills first, then walk, then roster.
func (c *check) rank(task *sim.Task, free []int, spot []int) []int {
	var list []int
	for _, p := range free {
		if c.d.People[p].Skills.Holds(task.All) && c.forbids(task, p) == "" {
			list = append(list, p)
		}
	}
	slices.SortFunc(list, func(a, b int) int {
		return cmp.Or(cmp.Compare(c.skills(a), c.skills(b)), cmp.Compare(c.walk(spot[a], task.Spot), c.walk(spot[b], task.Spot)), cmp.Compare(a, b))
	})
	return list
}

func (c *check) skills(p int) int {
	n := 0
	for i := range c.d.Skills {
		if c.d.People[p].Skills.Has(i) {
			n++
		}
	}
	return n
}

// best tries every crew of the size: fewest skills together, then the
// shortest walk together, then the earliest in the roster.
func (c *check) best(task *sim.Task, list []int, size int, spot []int) []int {
	var best []int
	var bestSkills int
	var bestWalk sim.Time
	roster := append([]int(nil), list...)
	slices.Sort(roster)
	for set := 1; set < 1<<len(roster); set++ {
		var crew []int
		skills, walk := 0, sim.Time(0)
		for i, p := range roster {
			if set>>i&1 == 1 {
				crew = append(crew, p)
				skills += c.skills(p)
				walk += c.walk(spot[p], task.Spot)
			}
		}
		if len(crew) != size || !c.fills(task, crew) {
			continue
		}
		sooner := best == nil || skills < bestSkills ||
			skills == bestSkills && (walk < bestWalk || walk == bestWalk && earlier(crew, best))
		if sooner {
			best, bestSkills, bestWalk = crew, skills, walk
		}
	}
	return best
}

// earlier compares two crews in roster order, person by person.
func earlier(a, b []int) bool {
	for i := range a {
		if a[i] != b[i] {
			return a[i] < b[i]
		}
	}
	return false
}

// greedy takes people in rank and skips anyone who would make the roles
// unfillable in a crew of the size. The crews that fill all roles are the
// bases of a matroid, so this gives what trying all of them gives.
func (c *check) greedy(task *sim.Task, list []int, size int) []int {
	var crew []int
	for _, p := range list {
		if len(crew) == size {
			break
		}
		with := append(append([]int(nil), crew...), p)
		if c.short(task, with) <= size-len(with) {
			crew = with
		}
	}
	return crew
}
