package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
)

// question is one thing that a command asks, or is told by a flag.
type question struct {
	flag     string        // its name, without dashes
	value    string        // what the flag's value is called in help
	about    string        // what it is about, for help
	asks     string        // the question as put to people
	expects  string        // what an answer looks like: "a whole number from 1 to 40"
	standard func() string // the answer when none is given; may follow from earlier ones
	unless   string        // what help says of it; "" for the answer itself
	// take reads an answer; its error says what is wrong with it.
	take    func(text string) error
	given   string // by the flag
	isGiven bool
}

// unlessGiven is the standard answer as help says it: the same on every day.
func (q *question) unlessGiven() string {
	if q.unless != "" {
		return q.unless
	}
	return q.standard()
}

// refused says that the answer of a flag cannot be taken.
func (q *question) refused(why error) *mistake.Usage {
	return &mistake.Usage{What: fmt.Sprintf("--%s expects %s, got %q: %v", q.flag, q.expects, q.given, why),
		Cure: fmt.Sprintf("for example: --%s %s", q.flag, ask.ShellWord(q.standard()))}
}

// takeStandard takes the standard answer, which may not go with what was given
// before.
func (q *question) takeStandard() error {
	if err := q.take(q.standard()); err != nil {
		return &mistake.Usage{What: fmt.Sprintf("--%s %s, the standard answer, does not do: %v", q.flag, ask.ShellWord(q.standard()), err), Cure: fmt.Sprintf("say it yourself: --%s", q.flag)}
	}
	return nil
}

// settle takes the answers that flags gave, whose mistakes are told all at once,
// and then either asks for the others or takes the standard ones.
func (e *environment) settle(ctx context.Context, questions []question, ask bool) error {
	odd := &mistake.Several{}
	for _, q := range questions {
		if !q.isGiven {
			continue
		}
		if err := q.take(strings.TrimSpace(q.given)); err != nil {
			odd.List = append(odd.List, q.refused(err))
		}
	}
	if odd.List != nil {
		return odd
	}
	in := bufio.NewReader(e.stdin)
	for _, q := range questions {
		var err error
		switch {
		case q.isGiven:
		case ask:
			err = e.askUntilGood(ctx, in, q)
		default:
			err = q.takeStandard()
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
				return fmt.Errorf("cannot read the answer: %w", mistake.Reason(err))
			}
			return &mistake.Usage{What: "the questions were not answered to the end; nothing was written", Cure: "--yes takes the standard answers"}
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
