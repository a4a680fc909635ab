package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"sync/atomic"
	"time"

	"golang.org/x/term"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
	"warmby/scenarios/library"
)

// wallClock says what day it is, for a standard answer and nothing else. A test
// sets it.
var wallClock = time.Now

// environment is what a command has of the world outside.
type environment struct {
	stdin  io.Reader
	stdout io.Writer // results, and nothing else; buffered by run
	stderr io.Writer // prompts, progress, warnings, mistakes
	screen io.Writer // what stdout writes to in the end; asked for its width

	// tidies is set by a command that watches its context and puts things in
	// order when it is interrupted; all others are ended on the spot.
	tidies atomic.Bool
	temps  temporaries

	// told is called with every report that a command tells; nil but in tests, which
	// read it without playing again.
	told func(*report.Report)

	// beforeNaming is called when a folder of results is written and has no name
	// yet; nil but in tests, which hold the moment open.
	beforeNaming func()

	logs []string // --log of the command, from which the scenario takes its numbers
	set  []string // --set of the command, laid over the scenario that it loads
}

// flush hands on what stands in the buffer of stdout, for a command that has
// something to say and then lives on. Run does it at the end of every command.
func (e *environment) flush() error {
	if b, ok := e.stdout.(*bufio.Writer); ok {
		return b.Flush()
	}
	return nil
}

// note prints what a command did or took for granted.
func (e *environment) note(format string, args ...any) {
	io.WriteString(e.stderr, scenarios.Printable(fmt.Sprintf("warmby: "+format+"\n", args...)))
}

// asks reports whether somebody sits at a terminal who can be asked.
func (e *environment) asks() bool { return isTerminal(e.stdin) }

func isTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// load reads the scenario that FILE stands for, with the numbers of its logs and
// what is set over it.
func (e *environment) load(arg string) (*ask.Source, error) {
	s, err := ask.Load(arg, e.stdin)
	if err != nil {
		return nil, err
	}
	if s, err = e.learning(s); err != nil {
		return nil, err
	}
	return s.With(e.set)
}

// loadArgs is load for commands that take one FILE at most; left out, it is the
// shipped demo.
func (e *environment) loadArgs(args []string) (*ask.Source, error) {
	if len(args) == 0 {
		return e.load(library.Default)
	}
	return e.load(args[0])
}
