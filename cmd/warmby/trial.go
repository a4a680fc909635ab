package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"warmby/scenarios"
	"warmby/scenarios/library"
)

// trialFlags are the flags of commands that try things out: split and halt.
type trialFlags struct {
	milestone         string
	whatIfs           []string
	evaluations, runs int
	seed              uint64
	workers           int
	pictures          []string
	json, force       bool
}

// declare adds the flags to a command. What differs from one to the other is
// said by the caller: how many runs there are for what, and what is drawn.
func (f *trialFlags) declare(e *environment, cmd *cobra.Command, runs int, runsFor, picture string) {
	flags := cmd.Flags()
	flags.StringArrayVar(&f.whatIfs, "what-if", nil, "play the what-if `NAME` of the file; several, or all, as cases")
	flags.IntVar(&f.runs, "runs", runs, "play `N` runs "+runsFor+"; 0 for usual values only")
	flags.Uint64Var(&f.seed, "seed", 1, "draw the runs with this seed `N`")
	flags.IntVar(&f.workers, "workers", 0, "use `N` processors, else all; results do not depend on it")
	flags.StringArrayVar(&f.pictures, "picture", nil, "write a picture of "+picture+": `FILE`.svg, .png or .pdf")
	flags.BoolVar(&f.json, "json", false, "print the answer as JSON")
	flags.BoolVar(&f.force, "force", false, "overwrite files that exist")
	cmd.RegisterFlagCompletionFunc("what-if", e.completeOf(whatIfNames))
	cmd.RegisterFlagCompletionFunc("milestone", e.completeOf(milestoneNames))
	cmd.PreRunE = func(cmd *cobra.Command, _ []string) error {
		if cmd.Flags().Changed("evaluations") && (f.evaluations < 1 || f.evaluations > mostEvaluations) {
			return &usageError{fmt.Sprintf("--evaluations expects a whole number from 1 to %d, got %d", mostEvaluations, f.evaluations),
				"left out, as many drills are played as it takes"}
		}
		return nil
	}
}

// check checks what can be checked without a scenario, and settles workers.
func (f *trialFlags) check(e *environment) error {
	if f.runs < 0 {
		return &usageError{fmt.Sprintf("--runs expects a whole number, 0 or more, got %d", f.runs), "0 plays usual values only"}
	}
	var err error
	if f.workers, err = checkRuns(max(1, f.runs), f.workers); err != nil {
		return err
	}
	return e.checkPictures(f.pictures, f.force)
}

// usual reports whether usual values are asked for and no runs.
func (f *trialFlags) usual() bool { return f.runs == 0 }

// onlyUsual says why there is no interval.
const onlyUsual = "usual values only, without luck: no interval"

// withRuns says how many runs there were of what; without runs, that there was
// no luck.
func (f *trialFlags) withRuns(ofWhat string) string {
	if f.usual() {
		return "usual values only, no drawn runs"
	}
	return fmt.Sprintf("%s %s, seed %d", counted(f.runs, "run"), ofWhat, f.seed)
}

// flagValue is a flag as it was given.
type flagValue struct{ flag, value string }

// repeat returns the command that asks the same again.
func (f *trialFlags) repeat(command, file string, own ...flagValue) string {
	words := []string{"warmby", command}
	if file != library.Default {
		words = append(words, shellWord(file))
	}
	for _, name := range f.whatIfs {
		own = append(own, flagValue{"what-if", name})
	}
	for _, w := range append(own, flagValue{"milestone", f.milestone}) {
		if w.value != "" {
			words = append(words, "--"+w.flag, shellWord(w.value))
		}
	}
	if f.evaluations > 0 {
		words = append(words, fmt.Sprintf("--evaluations %d", f.evaluations))
	}
	return strings.Join(append(words, fmt.Sprintf("--runs %d --seed %d", f.runs, f.seed)), " ")
}

// scenarioCase is a scenario as it stands, or as a what-if changes it.
type scenarioCase struct {
	whatIf   string // "" as it stands
	scenario *scenarios.Scenario
}

// called names a case.
func (c *scenarioCase) called() string {
	if c.whatIf == "" {
		return "as it stands"
	}
	return c.whatIf
}

// cases returns what is to be played: the scenario as it stands; the one
// what-if asked for; or, of several or all, the scenario as it stands and then
// each of them.
func (s *source) cases(whatIfs []string) ([]*scenarioCase, error) {
	names, err := s.whatIfs(whatIfs)
	if err != nil {
		return nil, err
	}
	var list []*scenarioCase
	if len(names) != 1 || whatIfs[0] == allWhatIfs {
		list = append(list, &scenarioCase{"", s.scenario})
	}
	for _, name := range names {
		changed, err := s.scenario.WhatIf(name)
		if err != nil {
			return nil, err
		}
		list = append(list, &scenarioCase{name, changed})
	}
	return list, nil
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

// whatIfNames lists the what-ifs of a scenario, and the word for all of them.
func whatIfNames(s *scenarios.Scenario) []string {
	return append(slices.Clone(s.WhatIfs()), allWhatIfs)
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
