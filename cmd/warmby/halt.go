package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/compare"
)

const haltUsage = `Says when to halt: the latest arrival at which a milestone is still met with
the odds asked for. The arrival is moved along the clock while light, weather
and targets such as 15:00 or dark stay where they are; every arrival meets the
same luck.

Usage:
  warmby halt [FILE] [flags]

Examples:
  warmby halt harl-plateau --step "30 min" --runs 200 --picture halt.svg
  warmby halt harl-plateau --milestone "dogs fed" --odds "75 %" --step 1h --runs 200
  warmby halt mine.yaml --from 12:00 --to 15:00 --step 30min --runs 200 --json
`

type haltFlags struct {
	order, whatIf, milestone string
	odds, from, to, step     string
	seed                     uint64
	runs, workers            int
	pictures                 []string
	json, force              bool
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
			return e.halt(cmd.Context(), args, f)
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&f.order, "order", "", "drill order to play; the first of the file unless given `NAME`")
	flags.StringVar(&f.whatIf, "what-if", "", "play the scenario as changed by the what-if `NAME` of the file")
	flags.StringVar(&f.milestone, "milestone", "", "milestone asked about: `NAME`; else one by dark, else one by the clock")
	flags.StringVar(&f.odds, "odds", "90 %", "how often it must be in time: `SHARE`")
	flags.StringVar(&f.from, "from", "", "first arrival to try: `TIME` on the clock; else 3 h before the file's")
	flags.StringVar(&f.to, "to", "", "last arrival to try: `TIME` on the clock; else 3 h after the file's")
	flags.StringVar(&f.step, "step", "10 min", "`LENGTH` of time from one arrival to the next")
	flags.IntVar(&f.runs, "runs", 1000, "how many runs to play for each arrival: `N`")
	flags.Uint64Var(&f.seed, "seed", 1, "draw the runs with this seed `N`")
	flags.IntVar(&f.workers, "workers", 0, "use `N` processors, else all; results do not depend on it")
	flags.StringArrayVar(&f.pictures, "picture", nil, "write a picture of odds against arrival: `FILE`.svg, .png or .pdf")
	flags.BoolVar(&f.json, "json", false, "print the odds as JSON")
	flags.BoolVar(&f.force, "force", false, "overwrite files that exist")
	cmd.RegisterFlagCompletionFunc("order", e.completeOrder)
	cmd.RegisterFlagCompletionFunc("what-if", e.completeOf((*scenarios.Scenario).WhatIfs))
	cmd.RegisterFlagCompletionFunc("milestone", e.completeOf(milestoneNames))
	return cmd
}

// milestoneNames lists the milestones of a scenario.
func milestoneNames(s *scenarios.Scenario) []string {
	d, err := s.Drill("")
	if err != nil {
		return nil
	}
	var names []string
	for _, m := range d.Milestones {
		names = append(names, m.Name)
	}
	return names
}

// halting is what was asked and what came out.
type halting struct {
	name, arg string // of the scenario: for people, and on a command line
	flags     haltFlags
	d         *sim.Drill // as the file has it
	milestone int
	odds      float64 // 0 to 1
	step      time.Duration
	arrivals  []time.Time // rising
	points    []point     // by arrival
}

func (e *environment) halt(ctx context.Context, args []string, f haltFlags) error {
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
	h, err := newHalting(src, scenario, f)
	if err != nil {
		return err
	}
	if err := h.play(ctx, scenario, workers); err != nil {
		return err
	}
	if len(f.pictures) > 0 {
		if err := e.writePicture(h.picture(), f.pictures, f.force); err != nil {
			return err
		}
	}
	if f.json {
		return writeJSON(e.stdout, h.document())
	}
	_, err = fmt.Fprint(e.stdout, h.text(e.width()))
	return err
}

// changedBy returns the scenario as a what-if changes it; as it is for "".
func (s *source) changedBy(whatIf string) (*scenarios.Scenario, error) {
	if whatIf == "" {
		return s.scenario, nil
	}
	names, err := asked([]string{whatIf}, s.scenario.WhatIfs(), "what-if", s.name)
	if err != nil {
		return nil, err
	}
	return s.scenario.WhatIf(names[0])
}

// newHalting settles what is asked.
func newHalting(src *source, s *scenarios.Scenario, f haltFlags) (*halting, error) {
	h := &halting{name: src.name, arg: src.arg, flags: f}
	if f.order != "" {
		if _, err := asked([]string{f.order}, s.Orders(), "order", src.name); err != nil {
			return nil, err
		}
	}
	var err error
	if h.d, err = s.Drill(f.order); err != nil {
		return nil, err
	}
	if h.d.Site.Arrival.IsZero() {
		return nil, &inputError{src.name + ": site: arrival is missing, and there is nothing to move along the clock",
			"such as arrival: 2027-01-16T13:40:00+02:00 (date, T, time, offset from UTC)"}
	}
	if err := h.settleMilestone(src.name); err != nil {
		return nil, err
	}
	if h.odds, err = oddsOfFlag(f.odds); err != nil {
		return nil, err
	}
	if err := h.settleArrivals(); err != nil {
		return nil, err
	}
	if moments := f.runs * len(h.arrivals) * len(h.d.Milestones); f.runs > mostMoments || moments > mostMoments {
		return nil, &usageError{fmt.Sprintf("--runs %d at %s would not fit into memory", f.runs, counted(len(h.arrivals), "arrival")),
			"ask for fewer runs or arrivals; 1000 runs tell a share of 90 % to 2 %"}
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
		if _, err := asked([]string{name}, names, "milestone", where); err != nil {
			return err
		}
		h.milestone = slices.Index(names, name)
	case dark >= 0:
		h.milestone = dark
	case clock >= 0:
		h.milestone = clock
	default:
		return &usageError{where + ": no milestone has a target by dark or by the clock: say with --milestone which one is meant",
			"the milestones with a target: " + orNone(timed)}
	}
	if h.d.Milestones[h.milestone].ByText == "" {
		return &usageError{fmt.Sprintf("milestone %q has no target to be in time for", names[h.milestone]),
			"the milestones with a target: " + orNone(timed)}
	}
	return nil
}

// play plays every arrival under the same luck.
func (h *halting) play(ctx context.Context, s *scenarios.Scenario, workers int) error {
	var drills []*sim.Drill
	for _, at := range h.arrivals {
		d, err := s.Arriving(h.flags.order, at)
		if err != nil {
			return err
		}
		drills = append(drills, d)
	}
	played, err := compare.Play(ctx, drills, compare.Batch{Seed: h.flags.seed, Runs: h.flags.runs, Workers: workers})
	if err != nil {
		return fmt.Errorf("%s: %w", h.name, err)
	}
	for _, p := range played {
		if p.Stopped == len(p.Times[0]) {
			return fmt.Errorf("%s: arriving at %s it comes to a stop in every run: %w", h.name, p.Drill.Site.Arrival.Format("15:04"), p.Stop)
		}
		point, err := pointOf(p)
		if err != nil {
			return err
		}
		h.points = append(h.points, point)
	}
	return nil
}

// repeat returns the command that asks the same again.
func (h *halting) repeat() string {
	words := []string{"warmby", "halt"}
	if h.arg != library.Default {
		words = append(words, shellWord(h.arg))
	}
	for _, w := range []struct{ flag, value string }{
		{"order", h.flags.order}, {"what-if", h.flags.whatIf}, {"milestone", h.flags.milestone},
		{"odds", h.flags.odds}, {"from", h.flags.from}, {"to", h.flags.to}, {"step", h.flags.step},
	} {
		if w.value != "" {
			words = append(words, "--"+w.flag, shellWord(w.value))
		}
	}
	return strings.Join(append(words, fmt.Sprintf("--runs %d --seed %d", h.flags.runs, h.flags.seed)), " ")
}

// never reports whether an error says that a drill can never finish.
func never(err error) bool {
	var n *sim.NeverError
	return errors.As(err, &n)
}
