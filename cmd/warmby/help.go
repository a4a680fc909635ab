package main

import (
	"fmt"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"warmby/cmd/warmby/internal/licences"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/results"
	"warmby/scenarios"
	"warmby/scenarios/stopwatch"
)

const helpUsage = `Shows how a command is used, or a page on a topic.

Usage:
  warmby help [COMMAND or TOPIC]

Examples:
  warmby help check
  warmby help scenario
  warmby help exit-codes
`

// topic is a page of help that belongs to no command.
type topic struct {
	name, short string
	text        func() string
}

var topics = []topic{
	{"scenario", "the manual of scenario files, with all that their words mean", scenarios.Manual},
	{"log", "what a stop-watch log looks like, for fit, review and season", stopwatch.Manual},
	{"language", "the fixed words of cards, to be translated for --language", languagePage},
	{"questions", "what the shipped scenarios ask, and the commands that answer it", func() string { return questionsPage }},
	{"results", "the files that batch writes, and how to read them in R and Python", func() string { return results.Help }},
	{"draws", "what is drawn, how to play your own draws, and recipes in R and Python", func() string { return results.Draws }},
	{"json", "what the answers for programs hold, field by field", jsonPage},
	{"odds", "how odds, intervals and comparisons are made, and what counts as never", func() string { return oddsPage }},
	{"units", "how quantities and their units are written", func() string { return unitsPage }},
	{"exit-codes", "what the exit code of a command says", func() string { return exitCodesPage }},
	{"licences", "the licences of all that the binary contains", func() string { return licences.Text }},
}

func helpCommand(e *environment) *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND or TOPIC]",
		Short: "show how a command is used, or a page on a topic",
		Long:  helpUsage,
		Args:  cobra.ArbitraryArgs,
		ValidArgsFunction: func(cmd *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) > 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return helpNames(cmd.Root()), cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(cmd *cobra.Command, args []string) error { return help(e, cmd.Root(), args) },
	}
}

func help(e *environment, root *cobra.Command, args []string) error {
	if len(args) == 0 {
		fmt.Fprint(e.stdout, helpText(root))
		return nil
	}
	if len(args) > 1 {
		return mistake.Usagef("warmby help expects one COMMAND or TOPIC, got %d: %s", len(args), mistake.Quoted(args))
	}
	for _, t := range topics {
		if t.name == args[0] {
			fmt.Fprint(e.stdout, strings.TrimRight(t.text(), "\n")+"\n")
			return nil
		}
	}
	for _, c := range root.Commands() {
		if c.Name() == args[0] {
			fmt.Fprint(e.stdout, helpText(c))
			return nil
		}
	}
	err := mistake.Usagef("no command and no topic %q", args[0])
	err.Cure = "\"warmby help\" lists commands and topics"
	if near := mistake.Nearest(args[0], helpNames(root)); len(near) > 0 {
		err.Cure = "did you mean \"warmby help " + strings.Join(near, "\" or \"warmby help ") + "\"?"
	}
	return err
}

func helpNames(root *cobra.Command) []string {
	names := commandNames(root)
	for _, t := range topics {
		names = append(names, t.name)
	}
	return names
}

// helpText is the usage text of a command followed by what cobra knows of it:
// its subcommands and flags.
func helpText(cmd *cobra.Command) string {
	var b strings.Builder
	b.WriteString(cmd.Long)
	if cmd.HasSubCommands() {
		b.WriteString("\nCommands:\n")
		for _, c := range cmd.Commands() {
			fmt.Fprintf(&b, "  %-12s %s\n", c.Name(), c.Short)
		}
		b.WriteString("\nTopics, shown by warmby help TOPIC:\n")
		for _, t := range topics {
			fmt.Fprintf(&b, "  %-12s %s\n", t.name, t.short)
		}
	}
	if rows := flagRows(cmd); len(rows) > 0 {
		b.WriteString("\nFlags:\n")
		w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
		for _, r := range rows {
			fmt.Fprintf(w, "  %s\n", strings.Join(r, "\t"))
		}
		w.Flush()
	}
	return b.String()
}

// flagRows lists the flags of a command by name; --help goes without saying.
func flagRows(cmd *cobra.Command) [][]string {
	var rows [][]string
	cmd.LocalFlags().VisitAll(func(f *pflag.Flag) {
		if f.Hidden || f.Name == "help" || f.Name == "version" {
			return
		}
		value, usage := pflag.UnquoteUsage(f)
		name := "--" + f.Name
		if f.Value.Type() != "bool" {
			name += " " + value
			// Named already: `NAME` at either end of the text only gives the
			// value its name.
			usage = strings.TrimPrefix(usage, value+" ")
			usage = strings.TrimRight(strings.TrimSuffix(usage, " "+value), ":")
		}
		switch f.DefValue {
		case "", "0", "false", "[]":
		default:
			usage += " (" + f.DefValue + " unless given)"
		}
		rows = append(rows, []string{name, usage})
	})
	return rows
}
