package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/report"
	"warmby/plots"
	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
)

const checkUsage = `Checks scenario files: ten lines say whether they are good and what is worth a
look; --all prints everything. Each is read, built and played with usual values
under every order, as it stands and with every "what if"; every shelter, melt and
milestone is worked, and each order is played in some drawn evenings.

Of a drill that comes to a stop it says what is reached by then, and why the rest
never is: exit code 4. Worth a look is what can never be warm or in time, what
nothing uses, and what an evening mostly should not have: a lit stove with nobody
there, jackets put on late, somebody who never eats or drinks, a shelter warmed for
nobody, little water, a target met in fewer than half of the evenings. What a task
is for is known by words such as eat, supper, drink or tea in its name or in
"what". A note says which tasks an order does not name, since they are done all the
same.

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
	var f ask.Answer
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
			return e.check(cmd.Context(), args, f)
		},
	}
	f.DeclareWithoutPicture(cmd.Flags())
	return cmd
}

// checked is what check found in one file.
type checked struct {
	report.CheckedFile
	arg string      // on a command line
	src *ask.Source // nil when it cannot be read
	err error       // why it is not good
}

func (e *environment) check(ctx context.Context, args []string, f ask.Answer) error {
	if err := e.mayAnswer(f); err != nil {
		return err
	}
	files, err := e.checkAll(ctx, args)
	if err != nil {
		return err
	}
	worst := exitDone
	e.flush() // keeps the two streams in step on a terminal
	for _, c := range files {
		complain(e.stderr, c.err)
		worst = max(worst, exitCode(c.err))
	}
	told := checkTold(args, files)
	if err := e.answer(f, told.Report(), func() any { return document.CheckOf(told.Files) }, func() *plots.Picture { return nil }); err != nil {
		return err
	}
	if worst != exitDone {
		return &exitError{worst}
	}
	return nil
}

func (e *environment) checkAll(ctx context.Context, args []string) (files []*checked, err error) {
	for _, arg := range args {
		c := e.checkOne(ctx, arg)
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		files = append(files, c)
	}
	return files, nil
}

// checkTold is what was found, for its report.
func checkTold(args []string, files []*checked) report.Checked {
	line := ask.CommandOf("check", "")
	for _, arg := range args {
		if arg != library.Default || len(args) > 1 {
			line.Word(arg)
		}
	}
	told := report.Checked{Repeat: line.String()}
	for _, c := range files {
		told.Files = append(told.Files, c.CheckedFile)
	}
	if only := files[0]; len(files) == 1 && only.Good {
		told.Calls = ask.Cautions([]*ask.Case{{Scenario: only.src.Scenario}})
		told.Cautions = ask.CautionsCommand(only.src.Arg)
	}
	return told
}

// checkOne reads a file and plays it in every way that it names.
func (e *environment) checkOne(ctx context.Context, arg string) *checked {
	c := &checked{CheckedFile: report.CheckedFile{Name: arg}, arg: arg}
	s, err := e.load(arg)
	if err != nil {
		c.fail(err)
		return c
	}
	c.src, c.Name, c.Title = s, s.Name, s.Scenario.Title()
	c.Orders, c.WhatIfs = len(s.Scenario.Orders()), len(s.Scenario.WhatIfs())
	found, tasks, err := e.tryOut(ctx, s)
	c.Tasks = tasks
	if len(s.Set) > 0 {
		c.Findings = append(c.Findings, report.Finding{Kind: report.ToKnow, Says: report.Say("not as the file has it: {}", strings.Join(s.Set, ", "))})
	}
	c.Findings = append(c.Findings, found...)
	if err != nil {
		c.fail(err)
		return c
	}
	c.Good = true
	return c
}

// fail records why a file is not good.
func (c *checked) fail(err error) {
	c.err, c.Why = err, "it could not be read"
	found := findingsOf(err)
	c.Findings = append(c.Findings, found...)
	switch exitCode(err) {
	case exitInput:
		c.Why = report.Counted(len(found), "mistake")
	case exitNever:
		c.Why = "the drill can never finish"
	}
}

// findingsOf lists what an error has to say about a file.
func findingsOf(err error) (list []report.Finding) {
	var problems *scenarios.Problems
	var never *sim.NeverError
	switch {
	case errors.As(err, &problems):
		for _, p := range problems.List {
			message := p.Message
			if p.Path != "" {
				message = p.Path + ": " + message
			}
			list = append(list, report.Finding{Kind: report.BrokenFile, Says: report.Say("{}", message), Hint: p.Hint, Line: p.Line, Column: p.Col})
		}
	case errors.As(err, &never):
		for _, cause := range never.Causes {
			list = append(list, report.Finding{Kind: report.NeverPlays, Says: report.Say("{}", causeLine(cause)), Hint: cause.Hint})
		}
	default:
		f := report.Finding{Kind: report.UnreadFile, Says: report.Say("{}", fmt.Sprint(err))}
		if exitCode(err) == exitInput {
			f.Kind = report.BrokenFile
		}
		var hint interface{ Hint() string }
		if errors.As(err, &hint) {
			f.Hint = hint.Hint()
		}
		list = append(list, f)
	}
	return list
}
