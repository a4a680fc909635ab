package main

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/report"
	"warmby/cmd/warmby/internal/terminal"
	"warmby/sim"
	"warmby/sim/cold"
)

const cautionsUsage = `Prints in full what a scenario calls for to be careful about: carbon monoxide,
flame in a tent, liquid fuel, cold injury and the like, with what in the file
calls for it and who knows better. Other reports name the most urgent in a line
each.

Usage:
  warmby cautions [FILE]

Examples:
  warmby cautions
  warmby cautions kestrel-fell
`

func cautionsCommand(e *environment) *cobra.Command {
	return &cobra.Command{
		Use:               "cautions [FILE]",
		Short:             "what to be careful about, in full",
		Long:              cautionsUsage,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE:              func(cmd *cobra.Command, args []string) error { return e.cautions(cmd.Context(), args) },
	}
}

// cautions prints what a scenario calls for, its what-ifs included, under the
// first of its orders.
func (e *environment) cautions(ctx context.Context, args []string) error {
	src, err := e.loadArgs(args)
	if err != nil {
		return err
	}
	cases, err := src.Cases(nil)
	if err != nil {
		return err
	}
	for _, name := range src.Scenario.WhatIfs() {
		changed, err := src.Scenario.WhatIf(name)
		if err != nil {
			return err
		}
		cases = append(cases, &ask.Case{WhatIf: name, Scenario: changed})
	}
	all := cautionsOfCases(cases)
	if r, err := rehearsalOf(ctx, src, rehearseFlags{workers: 1}); err == nil {
		all = cold.Joint(cold.Cautions(r.Drill, r.Accounts), all)
	}
	d, _ := src.Scenario.Parts()
	told := report.OfCautions(report.ShortTitle(d.Title), all, cautionsCommandLine(src.Arg))
	_, err = fmt.Fprint(e.stdout, terminal.Print(told, terminal.Options{Width: e.width(), All: true}))
	return err
}

// cautionsCommandLine is the command that prints the cautions of a scenario in
// full.
func cautionsCommandLine(arg string) string {
	return ask.CommandOf("cautions", fileWord(ask.FileOf(arg))).String()
}

// cautionsOfCases returns the cautions that all cases together call for: the
// storm of a what-if is one to be warned of.
func cautionsOfCases(cases []*ask.Case) []cold.Caution {
	var drills []*sim.Drill
	for _, c := range cases {
		d, _ := c.Scenario.Parts()
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

type cautionJSON = document.Caution

func cautionsDocument(cautions []cold.Caution) []cautionJSON { return document.Cautions(cautions) }
