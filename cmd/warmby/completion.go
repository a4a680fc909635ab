package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/mistake"
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
