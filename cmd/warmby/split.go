package main

import (
	"context"
	"fmt"
	"slices"
	"strconv"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/split"
)

const splitUsage = `Tries out team sizes and splits of the team into up to 3 groups, beside the
orders of the file, all under the same luck. It says how soon the milestone is
reached with how many people, and what one more person, skill, tool or stove is
worth, and what a better-packed load; and in how many runs somebody passes the
cold limit under each split. With several what-ifs the scenario as it stands and
each of them are cases, and it also says which split bends least: the one that
is earliest in its worst case.

Usage:
  warmby split [FILE] [flags]

Examples:
  warmby split harl-plateau --runs 100 --picture team.svg
  warmby split kestrel-fell --people 6 --milestone "hot drink" --runs 100
  warmby split harl-plateau --people 4 --what-if all --runs 0 --evaluations 2000
  warmby split mine.yaml --people 3..4 --runs 100 --json

How intervals and comparisons are made, and what they do not say: warmby help odds.
`

type splitFlags struct {
	trialFlags
	people, order string
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
			return e.split(cmd.Context(), args, f)
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&f.people, "people", "", "team sizes to try, as 4..8: `SIZES`; else from the least to the team's own")
	flags.StringVar(&f.milestone, "milestone", "", "milestone that it is about: `NAME`; else heated, else the last one")
	flags.StringVar(&f.order, "order", "", "tell what things are worth under the order `NAME`; else the first")
	flags.IntVar(&f.evaluations, "evaluations", 0, "most drills to play in search: `N`; else as many as it takes")
	f.declare(e, cmd, 500, "of what was chosen", "time against team size")
	cmd.RegisterFlagCompletionFunc("order", e.completeOrder)
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
	cold      map[*split.Split]*compare.Cold // of the splits of sizes; nil with usual values
	cases     []*ask.Case
	bends     []*split.Bend // by size; nil unless there are several cases
}

func (e *environment) split(ctx context.Context, args []string, f splitFlags) error {
	if err := f.check(e); err != nil {
		return err
	}
	src, err := e.loadArgs(args)
	if err != nil {
		return err
	}
	cases, err := src.Cases(f.whatIfs)
	if err != nil {
		return err
	}
	s, err := newSplitting(src, cases, f)
	if err != nil {
		return err
	}
	if err := s.play(ctx); err != nil {
		return err
	}
	return e.tell(func() error {
		if f.json {
			return writeJSON(e.stdout, s.document())
		}
		_, err := fmt.Fprint(e.stdout, s.text(e.width()))
		return err
	}, func() error {
		if len(f.pictures) == 0 {
			return nil
		}
		return e.writePicture(s.picture(), f.pictures, f.force)
	})
}

// mostSplitRuns keeps what a split plays within memory.
const mostSplitRuns = 100_000

// newSplitting settles what is asked.
func newSplitting(src *ask.Source, cases []*ask.Case, f splitFlags) (*splitting, error) {
	if f.runs == 1 {
		return nil, &usageError{"--runs expects 0, or 2 or more, got 1", "0 plays usual values only; 500 tell a mean to some seconds"}
	}
	if f.runs > mostSplitRuns {
		return nil, &usageError{fmt.Sprintf("--runs expects %d at most, got %d", mostSplitRuns, f.runs), "500 tell a mean to some seconds"}
	}
	s := &splitting{name: src.Name, arg: src.Arg, flags: f, cases: cases}
	scenario := cases[0].Scenario
	if f.order != "" {
		if _, err := ask.Asked([]string{f.order}, scenario.Orders(), "order", src.Name); err != nil {
			return nil, err
		}
	}
	s.game = &split.Game{Bare: scenario.InFileOrder(), Seed: f.seed, Runs: f.runs, Workers: f.workers, Evaluations: f.evaluations}
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
	if s.people, err = sizesOfFlag(f.people); err != nil {
		return nil, err
	}
	s.game.Parts = s.largest() + 2 // the sizes, and what things are worth under two splits
	if least := s.game.LeastEvaluations(); f.evaluations > 0 && f.evaluations < least {
		return nil, &usageError{fmt.Sprintf("--evaluations %d is too few for teams of up to %s under %s: %d at least",
			f.evaluations, countedPeople(s.largest()), counted(len(names), "order"), least), "left out, as many drills are played as it takes"}
	}
	return s, nil
}

// largest returns the size of the largest team to be looked at.
func (s *splitting) largest() int {
	n := len(s.d.People)
	for _, asked := range s.people {
		n = max(n, asked)
	}
	return n
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
	// Each size starts from the one before it, whichever are asked for, so that a
	// size has the same answer in every company.
	var size *split.Size
	for n := 1; n <= s.largest(); n++ {
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
	if err := s.tellWorth(ctx); err != nil {
		return err
	}
	if err := s.tellCold(ctx); err != nil {
		return err
	}
	return s.tellBends(ctx)
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
	return s.flags.repeat("split", s.arg, flagValue{"people", s.flags.people}, flagValue{"order", s.flags.order})
}
