package checker

import (
	"slices"

	"warmby/sim"
)

// forbids says why a person may not be of the crew of a task, joiners too: ""
// when nothing is against it but skills. What each does for himself is a task
// that names one person.
func (c *check) forbids(task *sim.Task, p int) string {
	switch {
	case c.d.People[p].Casualty:
		return "a casualty"
	case task.Who != nil && !slices.Contains(task.Who, p):
		return "whom who leaves out"
	}
	return ""
}

// everybody returns the size of a crew of all, no fewer and no more: everybody of
// the group that has the task in its sequence, of several that with the fewest.
// Not counted is who is hurt, at whatever time, who stays with one who is, a
// casualty, or left out by who. A crew of nobody cannot be called.
func (c *check) everybody(k int) (low, high int) {
	least := -1
	for _, group := range c.d.Groups {
		if !slices.Contains(group.Sequence, k) {
			continue
		}
		n := 0
		for _, p := range group.People {
			if c.d.People[p].Hurt == nil && !c.d.People[p].Helps && c.forbids(&c.d.Tasks[k], p) == "" {
				n++
			}
		}
		if least < 0 || n < least {
			least = n
		}
	}
	return max(1, least), max(1, least)
}
