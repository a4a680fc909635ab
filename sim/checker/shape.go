package checker

import (
	"fmt"

	"warmby/sim"
)

// shape makes sure that all lists fit the drill and that no index is out of
// range, so that nothing after it can panic.
func (c *check) shape() {
	tl := c.tl
	if tl == nil || tl.Drill == nil || tl.Luck == nil {
		c.misshapen("timeline", "no drill or no luck", "both")
		return
	}
	d, luck := tl.Drill, tl.Luck
	length := func(what string, got, want int) {
		if got != want {
			c.misshapen(what, fmt.Sprintf("%d entries", got), want)
		}
	}
	length("tasks", len(tl.Tasks), len(d.Tasks))
	length("people", len(tl.People), len(d.People))
	length("milestones", len(tl.Milestones), len(d.Milestones))
	length("drawn amounts", len(luck.Amount), len(d.Tasks))
	length("drawn mishaps", len(luck.Mishap), len(d.Tasks))
	if luck.MishapThen != nil {
		length("drawn mishaps with their conditions", len(luck.MishapThen), len(d.Tasks))
	}
	length("drawn arrivals", len(luck.Person), len(d.People))
	length("drawn load arrivals", len(luck.Load), len(d.Loads))
	if len(c.found) > 0 {
		return
	}
	for p, list := range tl.People {
		for i, one := range list {
			c.stretch(fmt.Sprintf("stretch %d of person %q", i, d.People[p].Name), one)
		}
	}
	for k := range tl.Tasks {
		what := fmt.Sprintf("task %q", d.Tasks[k].Name)
		c.within(what+", group", tl.Tasks[k].Group, len(d.Groups))
		for _, p := range tl.Tasks[k].People {
			if p < 0 || p >= len(d.People) {
				c.misshapen(what+", people", p, fmt.Sprintf("0 to %d", len(d.People)-1))
			}
		}
	}
}

// stretch makes sure that a stretch fits the drill.
func (c *check) stretch(what string, s sim.Stretch) {
	d := c.tl.Drill
	c.within(what+", task", s.Task, len(d.Tasks))
	c.within(what+", lookout", s.Lookout, len(d.Lookouts))
	if s.Spot < 0 || s.Spot >= len(d.Spots) || s.Origin < 0 || s.Origin >= len(d.Spots) {
		c.misshapen(what+", spots", fmt.Sprint(s.Origin, s.Spot), fmt.Sprintf("0 to %d", len(d.Spots)-1))
	}
	if s.Lookout >= 0 && s.Lookout < len(d.Lookouts) && (s.Place < 0 || s.Place >= d.Lookouts[s.Lookout].Places) {
		c.misshapen(what+", place", s.Place, fmt.Sprintf("0 to %d", d.Lookouts[s.Lookout].Places-1))
	}
	forTask := s.What == sim.Ready || s.What == sim.Working
	switch {
	case s.What < sim.Free || s.What > sim.Watching:
		c.misshapen(what, fmt.Sprintf("activity %d", s.What), "a known one")
	case forTask && (s.Task < 0 || s.Lookout >= 0),
		s.What == sim.Watching && (s.Lookout < 0 || s.Task >= 0),
		s.What == sim.Free && (s.Task >= 0 || s.Lookout >= 0),
		s.What == sim.Walking && (s.Task < 0) == (s.Lookout < 0):
		c.misshapen(what, fmt.Sprintf("activity %d with task %d, lookout %d", s.What, s.Task, s.Lookout), "what goes with it")
	}
}

// within makes sure that an index is one of n, or -1 for none.
func (c *check) within(what string, i, n int) {
	if i < -1 || i >= n {
		c.misshapen(what, i, fmt.Sprintf("-1 to %d", n-1))
	}
}

// misshapen says that something does not fit the drill.
func (c *check) misshapen(what string, got, want any) { c.broken(sim.Never, "shape", what, got, want) }
