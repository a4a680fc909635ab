package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"warmby/sim/batch"
)

// Two versions may play the same scenario differently, so that shards of two
// make no batch, and shards of another version than this none that this one
// may speak for.
func TestMergeRefusesMixedVersions(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, shard := range []string{"1", "2"} {
		answer(t, "warmby", "batch", "--runs", "10", "--shard", shard+"/2", "--out", filepath.Join("parts", shard))
	}
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
	madeBy(t, filepath.Join("parts", "2"), "warmby v0.0.1-other")
	check(`version: `+version()+` in `+filepath.Join("parts", "1")+`, warmby v0.0.1-other in `+filepath.Join("parts", "2"), "merge shards of one batch only")
	madeBy(t, filepath.Join("parts", "1"), "warmby v0.0.1-other")
	check(`the shards were made by "warmby v0.0.1-other", and this is`, "merge with the version that made them")
	for _, shard := range []string{"1", "2"} {
		madeBy(t, filepath.Join("parts", shard), version())
	}
	answer(t, "warmby", "merge", "parts", "--out", "whole")
}

// madeBy makes the journal of a shard say that another version wrote it.
func madeBy(t *testing.T, folder, version string) {
	t.Helper()
	path := filepath.Join(folder, journalName)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	r, err := batch.NewReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	var job batchJob
	if err := json.Unmarshal(r.Header.Job, &job); err != nil {
		t.Fatal(err)
	}
	job.Version = version
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
