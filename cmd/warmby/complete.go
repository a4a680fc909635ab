package main

import (
	"errors"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/scenarios"
	"warmby/scenarios/library"
)

// completeFile completes a FILE: shipped scenarios by name, then files.
func completeFile(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return library.Names(), cobra.ShellCompDirectiveDefault
}

// completeFiles completes FILE.. in the same way.
func completeFiles(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return library.Names(), cobra.ShellCompDirectiveDefault
}

// completeOrder completes the name of a drill order of the scenario that the
// command line names so far.
func (e *environment) completeOrder(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	s, err := e.loadToComplete(args)
	if err != nil {
		return nil, cobra.ShellCompDirectiveError
	}
	return s.Scenario.Orders(), cobra.ShellCompDirectiveNoFileComp
}

// loadToComplete is loadArgs for completions. Standard input is the terminal
// then, and not the file: there is nothing to complete from.
func (e *environment) loadToComplete(args []string) (*ask.Source, error) {
	if len(args) > 0 && args[0] == "-" {
		return nil, errors.New("standard input is not there yet")
	}
	return e.loadArgs(args)
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
