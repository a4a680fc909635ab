package main

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/compare"
)

const compareUsage = `Plays all drill orders of a scenario many times under the same luck, and says
when each milestone is reached, how sure that is, and which order is ahead and
by how much. It also tells what leaving out each task marked "can wait" wins,
and on which tasks the milestones hang.

Usage:
  warmby compare [FILE] [flags]

Examples:
  warmby compare
  warmby compare kestrel-fell --order "shelter first" --order "drink first"
  warmby compare mine.yaml --runs 10000 --what-if all --primary heated --json
`

type compareFlags struct {
	orders, whatIfs, primary []string
	seed                     uint64
	runs, workers            int
	json                     bool
}

// allWhatIfs stands for every what-if of a file.
const allWhatIfs = "all"

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
	flags.StringArrayVar(&f.whatIfs, "what-if", nil, "also play it as changed by the what-if `NAME` of the file, or by all")
	flags.StringArrayVar(&f.primary, "primary", nil, "milestone `NAME` that the question is about; unless given, those with a target")
	flags.IntVar(&f.runs, "runs", 2000, "how many runs of each order to play: `N`")
	flags.Uint64Var(&f.seed, "seed", 1, "draw the runs with this seed `N`")
	flags.IntVar(&f.workers, "workers", 0, "how many processors to use, all unless given: `N`; results do not depend on it")
	flags.BoolVar(&f.json, "json", false, "print the comparison as JSON")
	cmd.RegisterFlagCompletionFunc("order", e.completeOrder)
	return cmd
}

// mostMoments bounds the moments that a comparison keeps in memory, 8 bytes
// each.
const mostMoments = 100_000_000

func (f *compareFlags) check() error {
	if f.runs < 1 {
		return &usageError{fmt.Sprintf("--runs expects a whole number, 1 or more, got %d", f.runs), "2000 are played unless you say otherwise"}
	}
	if f.workers < 0 {
		return &usageError{fmt.Sprintf("--workers expects a whole number, 1 or more, got %d", f.workers), "left out, all processors are used"}
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
	moves     []*compare.Moves    // by order; of the primary milestones
	drawn     bool                // whether anything is left to luck
}

func (e *environment) compare(ctx context.Context, args []string, f compareFlags) error {
	if err := f.check(); err != nil {
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
	if err := c.play(ctx, src.scenario); err != nil {
		return err
	}
	if f.json {
		return writeJSON(e.stdout, c.document())
	}
	_, err = fmt.Fprint(e.stdout, c.text(e.width()))
	return err
}

// newComparison settles which orders, what-ifs and milestones are asked for.
func newComparison(src *source, f compareFlags) (*comparison, error) {
	orders, err := asked(f.orders, src.scenario.Orders(), "order", src.name)
	if err != nil {
		return nil, err
	}
	if len(f.orders) == 0 {
		orders = src.scenario.Orders()
	}
	if len(orders) == 0 {
		orders = []string{""} // tasks in file order
	}
	c := &comparison{name: src.name, arg: src.arg, asIs: &bout{orders: orders}}
	wanted := f.whatIfs
	if slices.Contains(wanted, allWhatIfs) {
		if wanted = src.scenario.WhatIfs(); len(wanted) == 0 {
			return nil, &usageError{"--what-if all: " + src.name + " has no what-ifs", "they stand in the file under \"what if\""}
		}
	}
	if wanted, err = asked(wanted, src.scenario.WhatIfs(), "what-if", src.name); err != nil {
		return nil, err
	}
	for _, name := range wanted {
		c.whatIfs = append(c.whatIfs, &bout{whatIf: name, orders: orders})
	}
	if c.d, err = src.scenario.Drill(orders[0]); err != nil {
		return nil, err
	}
	if err := c.settlePrimary(f.primary, src.name); err != nil {
		return nil, err
	}
	if moments := f.runs * len(orders) * (1 + len(wanted)) * len(c.d.Milestones); moments > mostMoments || f.runs > mostMoments {
		return nil, &usageError{fmt.Sprintf("--runs %d of %s would not fit into memory", f.runs, counted(len(orders)*(1+len(wanted)), "drill")),
			"ask for fewer runs, orders or what-ifs; 10000 runs tell a mean to a few seconds"}
	}
	c.flags, c.drawn = f, isDrawn(c.d)
	return c, nil
}

// asked returns the names asked for, each once, or says which is not there.
func asked(names, there []string, what, where string) ([]string, error) {
	var list []string
	for _, name := range names {
		if !slices.Contains(there, name) {
			err := &usageError{fmt.Sprintf("%s has no %s %q", where, what, name), fmt.Sprintf("the %ss of %s: %s", what, where, orNone(there))}
			if near := nearest(name, there); len(near) > 0 {
				err.hint = "did you mean " + quoted(near) + "?"
			}
			return nil, err
		}
		if !slices.Contains(list, name) {
			list = append(list, name)
		}
	}
	return list, nil
}

// settlePrimary settles the milestones that the question is about: those asked
// for; else those with a target; else all that are named; else the finish.
func (c *comparison) settlePrimary(names []string, where string) error {
	var there []string
	for _, m := range c.d.Milestones {
		there = append(there, m.Name)
	}
	names, err := asked(names, there, "milestone", where)
	if err != nil {
		return err
	}
	pick := func(wanted func(i int, m sim.Milestone) bool) {
		for i, m := range c.d.Milestones {
			if len(c.primary) < len(c.d.Milestones) && wanted(i, m) {
				c.primary = append(c.primary, i)
			}
		}
	}
	if len(names) > 0 {
		pick(func(_ int, m sim.Milestone) bool { return slices.Contains(names, m.Name) })
		return nil
	}
	pick(func(_ int, m sim.Milestone) bool { return m.By != sim.Never })
	if c.primary == nil {
		pick(func(i int, _ sim.Milestone) bool { return i < len(c.d.Milestones)-1 })
	}
	if c.primary == nil {
		c.primary = []int{len(c.d.Milestones) - 1}
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
	if c.moves, err = compare.WhatMoves(ctx, c.asIs.played, c.primary, b); err != nil {
		return err
	}
	c.asIs.judge(c.primary)
	for _, w := range c.whatIfs {
		if w.never == "" {
			w.judge(c.primary)
		}
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
