package main

import (
	"fmt"
	"slices"
	"strings"

	"warmby/sim"
	"warmby/sim/fast"
)

// differs plays a drill a second time, with the other engine and the same
// luck, and says in which task the two part; "" when they tell the same story.
func differs(tl *sim.Timeline) string {
	p, err := fast.Compile(tl.Drill)
	if err != nil {
		return "the fast engine refuses the drill: " + err.Error()
	}
	again, err := p.Worker().Timeline(tl.Luck)
	if err != nil {
		return "the fast engine stops: " + err.Error()
	}
	for i, t := range tl.Tasks {
		if a := again.Tasks[i]; a.Called != t.Called || a.Start != t.Start || a.End != t.End || !slices.Equal(a.People, t.People) {
			return fmt.Sprintf("task %q from %s to %s in one engine, from %s to %s in the other", tl.Drill.Tasks[i].Name,
				sim.Clock(t.Start), sim.Clock(t.End), sim.Clock(a.Start), sim.Clock(a.End))
		}
	}
	for i := range tl.People {
		if !slices.Equal(tl.People[i], again.People[i]) {
			return fmt.Sprintf("what %s does", tl.Drill.People[i].Name)
		}
	}
	return ""
}

// refusal says which drill it is that cannot be played; an engine that can play
// it all the same makes it one that must not be relied on.
func refusal(name string, f rehearseFlags, d *sim.Drill, luck *sim.Luck, err error) error {
	var which []string
	if f.order != "" {
		which = append(which, orderText(f.order))
	}
	if f.whatIf != "" {
		which = append(which, fmt.Sprintf("what if %q", f.whatIf))
	}
	if f.drawn {
		which = append(which, fmt.Sprintf("run %d of seed %d", f.run, f.seed))
	}
	if which != nil {
		name += ", " + strings.Join(which, ", ")
	}
	if p, fastErr := fast.Compile(d); fastErr == nil && never(err) {
		if again, fastErr := p.Worker().Timeline(luck); fastErr == nil {
			// Not wrapped: what one engine alone says is a fault of the program.
			return withHint(fmt.Errorf("%s: the two engines differ: the finish is at %s in one, and in the other: %v", name, sim.Clock(again.Finish()), err),
				"do not rely on this drill; please report it with the scenario file")
		}
	}
	return fmt.Errorf("%s: %w", name, err)
}

// asError makes the difference of the engines an error, once the drill has
// been shown marked so.
func (r *rehearsal) asError() error {
	if r.differs == "" {
		return nil
	}
	return withHint(fmt.Errorf("%s: the two engines differ: %s", r.name, r.differs),
		"do not rely on this drill; please report it with the scenario file and: %s", r.repeat())
}
