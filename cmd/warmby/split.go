package main

import (
	"context"
	"fmt"
	"slices"
	"strconv"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/rehearse"
	"warmby/sim/split"
)

const splitUsage = `Says what one more person is worth, and which split is for which team: ten lines,
then a screen; --all prints everything, with intervals and the best split to be
pasted. Team sizes and splits of the team into up to 3 groups are tried out beside
the orders of the file, all under the same luck; what one more person, skill, tool
or stove is worth, and what a better-packed load, is told on top of a good order.
Best is the soonest split that does not ruin the evening: all is well about as often
as with the best order of the file.

With several what-ifs the scenario as it stands and each of them are cases, and it
also says which split bends least: the one that is earliest in its worst case.

Usage:
  warmby split [FILE] [flags]

Examples:
  warmby split harl-plateau --runs 100 --evaluations 20000 --picture team.svg
  warmby split kestrel-fell --people 6 --milestone "hot drink" --runs 100 --evaluations 20000
  warmby split harl-plateau --people 4 --what-if all --runs 0 --evaluations 2000
  warmby split mine.yaml --people 3..4 --runs 100 --json

How intervals and comparisons are made, and what they do not say: warmby help odds.
`

type splitFlags struct {
	ask.Answer
	people, order, milestone string
	whatIfs                  []string
	evaluations, runs        int
	seed                     uint64
	workers                  int
}

func splitCommand(e *environment) *cobra.Command {
	var f splitFlags
	cmd := &cobra.Command{
		Use:               "split [FILE]",
		Short:             "team sizes and groups tried out; what one more is worth",
		Long:              splitUsage,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := f.check(cmd.Flags().Changed("evaluations")); err != nil {
				return err
			}
			return e.split(cmd.Context(), args, f)
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&f.people, "people", "", "team sizes to try, as 4..8: `SIZES`; else from the least to the team's own")
	ask.Milestone(flags, &f.milestone, "heated, else the last one")
	flags.StringVar(&f.order, "order", "", "tell what things are worth under the order `NAME`; else the first")
	flags.StringArrayVar(&f.whatIfs, "what-if", nil, "play the what-if `NAME` of the file; several, or all, as cases")
	flags.IntVar(&f.evaluations, "evaluations", 0, "most drills to play in search: `N`; else as many as it takes")
	ask.Runs(flags, &f.runs, 500, " of what was chosen; 0 for usual values only")
	ask.Seed(flags, &f.seed)
	ask.Workers(flags, &f.workers)
	f.Declare(flags, "time against team size")
	cmd.RegisterFlagCompletionFunc("order", e.completeOrder)
	cmd.RegisterFlagCompletionFunc("what-if", e.completeOf(ask.WhatIfNames))
	cmd.RegisterFlagCompletionFunc("milestone", e.completeOf(ask.MilestoneNames))
	return cmd
}

// mostSplitRuns keeps what a split plays within memory.
const mostSplitRuns = 100_000

// check checks what can be checked without a scenario, and settles workers;
// capped says that --evaluations was given.
func (f *splitFlags) check(capped bool) error {
	switch {
	case capped && (f.evaluations < 1 || f.evaluations > ask.MostEvaluations):
		return &mistake.Usage{What: fmt.Sprintf("--evaluations expects a whole number from 1 to %d, got %d", ask.MostEvaluations, f.evaluations), Cure: "left out, as many drills are played as it takes"}

	case f.runs < 0:
		return &mistake.Usage{What: fmt.Sprintf("--runs expects a whole number, 0 or more, got %d", f.runs), Cure: "0 plays usual values only"}
	case f.runs == 1:
		return &mistake.Usage{What: "--runs expects 0, or 2 or more, got 1", Cure: "0 plays usual values only; 500 tell a mean to some seconds"}
	case f.runs > mostSplitRuns:
		return &mistake.Usage{What: fmt.Sprintf("--runs expects %d at most, got %d", mostSplitRuns, f.runs), Cure: "500 tell a mean to some seconds"}
	}
	return ask.SettleWorkers(&f.workers)
}

// splitting is what was asked and what came out.
type splitting struct {
	name, arg string // of the scenario: for people, and on a command line
	flags     splitFlags
	d         *sim.Drill // under the first order
	game      *split.Game
	asked     split.Question
	cases     []*ask.Case
	answer    *split.Answer
}

func (e *environment) split(ctx context.Context, args []string, f splitFlags) error {
	if err := e.mayAnswer(f.Answer); err != nil {
		return err
	}
	s, err := e.splitting(ctx, args, f)
	if err != nil {
		return err
	}
	told := s.told()
	return e.answer(f.Answer, told.Report(), func() any { return s.document(told) }, told.Drawing)
}

// splitting settles and plays what is asked.
func (e *environment) splitting(ctx context.Context, args []string, f splitFlags) (*splitting, error) {
	src, err := e.loadArgs(args)
	if err != nil {
		return nil, err
	}
	cases, err := src.Cases(f.whatIfs)
	if err != nil {
		return nil, err
	}
	s, err := newSplitting(src, cases, f)
	if err != nil {
		return nil, err
	}
	if s.answer, err = s.game.Answer(ctx, s.asked); err != nil {
		return nil, fmt.Errorf("%s: %w", s.name, err)
	}
	return s, nil
}

// newSplitting settles what is asked.
func newSplitting(src *ask.Source, cases []*ask.Case, f splitFlags) (*splitting, error) {
	s := &splitting{name: src.Name, arg: src.Arg, flags: f, cases: cases}
	scenario := cases[0].Scenario
	if f.order != "" {
		if _, err := ask.Asked([]string{f.order}, scenario.Orders(), "order", src.Name); err != nil {
			return nil, err
		}
	}
	orders, err := drillsOf(scenario)
	if err != nil {
		return nil, err
	}
	s.d = orders[0]
	s.game = &split.Game{Bare: scenario.InFileOrder(), Orders: orders, Seed: f.seed, Runs: f.runs, Workers: f.workers, Evaluations: f.evaluations}
	if err := s.settleMilestone(); err != nil {
		return nil, err
	}
	if err := s.settleQuestion(); err != nil {
		return nil, err
	}
	s.game.Parts = s.game.PartsFor(s.asked.Sizes)
	if least := s.game.LeastEvaluations(); f.evaluations > 0 && f.evaluations < least {
		return nil, &mistake.Usage{What: fmt.Sprintf("--evaluations %d is too few for teams of up to %d under %s: %d at least",
			f.evaluations, s.game.Largest(s.asked.Sizes), report.Counted(len(orders), "order"), least), Cure: "left out, as many drills are played as it takes"}
	}
	return s, nil
}

// drillsOf returns a scenario under each of its orders; in file order where it has
// none.
func drillsOf(s *scenarios.Scenario) (list []*sim.Drill, err error) {
	names := s.Orders()
	if len(names) == 0 {
		names = []string{""}
	}
	for _, name := range names {
		d, err := s.Drill(name)
		if err != nil {
			return nil, err
		}
		list = append(list, d)
	}
	return list, nil
}

// settleMilestone settles what it is about: what was asked for, else the first
// milestone called heated, else the last that is named, else the finish.
func (s *splitting) settleMilestone() error {
	var names []string
	for _, m := range s.d.Milestones {
		names = append(names, m.Name)
	}
	if s.flags.milestone != "" {
		if _, err := ask.Asked([]string{s.flags.milestone}, names, "milestone", s.name); err != nil {
			return err
		}
		s.game.Milestone = slices.Index(names, s.flags.milestone)
		return nil
	}
	s.game.Milestone = slices.Index(names, "heated")
	if s.game.Milestone < 0 {
		s.game.Milestone = max(0, len(names)-2)
	}
	return nil
}

// settleQuestion settles sizes, order and cases.
func (s *splitting) settleQuestion() error {
	sizes, err := sizesOfFlag(s.flags.people)
	if err != nil {
		return err
	}
	s.asked = split.Question{Sizes: sizes, Order: s.flags.order}
	for _, c := range s.cases[1:] {
		in := &split.Case{Name: c.WhatIf, Bare: c.Scenario.InFileOrder()}
		if in.Orders, err = drillsOf(c.Scenario); err != nil {
			return err
		}
		s.asked.Cases = append(s.asked.Cases, in)
	}
	return nil
}

// mostSize is how many people a scenario may have.
const mostSize = 100

// sizesOfFlag reads --people: team sizes, rising, each once.
func sizesOfFlag(text string) ([]int, error) {
	if text == "" {
		return nil, nil
	}
	wrong := &mistake.Usage{What: fmt.Sprintf("--people expects team sizes from 1 to %d, got %q", mostSize, text), Cure: "such as 6, or 4..8"}
	values, err := scenarios.Values(text)
	if err != nil {
		return nil, wrong
	}
	var list []int
	for _, v := range values {
		n, err := strconv.Atoi(v)
		if err != nil || n < 1 || n > mostSize {
			return nil, wrong
		}
		list = append(list, n)
	}
	slices.Sort(list)
	return slices.Compact(list), nil
}

// told is what came out, for its report.
func (s *splitting) told() report.Splits {
	told := report.Splits{
		Answer: s.answer, Game: s.game, Drill: s.d, Order: s.flags.order, Drawn: rehearse.IsDrawn(s.d),
		All: ask.Cautions(s.cases), Repeat: s.repeat(), Cautions: ask.CautionsCommand(s.arg),
	}
	for _, c := range s.cases {
		told.Cases = append(told.Cases, c.WhatIf)
	}
	if shown := s.answer.Shown(); shown != nil && shown.BestSplit().Form().Groups > 0 {
		bare := split.Team(s.game.Bare, shown.People)
		told.YAML = scenarios.OrderYAML(bare, split.OrderOf(bare, shown.BestSplit().Drill), "best split", 2)
	}
	return told
}

// document writes the splits for other programs.
func (s *splitting) document(told report.Splits) document.Splits {
	in := document.SplitsIn{Answer: s.answer, Game: s.game, Drill: s.d, Cases: told.Cases, Scenario: s.name, Repeat: told.Repeat, Cautions: told.All}
	for _, w := range told.Warnings() {
		in.Warnings = append(in.Warnings, w.Write(report.Full))
	}
	return document.SplitsOf(in)
}

// repeat returns the command that asks the same again.
func (s *splitting) repeat() string {
	f := s.flags
	line := ask.CommandOf("split", ask.FileWord(s.arg)).With("people", f.people).With("order", f.order)
	for _, name := range f.whatIfs {
		line.With("what-if", name)
	}
	line.With("milestone", f.milestone)
	if f.evaluations > 0 {
		line.With("evaluations", f.evaluations)
	}
	return line.With("runs", f.runs).With("seed", f.seed).String()
}
