package main

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios"
	"warmby/scenarios/library"
)

const completionUsage = `Prints a script that lets a shell complete commands, flags, the names of shipped
scenarios and those of drill orders.

Usage:
  warmby completion bash|zsh|fish|powershell

Examples:
  warmby completion bash             print it
  source <(warmby completion bash)   use it in this shell (bash, zsh)

Bash needs the package bash-completion, loaded before the script; zsh needs
"autoload -U compinit; compinit" before it.
`

var shells = []string{"bash", "zsh", "fish", "powershell"}

func completionCommand(e *environment) *cobra.Command {
	return &cobra.Command{
		Use:       "completion SHELL",
		Short:     "print a completion script for a shell",
		Long:      completionUsage,
		ValidArgs: shells,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 1 {
				return nil
			}
			return &mistake.Usage{What: fmt.Sprintf("warmby completion expects one SHELL, got %d arguments", len(args)), Cure: "one of bash, zsh, fish, powershell"}

		},
		RunE: func(cmd *cobra.Command, args []string) error {
			root := cmd.Root()
			switch args[0] {
			case "bash":
				return mended(e.stdout, func(w io.Writer) error { return root.GenBashCompletionV2(w, true) }, inBash)
			case "zsh":
				return mended(e.stdout, root.GenZshCompletion, inZsh)
			case "fish":
				return root.GenFishCompletion(e.stdout, true)
			case "powershell":
				return root.GenPowerShellCompletionWithDesc(e.stdout)
			}
			err := mistake.Usagef("no completion for shell %q", args[0])
			err.Cure = "one of bash, zsh, fish, powershell"
			return err
		},
	}
}

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
