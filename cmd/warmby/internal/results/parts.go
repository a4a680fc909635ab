package results

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
	"warmby/sim/batch"
)

// ShardFolder is a folder with the journal of one shard.
type ShardFolder struct {
	path   string
	header batch.Header
	Job    *Job
	begun  bool // not finished: the folder ends in .part
}

// Journal returns the path of what was played.
func (s *ShardFolder) Journal() string { return filepath.Join(s.path, Journal) }

// IsAt reports whether a path leads to the folder of the shard.
func (s *ShardFolder) IsAt(path string) bool {
	x, errX := os.Stat(s.path)
	y, errY := os.Stat(path)
	return errX == nil && errY == nil && os.SameFile(x, y)
}

// FindShards reads the headers of the shards that folders hold.
func FindShards(folders []string) ([]*ShardFolder, error) {
	var list []*ShardFolder
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
		return nil, fmt.Errorf("cannot read %s: %w", folder, mistake.Reason(err))
	case !info.IsDir():
		return nil, &mistake.Usage{What: fmt.Sprintf("%s is not a folder", folder), Cure: "give the folders that warmby batch --shard wrote"}
	case hasJournal(folder) && !isWhole(folder):
		return []string{filepath.Clean(folder)}, nil
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", folder, mistake.Reason(err))
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
			return nil, mistake.WithHint(err, "it is the result of a whole batch, which needs no merge")
		}
		return nil, mistake.WithHint(err, "give the folders that warmby batch --shard wrote")
	}
	return paths, nil
}

func hasJournal(folder string) bool {
	info, err := os.Stat(filepath.Join(folder, Journal))
	return err == nil && info.Mode().IsRegular()
}

func readShard(path string) (*ShardFolder, error) {
	s := &ShardFolder{path: path, begun: strings.HasSuffix(path, ".part")}
	f, err := os.Open(s.Journal())
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", s.Journal(), mistake.Reason(err))
	}
	defer f.Close()
	r, err := batch.NewReader(f)
	if err == nil {
		s.header = r.Header
		s.Job, err = readJob(r.Header.Job)
	}
	if err != nil {
		return nil, &mistake.Input{What: fmt.Sprintf("%s: %v", s.Journal(), err), Cure: "make the shard again"}
	}
	return s, nil
}

// OnePlan puts shards in sequence and returns the plan that they are of, or
// says why they do not make one; version is that of this program.
func OnePlan(shards []*ShardFolder, version string) (*Plan, error) {
	first := shards[0]
	var there []batch.Shard
	for _, s := range shards {
		if s.header.Shard.Whole() {
			return nil, &mistake.Input{What: fmt.Sprintf("%s is no shard but a batch that is not split", s.path), Cure: "finish it with --resume"}
		}
		if why := first.Job.Differs(s.Job, "in "+first.path, "in "+s.path); why != "" || !first.header.SameJob(&s.header) {
			return nil, &mistake.Input{What: fmt.Sprintf("%s and %s are of different batches: %s", first.path, s.path, orEmpty(why)), Cure: "merge shards of one batch only"}
		}
		there = append(there, s.header.Shard)
	}
	if first.Job.Version != version {
		return nil, &mistake.Input{What: fmt.Sprintf("the shards were made by %q, and this is %q", first.Job.Version, version), Cure: "merge with the version that made them"}
	}
	if first.Job.Engine != sim.Engine {
		return nil, &mistake.Input{What: fmt.Sprintf("the shards were played by engine %d, and this one plays as engine %d", first.Job.Engine, sim.Engine), Cure: "merge with the warmby that made them"}
	}
	missing, doubled, ok := batch.Missing(there)
	if !ok {
		return nil, &mistake.Input{What: fmt.Sprintf("the shards are of different splits: %s", splits(shards)), Cure: "merge shards I/N of one N only"}
	}
	plan, err := first.Job.plan()
	if err != nil {
		return nil, err
	}
	slices.SortStableFunc(shards, func(a, b *ShardFolder) int { return a.header.Shard.Index - b.header.Shard.Index })
	return plan, wholeShards(plan, shards, missing, doubled)
}

func splits(shards []*ShardFolder) string {
	var list []string
	for _, s := range shards {
		list = append(list, fmt.Sprintf("%v in %s", s.header.Shard, s.path))
	}
	return strings.Join(list, ", ")
}

// wholeShards says all that is missing, with the commands that make it.
func wholeShards(plan *Plan, shards []*ShardFolder, missing, doubled []batch.Shard) error {
	var wrong, commands []string
	again := func(shard batch.Shard, arg, out string) {
		command := plan.Job.Command(arg) + " --shard " + shard.String() + " --resume"
		if out != "" {
			command += " --out " + ask.ShellWord(out)
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
		wrong = append(wrong, fmt.Sprintf("shard %v is there %d times: in %s", shard, len(where), report.Named(where)))
	}
	for _, s := range shards {
		done, left, err := s.read(plan)
		switch {
		case err != nil:
			wrong = append(wrong, fmt.Sprintf("shard %v in %s is spoilt: %v", s.header.Shard, s.path, err))
			commands = append(commands, plan.Job.Command(s.header.Note)+" --shard "+s.header.Shard.String()+" --force --out "+ask.ShellWord(strings.TrimSuffix(s.path, ".part")))
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
	return &mistake.Input{What: "not all shards are there:\n  " + strings.Join(wrong, "\n  "), Cure: hint}
}

// read walks the journal of a shard and returns how many of its runs are there
// and how many are missing.
func (s *ShardFolder) read(plan *Plan) (done, left int64, err error) {
	f, err := os.Open(s.Journal())
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
