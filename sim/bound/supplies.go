package bound

import (
	"slices"

	"warmby/sim"
)

// supply is something of which only so many are there, with the tasks that use
// it.
type supply struct {
	there int
	users []user
}

// user is a task that holds a share of a supply for its whole length or, when
// byEffort is set, people of whom each gives part of their time: whichever of
// the two is more.
type user struct {
	task     int
	share    float64
	byEffort bool
}

// supplies lists what may be short: people, people with any of some skills,
// tools and stoves, each also in other measures (see reckonings).
func supplies(d *sim.Drill) []supply {
	var list []supply
	list = append(list, peopleSupplies(d)...)
	list = append(list, toolSupplies(d)...)
	list = append(list, stoveSupplies(d)...)
	list = slices.DeleteFunc(list, func(s supply) bool { return s.there <= 0 || len(s.users) == 0 })
	for _, s := range list {
		list = append(list, s.reckonings()...)
	}
	return list
}

// mostSkills is up to how many skills every set of them is looked at.
const mostSkills = 6

// peopleSupplies is everyone, and those with any skill of each set of skills.
func peopleSupplies(d *sim.Drill) []supply {
	everyone := supply{there: len(d.People)}
	asked := sim.SkillSet(0)
	for i := range d.Tasks {
		t := &d.Tasks[i]
		if t.Crew.Max == 0 {
			continue
		}
		low, _ := t.CrewBounds()
		everyone.users = append(everyone.users, user{i, float64(low), true})
		asked |= t.All
		for _, r := range t.Roles {
			asked = asked.With(r.Skill)
		}
	}
	list := []supply{everyone}
	for _, set := range skillSets(asked) {
		list = append(list, skillSupply(d, set))
	}
	return list
}

// skillSets returns every set of some skills or, when they are many, each
// alone and all together.
func skillSets(asked sim.SkillSet) (sets []sim.SkillSet) {
	if asked.Count() <= mostSkills {
		for set := asked; set != 0; set = (set - 1) & asked {
			sets = append(sets, set)
		}
		return sets
	}
	for i := range sim.MaxSkills {
		if asked.Has(i) {
			sets = append(sets, sim.SkillSet(0).With(i))
		}
	}
	return append(sets, asked)
}

func skillSupply(d *sim.Drill, set sim.SkillSet) supply {
	var s supply
	for _, p := range d.People {
		if p.Skills&set != 0 {
			s.there++
		}
	}
	for i := range d.Tasks {
		t := &d.Tasks[i]
		if t.Crew.Max == 0 {
			continue
		}
		if t.All&set != 0 { // all of the crew are of them
			low, _ := t.CrewBounds()
			s.users = append(s.users, user{i, float64(low), true})
			continue
		}
		parts := 0
		for _, r := range t.Roles {
			if set.Has(r.Skill) {
				parts += r.Count
			}
		}
		if parts > 0 {
			s.users = append(s.users, user{i, float64(parts), false})
		}
	}
	return s
}

func toolSupplies(d *sim.Drill) []supply {
	list := make([]supply, len(d.Tools))
	for k := range d.Tools {
		list[k].there = d.Tools[k].Count
	}
	for _, item := range d.Items {
		for _, b := range item.Brings {
			if b.Tool >= 0 {
				list[b.Tool].there += b.Count
			}
		}
	}
	for i := range d.Tasks {
		t := &d.Tasks[i]
		low, _ := t.CrewBounds()
		for _, n := range t.Tools {
			u := user{i, float64(n.Count), false}
			if n.Each {
				u = user{i, float64(low), true}
			}
			if u.share > 0 {
				list[n.Tool].users = append(list[n.Tool].users, u)
			}
		}
	}
	return list
}

// stoveSupplies is each kind of stove: its melts, its warm-ups and, where a pot
// may not stand on a stove that warms, both together.
func stoveSupplies(d *sim.Drill) []supply {
	var list []supply
	for k := range d.Stoves {
		there := d.Stoves[k].Count
		melts, warms := supply{there: there}, supply{there: there}
		for i := range d.Tasks {
			switch t := &d.Tasks[i]; {
			case t.Kind == sim.Melt && t.Melt.Stove == k:
				melts.users = append(melts.users, user{i, 1, false})
			case t.Kind == sim.Warm && t.Warm.Stove == k:
				warms.users = append(warms.users, user{i, 1, false})
			}
		}
		if !d.Stoves[k].HoldsPots {
			melts.users = append(melts.users, warms.users...)
			warms.users = nil
		}
		list = append(list, melts, warms)
	}
	return list
}

// reckonings returns the supply in other measures, in which what fits together
// still fits: what is there counts C, what a task uses x counts f(x), where f
// is such that uses that add up to no more than C are counted as no more than
// C (dual feasible functions; S. P. Fekete and J. Schepers, Mathematical
// Programming 91 (2001), 11-31). They tell of tasks that cannot go on together.
//
//	f(x) = 0 for x < e, x for e <= x <= C - e, C for x > C - e    (e <= C/2)
//	f(x) = x if (k+1) x / C is whole, else floor((k+1) x / C) C/k
func (s *supply) reckonings() []supply {
	var list []supply
	add := func(there int, f func(x int) int) {
		n := supply{there: there}
		same := there == s.there
		for _, u := range s.users {
			x := int(u.share)
			y := f(x)
			same = same && x == y
			if y > 0 {
				n.users = append(n.users, user{u.task, float64(y), false})
			}
		}
		if !same && len(n.users) > 0 {
			list = append(list, n)
		}
	}
	c := s.there
	edges := map[int]bool{}
	for _, u := range s.users {
		x := int(u.share)
		edges[x] = edges[x] || 2*x <= c
		edges[c-x+1] = edges[c-x+1] || 2*x > c && 2*(c-x+1) <= c
	}
	for e := 1; 2*e <= c; e++ {
		if edges[e] {
			add(c, func(x int) int {
				switch {
				case x < e:
					return 0
				case x > c-e:
					return c
				}
				return x
			})
		}
	}
	for k := 1; k <= 3; k++ {
		add(c*k, func(x int) int {
			if (k+1)*x%c == 0 {
				return x * k
			}
			return (k + 1) * x / c * c
		})
	}
	return list
}
