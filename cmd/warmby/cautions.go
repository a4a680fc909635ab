package main

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/report"
	"warmby/cmd/warmby/internal/terminal"
	"warmby/sim/cold"
)

const cautionsUsage = `Prints in full what a scenario calls for to be careful about: carbon monoxide,
flame in a tent, liquid fuel, cold injury and the like, with what in the file
calls for it and who knows better. Other reports name the most urgent in a line
each.

Usage:
  warmby cautions [FILE] [flags]

Examples:
  warmby cautions
  warmby cautions kestrel-fell
  warmby cautions kestrel-fell --air "-34 C" --wind "12 m/s"

What is known of tonight goes over the file as in "warmby tonight".
`

func cautionsCommand(e *environment) *cobra.Command {
	var f factFlags
	cmd := &cobra.Command{
		Use:               "cautions [FILE]",
		Short:             "what to be careful about, in full",
		Long:              cautionsUsage,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE:              func(cmd *cobra.Command, args []string) error { return e.cautions(cmd.Context(), args, f) },
	}
	f.declareFacts(cmd.Flags())
	return cmd
}

// cautions prints what a scenario calls for, its what-ifs included, under the
// first of its orders.
func (e *environment) cautions(ctx context.Context, args []string, f factFlags) error {
	if err := f.readFacts(); err != nil {
		return err
	}
	src, err := e.loadArgs(args)
	if err != nil {
		return err
	}
	if src, _, err = f.over(src); err != nil {
		return err
	}
	cases, err := src.Cases(nil)
	if err != nil {
		return err
	}
	for _, name := range src.Scenario.WhatIfs() {
		changed, err := src.Scenario.WhatIf(name)
		switch {
		case err != nil && len(f.said()) > 0:
			continue // it is about somebody who is not there tonight
		case err != nil:
			return err
		}
		cases = append(cases, &ask.Case{WhatIf: name, Scenario: changed})
	}
	all := ask.Cautions(cases)
	if r, err := rehearsalOf(ctx, src, drillAsked{workers: 1}); err == nil {
		all = cold.Joint(cold.Cautions(r.Drill, r.Accounts), all)
	}
	d, _ := src.Scenario.Parts()
	told := report.OfCautions(report.ShortTitle(d.Title), all, f.repeatFacts(ask.CommandOf("cautions", ask.FileWord(ask.FileOf(src.Arg)))).String())
	_, err = fmt.Fprint(e.stdout, terminal.Print(told, terminal.Options{Width: e.width(), All: true}))
	return err
}
