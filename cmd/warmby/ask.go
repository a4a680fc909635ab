package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
)

// question is one thing that a command asks, or is told by a flag.
type question struct {
	flag     string        // its name, without dashes
	value    string        // what the flag's value is called in help
	about    string        // what it is about, for help
	asks     string        // the question as put to people
	expects  string        // what an answer looks like: "a whole number from 1 to 40"
	standard func() string // the answer when none is given; may follow from earlier ones
	// take reads an answer; its error says what is wrong with it.
	take    func(text string) error
	given   string // by the flag
	isGiven bool
}

// settle takes the answers that flags gave, and then either asks for the
// others or takes the standard ones.
func (e *environment) settle(ctx context.Context, questions []question, ask bool) error {
	for _, q := range questions {
		if !q.isGiven {
			continue
		}
		if err := q.take(strings.TrimSpace(q.given)); err != nil {
			return &usageError{fmt.Sprintf("--%s expects %s, got %q: %v", q.flag, q.expects, q.given, err),
				fmt.Sprintf("for example: --%s %s", q.flag, shellWord(q.standard()))}
		}
	}
	in := bufio.NewReader(e.stdin)
	for _, q := range questions {
		var err error
		switch {
		case q.isGiven:
		case ask:
			err = e.askUntilGood(ctx, in, q)
		default:
			err = q.take(q.standard())
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// askUntilGood puts a question until the answer can be taken. An empty answer
// is the standard one.
func (e *environment) askUntilGood(ctx context.Context, in *bufio.Reader, q question) error {
	for {
		fmt.Fprintf(e.stderr, "%s [%s] ", q.asks, q.standard())
		line, err := in.ReadString('\n')
		if ctx.Err() != nil {
			return ctx.Err()
		}
		text := strings.TrimSpace(line)
		if err != nil && text == "" {
			fmt.Fprintln(e.stderr)
			if !errors.Is(err, io.EOF) {
				return fmt.Errorf("cannot read the answer: %w", reason(err))
			}
			return &usageError{"the questions were not answered to the end; nothing was written", "--yes takes the standard answers"}
		}
		if text == "" {
			text = q.standard()
		}
		if err := q.take(text); err != nil {
			fmt.Fprintf(e.stderr, "  expected %s: %v\n", q.expects, err)
			continue
		}
		return nil
	}
}
