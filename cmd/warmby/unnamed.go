package main

import (
	"fmt"
	"slices"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
)

// shownUnnamed is how many tasks of an order are listed as unnamed.
const shownUnnamed = 3

// unnamed remarks which tasks the orders of a scenario leave unnamed: they are
// done all the same, last of the first group.
func unnamed(s *ask.Source) []report.Finding {
	d, orders := s.Scenario.Parts()
	var found []report.Finding
	for _, o := range orders {
		named := make([]bool, len(d.Tasks))
		for _, det := range o.Groups {
			for _, t := range det.Sequence {
				named[t] = true
			}
		}
		var left []string
		for i := range d.Tasks {
			name := fmt.Sprintf("%q", d.Tasks[i].OwnName())
			if !named[i] && !d.Tasks[i].Unloads() && !slices.Contains(left, name) {
				left = append(left, name)
			}
		}
		if left == nil || len(o.Groups) == 0 {
			continue
		}
		many, follow := report.Counted(len(left), "task"), "which follow"
		if len(left) == 1 {
			follow = "which follows"
		}
		if more := len(left) - shownUnnamed; more > 0 {
			left = append(left[:shownUnnamed], fmt.Sprintf("%d more", more))
		}
		in := ""
		if name := o.Groups[0].Name; name != sim.Everyone {
			in = fmt.Sprintf(" in its first group, %q", name)
		}
		found = append(found, report.Finding{Kind: report.ToKnow,
			Says: report.Say("order {} does not name {}, {} in file order{}: {}", fmt.Sprintf("%q", o.Name), many, follow, in, report.Named(left))})
	}
	return found
}
