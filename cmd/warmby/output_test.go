package main

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"warmby/scenarios"
)

func content(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func names(t *testing.T, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func TestWriteFilesLeavesWhatExists(t *testing.T) {
	dir := t.TempDir()
	old, other := filepath.Join(dir, "b"), filepath.Join(dir, "a")
	if err := os.WriteFile(old, []byte("old"), 0o640); err != nil {
		t.Fatal(err)
	}
	var e environment
	err := e.writeFiles(false, outFile{other, []byte("new")}, outFile{old, []byte("new")})
	if !errors.Is(err, fs.ErrExist) {
		t.Errorf("error %v, want one that the file exists", err)
	}
	if got := content(t, old); got != "old" {
		t.Errorf("the file holds %q, want %q", got, "old")
	}
	if got := names(t, dir); len(got) != 1 {
		t.Errorf("folder holds %q, want only the old file: all outputs or none", got)
	}
	if err := e.writeFiles(true, outFile{other, []byte("new")}, outFile{old, []byte("new")}); err != nil {
		t.Fatal(err)
	}
	if got := content(t, old) + content(t, other); got != "newnew" {
		t.Errorf("with force the files hold %q, want %q", got, "newnew")
	}
	if info, _ := os.Stat(old); info.Mode().Perm() != 0o640 {
		t.Errorf("mode %v, want that of the file before", info.Mode())
	}
	if got := names(t, dir); len(got) != 2 {
		t.Errorf("folder holds %q, want the two files only", got)
	}
}

// A file that appears while a command works must not be overwritten either.
func TestPlaceLeavesWhatAppearedMeanwhile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "picture.svg")
	var e environment
	temp, err := e.writeAside(outFile{path, []byte("ours")}, false)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte("theirs"), 0o666); err != nil {
		t.Fatal(err)
	}
	if _, err := place(temp, path, false); !errors.Is(err, fs.ErrExist) {
		t.Errorf("error %v, want one that the file exists", err)
	}
	e.temps.removeAll()
	if got := content(t, path); got != "theirs" {
		t.Errorf("the file holds %q, want %q", got, "theirs")
	}
	if got := names(t, dir); len(got) != 1 {
		t.Errorf("folder holds %q, want one file", got)
	}
}

func TestWriteFilesTakesBackWhatItPlaced(t *testing.T) {
	full := "/dev/full"
	if _, err := os.Stat(full); err != nil {
		t.Skip("no /dev/full on this system")
	}
	dir := t.TempDir()
	var e environment
	err := e.writeFiles(false, outFile{filepath.Join(dir, "first"), []byte("x")}, outFile{full, []byte("x")})
	if err == nil {
		t.Error("no error from a full device")
	}
	if got := names(t, dir); len(got) != 0 {
		t.Errorf("folder holds %q, want nothing", got)
	}
}

func TestWriteFilesWritesToDevicesAsTheyAre(t *testing.T) {
	var e environment
	if err := e.writeFiles(true, outFile{os.DevNull, []byte("x")}); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(os.DevNull); err != nil || info.Mode().IsRegular() {
		t.Fatalf("%s is a file now", os.DevNull)
	}
}

func TestWriteFilesFollowsLinks(t *testing.T) {
	dir := t.TempDir()
	file, link := filepath.Join(dir, "file"), filepath.Join(dir, "link")
	if err := os.WriteFile(file, []byte("old"), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(file, link); err != nil {
		t.Skip(err)
	}
	var e environment
	if err := e.writeFiles(true, outFile{link, []byte("new")}); err != nil {
		t.Fatal(err)
	}
	if got := content(t, file); got != "new" {
		t.Errorf("the file behind the link holds %q, want %q", got, "new")
	}
}

func TestWriteFilesRefusesImpossiblePlaces(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	if err := os.WriteFile(file, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	var e environment
	for _, c := range []struct {
		path string
		code int
	}{
		{dir, exitTrouble},                                   // a folder
		{filepath.Join(file, "below"), exitTrouble},          // below a file
		{filepath.Join(dir, "missing", "file"), exitTrouble}, // in no folder
		{"", exitUsage},
	} {
		if err := e.mayWrite(true, c.path); exitCode(err) != c.code {
			t.Errorf("mayWrite(%q) = %v, exit code %d, want %d", c.path, err, exitCode(err), c.code)
		}
	}
	same := filepath.Join(dir, ".", "x")
	if err := e.mayWrite(true, same, dir+"//x"); exitCode(err) != exitUsage {
		t.Errorf("two outputs of one name: %v, want a usage error", err)
	}
}

// A name that is not UTF-8 cannot be given by a script.
func TestNamesAreUTF8(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, line := range [][]string{{"improve", "--name", "a\xff"}, {"new", "mine.yaml", "--yes", "--title", "a\xff"}, {"new", "mine.yaml", "--yes", "--title", "a\u202e"}} {
		var stdout, stderr bytes.Buffer
		if code := run(line, strings.NewReader(""), &stdout, &stderr); code != exitUsage || stderr.Len() == 0 {
			t.Errorf("%q: exit code %d, want %d: %s", line, code, exitUsage, &stderr)
		}
		if said := stderr.String(); scenarios.Fault(said) != "" {
			t.Errorf("%q: the message %s: %q", line, scenarios.Fault(said), said)
		}
	}
	if left := names(t, "."); len(left) > 0 {
		t.Errorf("files were written: %q", left)
	}
}
