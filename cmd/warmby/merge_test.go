package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"warmby/cmd/warmby/internal/results"
	"warmby/sim"
	"warmby/sim/batch"
)

// Two versions may play the same scenario differently, so that shards of two
// make no batch, and shards of another version than this none that this one
// may speak for.
func TestMergeRefusesMixedVersions(t *testing.T) {
	t.Chdir(t.TempDir())
	twoShards(t)
	check := func(want, hint string) {
		t.Helper()
		var stdout, stderr bytes.Buffer
		code := run([]string{"merge", "parts", "--out", "whole"}, strings.NewReader(""), &stdout, &stderr)
		if said := stderr.String(); code != exitInput || !strings.Contains(said, want) || !strings.Contains(said, hint) {
			t.Errorf("merge exits with %d and says %q, want %d, %q and %q", code, said, exitInput, want, hint)
		}
		for _, left := range []string{"whole", "whole.part"} {
			if _, err := os.Stat(left); err == nil {
				t.Errorf("%s was left behind", left)
			}
		}
	}
	madeBy := func(folder, version string) {
		edit(t, folder, func(j *results.Job) { j.Version = version })
	}
	madeBy(filepath.Join("parts", "2"), "warmby v0.0.1-other")
	check(`version: `+version()+` in `+filepath.Join("parts", "1")+`, warmby v0.0.1-other in `+filepath.Join("parts", "2"), "merge shards of one batch only")
	madeBy(filepath.Join("parts", "1"), "warmby v0.0.1-other")
	check(`the shards were made by "warmby v0.0.1-other", and this is`, "merge with the version that made them")
	for _, shard := range []string{"1", "2"} {
		madeBy(filepath.Join("parts", shard), version())
	}
	answer(t, "warmby", "merge", "parts", "--out", "whole")
}

// Builds without a version call themselves the same, and may play differently:
// the number of the engine tells them apart.
func TestMergeRefusesMixedEngines(t *testing.T) {
	t.Chdir(t.TempDir())
	twoShards(t)
	edit(t, "parts/2", func(j *results.Job) { j.Engine++ })
	refuses(t, fmt.Sprintf("engine: %d in %s, %d in %s", sim.Engine, filepath.Join("parts", "1"), sim.Engine+1, filepath.Join("parts", "2")))
	edit(t, "parts/1", func(j *results.Job) { j.Engine++ })
	refuses(t, fmt.Sprintf("the shards were played by engine %d, and this one plays as engine %d", sim.Engine+1, sim.Engine))
}

// A header that was edited, checksum and all, still says which scenario was played.
func TestMergeRefusesAnotherScenarioInTheHeader(t *testing.T) {
	t.Chdir(t.TempDir())
	twoShards(t)
	for _, shard := range []string{"parts/1", "parts/2"} {
		edit(t, shard, func(j *results.Job) { j.Scenario += "# another\n" })
	}
	refuses(t, "its sha256 is another")
}

// A journal is opened twice, to plan and to read: another that took its place
// in between is not taken for it.
func TestAJournalOfAnotherBatchIsNotWorkedUp(t *testing.T) {
	t.Chdir(t.TempDir())
	twoShards(t)
	shards, err := results.FindShards([]string{"parts/1"})
	if err != nil {
		t.Fatal(err)
	}
	shards[0].Job.Seed++
	plan, err := shards[0].Job.Ready(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	_, err = results.Write(t.Context(), plan, t.TempDir(), []string{shards[0].Journal()}, 1, nil, func(int64, int64) {})
	if err == nil || !strings.Contains(err.Error(), "it is of another batch now: seed: 2 planned, 1 there") {
		t.Errorf("it is answered by %v", err)
	}
}

// twoShards plays both shards of a small batch.
func twoShards(t *testing.T) {
	t.Helper()
	for _, shard := range []string{"1", "2"} {
		answer(t, "warmby", "batch", "--runs", "10", "--shard", shard+"/2", "--out", filepath.Join("parts", shard))
	}
}

// refuses expects merge to say something of the shards in parts.
func refuses(t *testing.T, want string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	code := run([]string{"merge", "parts", "--out", "whole"}, strings.NewReader(""), &stdout, &stderr)
	if said := stderr.String(); code != exitInput || !strings.Contains(said, want) {
		t.Errorf("merge exits with %d and says %q, want %d and %q", code, said, exitInput, want)
	}
}

// edit changes what the journal of a shard says of the batch.
func edit(t *testing.T, folder string, change func(*results.Job)) {
	t.Helper()
	path := filepath.Join(folder, results.Journal)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	r, err := batch.NewReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	var job results.Job
	if err := json.Unmarshal(r.Header.Job, &job); err != nil {
		t.Fatal(err)
	}
	change(&job)
	if r.Header.Job, err = json.Marshal(job); err != nil {
		t.Fatal(err)
	}
	line, err := r.Header.Line()
	if err != nil {
		t.Fatal(err)
	}
	_, records, _ := bytes.Cut(data, []byte("\n"))
	if err := os.WriteFile(path, append(line, records...), 0o666); err != nil {
		t.Fatal(err)
	}
}
