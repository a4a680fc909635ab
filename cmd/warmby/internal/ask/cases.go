package ask

import (
	"slices"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/cold"
)

// Case is a scenario as it stands, or as a what-if changes it.
type Case struct {
	WhatIf   string // "" as it stands
	Scenario *scenarios.Scenario
}

// Called names a case.
func (c *Case) Called() string {
	if c.WhatIf == "" {
		return "as it stands"
	}
	return c.WhatIf
}

// Cases returns what is to be played: the scenario as it stands; the one
// what-if asked for; or, of several or all, the scenario as it stands and then
// each of them.
func (s *Source) Cases(whatIfs []string) ([]*Case, error) {
	names, err := s.WhatIfs(whatIfs)
	if err != nil {
		return nil, err
	}
	var list []*Case
	if len(names) != 1 || whatIfs[0] == AllWhatIfs {
		list = append(list, &Case{"", s.Scenario})
	}
	for _, name := range names {
		changed, err := s.Scenario.WhatIf(name)
		if err != nil {
			return nil, err
		}
		list = append(list, &Case{name, changed})
	}
	return list, nil
}

// ChangedBy returns the scenario as a what-if changes it; as it is for "".
func (s *Source) ChangedBy(whatIf string) (*scenarios.Scenario, error) {
	if whatIf == "" {
		return s.Scenario, nil
	}
	names, err := Asked([]string{whatIf}, s.Scenario.WhatIfs(), "what-if", s.Name)
	if err != nil {
		return nil, err
	}
	return s.Scenario.WhatIf(names[0])
}

// Cautions returns the cautions that all cases together call for: the storm of a
// what-if is one to be warned of.
func Cautions(cases []*Case) []cold.Caution {
	var drills []*sim.Drill
	for _, c := range cases {
		d, _ := c.Scenario.Parts()
		drills = append(drills, d)
	}
	return cold.CautionsOfAll(drills)
}

// WhatIfNames lists the what-ifs of a scenario, and the word for all of them.
func WhatIfNames(s *scenarios.Scenario) []string {
	return append(slices.Clone(s.WhatIfs()), AllWhatIfs)
}

// MilestoneNames lists the milestones of a scenario.
func MilestoneNames(s *scenarios.Scenario) []string {
	d, err := s.Drill("")
	if err != nil {
		return nil
	}
	var names []string
	for _, m := range d.Milestones {
		names = append(names, m.Name)
	}
	return names
}
