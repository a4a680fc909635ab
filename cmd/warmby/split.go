package main

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/split"
)

const splitUsage = `Tries out team sizes and splits of the team into up to 3 details, beside the
orders of the file, all under the same luck. It says how soon the milestone is
reached with how many people, and what one more person, skill, tool or stove is
worth, and what a better-packed load.

Usage:
  warmby split [FILE] [flags]

Examples:
  warmby split harl-plateau --runs 100 --picture team.svg
  warmby split kestrel-fell --people 6 --milestone "hot drink" --runs 100
  warmby split mine.yaml --people 3..4 --runs 100 --json
`

type splitFlags struct {
	people, milestone, order, whatIf string
	seed                             uint64
	runs, workers                    int
	pictures                         []string
	json, force                      bool
}

func splitCommand(e *environment) *cobra.Command {
	var f splitFlags
	cmd := &cobra.Command{
		Use:               "split [FILE]",
		Short:             "team sizes and details tried out; what one more is worth",
		Long:              splitUsage,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			return e.split(cmd.Context(), args, f)
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&f.people, "people", "", "team sizes to try, as 4..8: `SIZES`; else from the least to the team's own")
	flags.StringVar(&f.milestone, "milestone", "", "milestone that it is about: `NAME`; else heated, else the last one")
	flags.StringVar(&f.order, "order", "", "tell what things are worth under the order `NAME`; else the first")
	flags.StringVar(&f.whatIf, "what-if", "", "play the scenario as changed by the what-if `NAME` of the file")
	flags.IntVar(&f.runs, "runs", 500, "how many runs to tell of what was chosen: `N`")
	flags.Uint64Var(&f.seed, "seed", 1, "draw the runs with this seed `N`")
	flags.IntVar(&f.workers, "workers", 0, "use `N` processors, else all; results do not depend on it")
	flags.StringArrayVar(&f.pictures, "picture", nil, "write a picture of time against team size: `FILE`.svg, .png or .pdf")
	flags.BoolVar(&f.json, "json", false, "print the splits as JSON")
	flags.BoolVar(&f.force, "force", false, "overwrite files that exist")
	cmd.RegisterFlagCompletionFunc("order", e.completeOrder)
	cmd.RegisterFlagCompletionFunc("what-if", e.completeOf((*scenarios.Scenario).WhatIfs))
	cmd.RegisterFlagCompletionFunc("milestone", e.completeOf(milestoneNames))
	return cmd
}

// splitting is what was asked and what came out.
type splitting struct {
	name, arg string // of the scenario: for people, and on a command line
	flags     splitFlags
	d         *sim.Drill // under the first order
	game      *split.Game
	people    []int         // sizes asked for; nil for all that can play
	sizes     []*split.Size // rising
	least     *split.Size   // the largest team under the least that plays; nil when not met
	own       *split.Size   // the team as the file has it
	worth     []worthUnder
}

func (e *environment) split(ctx context.Context, args []string, f splitFlags) error {
	workers, err := checkRuns(f.runs, f.workers)
	if err != nil {
		return err
	}
	if err := e.checkPictures(f.pictures, f.force); err != nil {
		return err
	}
	src, err := e.loadArgs(args)
	if err != nil {
		return err
	}
	scenario, err := src.changedBy(f.whatIf)
	if err != nil {
		return err
	}
	s, err := newSplitting(src, scenario, f)
	if err != nil {
		return err
	}
	s.game.Workers = workers
	if err := s.play(ctx); err != nil {
		return err
	}
	if len(f.pictures) > 0 {
		if err := e.writePicture(s.picture(), f.pictures, f.force); err != nil {
			return err
		}
	}
	if f.json {
		return writeJSON(e.stdout, s.document())
	}
	_, err = fmt.Fprint(e.stdout, s.text(e.width()))
	return err
}

// mostSplitRuns keeps what a split plays within memory.
const mostSplitRuns = 100_000

// newSplitting settles what is asked.
func newSplitting(src *source, scenario *scenarios.Scenario, f splitFlags) (*splitting, error) {
	if f.runs > mostSplitRuns {
		return nil, &usageError{fmt.Sprintf("--runs expects %d at most, got %d", mostSplitRuns, f.runs), "500 tell a mean to some seconds"}
	}
	s := &splitting{name: src.name, arg: src.arg, flags: f}
	if f.order != "" {
		if _, err := asked([]string{f.order}, scenario.Orders(), "order", src.name); err != nil {
			return nil, err
		}
	}
	s.game = &split.Game{Bare: scenario.InFileOrder(), Seed: f.seed, Runs: f.runs}
	names := scenario.Orders()
	if len(names) == 0 {
		names = []string{""}
	}
	for _, name := range names {
		d, err := scenario.Drill(name)
		if err != nil {
			return nil, err
		}
		s.game.Orders = append(s.game.Orders, d)
	}
	s.d = s.game.Orders[0]
	if err := s.settleMilestone(); err != nil {
		return nil, err
	}
	var err error
	s.people, err = sizesOfFlag(f.people)
	return s, err
}

// settleMilestone settles what it is about: what was asked for, else the first
// milestone called heated, else the last that is named, else the finish.
func (s *splitting) settleMilestone() error {
	var names []string
	for _, m := range s.d.Milestones {
		names = append(names, m.Name)
	}
	if s.flags.milestone != "" {
		if _, err := asked([]string{s.flags.milestone}, names, "milestone", s.name); err != nil {
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

// mostSize is how many people a scenario may have.
const mostSize = 100

// sizesOfFlag reads --people: team sizes, rising, each once.
func sizesOfFlag(text string) ([]int, error) {
	if text == "" {
		return nil, nil
	}
	wrong := &usageError{fmt.Sprintf("--people expects team sizes from 1 to %d, got %q", mostSize, text), "such as 6, or 4..8"}
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

// play tries out the sizes and tells what is worth what at the team's own.
func (s *splitting) play(ctx context.Context) error {
	own := len(s.d.People)
	if err := sim.Possible(s.d); err != nil {
		return fmt.Errorf("%s: %w", s.name, err)
	}
	largest := own
	for _, n := range s.people {
		largest = max(largest, n)
	}
	// Each size starts from the one before it, whichever are asked for, so that a
	// size has the same answer in every company.
	var size *split.Size
	for n := 1; n <= largest; n++ {
		var err error
		if size, err = s.game.Size(ctx, n, size); err != nil {
			return fmt.Errorf("%s: %w", s.name, err)
		}
		if n == own {
			s.own = size
		}
		switch {
		case s.people != nil && !slices.Contains(s.people, n):
		case s.people == nil && size.Best < 0 && len(s.sizes) == 0 && n < own:
			s.least = size
		default:
			s.sizes = append(s.sizes, size)
		}
	}
	if s.own.Best < 0 {
		return fmt.Errorf("%s: %w", s.name, s.own.Why)
	}
	return s.tellWorth(ctx)
}

// worthUnder is what things are worth under one split of the whole team.
type worthUnder struct {
	base *split.Split
	list []*split.Worth
}

// tellWorth tells what things are worth under an order of the file, the first
// unless told otherwise, and under the best split, if that is another.
func (s *splitting) tellWorth(ctx context.Context) error {
	order := s.flags.order
	if order == "" {
		order = s.d.Order
	}
	best := s.own.Splits[s.own.Best]
	var bases []*split.Split
	for _, one := range s.own.Splits {
		if one.Order == order && order != "" {
			bases = append(bases, one)
		}
	}
	if s.flags.order != "" && len(bases) == 0 {
		return fmt.Errorf("%s: order %q cannot be played: %w", s.name, order, s.own.Why)
	}
	if len(bases) == 0 || bases[0] != best {
		bases = append(bases, best)
	}
	for _, base := range bases {
		list, err := s.game.Worth(ctx, base)
		if err != nil {
			return fmt.Errorf("%s: %w", s.name, err)
		}
		s.worth = append(s.worth, worthUnder{base, list})
	}
	return nil
}

// repeat returns the command that asks the same again.
func (s *splitting) repeat() string {
	words := []string{"warmby", "split"}
	if s.arg != library.Default {
		words = append(words, shellWord(s.arg))
	}
	for _, w := range []struct{ flag, value string }{
		{"people", s.flags.people}, {"milestone", s.flags.milestone}, {"order", s.flags.order}, {"what-if", s.flags.whatIf},
	} {
		if w.value != "" {
			words = append(words, "--"+w.flag, shellWord(w.value))
		}
	}
	return strings.Join(append(words, fmt.Sprintf("--runs %d --seed %d", s.flags.runs, s.flags.seed)), " ")
}

// kindOf names what kind of split one is: "2 details", or the order it is.
func kindOf(one *split.Split) string {
	if one.Order != "" {
		return one.Order
	}
	return counted(len(one.Drill.Details), "detail")
}
