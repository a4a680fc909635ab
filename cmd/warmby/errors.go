package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"syscall"

	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/cmd/warmby/internal/results"
	"warmby/scenarios"
	"warmby/sim"
)

// Exit codes. They are promised to other programs; "warmby help exit-codes"
// explains them to people.
const (
	exitDone        = 0
	exitUsage       = 2
	exitInput       = 3
	exitNever       = 4
	exitTrouble     = 5
	exitInterrupted = 130
)

// exitError carries an exit code for what has been reported already.
type exitError struct{ code int }

func (e *exitError) Error() string { return fmt.Sprintf("exit code %d", e.code) }

// exitCode returns the exit code that an error calls for.
func exitCode(err error) int {
	var (
		usage    *mistake.Usage
		several  *mistake.Several
		input    *mistake.Input
		problems *scenarios.Problems
		never    *sim.NeverError
		points   *results.Impossible
		exit     *exitError
	)
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &exit):
		return exit.code
	case errors.As(err, &usage), errors.As(err, &several):
		return exitUsage
	case errors.As(err, &problems), errors.As(err, &input):
		return exitInput
	case errors.As(err, &never), errors.As(err, &points):
		return exitNever
	case errors.Is(err, context.Canceled):
		return exitInterrupted
	}
	return exitTrouble
}

// complain prints an error for people: what and where, and a likely cure on a
// line of its own.
func complain(w io.Writer, err error) {
	var b strings.Builder
	complainTo(&b, err)
	io.WriteString(w, scenarios.Printable(b.String()))
}

func complainTo(w io.Writer, err error) {
	var (
		problems *scenarios.Problems
		several  *mistake.Several
		never    *sim.NeverError
		exit     *exitError
		hint     interface{ Hint() string }
	)
	switch {
	case err == nil, errors.As(err, &exit), errors.Is(err, syscall.EPIPE):
		// Said already, or there is nobody left to tell.
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(w, "warmby: interrupted")
	case errors.As(err, &problems):
		// Each mistake stands in a line of its own that begins with the file,
		// as editors expect it.
		fmt.Fprintf(w, "warmby: %s: %s\n%v\n", problems.File, report.Counted(len(problems.List), "mistake"), problems)
	case errors.As(err, &several):
		for _, one := range several.List {
			complainTo(w, one)
		}
	case errors.As(err, &never):
		where := strings.TrimSuffix(err.Error(), never.Error())
		reportCauses(w, where, never.Causes)
	default:
		fmt.Fprintf(w, "warmby: %v\n", err)
		if errors.As(err, &hint) && hint.Hint() != "" {
			fmt.Fprintf(w, "hint: %s\n", hint.Hint())
		}
	}
}

// reportCauses prints why a drill can never finish, a line for each cause.
func reportCauses(w io.Writer, where string, causes []sim.Cause) {
	for _, c := range causes {
		fmt.Fprintf(w, "warmby: %s%s\n", where, causeLine(c))
		if c.Hint != "" {
			fmt.Fprintf(w, "hint: %s\n", c.Hint)
		}
	}
	if len(causes) == 0 {
		fmt.Fprintf(w, "warmby: %sthe drill can never finish\n", where)
	}
}

func causeLine(c sim.Cause) string {
	return (&sim.NeverError{Causes: []sim.Cause{c}}).Error()
}
