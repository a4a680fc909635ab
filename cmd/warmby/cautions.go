package main

import (
	"strings"

	"warmby/sim"
	"warmby/sim/cold"
)

// cautionsOfCases returns the cautions that all cases together call for: the
// storm of a what-if is one to be warned of.
func cautionsOfCases(cases []*scenarioCase) []cold.Caution {
	var drills []*sim.Drill
	for _, c := range cases {
		d, _ := c.scenario.Parts()
		drills = append(drills, d)
	}
	return cautionsOfDrills(drills)
}

// cautionsOfDrills is the same of drills.
func cautionsOfDrills(drills []*sim.Drill) []cold.Caution {
	var lists [][]cold.Caution
	for _, d := range drills {
		lists = append(lists, cold.Cautions(d, nil))
	}
	return cold.Joint(lists...)
}

// cautionsText writes the cautions that the scenario calls for.
func cautionsText(cautions []cold.Caution, width int) string {
	var b strings.Builder
	for _, c := range cautions {
		text := sentenceCase(c.Topic)
		if c.Because != "" {
			text += " (" + c.Because + ")"
		}
		text += ": " + c.Text
		if c.DeferTo != "" {
			text += " Defer to " + c.DeferTo + "."
		}
		b.WriteString(wrap(text, width, "  ", "    "))
	}
	return b.String()
}

// cautionJSON is a caution that the scenario calls for.
type cautionJSON struct {
	Topic   string `json:"topic"`
	Because string `json:"because,omitempty"`
	Text    string `json:"text"`
	DeferTo string `json:"defer_to,omitempty"`
}

func cautionsDocument(cautions []cold.Caution) []cautionJSON {
	list := []cautionJSON{}
	for _, c := range cautions {
		list = append(list, cautionJSON{c.Topic, c.Because, c.Text, c.DeferTo})
	}
	return list
}
