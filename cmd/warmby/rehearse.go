package main

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios"
)

const rehearseUsage = `Plays one drill. Ten lines say when each milestone is reached, how often it is in
time, who gets too cold and what to shorten first; a screen then tells what each
person does and what held it up. --all prints everything.

The drill is played with usual values and without mishaps; with --seed or --run
durations, mishaps, arrivals and weather are drawn. How often something is so
comes from many drawn runs; played again with the numbers doubted, or as a log
leaves them open, they tell luck from your numbers.

Usage:
  warmby rehearse [FILE] [flags]

Examples:
  warmby rehearse
  warmby rehearse kestrel-fell --order "two groups" --picture evening.svg
  warmby rehearse kestrel-fell --all --report evening.html
  warmby rehearse mine.yaml --seed 7 --run 3 --json
  warmby rehearse kestrel-fell --log kestrel-fell
`

type rehearseFlags struct {
	ask.Answer
	drillAsked
}

func rehearseCommand(e *environment) *cobra.Command {
	var f rehearseFlags
	cmd := &cobra.Command{
		Use:               "rehearse [FILE]",
		Short:             "play one drill: milestones, who did what, what held it up",
		Long:              rehearseUsage,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			f.drawn = cmd.Flags().Changed("seed") || cmd.Flags().Changed("run")
			return e.rehearse(cmd.Context(), args, f)
		},
	}
	flags := cmd.Flags()
	ask.Order(flags, &f.order)
	ask.WhatIf(flags, &f.whatIf)
	ask.Seed(flags, &f.seed)
	flags.IntVar(&f.run, "run", 0, "play this run of the seed, from 0 on, instead of usual values: `N`")
	ask.Runs(flags, &f.runs, 1000, " to tell how often; 0 for none")
	ask.Workers(flags, &f.workers)
	f.Declare(flags, "the drill")
	cmd.RegisterFlagCompletionFunc("order", e.completeOrder)
	cmd.RegisterFlagCompletionFunc("what-if", e.completeOf(func(s *scenarios.Scenario) []string { return s.WhatIfs() }))
	return cmd
}

func (f *rehearseFlags) check() error {
	if f.run < 0 {
		return &mistake.Usage{What: fmt.Sprintf("--run expects a whole number, 0 or more, got %d", f.run), Cure: "runs are numbered from 0 on"}
	}
	if f.runs < 0 || f.runs > ask.MostRuns {
		return &mistake.Usage{What: fmt.Sprintf("--runs expects a whole number from 0 to %d, got %d", ask.MostRuns, f.runs), Cure: "1000 are played unless you say otherwise"}
	}
	return ask.SettleWorkers(&f.workers)
}

func (e *environment) rehearse(ctx context.Context, args []string, f rehearseFlags) error {
	if err := f.check(); err != nil {
		return err
	}
	if err := e.mayAnswer(f.Answer); err != nil {
		return err
	}
	src, err := e.loadArgs(args)
	if err != nil {
		return err
	}
	r, err := rehearsalOf(ctx, src, f.drillAsked)
	if err != nil {
		return err
	}
	if err := r.doubt(ctx, src.Numbers()); err != nil {
		return err
	}
	told := r.told()
	if err := e.answer(f.Answer, told.Report(), func() any { return r.document() }, told.Drawing); err != nil {
		return err
	}
	return r.asError()
}
