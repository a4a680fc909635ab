package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
)

const checkUsage = `Checks scenario files. Each is read, built and played with usual values under
every order, as it stands and with every "what if"; every shelter, melt and
milestone is worked. A drill that can never finish is refused with the cause;
what can never be warm or in time, and what nothing uses, gets a warning. A note
says which tasks an order does not name, since they are done all the same.

Usage:
  warmby check [FILE..] [flags]

Examples:
  warmby check                       check the shipped demo
  warmby check kestrel-fell --json   the same, for a program to read

With several files all are checked, and the highest exit code wins: 0 good, 3 a
mistake in a file, 4 a drill that can never finish, 5 a file that cannot be
read. Warnings do not change it.
`

func checkCommand(e *environment) *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:               "check [FILE..]",
		Short:             "check scenario files",
		Long:              checkUsage,
		Args:              cobra.ArbitraryArgs,
		ValidArgsFunction: completeFiles,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				args = []string{library.Default}
			}
			return check(cmd.Context(), e, args, asJSON)
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the findings as JSON")
	return cmd
}

// checked is what check found in one file.
type checked struct {
	File     string    `json:"file"`
	Title    string    `json:"title"`
	Good     bool      `json:"good"`
	Tasks    int       `json:"tasks"`
	Orders   int       `json:"orders"`
	WhatIfs  int       `json:"what_ifs"`
	Warnings int       `json:"warnings"`
	Findings []finding `json:"findings"`

	err error // why it is not good
}

func check(ctx context.Context, e *environment, args []string, asJSON bool) error {
	worst, files := exitDone, []checked{}
	for _, arg := range args {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		c := checkOne(ctx, e, arg)
		if ctx.Err() != nil {
			return ctx.Err()
		}
		worst = max(worst, exitCode(c.err))
		files = append(files, c)
		if asJSON {
			complain(e.stderr, c.err)
		} else {
			c.print(e)
		}
	}
	if asJSON {
		encoder := json.NewEncoder(e.stdout)
		encoder.SetEscapeHTML(false)
		encoder.SetIndent("", "  ")
		if err := encoder.Encode(struct {
			SchemaVersion int       `json:"schema_version"`
			Files         []checked `json:"files"`
		}{1, files}); err != nil {
			return err
		}
	}
	if worst != exitDone {
		return &exitError{worst}
	}
	return nil
}

// print writes the findings on a file and a line that sums them up; why a
// file is not good goes to standard error, as it does for every command.
func (c *checked) print(e *environment) {
	if c.err != nil {
		e.flush() // keeps the two streams in step on a terminal
		complain(e.stderr, c.err)
	}
	for _, f := range c.Findings {
		if f.Kind != warning && f.Kind != note {
			continue
		}
		fmt.Fprintf(e.stdout, "%s: %s: %s\n", c.File, f.Kind, f.Message)
		if f.Hint != "" {
			fmt.Fprintf(e.stdout, "  hint: %s\n", f.Hint)
		}
	}
	fmt.Fprintf(e.stdout, "%s: %s\n", c.File, c.summary())
}

func (c *checked) summary() string {
	if !c.Good {
		switch exitCode(c.err) {
		case exitInput:
			return "not good, " + counted(len(c.Findings), "mistake")
		case exitNever:
			return "not good, the drill can never finish"
		}
		return "not read"
	}
	parts := []string{"good", counted(c.Tasks, "task"), counted(c.Orders, "order")}
	if c.WhatIfs > 0 {
		parts = append(parts, fmt.Sprintf("%d what if", c.WhatIfs))
	}
	if c.Warnings == 0 {
		return strings.Join(append(parts, "no warnings"), ", ")
	}
	return strings.Join(append(parts, counted(c.Warnings, "warning")), ", ")
}

// checkOne reads a file and plays it in every way that it names.
func checkOne(ctx context.Context, e *environment, arg string) checked {
	c := checked{File: arg, Findings: []finding{}}
	s, err := e.load(arg)
	if err != nil {
		c.fail(err)
		return c
	}
	c.File, c.Title = s.Name, s.Scenario.Title()
	c.Orders, c.WhatIfs = len(s.Scenario.Orders()), len(s.Scenario.WhatIfs())
	if len(s.Set) > 0 {
		c.Findings = append(c.Findings, finding{Kind: note, Message: "not as the file has it: " + strings.Join(s.Set, ", ")})
	}
	found, tasks, err := e.tryOut(ctx, s)
	c.Tasks = tasks
	c.Findings = append(c.Findings, found...)
	if err != nil {
		c.fail(err)
		return c
	}
	c.Good = true
	for _, f := range found {
		if f.Kind == warning {
			c.Warnings++
		}
	}
	return c
}

// fail records why a file is not good.
func (c *checked) fail(err error) {
	c.err = err
	var problems *scenarios.Problems
	var never *sim.NeverError
	var hint interface{ Hint() string }
	switch {
	case errors.As(err, &problems):
		for _, p := range problems.List {
			message := p.Message
			if p.Path != "" {
				message = p.Path + ": " + message
			}
			c.Findings = append(c.Findings, finding{broken, message, p.Hint, p.Line, p.Col})
		}
	case errors.As(err, &never):
		for _, cause := range never.Causes {
			c.Findings = append(c.Findings, finding{Kind: refused, Message: causeLine(cause), Hint: cause.Hint})
		}
	default:
		f := finding{Kind: unread, Message: err.Error()}
		if exitCode(err) == exitInput {
			f.Kind = broken
		}
		if errors.As(err, &hint) {
			f.Hint = hint.Hint()
		}
		c.Findings = append(c.Findings, f)
	}
}
