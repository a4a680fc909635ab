package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/draw"
	"warmby/sim/reference"
	"warmby/sim/rehearse"
	"warmby/sim/search"
)

const improveUsage = `Looks for a better drill order. Ten lines say what is gained on the best order of
the file, how often all is well with it (in time and nobody too cold), and what
each person does; a screen then tells the whole sequence of each person, what
every target pays, and the changes that win most. --all prints everything: the
order to paste, what no order can beat, how the figures were made.

Sequences, crews, groups, who is in them and their rule are tried by playing the
drill; what is found is judged on runs that the search has not seen.

Usage:
  warmby improve [FILE] [flags]

Examples:
  warmby improve --evaluations 2000 --runs 200
  warmby improve mine.yaml --aim finish --evaluations 4000 --write better.yaml
  warmby improve --what-if "two down" --what-if "one burner dead" --evaluations 2000 --runs 200
  warmby improve kestrel-fell --aim heated --aim "hot drink" --runs 0 --evaluations 4000

An aim is "all well" (every target met and nobody over the cold limit, in as many
evenings as can be), "all targets", "nobody cold", or a milestone, or finish, with
mean, p50, p80, p90 or p95: the mean, or the moment by which it is reached in 50
to 95 of 100 runs; the mean unless said. Without --aim it is all well, or the
finish where the file has neither targets nor what an account of cold takes.
--at-least "all well 80 %" makes such a share a limit.

No more than --evaluations drills are played in search: each run of each order
tried is one. The fresh runs on which what was found is judged come on top, and
--all says how many. A few evaluations suffice to try the file's own orders and
those of simple rules; thousands find what is hard to find.

What no order can beat is reckoned for every run by itself and holds for the mean
or the share asked for; --all gives its 95 % interval.

With several --what-if, or all, an order is looked for that bends least: the
scenario as it stands and each what-if are cases with the same luck, and an order
is as good as in the case in which it does worst; of equals the one that is best
on average over the cases is taken. A case in which no order reaches the aim is
named and left out. Each case counts as a drill played.

Interrupted, it prints the best so far.

How intervals and comparisons are made, and what they do not say: warmby help odds.
`

type improveFlags struct {
	ask.Answer
	aims, inTime, byDark []string
	odds, coldOdds       string
	atLeast              []string
	whatIfs              []string
	keepCold             bool
	evaluations, runs    int
	seed                 uint64
	workers              int
	write, name          string
}

func improveCommand(e *environment) *cobra.Command {
	var f improveFlags
	cmd := &cobra.Command{
		Use:               "improve [FILE]",
		Short:             "a better order, and how far it can be from the best possible",
		Long:              improveUsage,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			if cmd.Flags().Changed("odds") && len(f.byDark)+len(f.inTime) == 0 {
				return &mistake.Usage{What: "--odds says how often --by-dark and --in-time must be met, and neither is given", Cure: "such as --in-time heated --odds \"80 %\""}
			}
			return e.improve(cmd.Context(), args, f)
		},
	}
	flags := cmd.Flags()
	flags.StringArrayVar(&f.aims, "aim", nil, "what to look for: `AIM`, see above; several for a choice; else all well")
	flags.BoolVar(&f.keepCold, "keep-cold-limit", false, "nobody may pass the cold limit, in 9 evenings of 10")
	flags.StringVar(&f.coldOdds, "cold-odds", "", "in how many evenings nobody may pass the cold limit: `SHARE`")
	flags.StringArrayVar(&f.atLeast, "at-least", nil, "how often all must be well: `GOAL SHARE`, such as \"all well 80 %\"")
	flags.StringArrayVar(&f.byDark, "by-dark", nil, "`MILESTONE` that must be reached before dark, with --odds")
	flags.StringArrayVar(&f.inTime, "in-time", nil, "`MILESTONE` whose own target must be met, with --odds")
	flags.StringVar(&f.odds, "odds", "90 %", "how often --by-dark and --in-time must be met: `SHARE`")
	ask.WhatIfs(flags, &f.whatIfs)
	flags.IntVar(&f.evaluations, "evaluations", search.DefaultEvaluations, "play no more than `N` drills in search, --runs apart")
	flags.IntVar(&f.runs, "runs", 2000, "judge orders on `N` fresh runs; 0 for usual values only")
	ask.Seed(flags, &f.seed)
	ask.Workers(flags, &f.workers)
	flags.StringVar(&f.write, "write", "", "write the scenario with the order added to it: `FILE`")
	flags.StringVar(&f.name, "name", "", "what to call the order found: `NAME`; else what it is good for")
	f.Declare(flags, "the order, or of the choice")
	for _, flag := range []string{"aim", "by-dark", "in-time"} {
		cmd.RegisterFlagCompletionFunc(flag, e.completeOf(ask.MilestoneNames))
	}
	cmd.RegisterFlagCompletionFunc("what-if", e.completeOf(ask.WhatIfNames))
	return cmd
}

// improvement is what was asked and what was found.
type improvement struct {
	name, arg string // of the scenario: for people, and on a command line
	flags     improveFlags
	d         *sim.Drill // without an order
	own       []string   // names of the scenario's own orders
	options   search.Options
	result    *search.Result
}

func (e *environment) improve(ctx context.Context, args []string, f improveFlags) error {
	m, src, err := e.seek(ctx, args, f)
	if err != nil {
		return err
	}
	told, err := m.told()
	if err != nil {
		return err
	}
	// A page or picture that fails keeps nobody from the order in the file.
	err = e.answer(f.Answer, told.Report(), func() any { return m.document(told) }, told.Drawing)
	if wrong := e.writeBetter(m, src); err == nil {
		err = wrong
	}
	if err == nil && m.result.Interrupted {
		e.note("interrupted; this is the best so far")
		return &exitError{exitInterrupted}
	}
	return err
}

// seek settles what is asked and searches.
func (e *environment) seek(ctx context.Context, args []string, f improveFlags) (*improvement, *ask.Source, error) {
	if err := e.checkImprove(&f); err != nil {
		return nil, nil, err
	}
	src, err := e.loadArgs(args)
	if err != nil {
		return nil, nil, err
	}
	s, err := src.ChangedBy(f.oneWhatIf())
	if err != nil {
		return nil, nil, err
	}
	m, err := newImprovement(src, s, f)
	if err != nil {
		return nil, nil, err
	}
	if err := m.settleCases(src); err != nil {
		return nil, nil, err
	}
	if err := m.tryWrite(src); err != nil {
		return nil, nil, err
	}
	return m, src, e.searchOrders(ctx, m)
}

// told is what was found, for its report.
func (m *improvement) told() (report.Improvement, error) {
	r := m.result
	told := report.Improvement{
		Result: r, WhatIf: m.flags.oneWhatIf(), Seed: m.flags.seed, Limited: len(m.options.InTime)+len(m.options.AtLeast) > 0 || m.options.ColdLimit,
		KeepCold: m.flags.keepCold || m.flags.coldOdds != "", Unlucky: m.flags.runs > 0 && !rehearse.IsDrawn(m.d), InFile: len(m.own) == 0,
		Over: m.overLimit(r.Orders[0]), OverBefore: m.overLimit(r.Before), Calls: m.cautions(),
		Repeat: m.repeat(), Cautions: ask.CautionsCommand(m.arg),
	}
	for _, f := range r.Orders {
		yaml := ""
		if f.Known == "" {
			yaml = scenarios.OrderYAML(m.d, f.Order, f.Order.Name, 2)
		}
		told.YAML = append(told.YAML, yaml)
	}
	d := m.d.Under(r.Orders[0].Order)
	tl := reference.Play(d, draw.Usual(d))
	told.Played = &rehearse.Rehearsal{Timeline: tl, Accounts: cold.Account(tl)}
	return told, nil
}

// overLimit names those who pass the cold limit with usual values.
func (m *improvement) overLimit(f search.Found) (names []string) {
	for _, who := range search.OverLimit(m.d, f.Order) {
		names = append(names, m.d.People[who].Name)
	}
	return names
}

// tryWrite puts some order of the name asked for into the file, before anything
// is searched: it tells whether the one found can be put there.
func (m *improvement) tryWrite(src *ask.Source) error {
	if m.flags.write == "" {
		return nil
	}
	_, err := src.Scenario.WithOrders(src.Data, m.d.FileOrder(m.freshName(cmp.Or(m.flags.name, goodFor(nil)), nil)))
	var problems *scenarios.Problems
	switch {
	case errors.Is(err, scenarios.ErrNoPlaceForOrder):
		return &mistake.Input{What: fmt.Sprintf("%s: %v", m.name, err), Cure: "leave --write out, and paste the order that is printed"}
	case errors.As(err, &problems):
		return &mistake.Usage{What: fmt.Sprintf("--name %.40q cannot stand in a scenario file: %s", m.flags.name, problems.List[0].Message), Cure: "a short name will do, such as --name \"improved\""}
	case err != nil:
		return fmt.Errorf("cannot write %s: %w", m.flags.write, err)
	}
	return nil
}

// searchOrders searches, telling on standard error how far it has got.
func (e *environment) searchOrders(ctx context.Context, m *improvement) error {
	e.tidies.Store(true) // an interrupt gives the best so far
	told := e.progress("improve")
	m.options.Progress = func(done, of int, best sim.Time) { told.update(int64(done), int64(of-done)) }
	start := time.Now()
	var err error
	m.result, err = search.Improve(ctx, m.d, m.options)
	told.end()
	var never *sim.NeverError
	switch {
	case errors.Is(err, search.ErrNothingToSearch):
		return &mistake.Input{What: m.name + ": " + err.Error(), Cure: "warmby rehearse plays it"}
	case errors.As(err, &never):
		return fmt.Errorf("%s: %w", m.name, err)
	case err != nil:
		return fmt.Errorf("%s: %w", m.name, err)
	}
	e.note("searched for %.1f s", time.Since(start).Seconds())
	m.nameOrders()
	return nil
}

// shown returns the orders that are written out: the best or, with several aims,
// the whole front.
func (m *improvement) shown() []search.Found {
	if len(m.result.Aims) > 1 {
		return m.result.Orders
	}
	return m.result.Orders[:1]
}

// writeBetter writes the scenario with the orders found.
func (e *environment) writeBetter(m *improvement, src *ask.Source) error {
	if m.flags.write == "" {
		return nil
	}
	var add []sim.Order
	for _, f := range m.shown() {
		if f.Known == "" {
			add = append(add, f.Order)
		}
	}
	if len(add) == 0 {
		what := "the file's own orders"
		if len(m.own) == 0 {
			what = ask.FileOrder
		}
		e.note("nothing better than %s was found: %s was not written", what, m.flags.write)
		return nil
	}
	data, err := src.Scenario.WithOrders(src.Data, add...)
	if errors.Is(err, scenarios.ErrNoPlaceForOrder) {
		return &mistake.Input{What: fmt.Sprintf("%s: %v", m.name, err), Cure: "paste the order by hand"}
	}
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", m.flags.write, err)
	}
	if err := e.writeFiles(m.flags.Force, outFile{m.flags.write, data}); err != nil {
		return err
	}
	e.note("wrote %s, with %s added", m.flags.write, report.Counted(len(add), "order"))
	return nil
}

// repeat returns the command that searches the same again.
func (m *improvement) repeat() string {
	c := ask.CommandOf("improve", ask.FileWord(m.arg))
	add := func(flag string, values []string) {
		for _, v := range values {
			c.With(flag, v)
		}
	}
	add("aim", m.flags.aims)
	if m.flags.keepCold {
		c.Flag("keep-cold-limit")
	}
	c.With("cold-odds", m.flags.coldOdds)
	add("at-least", m.flags.atLeast)
	add("by-dark", m.flags.byDark)
	add("in-time", m.flags.inTime)
	if len(m.options.InTime) > 0 {
		c.With("odds", m.flags.odds)
	}
	add("what-if", m.flags.whatIfs)
	return c.With("name", m.flags.name).With("evaluations", m.flags.evaluations).With("runs", m.flags.runs).With("seed", m.flags.seed).String()
}
