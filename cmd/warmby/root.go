package main

import (
	"fmt"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios/library"
)

const rootUsage = `warmby plays what a team does between its arrival in the snow and the moment
everybody is warm, fed and settled: who does what, in which order, and how long
until the shelter is up, it is heated and the first hot drink is there.

Usage:
  warmby COMMAND [FILE] [flags]

Examples:
  warmby rehearse                    play the shipped demo
  warmby check kestrel-fell          check a shipped scenario
  warmby help scenario               read the manual of scenario files

FILE is a scenario file, the name of a shipped scenario, or - for standard
input; left out, it is the shipped demo.
`

// commands lists the subcommands in the order in which help shows them.
func commands(e *environment) []*cobra.Command {
	return []*cobra.Command{
		tonightCommand(e),
		rehearseCommand(e),
		compareCommand(e),
		improveCommand(e),
		batchCommand(e),
		mergeCommand(e),
		splitCommand(e),
		haltCommand(e),
		cardsCommand(e),
		fitCommand(e),
		reviewCommand(e),
		seasonCommand(e),
		checkCommand(e),
		cautionsCommand(e),
		newCommand(e),
		renameCommand(e),
		helpCommand(e),
		completionCommand(e),
	}
}

// playing are the commands that take --set. Batch has it as well, and makes
// columns of what is set.
var playing = []string{"tonight", "rehearse", "compare", "improve", "split", "halt", "cards", "check", "cautions"}

// doubting are the commands that tell luck from numbers and take --log.
var doubting = []string{"rehearse", "compare", "halt"}

// Commands are listed in their own order, not by the alphabet.
func init() { cobra.EnableCommandSorting = false }

func rootCommand(e *environment) *cobra.Command {
	root := &cobra.Command{
		Use:           "warmby",
		Long:          rootUsage,
		Version:       version(),
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          unknownCommand,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.PersistentPreRunE = func(cmd *cobra.Command, _ []string) error { return noEmptyValue(cmd) }
	root.CompletionOptions.DisableDefaultCmd = true
	root.SetVersionTemplate("{{.Version}}\n")
	root.SetIn(e.stdin)
	root.SetOut(e.stdout)
	root.SetErr(e.stderr)
	root.SetFlagErrorFunc(flagError)
	root.SetHelpFunc(func(cmd *cobra.Command, _ []string) { fmt.Fprint(e.stdout, helpText(cmd)) })
	for _, c := range commands(e) {
		if c.Name() == "help" {
			root.SetHelpCommand(c)
		}
		if slices.Contains(playing, c.Name()) {
			ask.Set(c.Flags(), &e.set)
		}
		if slices.Contains(doubting, c.Name()) {
			ask.Log(c.Flags(), &e.logs)
		}
		plainNumbers(c.Flags())
		root.AddCommand(c)
	}
	return root
}

// unknownCommand refuses words that are no subcommand.
func unknownCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	word := args[0]
	err := mistake.Usagef("unknown command %q", word)
	_, shipped := library.Read(word)
	near := mistake.Nearest(word, commandNames(cmd))
	switch {
	case shipped || strings.HasSuffix(word, ".yaml"):
		err.Cure = "a command comes first: warmby rehearse " + word
	case len(near) > 0:
		err.Cure = "did you mean \"warmby " + strings.Join(near, "\" or \"warmby ") + "\"?"
	default:
		err.Cure = "\"warmby help\" lists the commands"
	}
	return err
}

func commandNames(root *cobra.Command) []string {
	var names []string
	for _, c := range root.Commands() {
		if !c.Hidden { // such as cobra's own __complete
			names = append(names, c.Name())
		}
	}
	return names
}

// version names the build: the module's version, and the revision it was
// built from where the build knows.
func version() string {
	text := "warmby (unknown build)"
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return text
	}
	text = "warmby " + info.Main.Version
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			text += " " + s.Value
		}
	}
	return text
}
