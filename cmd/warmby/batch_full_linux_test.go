package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// A disk that is full while runs are played, and then while tables are written:
// nothing is lost, and the batch goes on when there is room.
func TestAFullDiskLosesNothing(t *testing.T) {
	disk := filepath.Join(t.TempDir(), "disk")
	if err := os.Mkdir(disk, 0o777); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("tmpfs", disk, "tmpfs", 0, "size=300k"); err != nil {
		t.Skipf("cannot mount a small disk here: %v", err)
	}
	defer syscall.Unmount(disk, syscall.MNT_DETACH) // the test stands in it
	room := func(size string) {
		t.Helper()
		if err := syscall.Mount("tmpfs", disk, "tmpfs", syscall.MS_REMOUNT, "size="+size); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(disk)
	line := []string{"batch", "--runs", "20000", "--order", "shelter first"}
	full := func(file string) {
		t.Helper()
		var stdout, stderr bytes.Buffer
		code := run(append(line, "--out", "out", "--resume"), strings.NewReader(""), &stdout, &stderr)
		if code != exitTrouble || !strings.Contains(stderr.String(), file+": no space left on device") ||
			!strings.Contains(stderr.String(), "runs are kept in out.part; when the cause is gone, go on with: warmby batch --runs 20000") {
			t.Fatalf("exit code %d, want %d:\n%s", code, exitTrouble, &stderr)
		}
	}
	full("journal")
	room("800k")
	full("runs.csv")
	if left := folder(t, "out.part"); len(left) != 1 {
		t.Errorf("a table that is not whole was left: %d files", len(left))
	}
	room("40m")
	answer(t, append([]string{"warmby"}, append(line, "--out", "out", "--resume")...)...)
	answer(t, append([]string{"warmby"}, append(line, "--out", "whole")...)...)
	same(t, folder(t, "whole"), folder(t, "out"), "after a full disk")
}
