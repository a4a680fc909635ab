package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/halt"
)

const haltUsage = `Says when to halt: the latest arrival at which a milestone is still met with
the odds asked for. The arrival is moved along the clock while light, weather
and targets such as 15:00 or dark stay where they are; every arrival meets the
same luck. With several what-ifs the scenario as it stands and each of them are
cases, and it also says which arrival keeps the odds in all of them; with several
orders, under which of them one may halt latest.

Usage:
  warmby halt [FILE] [flags]

Examples:
  warmby halt harl-plateau --step "30 min" --runs 200 --picture halt.svg
  warmby halt harl-plateau --milestone "dogs fed" --odds "75 %" --step 1h --runs 200
  warmby halt harl-plateau --what-if all --order all --step 1h --runs 100
  warmby halt mine.yaml --from 12:00 --to 15:00 --step 30min --runs 200 --json

How intervals and comparisons are made, and what they do not say: warmby help odds.
`

type haltFlags struct {
	trialFlags
	orders               []string
	odds, from, to, step string
}

func haltCommand(e *environment) *cobra.Command {
	var f haltFlags
	cmd := &cobra.Command{
		Use:               "halt [FILE]",
		Short:             "the latest arrival at which a milestone is still met",
		Long:              haltUsage,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			if f.usual() && cmd.Flags().Changed("odds") {
				return &usageError{"--odds needs drawn runs, and --runs 0 draws none", "leave --odds out, or --runs"}
			}
			return e.halt(cmd.Context(), args, f)
		},
	}
	flags := cmd.Flags()
	flags.StringArrayVar(&f.orders, "order", nil, "drill order to play; the first of the file unless given `NAME`; several, or all")
	flags.StringVar(&f.milestone, "milestone", "", "milestone asked about: `NAME`; else one by dark, else one by the clock")
	flags.StringVar(&f.odds, "odds", "90 %", "how often it must be in time: `SHARE`")
	flags.StringVar(&f.from, "from", "", "first arrival to try: `TIME` on the clock; else 3 h before the file's")
	flags.StringVar(&f.to, "to", "", "last arrival to try: `TIME` on the clock; else 3 h after the file's")
	flags.StringVar(&f.step, "step", "10 min", "`LENGTH` of time from one arrival to the next")
	flags.IntVar(&f.evaluations, "evaluations", 0, "most drills to play: `N`, with fewer runs for each arrival; else all")
	f.declare(e, cmd, 1000, "for each arrival", "odds against arrival")
	cmd.RegisterFlagCompletionFunc("order", e.completeOf(func(s *scenarios.Scenario) []string { return append(s.Orders(), allOrders) }))
	return cmd
}

// halting is what was asked and what came out.
type halting struct {
	name, arg string // of the scenario: for people, and on a command line
	flags     haltFlags
	order     string
	in        *ask.Case
	runs      int        // at each arrival; 0 for usual values only
	played    int        // drills, of all that were asked for
	never     string     // why it cannot be played; "" when it can
	d         *sim.Drill // as the file has it
	halt.Answer
	step     time.Duration
	cautions []cold.Caution // of all that were asked for
	arrivals []time.Time    // rising
}

func (e *environment) halt(ctx context.Context, args []string, f haltFlags) error {
	if err := f.check(e); err != nil {
		return err
	}
	src, err := e.loadArgs(args)
	if err != nil {
		return err
	}
	h, err := newHaltings(src, f)
	if err != nil {
		return err
	}
	if err := h.play(ctx); err != nil {
		return err
	}
	return e.tell(func() error {
		if f.json {
			return writeJSON(e.stdout, h.document())
		}
		_, err := fmt.Fprint(e.stdout, h.page(e.width()))
		return err
	}, func() error {
		if len(f.pictures) == 0 {
			return nil
		}
		return e.writePicture(h.picture(), f.pictures, f.force)
	})
}

// newHalting settles what is asked.
func newHalting(src *ask.Source, in *ask.Case, order string, f haltFlags) (*halting, error) {
	h := &halting{name: src.Name, arg: src.Arg, flags: f, order: order, in: in, runs: f.runs}
	var err error
	if h.d, err = in.Scenario.Drill(order); err != nil {
		return nil, err
	}
	if h.d.Site.Arrival.IsZero() {
		return nil, &inputError{src.Name + ": site: arrival is missing, and there is nothing to move along the clock",
			"such as arrival: 2027-01-16T13:40:00+02:00 (date, T, time, offset from UTC)"}
	}
	if err := h.settleMilestone(src.Name); err != nil {
		return nil, err
	}
	if h.Odds, err = oddsOfFlag(f.odds); err != nil {
		return nil, err
	}
	if err := h.settleArrivals(); err != nil {
		return nil, err
	}
	return h, nil
}

// settleMilestone settles what must be in time: what was asked for; else the
// first milestone by dark; else the first by the clock.
func (h *halting) settleMilestone(where string) error {
	var names, timed []string
	dark, clock := -1, -1
	for i, m := range h.d.Milestones {
		names = append(names, m.Name)
		if m.ByText == "" {
			continue
		}
		timed = append(timed, m.Name)
		if m.ByText == "dark" && dark < 0 {
			dark = i
		}
		if strings.Contains(m.ByText, ":") && clock < 0 {
			clock = i
		}
	}
	switch name := h.flags.milestone; {
	case name != "":
		if _, err := ask.Asked([]string{name}, names, "milestone", where); err != nil {
			return err
		}
		h.Milestone = slices.Index(names, name)
	case dark >= 0:
		h.Milestone = dark
	case clock >= 0:
		h.Milestone = clock
	default:
		return &usageError{where + ": no milestone has a target by dark or by the clock: say with --milestone which one is meant",
			"the milestones with a target: " + mistake.QuotedOrNone(timed)}
	}
	if h.d.Milestones[h.Milestone].ByText == "" {
		return &usageError{fmt.Sprintf("milestone %q has no target to be in time for", names[h.Milestone]),
			"the milestones with a target: " + mistake.QuotedOrNone(timed)}
	}
	return nil
}

// play plays every arrival under the same luck.
func (h *halting) play(ctx context.Context) error {
	var drills []*sim.Drill
	for _, at := range h.arrivals {
		d, err := h.in.Scenario.Arriving(h.order, at)
		if err != nil {
			return err
		}
		drills = append(drills, d)
	}
	if h.runs == 0 {
		return h.playUsual(drills)
	}
	points, err := halt.Play(ctx, drills, compare.Batch{Seed: h.flags.seed, Runs: h.runs, Workers: h.flags.workers})
	if err != nil {
		return fmt.Errorf("%s: %w", h.name, err)
	}
	h.Points = points
	return nil
}

// playUsual plays every arrival once, with usual values.
func (h *halting) playUsual(drills []*sim.Drill) error {
	for _, d := range drills {
		if err := sim.Possible(d); err != nil {
			return fmt.Errorf("%s: %w", h.name, err)
		}
		point, err := halt.PlayUsual(d)
		if err != nil {
			return fmt.Errorf("%s: arriving at %s: %w", h.name, d.Site.Arrival.Format(clockLayout), err)
		}
		h.Points = append(h.Points, point)
	}
	return nil
}

// repeat returns the command that asks the same again.
func (h *halting) repeat() string {
	var own []flagValue
	for _, name := range h.flags.orders {
		own = append(own, flagValue{"order", name})
	}
	if !h.flags.usual() {
		own = append(own, flagValue{"odds", h.flags.odds})
	}
	own = append(own, flagValue{"from", h.flags.from}, flagValue{"to", h.flags.to}, flagValue{"step", h.flags.step})
	return h.flags.repeat("halt", h.arg, own...)
}

// never reports whether an error says that a drill can never finish.
func never(err error) bool {
	var n *sim.NeverError
	return errors.As(err, &n)
}
