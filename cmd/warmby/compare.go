package main

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/compare"
)

const compareUsage = `Plays all drill orders of a scenario many times under the same luck, and says
when each milestone is reached, how sure that is, and which order is ahead and
by how much. It also tells in how many runs somebody passes the cold limit, what
leaving out each task marked "can wait" wins, and on which tasks the milestones
hang.

Usage:
  warmby compare [FILE] [flags]

Examples:
  warmby compare
  warmby compare kestrel-fell --order "shelter first" --order "drink first" --picture odds.svg
  warmby compare mine.yaml --runs 10000 --what-if all --primary heated --json

How intervals and comparisons are made, and what they do not say: warmby help odds.
`

type compareFlags struct {
	orders, whatIfs, primary []string
	seed                     uint64
	runs, workers            int
	pictures                 comparePictures
	json, force              bool
}

func compareCommand(e *environment) *cobra.Command {
	var f compareFlags
	cmd := &cobra.Command{
		Use:               "compare [FILE]",
		Short:             "all orders under the same luck: when, how sure, which is ahead",
		Long:              compareUsage,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			return e.compare(cmd.Context(), args, f)
		},
	}
	flags := cmd.Flags()
	flags.StringArrayVar(&f.orders, "order", nil, "compare only this drill order `NAME`; may be given several times")
	flags.StringArrayVar(&f.whatIfs, "what-if", nil, "also play what the file asks under what if: `NAME` or all")
	flags.StringArrayVar(&f.primary, "primary", nil, "milestone that it is about: `NAME`; else those with a target")
	flags.IntVar(&f.runs, "runs", 2000, "how many runs of each order to play: `N`")
	flags.Uint64Var(&f.seed, "seed", 1, "draw the runs with this seed `N`")
	flags.IntVar(&f.workers, "workers", 0, "use `N` processors, else all; results do not depend on it")
	flags.StringArrayVar(&f.pictures.odds, "picture", nil, "write a picture of the odds: `FILE`.svg, .png or .pdf")
	flags.StringArrayVar(&f.pictures.differences, "picture-differences", nil, "write a picture of the differences: `FILE`")
	flags.StringArrayVar(&f.pictures.moves, "picture-moves", nil, "write a picture of what moves each milestone: `FILE`")
	flags.BoolVar(&f.json, "json", false, "print the comparison as JSON")
	flags.BoolVar(&f.force, "force", false, "overwrite files that exist")
	cmd.RegisterFlagCompletionFunc("order", e.completeOrder)
	cmd.RegisterFlagCompletionFunc("what-if", e.completeOf(ask.WhatIfNames))
	cmd.RegisterFlagCompletionFunc("primary", e.completeOf(ask.MilestoneNames))
	return cmd
}

// completeOf completes a name that the scenario of the command line has.
func (e *environment) completeOf(names func(*scenarios.Scenario) []string) cobra.CompletionFunc {
	return func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		s, err := e.loadToComplete(args)
		if err != nil {
			return nil, cobra.ShellCompDirectiveError
		}
		return names(s.Scenario), cobra.ShellCompDirectiveNoFileComp
	}
}

// mostMoments bounds the moments that a comparison keeps in memory, 8 bytes
// each.
const mostMoments = 100_000_000

func (f *compareFlags) check() error {
	if f.runs < 1 {
		return &usageError{fmt.Sprintf("--runs expects a whole number, 1 or more, got %d", f.runs), "2000 are played unless you say otherwise"}
	}
	if f.workers < 0 || f.workers > mostWorkers {
		return &usageError{fmt.Sprintf("--workers expects a whole number from 1 to %d, got %d", mostWorkers, f.workers), "left out, all processors are used"}
	}
	if f.workers == 0 {
		f.workers = runtime.GOMAXPROCS(0)
	}
	return nil
}

// comparison is what was compared and what came out.
type comparison struct {
	name, arg string // of the scenario: for people, and on a command line
	flags     compareFlags
	d         *sim.Drill // the first drill, for what all have in common
	primary   []int      // milestones
	asIs      *bout
	whatIfs   []*bout
	leftOut   [][]compare.LeftOut // by order
	moves     []*compare.Moves    // by order, of the primary milestones; nil where not asked
	drawn     bool                // whether anything is left to luck
}

func (e *environment) compare(ctx context.Context, args []string, f compareFlags) error {
	if err := f.check(); err != nil {
		return err
	}
	if err := e.checkPictures(f.pictures.all(), f.force); err != nil {
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
	return e.tell(func() error { return e.printComparison(c) }, func() error { return e.writeComparison(c) })
}

func (e *environment) printComparison(c *comparison) error {
	if c.flags.json {
		return writeJSON(e.stdout, c.document())
	}
	_, err := fmt.Fprint(e.stdout, c.text(e.width()))
	return err
}

// newComparison settles which orders, what-ifs and milestones are asked for.
func newComparison(src *ask.Source, f compareFlags) (*comparison, error) {
	orders, err := ask.Asked(f.orders, src.Scenario.Orders(), "order", src.Name)
	if err != nil {
		return nil, err
	}
	if len(f.orders) == 0 {
		orders = src.Scenario.Orders()
	}
	if len(orders) == 0 {
		orders = []string{""} // tasks in file order
	}
	if len(orders) < 2 && len(f.pictures.differences) > 0 {
		return nil, &usageError{"--picture-differences needs two orders or more, got " + counted(len(orders), "order"), "leave --order out to compare all of the file"}
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
	if moments := f.runs * len(orders) * (1 + len(wanted)) * len(c.d.Milestones); moments > mostMoments || f.runs > mostMoments {
		return nil, &usageError{fmt.Sprintf("--runs %d of %s would not fit into memory", f.runs, counted(len(orders)*(1+len(wanted)), "drill")),
			"ask for fewer runs, orders or what-ifs; 10000 runs tell a mean to a few seconds"}
	}
	c.flags, c.drawn = f, isDrawn(c.d)
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

func (c *comparison) isPrimary(milestone int) bool { return slices.Contains(c.primary, milestone) }

// play plays everything that was asked for.
func (c *comparison) play(ctx context.Context, s *scenarios.Scenario) error {
	b := compare.Batch{Seed: c.flags.seed, Runs: c.flags.runs, Workers: c.flags.workers}
	if err := c.asIs.play(ctx, s, b); err != nil {
		return fmt.Errorf("%s: %w", c.name, err)
	}
	if err := c.asIs.stopped(); err != nil {
		return fmt.Errorf("%s: %w", c.name, err)
	}
	for _, w := range c.whatIfs {
		changed, err := s.WhatIf(w.whatIf)
		if err != nil {
			return err
		}
		var never *sim.NeverError
		switch err := w.play(ctx, changed, b); {
		case errors.As(err, &never):
			w.never = err.Error()
		case err != nil:
			return err
		default:
			if err := w.stopped(); err != nil {
				w.never = err.Error()
			}
		}
	}
	var err error
	if c.leftOut, err = compare.LeaveOut(ctx, c.asIs.played, b); err != nil {
		return err
	}
	for _, w := range append([]*bout{c.asIs}, c.whatIfs...) {
		if w.never != "" {
			continue
		}
		w.Standing = compare.Stand(w.played, c.primary)
		if w.cold, err = compare.HowCold(ctx, w.played, b); err != nil {
			return err
		}
	}
	return c.askWhatMoves(ctx, b)
}

// askWhatMoves asks what moves the primary milestones: under every order for
// JSON, else only under those that text shows, the soonest at some milestone.
func (c *comparison) askWhatMoves(ctx context.Context, b compare.Batch) error {
	var asked []int
	for i := range c.asIs.orders {
		shown := func(m int) bool { return c.asIs.Ranking(m)[0] == i }
		if c.flags.json || slices.ContainsFunc(c.primary, shown) {
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

// repeat returns the command that compares the same again.
func (c *comparison) repeat() string {
	words := []string{"warmby", "compare"}
	if c.arg != library.Default {
		words = append(words, shellWord(c.arg))
	}
	add := func(flag string, values []string) {
		for _, v := range values {
			words = append(words, "--"+flag, shellWord(v))
		}
	}
	add("order", c.flags.orders)
	add("what-if", c.flags.whatIfs)
	add("primary", c.flags.primary)
	return strings.Join(append(words, fmt.Sprintf("--runs %d --seed %d", c.flags.runs, c.flags.seed)), " ")
}
