package main

import (
	"context"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
)

const compareUsage = `Plays all drill orders of a scenario many times under the same luck. Ten lines say
when each order reaches what, how often all is well, and which order to take for
what; a screen then tells whether that holds with your numbers doubted, how far
apart they are, what each what-if costs, what can wait and what holds it up. --all
prints everything, with intervals.

All is well when every target is met and nobody passes the cold limit.

Usage:
  warmby compare [FILE] [flags]

Examples:
  warmby compare
  warmby compare kestrel-fell --order "shelter first" --order "drink first" --picture odds.svg
  warmby compare kestrel-fell --what-if all --report orders.html
  warmby compare mine.yaml --runs 10000 --what-if all --primary heated --json
  warmby compare kestrel-fell --log kestrel-fell
  warmby compare kestrel-fell --runs 500 --until-told 8000

How intervals and comparisons are made, and what they do not say: warmby help odds.
`

type compareFlags struct {
	ask.Answer
	ordersAsked
	differences, moves []string // files for further pictures
}

func compareCommand(e *environment) *cobra.Command {
	var f compareFlags
	cmd := &cobra.Command{
		Use:               "compare [FILE]",
		Short:             "all orders under the same luck: when, how sure, which to take",
		Long:              compareUsage,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			return e.compare(cmd.Context(), args, f)
		},
	}
	flags := cmd.Flags()
	ask.Orders(flags, &f.orders, "all of the file")
	ask.WhatIfs(flags, &f.whatIfs)
	flags.StringArrayVar(&f.primary, "primary", nil, "milestone that it is about: `NAME`; else those with a target")
	ask.Runs(flags, &f.runs, 2000, " of each order")
	flags.IntVar(&f.untilTold, "until-told", 0, "play on, doubling, until orders are told apart or `N` runs are played")
	ask.Seed(flags, &f.seed)
	ask.Workers(flags, &f.workers)
	f.Declare(flags, "the odds")
	flags.StringArrayVar(&f.differences, "picture-differences", nil, "write a picture of the differences: `FILE`")
	flags.StringArrayVar(&f.moves, "picture-moves", nil, "write a picture of what moves each milestone: `FILE`")
	cmd.RegisterFlagCompletionFunc("order", e.completeOrder)
	cmd.RegisterFlagCompletionFunc("what-if", e.completeOf(ask.WhatIfNames))
	cmd.RegisterFlagCompletionFunc("primary", e.completeOf(ask.MilestoneNames))
	return cmd
}

func (f *compareFlags) check() error {
	if f.runs < 1 {
		return &mistake.Usage{What: fmt.Sprintf("--runs expects a whole number, 1 or more, got %d", f.runs), Cure: "2000 are played unless you say otherwise"}
	}
	if f.untilTold != 0 && f.untilTold < f.runs {
		return &mistake.Usage{What: fmt.Sprintf("--until-told expects so many runs at most, no fewer than --runs (%d), got %d", f.runs, f.untilTold), Cure: "--runs are looked at first, then twice as many, and so on"}
	}
	return ask.SettleWorkers(&f.workers)
}

func (e *environment) compare(ctx context.Context, args []string, f compareFlags) error {
	if err := f.check(); err != nil {
		return err
	}
	if err := e.mayAnswer(f.Answer, append(slices.Clone(f.differences), f.moves...)...); err != nil {
		return err
	}
	src, err := e.loadArgs(args)
	if err != nil {
		return err
	}
	f.allMoves, f.luck = f.JSON, e.inFull(f.Answer)
	c, err := newComparison(src, f.ordersAsked)
	if err != nil {
		return err
	}
	if orders := len(c.asIs.orders); orders < 2 && len(f.differences) > 0 {
		return &mistake.Usage{What: "--picture-differences needs two orders or more, got " + report.Counted(orders, "order"), Cure: "leave --order out to compare all of the file"}
	}
	if err := c.play(ctx, src.Scenario); err != nil {
		return err
	}
	if err := c.doubt(ctx, src.Numbers()); err != nil {
		return fmt.Errorf("%s: %w", c.name, err)
	}
	told := c.told()
	return e.answer(f.Answer, told.Report(), func() any { return c.document() }, told.OddsDrawing,
		drawing{f.differences, told.DifferencesDrawing}, drawing{f.moves, told.MovesDrawing})
}
