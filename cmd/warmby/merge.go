package main

import (
	"context"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/results"
)

const mergeUsage = `Puts the shards of a batch together. The result is the same, byte for byte, as
that of one machine. Shards that are missing, doubled, not finished or of
another batch (seed, scenario, version) are refused, each with the command that
makes what is missing.

--picture draws a sweep, as in warmby batch.

DIR is the folder of a shard, or a folder with folders of shards in it.

Usage:
  warmby merge DIR.. [flags]

Examples:
  warmby batch --runs 300 --shard 1/2 --out parts/1
  warmby batch --runs 300 --shard 2/2 --out parts/2
  warmby merge parts --out whole
`

type mergeFlags struct {
	out     string
	workers int
	tell    tellFlags
	force   bool
}

func mergeCommand(e *environment) *cobra.Command {
	var f mergeFlags
	cmd := &cobra.Command{
		Use:   "merge DIR..",
		Short: "put the shards of a batch together",
		Long:  mergeUsage,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return &mistake.Usage{What: "warmby merge expects the folders of the shards", Cure: "such as warmby merge parts/*"}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return e.merge(cmd.Context(), args, f) },
	}
	flags := cmd.Flags()
	flags.StringVar(&f.out, "out", "", "write this folder, named after the scenario unless given: `DIR`")
	flags.IntVar(&f.workers, "workers", 0, "how many processors to use, all unless given: `N`")
	f.tell.declare(flags)
	flags.BoolVar(&f.force, "force", false, "replace a folder of results that exists")
	return cmd
}

func (e *environment) merge(ctx context.Context, args []string, f mergeFlags) error {
	if err := ask.SettleWorkers(&f.workers); err != nil {
		return err
	}
	shards, err := results.FindShards(args)
	if err != nil {
		return err
	}
	plan, err := results.OnePlan(shards, version())
	if err != nil {
		return err
	}
	sweep, err := e.sweep(plan, f.tell, f.force)
	if err != nil {
		return err
	}
	if f.out == "" {
		f.out = plan.Job.Name
	}
	out := e.outFolder(f.out)
	for _, s := range shards {
		if s.IsAt(out.Path) {
			return &mistake.Usage{What: fmt.Sprintf("--out %s is one of the shards, and would be lost", f.out), Cure: "give another --out"}
		}
	}
	r, err := e.mergeInto(ctx, out, plan, shards, f, sweep)
	if err != nil {
		return err
	}
	again := "warmby merge"
	for _, folder := range args {
		again += " " + ask.ShellWord(folder)
	}
	return e.tellResults(r, out.Path, plan.Job.Command(plan.Job.FileArg()), again, f.tell, f.force)
}

// mergeInto writes the folder of the whole batch.
func (e *environment) mergeInto(ctx context.Context, out *results.Folder, plan *results.Plan, shards []*results.ShardFolder, f mergeFlags, sweep *results.Sweep) (*results.Results, error) {
	if err := out.MayReplace(f.force); err != nil {
		return nil, err
	}
	if _, err := out.Open(false, true); err != nil {
		return nil, err
	}
	defer out.Close()
	if err := out.MayReplace(f.force); err != nil { // somebody was quicker
		os.Remove(out.Part)
		return nil, err
	}
	if _, err := os.Stat(out.JournalPath()); err == nil {
		return nil, mistake.WithHint(fmt.Errorf("a batch was begun in %s and not finished", out.Part), "give another --out")
	}
	e.tidies.Store(true)
	out.Clear() // what a killed merge may have left
	var journals []string
	for _, s := range shards {
		journals = append(journals, s.Journal())
	}
	p := e.progress("merging")
	defer p.end()
	r, err := results.Write(ctx, plan, out.Part, journals, f.workers, sweep, p.update)
	if err == nil {
		err = out.Finish(f.force, false)
	}
	if err != nil {
		out.Clear()
		os.Remove(out.Part)
	}
	return r, err
}
