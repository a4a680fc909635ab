package checker

import (
	"fmt"
	"sort"

	"warmby/sim"
)

// Check returns every rule of a drill that the timeline breaks, earliest
// first; nil means that it is clean. The timeline must hold its drill and its
// luck; it is not changed. One whose parts do not even fit together (an index
// out of range, a list too short) is reported as such and not looked into.
func Check(tl *sim.Timeline) []Violation {
	c := &check{tl: tl}
	if c.shape(); len(c.found) > 0 {
		return c.found
	}
	c.d, c.luck = tl.Drill, tl.Luck
	c.readSpells()
	c.stop = c.twoFires()

	c.stretches()
	c.oneAfterTheOther()
	c.walks()
	c.present()
	c.places()

	c.calls()
	c.starts()
	c.crews()
	c.joins()
	c.peopleThere()
	c.ends()
	c.tools()
	c.stoves()
	c.shelters()

	c.milestones()
	c.end()
	c.allocations()

	sort.SliceStable(c.found, func(i, j int) bool { return c.found[i].At < c.found[j].At })
	return c.found
}

// check is one walk over one timeline.
type check struct {
	tl    *sim.Timeline
	d     *sim.Drill
	luck  *sim.Luck
	found []Violation

	stop   sim.Time  // when a second stove is lit in a shelter; Never if none is
	spells []spell   // all of them, by call and then by roster
	on     [][]spell // of each task
	at     [][]spell // of each lookout
}

// broken notes a violation. Times are written as clocks, all else as by
// fmt.Sprint.
func (c *check) broken(at sim.Time, rule, what string, got, want any) {
	c.found = append(c.found, Violation{At: at, Rule: rule, What: what, Got: text(got), Want: text(want)})
}

func text(v any) string {
	switch v := v.(type) {
	case string:
		return v
	case sim.Time:
		return clock(v)
	}
	return fmt.Sprint(v)
}

func (c *check) person(p int) string  { return fmt.Sprintf("person %q", c.d.People[p].Name) }
func (c *check) task(k int) string    { return fmt.Sprintf("task %q", c.d.Tasks[k].Name) }
func (c *check) tool(i int) string    { return fmt.Sprintf("tool %q", c.d.Tools[i].Name) }
func (c *check) stove(i int) string   { return fmt.Sprintf("stove %q", c.d.Stoves[i].Name) }
func (c *check) lookout(l int) string { return fmt.Sprintf("lookout %q", c.d.Lookouts[l].Name) }

// names lists people by name, in the order given.
func (c *check) names(people []int) string {
	if len(people) == 0 {
		return "nobody"
	}
	s := ""
	for i, p := range people {
		if i > 0 {
			s += ", "
		}
		s += c.d.People[p].Name
	}
	return s
}
