package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"

	"warmby/cmd/warmby/internal/mistake"
)

// run does what one command line asks and returns its exit code. An interrupt
// ends it with exit code 130: at once, or after the command has put things in
// order if it says that it does (environment.tidies).
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) (exit int) {
	// A closed pipe is then an error of the write that meets it.
	ignoreClosedPipes()
	ctx, stop := signal.NotifyContext(context.Background(), interrupts()...)
	defer stop()
	e := &environment{stdin: stdin, stdout: bufio.NewWriterSize(stdout, 1<<16), stderr: stderr, screen: stdout}
	done := make(chan int, 1)
	go func() { done <- e.execute(ctx, args) }()
	select {
	case exit = <-done:
		return exit
	case <-ctx.Done():
	}
	stop() // a second interrupt ends the process the hard way
	if e.tidies.Load() {
		return <-done
	}
	e.temps.removeAll()
	complain(stderr, context.Canceled)
	return exitInterrupted
}

// interrupts are the signals that end a command in good order. A terminal that
// goes away sends SIGHUP, but for programs that nohup started.
func interrupts() []os.Signal {
	list := []os.Signal{os.Interrupt, syscall.SIGTERM}
	for _, s := range hangups {
		if !signal.Ignored(s) {
			list = append(list, s)
		}
	}
	return list
}

// fullOutput is the error of a standard output that takes no more.
func fullOutput(err error) error {
	return mistake.WithHint(fmt.Errorf("standard output: %w", mistake.Reason(err)), "what was printed is not complete")
}

// execute runs the command and hands on what it printed, also when it failed:
// a result may come with an error.
func (e *environment) execute(ctx context.Context, args []string) (exit int) {
	root := rootCommand(e)
	root.SetArgs(args)
	err := root.ExecuteContext(ctx)
	if full := e.flush(); full != nil && err == nil {
		err = fullOutput(full)
	}
	complain(e.stderr, err)
	return exitCode(err)
}
