package main

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/doubt"
	"warmby/sim/halt"
	"warmby/sim/search"
)

const haltUsage = `Says when to halt: the latest arrival at which a milestone is still met with
the odds asked for, first the one that is sure of it, then the toss-up; by when
all is well as often (every target met, nobody over the cold limit); and by when
with your numbers doubted, or as a log leaves them open (--log). The
arrival is moved along the clock while light, weather and targets such as 15:00
or dark stay where they are; every arrival meets the same luck. With several
what-ifs the scenario as it stands and each of them are cases, and it also says
which arrival keeps the odds in all of them; with several orders, under which of
them one may halt latest. A screen has the odds of each arrival; --all prints
everything, with intervals.

--milestone "all well" asks for that rather than for one milestone, and
--cold-odds for nobody over the cold limit beside one. --improve looks for an
order under which one may halt later than under those played: at the first
arrival that is too late, and again behind the latest that the order found keeps.

Usage:
  warmby halt [FILE] [flags]

Examples:
  warmby halt harl-plateau --step "30 min" --runs 200 --picture halt.svg
  warmby halt harl-plateau --milestone "dogs fed" --odds "75 %" --step 1h --runs 200
  warmby halt harl-plateau --what-if all --order all --step 1h --runs 100
  warmby halt kestrel-fell --milestone "all well" --odds "50 %" --step 1h --runs 100
  warmby halt harl-plateau --improve --step 30min --runs 200 --evaluations 30000
  warmby halt harl-plateau --step 1h --runs 100 --report halt.html
  warmby halt mine.yaml --from 12:00 --to 15:00 --step 30min --runs 200 --json

How intervals and comparisons are made, and what they do not say: warmby help odds.
`

type haltFlags struct {
	ask.Answer
	orders, whatIfs   []string
	milestone         string
	odds, coldOdds    string
	from, to, step    string
	improve           bool
	evaluations, runs int
	seed              uint64
	workers           int
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
			if err := f.check(cmd.Flags().Changed); err != nil {
				return err
			}
			return e.halt(cmd.Context(), args, f)
		},
	}
	flags := cmd.Flags()
	ask.Orders(flags, &f.orders, "the first of the file")
	flags.StringArrayVar(&f.whatIfs, "what-if", nil, "play the what-if `NAME` of the file; several, or all, as cases")
	flags.StringVar(&f.milestone, "milestone", "", "what must be in time: `NAME`, or all well; else one by dark, else by the clock")
	flags.StringVar(&f.odds, "odds", "90 %", "how often it must be in time: `SHARE`")
	flags.StringVar(&f.coldOdds, "cold-odds", "", "in how many evenings nobody may pass the cold limit: `SHARE`")
	flags.BoolVar(&f.improve, "improve", false, "also look for an order under which one may halt later")
	flags.StringVar(&f.from, "from", "", "first arrival to try: `TIME` on the clock; else 3 h before the file's")
	flags.StringVar(&f.to, "to", "", "last arrival to try: `TIME` on the clock; else 3 h after the file's")
	flags.StringVar(&f.step, "step", "10 min", "`LENGTH` of time from one arrival to the next")
	flags.IntVar(&f.evaluations, "evaluations", 0, "most drills to play: `N`; half of them for --improve")
	ask.Runs(flags, &f.runs, 1000, " for each arrival; 0 for usual values only")
	ask.Seed(flags, &f.seed)
	ask.Workers(flags, &f.workers)
	f.Declare(flags, "odds against arrival")
	cmd.RegisterFlagCompletionFunc("order", e.completeOf(func(s *scenarios.Scenario) []string { return append(s.Orders(), ask.AllOrders) }))
	cmd.RegisterFlagCompletionFunc("what-if", e.completeOf(ask.WhatIfNames))
	cmd.RegisterFlagCompletionFunc("milestone", e.completeOf(ask.MilestoneNames))
	return cmd
}

// usual reports whether usual values are asked for and no runs.
func (f *haltFlags) usual() bool { return f.runs == 0 }

// check checks what can be checked without a scenario, and settles workers;
// given reports whether a flag was given.
func (f *haltFlags) check(given func(flag string) bool) error {
	switch {
	case f.usual() && given("odds"):
		return &mistake.Usage{What: "--odds needs drawn runs, and --runs 0 draws none", Cure: "leave --odds out, or --runs"}
	case f.usual() && f.coldOdds != "":
		return &mistake.Usage{What: "--cold-odds needs drawn runs, and --runs 0 draws none", Cure: "leave --cold-odds out, or --runs"}
	case given("evaluations") && (f.evaluations < 1 || f.evaluations > ask.MostEvaluations):
		return &mistake.Usage{What: fmt.Sprintf("--evaluations expects a whole number from 1 to %d, got %d", ask.MostEvaluations, f.evaluations), Cure: "left out, as many drills are played as it takes"}

	case f.runs < 0:
		return &mistake.Usage{What: fmt.Sprintf("--runs expects a whole number, 0 or more, got %d", f.runs), Cure: "0 plays usual values only"}
	}
	return ask.SettleWorkers(&f.workers)
}

// halting is one case under one order: what was asked and what came out.
type halting struct {
	name, arg string // of the scenario: for people, and on a command line
	flags     haltFlags
	order     string
	in        *ask.Case
	numbers   doubt.Numbers
	runs      int        // at each arrival; 0 for usual values only
	d         *sim.Drill // as the file has it
	halt.Answer
	doubted  *halt.Answer // with the numbers doubted; nil where there is nothing to doubt
	step     time.Duration
	arrivals []time.Time // rising
}

func (e *environment) halt(ctx context.Context, args []string, f haltFlags) error {
	if err := e.mayAnswer(f.Answer); err != nil {
		return err
	}
	g, err := e.haltings(ctx, args, f)
	if err != nil {
		return err
	}
	told := g.told()
	return e.answer(f.Answer, told.Report(), func() any { return g.document() }, told.Drawing)
}

// haltings settles and plays what is asked.
func (e *environment) haltings(ctx context.Context, args []string, f haltFlags) (*haltings, error) {
	src, err := e.loadArgs(args)
	if err != nil {
		return nil, err
	}
	g, err := newHaltings(src, f)
	if err != nil {
		return nil, err
	}
	return g, g.play(ctx)
}

// newHalting settles what is asked.
func newHalting(src *ask.Source, in *ask.Case, order string, f haltFlags) (*halting, error) {
	h := &halting{name: src.Name, arg: src.Arg, flags: f, order: order, in: in, runs: f.runs, numbers: src.Numbers()}
	var err error
	if h.d, err = in.Scenario.Drill(order); err != nil {
		return nil, err
	}
	if h.d.Site.Arrival.IsZero() {
		return nil, &mistake.Input{What: src.Name + ": site: arrival is missing, and there is nothing to move along the clock", Cure: "such as arrival: 2027-01-16 13:40 +02:00 (date, time, offset from UTC)"}
	}
	if err := h.settleMilestone(src.Name); err != nil {
		return nil, err
	}
	if err := h.settleOdds(); err != nil {
		return nil, err
	}
	if err := h.settleArrivals(); err != nil {
		return nil, err
	}
	return h, nil
}

// settleOdds settles how often all that is asked must go well.
func (h *halting) settleOdds() (err error) {
	if h.Odds, err = ask.Share("odds", h.flags.odds); err != nil || h.flags.coldOdds == "" {
		return err
	}
	if !cold.Kept(h.d) {
		return &mistake.Usage{What: fmt.Sprintf("--cold-odds: %s has no account of cold", h.name), Cure: "it takes weather and clothing; see warmby help scenario"}
	}
	h.ColdOdds, err = ask.Share("cold-odds", h.flags.coldOdds)
	return err
}

// asksAllWell reports whether all well is asked for, and not a milestone of that
// name.
func (h *halting) asksAllWell() bool {
	return h.flags.milestone == search.AllWell.String() &&
		!slices.ContainsFunc(h.d.Milestones, func(m sim.Milestone) bool { return m.Name == h.flags.milestone })
}

// settleMilestone settles what must be in time: what was asked for; else the
// first milestone by dark; else the first by the clock.
func (h *halting) settleMilestone(where string) error {
	if h.asksAllWell() {
		return h.settleAllWell(where)
	}
	var names, timed []string
	dark, clock := -1, -1
	for i, m := range h.d.Milestones {
		names = append(names, m.Name)
		if !report.HasTarget(m) {
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
		return &mistake.Usage{What: where + ": no milestone has a target by dark or by the clock: say with --milestone which one is meant", Cure: "the milestones with a target: " + mistake.QuotedOrNone(timed)}
	}
	return hasTarget(h.d.Milestones[h.Milestone], timed)
}

// settleAllWell asks for all well, where there is anything to ask for.
func (h *halting) settleAllWell(where string) error {
	h.AllWell, h.Milestone = true, len(h.d.Milestones)-1
	if !slices.ContainsFunc(h.d.Milestones, report.HasTarget) && !cold.Kept(h.d) {
		return &mistake.Usage{What: where + ": --milestone \"all well\": no milestone has a target, and there is no account of cold", Cure: "give one a target in the file: by: 90 min, by: 15:00, by: dark"}
	}
	return nil
}

// hasTarget refuses a milestone that has no target; timed are those that have.
func hasTarget(m sim.Milestone, timed []string) error {
	hint := "the milestones with a target: " + mistake.QuotedOrNone(timed)
	switch {
	case m.ByText == "":
		return &mistake.Usage{What: fmt.Sprintf("milestone %q has no target to be in time for", m.Name), Cure: hint}
	case !report.HasTarget(m):
		return &mistake.Usage{What: fmt.Sprintf("milestone %q is asked for by %s, and it never grows %s: it has no target to be in time for", m.Name, m.ByText, m.ByText), Cure: hint}
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
		return h.playUsual(ctx, drills)
	}
	b := compare.Batch{Seed: h.flags.seed, Runs: h.runs, Workers: h.flags.workers}
	points, err := halt.Play(ctx, drills, b)
	if err != nil {
		return fmt.Errorf("%s: %w", h.name, err)
	}
	if h.Points = points; !h.doubts() {
		return nil
	}
	h.doubted = &halt.Answer{Asked: h.Asked}
	if h.doubted.Points, err = halt.Play(ctx, drills, h.numbers.Batch(b)); err != nil {
		return fmt.Errorf("%s: %w", h.name, err)
	}
	return nil
}

// doubts reports whether all is played again with the numbers doubted; it is not
// when only so many drills may be played.
func (h *halting) doubts() bool {
	return h.runs > 0 && h.flags.evaluations == 0 && h.numbers.Any(h.d)
}

// playUsual plays every arrival once, with usual values.
func (h *halting) playUsual(ctx context.Context, drills []*sim.Drill) (err error) {
	if h.Points, err = halt.PlayUsual(ctx, drills, h.flags.workers); err != nil {
		return fmt.Errorf("%s: %w", h.name, err)
	}
	return nil
}

// repeat returns the command that asks the same again.
func (h *halting) repeat() string {
	f := h.flags
	line := ask.CommandOf("halt", ask.FileWord(h.arg))
	for _, name := range f.orders {
		line.With("order", name)
	}
	if !f.usual() {
		line.With("odds", f.odds)
	}
	line.With("from", f.from).With("to", f.to).With("step", f.step)
	for _, name := range f.whatIfs {
		line.With("what-if", name)
	}
	line.With("milestone", f.milestone).With("cold-odds", f.coldOdds)
	if f.improve {
		line.Flag("improve")
	}
	if f.evaluations > 0 {
		line.With("evaluations", f.evaluations)
	}
	return line.With("runs", f.runs).With("seed", f.seed).String()
}
