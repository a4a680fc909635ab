//go:build unix

package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"warmby/cmd/warmby/internal/results"
)

// Two commands that write one folder at once. The first is held when it has
// written everything and its folder has no name yet, which is when a second one
// used to mix its files with the first one's, or to throw the first one's away.
func TestTwoThatWriteOneFolderDoNotMixIt(t *testing.T) {
	t.Chdir(t.TempDir())
	for seed, parts := range map[string]string{"1": "one", "2": "two"} {
		for _, i := range []string{"1", "2"} {
			answer(t, "warmby", "batch", "--runs", "40", "--seed", seed, "--shard", i+"/2", "--out", filepath.Join(parts, i))
		}
	}
	first := map[string][]string{
		"batch": {"batch", "--runs", "40", "--seed", "1"},
		"merge": {"merge", "one"},
	}
	second := map[string][]string{
		"batch":        {"batch", "--runs", "40", "--seed", "2"},
		"merge":        {"merge", "two"},
		"same shards":  {"merge", "one"},
		"resume":       {"batch", "--runs", "40", "--seed", "1", "--resume"},
		"forced batch": {"batch", "--runs", "40", "--seed", "2", "--force"},
		"forced merge": {"merge", "two", "--force"},
	}
	want := answer(t, "warmby", "merge", "one", "--out", "whole") // the folder is what counts
	if want == "" {
		t.Fatal("nothing was merged")
	}
	for a, one := range first {
		for b, two := range second {
			for _, there := range []bool{false, true} {
				name := a + " and " + b
				if there {
					name += ", replacing"
				}
				t.Run(name, func(t *testing.T) {
					out := filepath.Join(t.TempDir(), "out")
					line := append(slices.Clone(one), "--out", out)
					if there {
						answer(t, "warmby", "merge", "two", "--out", out)
						line = append(line, "--force")
					}
					checkHeld(t, line, append(slices.Clone(two), "--out", out))
					same(t, folder(t, "whole"), folder(t, out), "the first")
					if left := names(t, filepath.Dir(out)); !slices.Equal(left, []string{"out"}) {
						t.Errorf("left behind: %q, want the results alone", left)
					}
				})
			}
		}
	}
}

// checkHeld runs a command and, while its folder has no name yet, another one,
// which must be told who is at work.
func checkHeld(t *testing.T, one, two []string) {
	t.Helper()
	held := false
	e := &environment{stdin: strings.NewReader(""), stdout: io.Discard, stderr: io.Discard}
	e.beforeNaming = func() {
		if held {
			t.Error("the second got as far as naming its folder")
			return
		}
		held = true
		var stdout, stderr bytes.Buffer
		code := run(two, strings.NewReader(""), &stdout, &stderr)
		said := stderr.String()
		if code == exitDone || stdout.Len() > 0 {
			t.Errorf("the second exits with %d and says %q, want it refused", code, stdout.String())
		}
		// What stands there already is refused as well, without a look at who works on it.
		if !strings.Contains(said, "another warmby is at work in ") && !strings.Contains(said, "exists already") && !strings.Contains(said, "holds another batch") {
			t.Errorf("the second says %q, want who is at work", said)
		}
		if strings.Contains(said, "at work") && !strings.Contains(said, fmt.Sprintf("process %d", os.Getpid())) {
			t.Errorf("the second says %q, want %q in it", said, fmt.Sprintf("process %d", os.Getpid()))
		}
	}
	var stderr bytes.Buffer
	e.stderr = &stderr
	if code := e.execute(t.Context(), one); code != exitDone {
		t.Errorf("the first exits with %d: %s", code, &stderr)
	}
	if !held {
		t.Error("the first never named its folder")
	}
}

// A lock that a killed process left is taken over.
func TestALockLeftBehindIsTakenOver(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("out.lock", []byte("process 1 on elsewhere, with a long name that must not stay\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	answer(t, "warmby", "batch", "--runs", "5", "--out", "out")
	if left := names(t, "."); !slices.Equal(left, []string{"out"}) {
		t.Errorf("left behind: %q, want the results alone", left)
	}
}

// What a process leaves that was killed between giving a folder its name and
// tidying up: the journal of a whole batch, and the folder that was replaced.
func TestWhatAKilledRunLeftOfAFinishedBatchIsTidied(t *testing.T) {
	t.Chdir(t.TempDir())
	line := []string{"warmby", "batch", "--runs", "40", "--out", "out"}
	answer(t, line...)
	want := folder(t, "out")
	kill := func() {
		t.Helper()
		answer(t, "warmby", "batch", "--runs", "40", "--seed", "2", "--out", "out.old-4711")
		answer(t, "warmby", "batch", "--runs", "40", "--shard", "1/1", "--out", "part")
		if err := os.Rename(filepath.Join("part", results.Journal), filepath.Join("out", results.Journal)); err != nil {
			t.Fatal(err)
		}
		if err := os.RemoveAll("part"); err != nil {
			t.Fatal(err)
		}
		if err := os.MkdirAll(filepath.Join("out.old-1", "mine"), 0o777); err != nil { // not ours to remove
			t.Fatal(err)
		}
	}
	kill()
	var stdout, stderr bytes.Buffer
	code := run([]string{"merge", "out", "--out", "merged"}, strings.NewReader(""), &stdout, &stderr)
	if code == exitDone || !strings.Contains(stderr.String(), "it is the result of a whole batch, which needs no merge") {
		t.Errorf("merge exits with %d and says %q", code, &stderr)
	}
	for what, flag := range map[string]string{"resumed": "--resume", "forced": "--force"} {
		answer(t, append(slices.Clone(line), flag)...)
		same(t, want, folder(t, "out"), what)
		if left := names(t, "."); !slices.Equal(left, []string{"out", "out.old-1"}) {
			t.Errorf("%s: left behind: %q", what, left)
		}
		kill()
	}
}

// A file under a passing name, of a process that is gone, is named.
func TestWhatAKilledRunLeftBesideAPictureIsNamed(t *testing.T) {
	t.Chdir(t.TempDir())
	gone := exec.Command("true")
	if err := gone.Run(); err != nil {
		t.Skip(err)
	}
	left := fmt.Sprintf(".warmby-%d-1.tmp", gone.Process.Pid)
	ours := fmt.Sprintf(".warmby-%d-77.tmp", os.Getpid())
	for _, name := range []string{left, ours} {
		if err := os.WriteFile(name, nil, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	var stdout, stderr bytes.Buffer
	if code := run([]string{"rehearse", "--picture", "evening.svg"}, strings.NewReader(""), &stdout, &stderr); code != exitDone {
		t.Fatal(code, &stderr)
	}
	if said := stderr.String(); !strings.Contains(said, "a run that was killed left "+left+"; it can be removed\n") || strings.Contains(said, ours) {
		t.Errorf("standard error says %q, want %s named and not %s", said, left, ours)
	}
}
