package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/scenarios/library"
)

// trialFlags are the flags of split.
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
	cmd.RegisterFlagCompletionFunc("what-if", e.completeOf(ask.WhatIfNames))
	cmd.RegisterFlagCompletionFunc("milestone", e.completeOf(ask.MilestoneNames))
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

// mostMoments bounds the moments that are kept in memory, 8 bytes
// each.
const mostMoments = 100_000_000
