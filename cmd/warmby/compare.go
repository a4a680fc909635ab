package main

import (
	"context"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/doubt"
	"warmby/sim/rehearse"
	"warmby/sim/stats"
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
	orders, whatIfs, primary []string
	seed                     uint64
	runs, workers            int
	untilTold                int      // runs at most; 0 when not asked for
	differences, moves       []string // files for further pictures
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
	flags.IntVar(&f.untilTold, "until-told", 0, "play on, twice as many each time, until orders are told apart or `N` runs are played")
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

// comparison is what was compared and what came out.
type comparison struct {
	name, arg string // of the scenario: for people, and on a command line
	flags     compareFlags
	d         *sim.Drill // the first drill, for what all have in common
	primary   []int      // milestones
	runs      int
	until     *compare.Told // how they came to be so many; nil when that was settled before
	asIs      *bout
	whatIfs   []*bout
	leftOut   [][]compare.LeftOut // by order
	moves     []*compare.Moves    // by order, of the primary milestones; nil where not asked
	drawn     bool                // whether anything is left to luck
	doubted   *report.DoubtedBout // nil where there is nothing to doubt
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
	c, err := newComparison(src, f)
	if err != nil {
		return err
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

// newComparison settles which orders, what-ifs and milestones are asked for.
func newComparison(src *ask.Source, f compareFlags) (*comparison, error) {
	orders, err := src.Orders(f.orders)
	if err != nil {
		return nil, err
	}
	if len(orders) == 0 {
		orders = src.Scenario.Orders()
	}
	if len(orders) == 0 {
		orders = []string{""} // tasks in file order
	}
	if len(orders) < 2 && len(f.differences) > 0 {
		return nil, &mistake.Usage{What: "--picture-differences needs two orders or more, got " + report.Counted(len(orders), "order"), Cure: "leave --order out to compare all of the file"}
	}
	c := &comparison{name: src.Name, arg: src.Arg, asIs: &bout{orders: orders}}
	wanted, err := src.WhatIfs(f.whatIfs)
	if err != nil {
		return nil, err
	}
	for _, name := range wanted {
		c.whatIfs = append(c.whatIfs, &bout{whatIf: name, orders: orders})
	}
	if c.d, err = src.Scenario.Drill(orders[0]); err != nil {
		return nil, err
	}
	if err := c.settlePrimary(f.primary, src.Name); err != nil {
		return nil, err
	}
	flag, most := "runs", f.runs
	if f.untilTold > 0 {
		flag, most = "until-told", f.untilTold
	}
	if moments := most * len(orders) * (1 + len(wanted)) * len(c.d.Milestones); moments > ask.MostMoments || most > ask.MostMoments {
		return nil, &mistake.Usage{What: fmt.Sprintf("--%s %d of %s would not fit into memory", flag, most, report.Counted(len(orders)*(1+len(wanted)), "drill")), Cure: "ask for fewer runs, orders or what-ifs; 10000 runs tell a mean to a few seconds"}
	}
	c.flags, c.drawn, c.runs = f, rehearse.IsDrawn(c.d), f.runs
	return c, nil
}

// settlePrimary settles the milestones that the question is about: those asked
// for, else those of [compare.Primary].
func (c *comparison) settlePrimary(names []string, where string) error {
	var there []string
	for _, m := range c.d.Milestones {
		there = append(there, m.Name)
	}
	names, err := ask.Asked(names, there, "milestone", where)
	if err != nil {
		return err
	}
	if len(names) == 0 {
		c.primary = compare.Primary(c.d)
		return nil
	}
	for i, m := range c.d.Milestones {
		if slices.Contains(names, m.Name) {
			c.primary = append(c.primary, i)
		}
	}
	return nil
}

// play plays everything that was asked for.
func (c *comparison) play(ctx context.Context, s *scenarios.Scenario) error {
	if err := c.settleRuns(ctx, s); err != nil {
		return fmt.Errorf("%s: %w", c.name, err)
	}
	b := c.batch()
	if err := c.asIs.play(ctx, s, b); err != nil {
		return fmt.Errorf("%s: %w", c.name, err)
	}
	for _, w := range c.whatIfs {
		changed, err := s.WhatIf(w.whatIf)
		if err != nil {
			return err
		}
		if err := w.play(ctx, changed, b); err != nil {
			return err
		}
	}
	var err error
	if c.leftOut, err = compare.LeaveOut(ctx, c.asIs.played, b); err != nil {
		return err
	}
	for _, w := range append([]*bout{c.asIs}, c.whatIfs...) {
		w.Standing = compare.Stand(w.played, c.primary)
		w.well = compare.HowWell(w.played, w.cold)
	}
	return c.askWhatMoves(ctx, b)
}

// settleRuns looks how many runs it takes until the orders are told apart, if that
// is asked for.
func (c *comparison) settleRuns(ctx context.Context, s *scenarios.Scenario) error {
	if c.flags.untilTold == 0 {
		return nil
	}
	drills, err := c.asIs.drills(s)
	if err != nil {
		return err
	}
	told, err := compare.UntilTold(ctx, drills, c.batch(), c.primary, c.flags.untilTold)
	c.runs, c.until = told.Runs, &told
	return err
}

// doubt plays all orders again with their numbers doubted.
func (c *comparison) doubt(ctx context.Context, n doubt.Numbers) (err error) {
	if !c.drawn || !n.Any(c.d) {
		return nil
	}
	b := n.Batch(c.batch())
	b.Looks = stats.Looks{} // their number is settled
	w := &report.DoubtedBout{Numbers: n, Runs: b.Runs}
	var drills []*sim.Drill
	for _, p := range c.asIs.played {
		drills = append(drills, p.Drill)
	}
	played, accounts, err := compare.PlayCold(ctx, drills, b)
	if err != nil {
		return err
	}
	w.Played, w.Well = played, compare.HowWell(played, accounts)
	c.doubted = w
	return nil
}

func (c *comparison) batch() compare.Batch {
	b := compare.Batch{Seed: c.flags.seed, Runs: c.runs, Workers: c.flags.workers}
	if c.until != nil {
		b.Looks = c.until.Looks()
	}
	return b
}

// askWhatMoves asks what moves the primary milestones: under every order for
// JSON, else only under those that text shows, the soonest at some milestone.
func (c *comparison) askWhatMoves(ctx context.Context, b compare.Batch) error {
	var asked []int
	for i := range c.asIs.orders {
		shown := func(m int) bool { return c.asIs.Ranking(m)[0] == i }
		if c.flags.JSON || slices.ContainsFunc(c.primary, shown) {
			asked = append(asked, i)
		}
	}
	var played []*compare.Played
	for _, i := range asked {
		played = append(played, c.asIs.played[i])
	}
	moves, err := compare.WhatMoves(ctx, played, c.primary, b)
	if err != nil {
		return err
	}
	c.moves = make([]*compare.Moves, len(c.asIs.orders))
	for k, i := range asked {
		c.moves[i] = moves[k]
	}
	return nil
}

// told is the comparison for its report.
func (c *comparison) told() report.Comparison {
	told := report.Comparison{
		Drill: c.d, Seed: c.flags.seed, Runs: c.runs, Until: c.until, Primary: c.primary, Drawn: c.drawn, AsIs: c.asIs.told(),
		LeftOut: c.leftOut, Moves: c.moves, Doubted: c.doubted, All: c.cautions(), Repeat: c.repeat(), Cautions: ask.CautionsCommand(c.arg),
	}
	for _, w := range c.whatIfs {
		told.WhatIfs = append(told.WhatIfs, w.told())
	}
	return told
}

// warnings returns what should keep readers from leaning on the figures.
func (c *comparison) warnings() (list []string) {
	told := c.told()
	for _, w := range append(told.Warnings(), told.Skewed()...) {
		list = append(list, w.Write(report.Full))
	}
	return list
}

// repeat returns the command that compares the same again.
func (c *comparison) repeat() string {
	line := ask.CommandOf("compare", ask.FileWord(c.arg))
	for _, f := range []struct {
		flag   string
		values []string
	}{{"order", c.flags.orders}, {"what-if", c.flags.whatIfs}, {"primary", c.flags.primary}} {
		for _, v := range f.values {
			line.With(f.flag, v)
		}
	}
	line.With("runs", c.flags.runs)
	if c.flags.untilTold > 0 {
		line.With("until-told", c.flags.untilTold)
	}
	return line.With("seed", c.flags.seed).String()
}
