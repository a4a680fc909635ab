package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
)

const renameUsage = `Calls a task, a person or another thing of a scenario file by a new name,
everywhere in the file that it is named: orders, lookouts, milestones, what-ifs.
Comments and layout stay, and so do sentences in which the name is spoken of.

It changes FILE itself with --force, or writes another file with --out.

Usage:
  warmby rename FILE OLD NEW [flags]

Examples:
  warmby rename kestrel-fell Berend Bo --out ours.yaml
  warmby rename mine.yaml "dig the latrine" "dig the privy" --force
  warmby rename kestrel-fell tent big-tent --kind shelter --out theirs.yaml
`

type renameFlags struct {
	kind, out string
	force     bool
}

func renameCommand(e *environment) *cobra.Command {
	var f renameFlags
	cmd := &cobra.Command{
		Use:               "rename FILE OLD NEW",
		Short:             "call a task, a person or a thing otherwise throughout a file",
		Long:              renameUsage,
		Args:              renameArgs,
		ValidArgsFunction: completeFile,
		RunE:              func(_ *cobra.Command, args []string) error { return e.rename(args[0], args[1], args[2], f) },
	}
	flags := cmd.Flags()
	flags.StringVar(&f.kind, "kind", "", "rename the thing of this kind, where several have the name: `KIND`")
	flags.StringVar(&f.out, "out", "", "write this file instead of FILE: `FILE`")
	flags.BoolVar(&f.force, "force", false, "change FILE itself, or overwrite that of --out")
	cmd.RegisterFlagCompletionFunc("kind", cobra.FixedCompletions(scenarios.Renamable, cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

func renameArgs(cmd *cobra.Command, args []string) error {
	if len(args) == 3 {
		return nil
	}
	return &mistake.Usage{What: fmt.Sprintf("%s expects FILE, OLD and NEW, got %d arguments", cmd.CommandPath(), len(args)), Cure: "put quotes around a name with spaces in it: warmby rename mine.yaml \"dig the pit\" \"dig the kitchen\""}
}

func (e *environment) rename(arg, from, to string, f renameFlags) error {
	src, err := e.load(arg)
	if err != nil {
		return err
	}
	path := f.out
	if path == "" {
		switch {
		case src.Shipped, src.Arg == "-":
			return &mistake.Usage{What: fmt.Sprintf("%s is no file that could be changed", src.Name), Cure: "say where to write it: --out mine.yaml"}
		case !f.force:
			return &mistake.Usage{What: fmt.Sprintf("%s would be changed", src.Name), Cure: "--force changes it, --out FILE writes another file"}
		}
		path = arg
	}
	if err := e.mayWrite(f.force, path); err != nil {
		return err
	}
	text, renamed, err := src.Scenario.Rename(src.Data, f.kind, from, to)
	if err != nil {
		what, cure, _ := strings.Cut(err.Error(), "\n  hint: ")
		return &mistake.Usage{What: src.Name + ": " + what, Cure: cure}
	}
	if err := e.writeFiles(f.force, outFile{path, text}); err != nil {
		return err
	}
	e.note("the %s %s is called %s now, at %s of %s", renamed.Kind, ask.ShellWord(from), ask.ShellWord(to), report.Counted(renamed.Places, "place"), path)
	return nil
}
