package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"syscall"
	"testing"

	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios"
	"warmby/sim"
)

func TestErrorsAreToldWithExitCodeAndHint(t *testing.T) {
	_, broken := scenarios.Read("a.yaml", []byte("warmby: 1\n"))
	never := &sim.NeverError{Causes: []sim.Cause{
		{Task: "dig", Why: "can never start: no shovel", Hint: "bring one"},
		{Why: "it goes on for ever"},
	}}
	for _, c := range []struct {
		name string
		err  error
		code int
		told string // "" for nothing
	}{
		{"none", nil, exitDone, ""},
		{"usage", &mistake.Usage{What: "no such thing", Cure: "try another"}, exitUsage, "warmby: no such thing\nhint: try another\n"},
		{"wrapped usage", fmt.Errorf("here: %w", mistake.Usagef("bad")), exitUsage, "warmby: here: bad\n"},
		{"input", &mistake.Input{What: "a.yaml: too large", Cure: ""}, exitInput, "warmby: a.yaml: too large\n"},
		{"never", fmt.Errorf("a.yaml: %w", never), exitNever, "warmby: a.yaml: task \"dig\" can never start: no shovel\nhint: bring one\nwarmby: a.yaml: it goes on for ever\n"},
		{"file", &fs.PathError{Op: "open", Path: "x", Err: os.ErrPermission}, exitTrouble, "warmby: open x: permission denied\n"},
		{"hinted file", mistake.WithHint(errors.New("no room"), "make some"), exitTrouble, "warmby: no room\nhint: make some\n"},
		{"interrupt", fmt.Errorf("batch: %w", context.Canceled), exitInterrupted, "warmby: interrupted\n"},
		{"closed pipe", &fs.PathError{Op: "write", Path: "|1", Err: syscall.EPIPE}, exitTrouble, ""},
		{"told already", &exitError{exitNever}, exitNever, ""},
		{"broken scenario", fmt.Errorf("what if: %w", broken), exitInput, "warmby: a.yaml: 3 mistakes\n" + errText(broken) + "\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var b bytes.Buffer
			complain(&b, c.err)
			if got := exitCode(c.err); got != c.code {
				t.Errorf("exit code %d, want %d", got, c.code)
			}
			if b.String() != c.told {
				t.Errorf("told:\n%s\nwant:\n%s", &b, c.told)
			}
		})
	}
}

func errText(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}
