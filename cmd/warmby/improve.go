package main

import (
	"context"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/search"
)

const improveUsage = `Looks for a better drill order, and says how far it can be from the best
possible. Sequences, crews, groups, who is in them and their rule are tried by
playing the drill; what is found is judged on runs that the search has not seen.

Usage:
  warmby improve [FILE] [flags]

Examples:
  warmby improve --aim "hot drink p80" --evaluations 4000 --runs 500
  warmby improve mine.yaml --aim finish --evaluations 4000 --write better.yaml
  warmby improve --what-if "two down" --what-if "one burner dead" --evaluations 4000 --runs 200
  warmby improve kestrel-fell --aim heated --aim "hot drink" --runs 0 --evaluations 4000

An aim may be a share of evenings: "all well" (every target met and nobody over the
cold limit), "all targets" or "nobody cold"; of orders as good in that, the soonest
mean finish. --at-least "all well 80 %" makes the same a limit.

Else an aim is a milestone, or finish, with mean, p50, p80, p90 or p95: the mean, or
the moment by which it is reached in 50 to 95 of 100 runs; the mean unless said.

No more than --evaluations drills are played in search: each run of each order
tried is one. The fresh runs on which what was found is judged come on top, and
the report says how many. A few evaluations suffice to try the file's own orders
and those of simple rules; thousands find what is hard to find.

What no order can beat is reckoned for every run by itself and holds for the mean
or the share asked for; the report gives its 95 % interval.

With several --what-if, or all, an order is looked for that bends least: the
scenario as it stands and each what-if are cases with the same luck, and an order
is as good as in the case in which it comes latest; of equals the one that is
soonest on average over the cases is taken. A case in which no order reaches the
aim is named and left out. Each case counts as a drill played.

Interrupted, it prints the best so far.

How intervals and comparisons are made, and what they do not say: warmby help odds.
`

type improveFlags struct {
	aims, inTime, byDark []string
	odds, coldOdds       string
	atLeast              []string
	whatIfs              []string
	keepCold             bool
	evaluations, runs    int
	seed                 uint64
	workers              int
	write, name          string
	pictures             []string
	json, force          bool
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
				return &usageError{"--odds says how often --by-dark and --in-time must be met, and neither is given", "such as --in-time heated --odds \"80 %\""}
			}
			return e.improve(cmd.Context(), args, f)
		},
	}
	flags := cmd.Flags()
	flags.StringArrayVar(&f.aims, "aim", nil, "what to reach soon: `AIM`, see above; several for a choice; else finish")
	flags.BoolVar(&f.keepCold, "keep-cold-limit", false, "nobody may pass the cold limit in nine evenings of ten")
	flags.StringVar(&f.coldOdds, "cold-odds", "", "in how many evenings nobody may pass the cold limit: `SHARE`")
	flags.StringArrayVar(&f.atLeast, "at-least", nil, "how often all must be well: `GOAL SHARE`, such as \"all well 80 %\"")
	flags.StringArrayVar(&f.byDark, "by-dark", nil, "`MILESTONE` that must be reached before dark, with --odds")
	flags.StringArrayVar(&f.inTime, "in-time", nil, "`MILESTONE` whose own target must be met, with --odds")
	flags.StringVar(&f.odds, "odds", "90 %", "how often --by-dark and --in-time must be met: `SHARE`")
	flags.StringArrayVar(&f.whatIfs, "what-if", nil, "search under the what-if `NAME`; several, or all: see above")
	flags.IntVar(&f.evaluations, "evaluations", search.DefaultEvaluations, "play no more than `N` drills in search, --runs apart")
	flags.IntVar(&f.runs, "runs", 2000, "judge orders on `N` fresh runs; 0 for usual values only")
	flags.Uint64Var(&f.seed, "seed", 1, "draw the runs with this seed `N`")
	flags.IntVar(&f.workers, "workers", 0, "use `N` processors, else all; results do not depend on it")
	flags.StringVar(&f.write, "write", "", "write the scenario with the order added to it: `FILE`")
	flags.StringVar(&f.name, "name", "improved", "what to call the order found: `NAME`")
	flags.StringArrayVar(&f.pictures, "picture", nil, "write a picture of the orders by two aims: `FILE`.svg, .png or .pdf")
	flags.BoolVar(&f.json, "json", false, "print the orders as JSON")
	flags.BoolVar(&f.force, "force", false, "overwrite files that exist")
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

// fileOrder is what the sequence of the tasks in the file is called when that
// is the only order of it.
const fileOrder = "file order"

// mostEvaluations bounds a search to about a day.
const mostEvaluations = 1_000_000_000

func (e *environment) improve(ctx context.Context, args []string, f improveFlags) error {
	if err := e.checkImprove(&f); err != nil {
		return err
	}
	src, err := e.loadArgs(args)
	if err != nil {
		return err
	}
	s, err := src.ChangedBy(f.oneWhatIf())
	if err != nil {
		return err
	}
	m, err := newImprovement(src, s, f)
	if err != nil {
		return err
	}
	if err := m.settleCases(src); err != nil {
		return err
	}
	if err := m.tryWrite(src); err != nil {
		return err
	}
	if err := e.searchOrders(ctx, m); err != nil {
		return err
	}
	err = e.tell(func() error { return e.printImprovement(m) }, func() error { return e.writeImprovement(m, src) })
	if err == nil && m.result.Interrupted {
		e.note("interrupted; this is the best so far")
		return &exitError{exitInterrupted}
	}
	return err
}

func (e *environment) printImprovement(m *improvement) error {
	if m.flags.json {
		return writeJSON(e.stdout, m.document())
	}
	_, err := fmt.Fprint(e.stdout, m.text(e.width()))
	return err
}

// tryWrite puts some order of the name asked for into the file, before anything
// is searched: it tells whether the one found can be put there.
func (m *improvement) tryWrite(src *ask.Source) error {
	if m.flags.write == "" {
		return nil
	}
	_, err := src.Scenario.WithOrders(src.Data, m.d.FileOrder(m.fresh(0)))
	var problems *scenarios.Problems
	switch {
	case errors.Is(err, scenarios.ErrNoPlaceForOrder):
		return &inputError{fmt.Sprintf("%s: %v", m.name, err), "leave --write out, and paste the order that is printed"}
	case errors.As(err, &problems):
		return &usageError{fmt.Sprintf("--name %.40q cannot stand in a scenario file: %s", m.flags.name, problems.List[0].Message), "a short name will do, such as --name \"improved\""}
	case err != nil:
		return fmt.Errorf("cannot write %s: %w", m.flags.write, err)
	}
	return nil
}

func (e *environment) checkImprove(f *improveFlags) error {
	switch {
	case f.evaluations < 1 || f.evaluations > mostEvaluations:
		return &usageError{fmt.Sprintf("--evaluations expects a whole number from 1 to %d, got %d", mostEvaluations, f.evaluations),
			fmt.Sprintf("left out, %d drills are played", search.DefaultEvaluations)}
	case f.runs < 0 || f.runs == 1 || f.runs > mostMoments/100:
		return &usageError{fmt.Sprintf("--runs expects 0, or a whole number from 2 to %d, got %d", mostMoments/100, f.runs),
			"0 searches with usual values only"}
	case f.write != "" && f.oneWhatIf() != "":
		return &usageError{"--write and --what-if exclude each other", "an order found for a what-if is printed to be pasted"}
	case strings.TrimSpace(f.name) == "" || strings.ContainsFunc(f.name, unicode.IsControl):
		return &usageError{fmt.Sprintf("--name expects a name on one line, got %q", f.name), "such as --name \"improved\""}
	case scenarios.Fault(f.name) != "":
		return &usageError{fmt.Sprintf("--name %q %s", f.name, scenarios.Fault(f.name)), "such as --name \"improved\""}
	case doubled(f.byDark) != "":
		return &usageError{fmt.Sprintf("--by-dark %q stands twice", doubled(f.byDark)), "name it once"}
	case doubled(f.inTime) != "":
		return &usageError{fmt.Sprintf("--in-time %q stands twice", doubled(f.inTime)), "name it once"}
	case doubled(f.whatIfs) != "":
		return &usageError{fmt.Sprintf("--what-if %q stands twice", doubled(f.whatIfs)), "name it once"}
	case len(f.pictures) > 0 && len(f.aims) < 2:
		return &usageError{"--picture needs two aims or more", "such as --aim heated --aim \"hot drink\""}
	}
	var err error
	if f.workers, err = checkRuns(max(1, f.runs), f.workers); err != nil {
		return err
	}
	if err := e.checkPictures(f.pictures, f.force); err != nil {
		return err
	}
	if f.write != "" {
		return e.mayWrite(f.force, append(slices.Clone(f.pictures), f.write)...)
	}
	return nil
}

// doubled returns a name that a list holds more than once, "" for none.
func doubled(names []string) string {
	for i, name := range names {
		if slices.Contains(names[:i], name) {
			return name
		}
	}
	return ""
}

// newImprovement settles what is asked.
func newImprovement(src *ask.Source, s *scenarios.Scenario, f improveFlags) (*improvement, error) {
	d, orders := s.Parts()
	if len(orders) == 0 {
		orders = []sim.Order{d.FileOrder(fileOrder)}
	}
	m := &improvement{name: src.Name, arg: src.Arg, flags: f, d: d, own: s.Orders()}
	m.options = search.Options{Orders: orders, ColdLimit: f.keepCold, Evaluations: f.evaluations, Runs: f.runs, Seed: f.seed, Workers: f.workers}
	if f.runs > 0 && !isDrawn(d) {
		m.options.Runs = 0 // every run is the same
	}
	for _, text := range f.aims {
		a, err := m.aim(text)
		if err != nil {
			return nil, err
		}
		if slices.Contains(m.options.Aims, a) {
			return nil, &usageError{fmt.Sprintf("--aim %q stands twice", text), "name it once"}
		}
		m.options.Aims = append(m.options.Aims, a)
	}
	if f.aims == nil {
		m.options.Aims = []search.Aim{{Milestone: len(d.Milestones) - 1, Statistic: search.Mean}}
	}
	odds, err := oddsOfFlag(f.odds)
	if err != nil {
		return nil, err
	}
	if err := m.settleTargets(odds); err != nil {
		return nil, err
	}
	if err := m.settleShares(); err != nil {
		return nil, err
	}
	return m, nil
}

// statisticWord is what may stand behind the milestone of an aim.
var statisticWord = regexp.MustCompile(`^(.*\S)\s+(mean|p[0-9]{1,2})$`)

// aim reads an aim: a milestone and a statistic.
func (m *improvement) aim(text string) (search.Aim, error) {
	name, s := strings.TrimSpace(text), search.Mean
	if at := m.milestone(name); at >= 0 {
		return search.Aim{Milestone: at, Statistic: s}, nil
	}
	if goal, is := goalNamed(name); is {
		return search.Aim{Goal: goal}, nil
	}
	if parts := statisticWord.FindStringSubmatch(name); parts != nil {
		name = parts[1]
		if parts[2] != "mean" {
			p, _ := strconv.Atoi(parts[2][1:])
			if p == 0 {
				return search.Aim{}, &usageError{fmt.Sprintf("--aim %q: p0 is no moment", text), "p50, p80, p90 or p95"}
			}
			s = search.Quantile(float64(p) / 100)
		}
	}
	at, err := m.milestoneAsked("--aim", name)
	return search.Aim{Milestone: at, Statistic: s}, err
}

func (m *improvement) milestone(name string) int {
	return slices.IndexFunc(m.d.Milestones, func(ms sim.Milestone) bool { return ms.Name == name })
}

func (m *improvement) milestoneAsked(flag, name string) (int, error) {
	if at := m.milestone(name); at >= 0 {
		return at, nil
	}
	var names []string
	for _, ms := range m.d.Milestones {
		names = append(names, ms.Name)
	}
	err := &usageError{fmt.Sprintf("%s: %s has no milestone %q", flag, m.name, name), "its milestones: " + quoted(names)}
	if near := mistake.Nearest(name, names); len(near) > 0 {
		err.hint = "did you mean " + quoted(near) + "?"
	}
	return -1, err
}

// settleTargets settles what must be in time.
func (m *improvement) settleTargets(odds float64) error {
	for _, name := range m.flags.byDark {
		at, err := m.milestoneAsked("--by-dark", name)
		if err != nil {
			return err
		}
		dark := slices.IndexFunc(m.d.Light, func(l sim.Light) bool { return l.Dark })
		if len(m.d.Light) == 0 {
			return &usageError{fmt.Sprintf("--by-dark %q: %s does not say where and when it is", name, m.name), "site needs latitude, longitude and arrival"}
		}
		by := sim.Time(sim.Horizon)
		if dark >= 0 {
			by = m.d.Light[dark].At
		}
		m.options.InTime = append(m.options.InTime, search.InTime{Milestone: at, By: by, Odds: odds})
	}
	for _, name := range m.flags.inTime {
		at, err := m.milestoneAsked("--in-time", name)
		if err != nil {
			return err
		}
		if m.d.Milestones[at].By == sim.Never {
			return &usageError{fmt.Sprintf("--in-time %q: the milestone has no target", name), "give it one in the file: by: 90 min, by: 15:00, by: dark"}
		}
		m.options.InTime = append(m.options.InTime, search.InTime{Milestone: at, By: m.d.Milestones[at].By, Odds: odds})
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
		return &inputError{m.name + ": " + err.Error(), "warmby rehearse plays it"}
	case errors.As(err, &never):
		return fmt.Errorf("%s: %w", m.name, err)
	case err != nil:
		return fmt.Errorf("%s: %w", m.name, err)
	}
	e.note("searched for %.1f s", time.Since(start).Seconds())
	for i := range m.result.Orders { // what is new gets a name
		if f := &m.result.Orders[i]; f.Known == "" {
			f.Order.Name = m.fresh(i)
		}
	}
	return nil
}

// fresh returns the name of the order found at a place: new to the file.
func (m *improvement) fresh(place int) string {
	taken := append(slices.Clone(m.own), fileOrder)
	for i := range place {
		taken = append(taken, m.result.Orders[i].Order.Name)
	}
	for n := 1; ; n++ {
		name := m.flags.name
		if n > 1 {
			name += fmt.Sprintf(" %d", n)
		}
		if !slices.Contains(taken, name) {
			return name
		}
	}
}

// shown returns the orders that are written out: the best or, with several
// aims, all of which none is better in all.
func (m *improvement) shown() []search.Found {
	if len(m.result.Aims) > 1 {
		return m.result.Orders
	}
	return m.result.Orders[:1]
}

// writeImprovement writes the scenario with the orders found, and the picture.
func (e *environment) writeImprovement(m *improvement, src *ask.Source) error {
	if len(m.flags.pictures) > 0 {
		if err := e.writePicture(m.picture(), m.flags.pictures, m.flags.force); err != nil {
			return err
		}
	}
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
			what = fileOrder
		}
		e.note("nothing better than %s was found: %s was not written", what, m.flags.write)
		return nil
	}
	data, err := src.Scenario.WithOrders(src.Data, add...)
	if errors.Is(err, scenarios.ErrNoPlaceForOrder) {
		return &inputError{fmt.Sprintf("%s: %v", m.name, err), "paste the order by hand"}
	}
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", m.flags.write, err)
	}
	if err := e.writeFiles(m.flags.force, outFile{m.flags.write, data}); err != nil {
		return err
	}
	e.note("wrote %s, with %s added", m.flags.write, counted(len(add), "order"))
	return nil
}

// repeat returns the command that searches the same again.
func (m *improvement) repeat() string {
	words := []string{"warmby", "improve"}
	if m.arg != library.Default {
		words = append(words, shellWord(m.arg))
	}
	add := func(flag string, values ...string) {
		for _, v := range values {
			words = append(words, "--"+flag, shellWord(v))
		}
	}
	add("aim", m.flags.aims...)
	if m.flags.keepCold {
		words = append(words, "--keep-cold-limit")
	}
	if m.flags.coldOdds != "" {
		add("cold-odds", m.flags.coldOdds)
	}
	add("at-least", m.flags.atLeast...)
	add("by-dark", m.flags.byDark...)
	add("in-time", m.flags.inTime...)
	if len(m.options.InTime) > 0 {
		add("odds", m.flags.odds)
	}
	add("what-if", m.flags.whatIfs...)
	if m.flags.name != "improved" {
		add("name", m.flags.name)
	}
	return strings.Join(append(words, fmt.Sprintf("--evaluations %d --runs %d --seed %d", m.flags.evaluations, m.flags.runs, m.flags.seed)), " ")
}
