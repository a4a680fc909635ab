package main

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/doubt"
	"warmby/sim/draw"
	"warmby/sim/reference"
	"warmby/sim/rehearse"
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
	order, whatIf      string
	seed               uint64
	run, runs, workers int
	drawn              bool // whether --seed or --run was given
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

// rehearsal is one drill as played, and how it came about.
type rehearsal struct {
	*rehearse.Rehearsal
	name    string // of the scenario, for people
	arg     string // FILE that reads it again
	flags   rehearseFlags
	numbers doubt.Numbers
	doubted *compare.Played // the evenings with its numbers doubted; nil where there is nothing to doubt
	differs string          // how the two engines differ; "" when they agree
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
	r, err := rehearsalOf(ctx, src, f)
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

// rehearsalOf plays what is asked.
func rehearsalOf(ctx context.Context, s *ask.Source, f rehearseFlags) (*rehearsal, error) {
	d, err := s.Drill(f.order, f.whatIf)
	if err != nil {
		return nil, err
	}
	luck := draw.Usual(d)
	if f.drawn {
		luck = draw.Run(d, f.seed, f.run)
	}
	tl := reference.Play(d, luck)
	r := &rehearsal{name: s.Name, arg: s.Arg, flags: f, differs: differs(tl)}
	if r.Rehearsal, err = rehearse.Of(ctx, tl, compare.Batch{Seed: f.seed, Runs: f.runs, Workers: f.workers}); err != nil {
		return nil, err
	}
	return r, err
}

// doubt plays the evenings again with the numbers doubted.
func (r *rehearsal) doubt(ctx context.Context, n doubt.Numbers) error {
	if r.numbers = n; r.Evenings == nil || !n.Any(r.Drill) {
		return nil
	}
	played, err := compare.Play(ctx, []*sim.Drill{r.Drill}, n.Batch(compare.Batch{Seed: r.flags.seed, Runs: r.flags.runs, Workers: r.flags.workers}))
	if err != nil {
		return err
	}
	r.doubted = played[0]
	return nil
}

// doubts tells luck from numbers; nil where there is nothing to doubt.
func (r *rehearsal) doubts() []doubt.Doubt {
	if r.doubted == nil {
		return nil
	}
	return doubt.Of(r.Evenings, r.doubted)
}

// told is the rehearsal for its report.
func (r *rehearsal) told() report.Rehearsal {
	return report.Rehearsal{
		Rehearsal: r.Rehearsal, WhatIf: r.flags.whatIf, Drawn: r.flags.drawn, Seed: r.flags.seed, Run: r.flags.run,
		OddsSeed: r.flags.seed, Doubts: r.doubts(), Numbers: r.numbers, Differs: r.differs, Repeat: r.repeat(), Cautions: cautionsCommandLine(r.arg),
	}
}

// document is the rehearsal for programs.
func (r *rehearsal) document() document.Rehearsal {
	about := document.About{
		Scenario: r.name, WhatIf: r.flags.whatIf, Seed: r.flags.seed, Repeat: r.repeat(),
		Why: func(milestone int) string { return report.WhyMilestone(r.Timeline, milestone).Write(report.Full) },
	}
	if r.flags.drawn {
		about.Run = &r.flags.run
	}
	doc := document.OfRehearsal(r.Rehearsal, about)
	if r.doubted != nil {
		doc.Doubt = &document.DoubtedDrill{Doubt: document.DoubtOf(r.numbers, len(r.doubted.Times[0])), Milestones: document.DoubtedMilestones(r.Evenings, r.doubted)}
	}
	return doc
}

// repeat returns the command that plays the same drill again.
func (r *rehearsal) repeat() string {
	c := ask.CommandOf("rehearse", ask.FileWord(r.arg)).With("order", r.flags.order).With("what-if", r.flags.whatIf)
	if r.flags.drawn {
		c.With("seed", r.flags.seed).With("run", r.flags.run)
	}
	if r.flags.runs != 1000 {
		c.With("runs", r.flags.runs)
	}
	return c.String()
}
