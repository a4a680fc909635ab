package main

import (
	"errors"
	"flag"
	"os/exec"
	"strconv"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite what tests compare with; read the difference before you commit it")

func TestMain(m *testing.M) {
	wallClock = func() time.Time { return time.Date(2026, time.November, 28, 21, 0, 0, 0, time.FixedZone("", 3600)) }
	testscript.Main(m, map[string]func(){"warmby": main})
}

// TestScripts runs the command as people do; each file in testdata/script is
// about one subcommand, or about one thing that subcommands have in common.
// Run with -update to rewrite the files that the scripts compare with.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Cmds:                map[string]func(*testscript.TestScript, bool, []string){"exits": exits},
	})
}

// exits runs a program that must end with an exit code: exits 2 warmby bogus.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE program [args...]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}
