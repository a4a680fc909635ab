package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"warmby/sim"
	"warmby/sim/batch"
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
	sweep   sweepFlags
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
				return &usageError{"warmby merge expects the folders of the shards", "such as warmby merge parts/*"}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return e.merge(cmd.Context(), args, f) },
	}
	flags := cmd.Flags()
	flags.StringVar(&f.out, "out", "", "write this folder, named after the scenario unless given: `DIR`")
	flags.IntVar(&f.workers, "workers", 0, "how many processors to use, all unless given: `N`")
	f.sweep.declare(flags)
	flags.BoolVar(&f.force, "force", false, "replace a folder of results that exists")
	return cmd
}

// shardFolder is a folder with the journal of one shard.
type shardFolder struct {
	path   string
	header batch.Header
	job    *batchJob
	begun  bool // not finished: the folder ends in .part
}

func (s *shardFolder) journal() string { return filepath.Join(s.path, journalName) }

func (e *environment) merge(ctx context.Context, args []string, f mergeFlags) error {
	if f.workers < 0 || f.workers > mostWorkers {
		return &usageError{fmt.Sprintf("--workers expects a whole number from 1 to 4096, got %d", f.workers), "left out, all processors are used"}
	}
	if f.workers == 0 {
		f.workers = runtime.GOMAXPROCS(0)
	}
	shards, err := findShards(args)
	if err != nil {
		return err
	}
	plan, err := onePlan(shards)
	if err != nil {
		return err
	}
	sweep, err := e.newSweepPicture(plan, f.sweep, f.force)
	if err != nil {
		return err
	}
	if f.out == "" {
		f.out = plan.job.Name
	}
	out := newOutFolder(f.out)
	for _, s := range shards {
		if sameFile(s.path, out.path) {
			return &usageError{fmt.Sprintf("--out %s is one of the shards, and would be lost", f.out), "give another --out"}
		}
	}
	results, err := e.mergeInto(ctx, out, plan, shards, f, sweep)
	if err != nil {
		return err
	}
	if _, err = io.WriteString(e.stdout, results.text(out.path, plan.job.command(plan.job.fileArg()), e.width())); err != nil || sweep == nil {
		return err
	}
	return e.writeSweep(results, sweep, f.force)
}

// mergeInto writes the folder of the whole batch.
func (e *environment) mergeInto(ctx context.Context, out *outFolder, plan *batchPlan, shards []*shardFolder, f mergeFlags, sweep *sweepPicture) (*results, error) {
	if err := out.mayReplace(f.force); err != nil {
		return nil, err
	}
	if _, err := out.open(false, true); err != nil {
		return nil, err
	}
	defer out.close()
	if err := out.mayReplace(f.force); err != nil { // somebody was quicker
		os.Remove(out.part)
		return nil, err
	}
	if _, err := os.Stat(out.journalPath()); err == nil {
		return nil, withHint(fmt.Errorf("a batch was begun in %s and not finished", out.part), "give another --out")
	}
	e.tidies.Store(true)
	out.clear() // what a killed merge may have left
	var journals []string
	for _, s := range shards {
		journals = append(journals, s.journal())
	}
	results, err := writeResults(ctx, plan, out.part, journals, f.workers, sweep, e.progress("merging"))
	if err == nil {
		err = out.finish(f.force, false)
	}
	if err != nil {
		out.clear()
		os.Remove(out.part)
	}
	return results, err
}

// sameFile reports whether two paths lead to one and the same.
func sameFile(a, b string) bool {
	x, errX := os.Stat(a)
	y, errY := os.Stat(b)
	return errX == nil && errY == nil && os.SameFile(x, y)
}

// findShards reads the headers of the shards that folders hold.
func findShards(folders []string) ([]*shardFolder, error) {
	var list []*shardFolder
	seen := map[string]bool{}
	for _, folder := range folders {
		paths, err := shardPaths(folder)
		if err != nil {
			return nil, err
		}
		for _, path := range paths {
			real, err := filepath.EvalSymlinks(path)
			if err != nil || seen[real] {
				continue
			}
			seen[real] = true
			s, err := readShard(path)
			if err != nil {
				return nil, err
			}
			list = append(list, s)
		}
	}
	return list, nil
}

// shardPaths returns the folders with a journal: the folder itself, the one in
// which it is being made, or those in it.
func shardPaths(folder string) ([]string, error) {
	info, err := os.Stat(folder)
	switch {
	case errors.Is(err, os.ErrNotExist) && hasJournal(folder+".part"):
		return []string{folder + ".part"}, nil
	case err != nil:
		return nil, fmt.Errorf("cannot read %s: %w", folder, reason(err))
	case !info.IsDir():
		return nil, &usageError{fmt.Sprintf("%s is not a folder", folder), "give the folders that warmby batch --shard wrote"}
	case hasJournal(folder) && !isWhole(folder):
		return []string{filepath.Clean(folder)}, nil
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", folder, reason(err))
	}
	var paths []string
	for _, entry := range entries {
		if path := filepath.Join(folder, entry.Name()); hasJournal(path) && !isWhole(path) {
			paths = append(paths, path)
		}
	}
	if len(paths) == 0 {
		err := fmt.Errorf("%s holds no shard", folder)
		if isWhole(folder) {
			return nil, withHint(err, "it is the result of a whole batch, which needs no merge")
		}
		return nil, withHint(err, "give the folders that warmby batch --shard wrote")
	}
	return paths, nil
}

func hasJournal(folder string) bool {
	info, err := os.Stat(filepath.Join(folder, journalName))
	return err == nil && info.Mode().IsRegular()
}

func readShard(path string) (*shardFolder, error) {
	s := &shardFolder{path: path, begun: strings.HasSuffix(path, ".part")}
	f, err := os.Open(s.journal())
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", s.journal(), reason(err))
	}
	defer f.Close()
	r, err := batch.NewReader(f)
	if err == nil {
		s.header = r.Header
		s.job, err = readJob(r.Header.Job)
	}
	if err != nil {
		return nil, &inputError{fmt.Sprintf("%s: %v", s.journal(), err), "make the shard again"}
	}
	return s, nil
}

// onePlan puts shards in sequence and returns the plan that they are of, or
// says why they do not make one.
func onePlan(shards []*shardFolder) (*batchPlan, error) {
	first := shards[0]
	var there []batch.Shard
	for _, s := range shards {
		if s.header.Shard.Whole() {
			return nil, &inputError{fmt.Sprintf("%s is no shard but a batch that is not split", s.path), "finish it with --resume"}
		}
		if why := first.job.differs(s.job, "in "+first.path, "in "+s.path); why != "" || !first.header.SameJob(&s.header) {
			return nil, &inputError{fmt.Sprintf("%s and %s are of different batches: %s", first.path, s.path, orEmpty(why)), "merge shards of one batch only"}
		}
		there = append(there, s.header.Shard)
	}
	if first.job.Version != version() {
		return nil, &inputError{fmt.Sprintf("the shards were made by %q, and this is %q", first.job.Version, version()), "merge with the version that made them"}
	}
	if first.job.Engine != sim.Engine {
		return nil, &inputError{fmt.Sprintf("the shards were played by engine %d, and this one plays as engine %d", first.job.Engine, sim.Engine), "merge with the warmby that made them"}
	}
	missing, doubled, ok := batch.Missing(there)
	if !ok {
		return nil, &inputError{fmt.Sprintf("the shards are of different splits: %s", splits(shards)), "merge shards I/N of one N only"}
	}
	plan, err := first.job.plan()
	if err != nil {
		return nil, err
	}
	slices.SortStableFunc(shards, func(a, b *shardFolder) int { return a.header.Shard.Index - b.header.Shard.Index })
	return plan, wholeShards(plan, shards, missing, doubled)
}

func splits(shards []*shardFolder) string {
	var list []string
	for _, s := range shards {
		list = append(list, fmt.Sprintf("%v in %s", s.header.Shard, s.path))
	}
	return strings.Join(list, ", ")
}

// wholeShards says all that is missing, with the commands that make it.
func wholeShards(plan *batchPlan, shards []*shardFolder, missing, doubled []batch.Shard) error {
	var wrong, commands []string
	again := func(shard batch.Shard, arg, out string) {
		command := plan.job.command(arg) + " --shard " + shard.String() + " --resume"
		if out != "" {
			command += " --out " + shellWord(out)
		}
		commands = append(commands, command)
	}
	for _, shard := range missing {
		wrong = append(wrong, fmt.Sprintf("shard %v is missing", shard))
		again(shard, shards[0].header.Note, "")
	}
	for _, shard := range doubled {
		var where []string
		for _, s := range shards {
			if s.header.Shard == shard {
				where = append(where, s.path)
			}
		}
		wrong = append(wrong, fmt.Sprintf("shard %v is there %d times: in %s", shard, len(where), list(where)))
	}
	for _, s := range shards {
		done, left, err := s.read(plan)
		switch {
		case err != nil:
			wrong = append(wrong, fmt.Sprintf("shard %v in %s is spoilt: %v", s.header.Shard, s.path, err))
			commands = append(commands, plan.job.command(s.header.Note)+" --shard "+s.header.Shard.String()+" --force --out "+shellWord(strings.TrimSuffix(s.path, ".part")))
		case left > 0 || s.begun:
			wrong = append(wrong, fmt.Sprintf("shard %v in %s is not finished: %s of %s runs", s.header.Shard, s.path, grouped(done), grouped(done+left)))
			again(s.header.Shard, s.header.Note, strings.TrimSuffix(s.path, ".part"))
		}
	}
	if len(wrong) == 0 {
		return nil
	}
	hint := "merge each shard once"
	if len(commands) > 0 {
		hint = "make what is missing with:\n  " + strings.Join(commands, "\n  ")
	}
	return &inputError{"not all shards are there:\n  " + strings.Join(wrong, "\n  "), hint}
}

// read walks the journal of a shard and returns how many of its runs are there
// and how many are missing.
func (s *shardFolder) read(plan *batchPlan) (done, left int64, err error) {
	f, err := os.Open(s.journal())
	if err != nil {
		return 0, 0, err
	}
	defer f.Close()
	p := plan.Plan
	p.Shard = s.header.Shard
	course := p.Course()
	r, err := batch.NewReader(f)
	for err == nil {
		var c *batch.Chunk
		if c, err = r.Chunk(); err == nil {
			err = course.Add(c)
		}
	}
	switch {
	case errors.Is(err, io.EOF):
		err = nil
	case errors.Is(err, batch.ErrTorn) && s.begun:
		err = nil // as a killed program leaves it
	}
	return course.Done(), course.Left(), err
}
