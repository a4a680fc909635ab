package checker

import (
	"fmt"

	"warmby/sim"
)

// bounds returns the smallest and largest crew: never smaller than the number
// of roles asked for; takes, melt, warm and unloading call no more than their
// minimum.
func bounds(t *sim.Task) (low, high int) {
	roles := 0
	for _, r := range t.Roles {
		roles += r.Count
	}
	low = max(t.Crew.Min, roles)
	if t.Kind == sim.Work || t.Kind == sim.Timed {
		return low, max(low, t.Crew.Max)
	}
	return low, low
}

// crews checks the size and the skills of each crew at its call, and that no
// more than the maximum are ever bound to a task, those on the way included.
func (c *check) crews() {
	for k := range c.d.Tasks {
		task, t := &c.d.Tasks[k], c.tl.Tasks[k]
		if t.Called == sim.Never || c.unseen(k) {
			continue
		}
		low, high := bounds(task)
		if task.Everybody {
			low, high = c.everybody(k)
		}
		var crew []int
		most := high
		for _, s := range c.crewOf(k) {
			crew = append(crew, s.Person)
			if s.ToLookout && s.Left == s.Called {
				most++ // pulled at once: another may have joined for this one
			}
		}
		if len(crew) < low || len(crew) > most {
			c.broken(t.Called, "crew", c.task(k), fmt.Sprintf("%d called", len(crew)), fmt.Sprintf("%d to %d", low, most))
		}
		// roles ask for that many different people, each in one role
		if !c.fills(task, crew) {
			c.broken(t.Called, "roles", c.task(k), c.names(crew)+" called", "people who fill the roles, one each")
		}
		for _, s := range c.on[k] {
			if !c.d.People[s.Person].Skills.Holds(task.All) {
				c.broken(s.Called, "skills", c.task(k), c.d.People[s.Person].Name+" lacks a skill", "the skills asked of everyone")
			}
			if why := c.forbids(task, s.Person); why != "" {
				c.broken(s.Called, "who", c.task(k), c.d.People[s.Person].Name+" is called, "+why, "only those who may do it")
			}
		}
		// those on the way count towards the maximum
		for _, s := range c.on[k] {
			n := 0
			for _, o := range c.on[k] {
				if o.during(s.Called) && s.Called < t.End {
					n++
				}
			}
			if n > high {
				c.broken(s.Called, "crew", c.task(k), fmt.Sprintf("%d on it or on the way", n), fmt.Sprintf("%d at most", high))
			}
		}
	}
}

// fills reports whether people can fill the roles of a task, each of them at
// most one: by Hall's theorem they can if, for every choice of roles, as many
// of them have one of those skills as the roles ask for.
func (c *check) fills(t *sim.Task, people []int) bool { return c.short(t, people) == 0 }

// short returns how many roles stay empty when people fill as many as they
// can: the worst shortage of any choice of roles (Ore's form of Hall's
// theorem).
func (c *check) short(t *sim.Task, people []int) int {
	if len(t.Roles) > fewRoles {
		return c.unfilled(t, people)
	}
	worst := 0
	for choice := 1; choice < 1<<len(t.Roles); choice++ {
		asked, have := 0, 0
		var skills sim.SkillSet
		for i, r := range t.Roles {
			if choice>>i&1 == 1 {
				asked += r.Count
				skills = skills.With(r.Skill)
			}
		}
		for _, p := range people {
			if c.d.People[p].Skills&skills != 0 {
				have++
			}
		}
		worst = max(worst, asked-have)
	}
	return worst
}

// fewRoles is for how many roles every choice of them is looked at.
const fewRoles = 10

// unfilled is short for many roles: it fills them person by person, moving
// others to another of their roles where that makes room.
func (c *check) unfilled(t *sim.Task, people []int) int {
	holders := make([][]int, len(t.Roles))
	var seen []bool
	var place func(p int) bool
	place = func(p int) bool {
		for i, r := range t.Roles {
			if seen[i] || !c.d.People[p].Skills.Has(r.Skill) {
				continue
			}
			seen[i] = true
			if len(holders[i]) < r.Count {
				holders[i] = append(holders[i], p)
				return true
			}
			for j, other := range holders[i] {
				if place(other) {
					holders[i][j] = p
					return true
				}
			}
		}
		return false
	}
	empty := 0
	for _, r := range t.Roles {
		empty += r.Count
	}
	for _, p := range people {
		seen = make([]bool, len(t.Roles))
		if place(p) {
			empty--
		}
	}
	return empty
}

// joins checks that people join only a joinable task, once work has begun
// and before it is done, and only who would arrive before that as things
// stand: at the rate of that moment.
func (c *check) joins() {
	for k := range c.d.Tasks {
		task, t := &c.d.Tasks[k], c.tl.Tasks[k]
		for _, s := range c.joinersOf(k) {
			who := c.d.People[s.Person].Name
			worked := task.Kind == sim.Work || task.Kind == sim.Timed
			switch {
			case !task.Joinable || !worked:
				c.broken(s.Called, "joins", c.task(k), who+" joins", "nobody, for it is not joinable")
			case s.Called < t.Start:
				c.broken(s.Called, "joins", c.task(k), who+" joins before work has begun", "only after "+clock(t.Start))
			case s.Called >= t.Worked:
				c.broken(s.Called, "joins", c.task(k), who+" joins when the work is done", "only before "+clock(t.Worked))
			}
			// (at the moment of the call itself the allocation tells)
			if worked && t.Start <= s.Called && t.Called < s.Called && s.Called < t.Worked && s.Walked {
				if done := c.doneAt(k, s.Called, c.thereBefore(k, s.Called)); s.Arrives >= done {
					c.broken(s.Called, "joins", c.task(k), who+" would arrive at "+clock(s.Arrives), "before the work is done at "+clock(done))
				}
			}
		}
	}
}

// thereBefore lists those on a task at a moment, without those who join at
// that very moment and need not walk: whether they were sent before or after
// another only the allocation tells.
func (c *check) thereBefore(k int, at sim.Time) []int {
	list, _ := c.visits(k)
	people := there(list, at)
	for _, s := range c.joinersOf(k) {
		if s.Called == at && !s.Walked {
			people = without(people, s.Person)
		}
	}
	return people
}

func without(people []int, p int) []int {
	var rest []int
	for _, q := range people {
		if q != p {
			rest = append(rest, q)
		}
	}
	return rest
}
