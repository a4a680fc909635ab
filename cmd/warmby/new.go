package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"warmby/scenarios"
)

const newUsage = `Asks eight questions about an evening, each with a standard answer and a flag,
and writes a commented scenario to go on from. Beside it goes the JSON Schema of
scenario files, which lets an editor complete keys and mark mistakes.

Usage:
  warmby new FILE [flags]

Examples:
  warmby new mine.yaml --yes         take the standard answers
  warmby new ours.yaml --yes --people 8 --air "-25 C" --heater no

FILE must end in .yaml. Nothing is asked with --yes, or when standard input is
no terminal: flags and standard answers are taken. Nothing is overwritten
without --force.
`

// schemaName is the name of the JSON Schema beside a scenario.
const schemaName = "warmby-scenario.schema.json"

func newCommand(e *environment) *cobra.Command {
	var (
		answers    scenarios.Answers
		yes, force bool
	)
	questions := newQuestions(&answers)
	cmd := &cobra.Command{
		Use:   "new FILE",
		Short: "ask eight questions and write a commented scenario",
		Long:  newUsage,
		Args:  fileToWrite,
		RunE: func(cmd *cobra.Command, args []string) error {
			for i := range questions {
				questions[i].isGiven = cmd.Flags().Changed(questions[i].flag)
			}
			schema := filepath.Join(filepath.Dir(args[0]), schemaName)
			outputs := []string{args[0]}
			switch _, err := os.Stat(schema); {
			case holds(schema, scenarios.Schema()):
			case err == nil && !force:
				defer e.note("%s is not that of this version, and was left as it is; editors may complain where they should not", schema)
			default:
				outputs = append(outputs, schema)
			}
			if err := e.mayWrite(force, outputs...); err != nil {
				return err
			}
			ask := !yes && e.asks()
			if err := e.settle(cmd.Context(), questions, ask); err != nil {
				return err
			}
			if !yes && !ask {
				e.note("standard input is no terminal: took the standard answer to what no flag says")
			}
			return e.writeNew(answers, force, outputs)
		},
	}
	flags := cmd.Flags()
	for i := range questions {
		q := &questions[i]
		flags.StringVar(&q.given, q.flag, "", fmt.Sprintf("`%s` %s (%s unless given)", q.value, q.about, q.standard()))
		expectFlag(flags, q.flag, q.expects)
	}
	flags.BoolVar(&yes, "yes", false, "ask nothing")
	flags.BoolVar(&force, "force", false, "overwrite files that exist")
	return cmd
}

// writeNew drafts the scenario and writes it, with the schema if that is
// among the outputs.
func (e *environment) writeNew(answers scenarios.Answers, force bool, outputs []string) error {
	answers.Schema = schemaName
	draft, err := scenarios.Draft(answers)
	if err != nil {
		return &usageError{err.Error(), "\"warmby new --help\" lists what may be answered"}
	}
	files := []outFile{{outputs[0], draft}}
	for _, path := range outputs[1:] {
		files = append(files, outFile{path, scenarios.Schema()})
	}
	if err := e.writeFiles(force, files...); err != nil {
		return err
	}
	for _, path := range outputs {
		e.note("wrote %s", path)
	}
	e.note("next: warmby check %s, then warmby rehearse %[1]s", shellWord(outputs[0]))
	return nil
}

// newQuestions returns the eight questions; answers go to a.
func newQuestions(a *scenarios.Answers) []question {
	standard := scenarios.DefaultAnswers()
	a.Heater = standard.Heater
	whole := func(to *int, what string) func(string) error {
		return func(text string) error {
			n, err := strconv.Atoi(text)
			if err != nil || n < 1 {
				return errors.New("that is no whole number over 0")
			}
			*to = n
			if a.People == 0 {
				return nil // how many may light a stove cannot be judged yet
			}
			return usable(*a, what)
		}
	}
	text := func(to *string, what string) func(string) error {
		return func(answer string) error {
			*to = answer
			return usable(*a, what)
		}
	}
	is := func(s string) func() string { return func() string { return s } }
	return []question{
		{flag: "title", value: "TEXT", about: "what the scenario is called", asks: "What is the scenario called?",
			expects: "one line of text", standard: is(standard.Title), take: text(&a.Title, "title")},
		{flag: "people", value: "N", about: "how many people halt", asks: "How many people halt?",
			expects: "a whole number from 1 to 40", standard: is(strconv.Itoa(standard.People)), take: whole(&a.People, "people")},
		{flag: "stove-people", value: "N", about: "how many of them may light a stove", asks: "How many of them may light a stove?",
			expects:  "a whole number from 1 to the number of people",
			standard: func() string { return strconv.Itoa(min(standard.StovePeople, max(1, peopleOf(a)))) },
			take:     whole(&a.StovePeople, "stove people")},
		{flag: "arrival", value: "TIME", about: "when they arrive", asks: "When do they arrive, by the clock?",
			expects: "a date and time with its offset, such as " + standard.Arrival, standard: is(standard.Arrival), take: text(&a.Arrival, "arrival")},
		{flag: "air", value: "DEGREES", about: "the temperature of the air then", asks: "How cold is the air then?",
			expects: "a temperature with its unit, such as -25 C", standard: is(standard.Air), take: text(&a.Air, "air temperature")},
		{flag: "wind", value: "SPEED", about: "the wind at 10 m", asks: "How strong is the wind, 10 m up?",
			expects: "a speed with its unit, such as 6 m/s", standard: is(standard.Wind), take: text(&a.Wind, "wind")},
		{flag: "snow", value: "DEPTH", about: "how deep the snow is", asks: "How deep is the snow?",
			expects: "a depth with its unit, such as 80 cm", standard: is(standard.Snow), take: text(&a.Snow, "snow depth")},
		{flag: "heater", value: "YES|NO", about: "whether the tent has a heater", asks: "Is there a heater for the tent?",
			expects: "yes or no", standard: is("yes"), take: func(answer string) error {
				switch strings.ToLower(answer) {
				case "yes", "y", "true":
					a.Heater = true
				case "no", "n", "false":
					a.Heater = false
				default:
					return errors.New("that is neither")
				}
				return nil
			}},
	}
}

func peopleOf(a *scenarios.Answers) int {
	if a.People == 0 {
		return scenarios.DefaultAnswers().People
	}
	return a.People
}

// usable reports what is wrong with one of the answers given so far; what is
// wrong with another one is that one's affair.
func usable(a scenarios.Answers, what string) error {
	if _, err := scenarios.Draft(a); err != nil {
		if why, ok := strings.CutPrefix(err.Error(), what+": "); ok {
			return errors.New(why)
		}
	}
	return nil
}

// fileToWrite is the argument check of commands that write one scenario.
func fileToWrite(cmd *cobra.Command, args []string) error {
	switch {
	case len(args) == 0:
		return &usageError{cmd.CommandPath() + " expects the FILE to write", "for example: " + cmd.CommandPath() + " mine.yaml"}
	case len(args) > 1:
		return oneFile(cmd, args)
	case filepath.Ext(args[0]) != ".yaml":
		return &usageError{fmt.Sprintf("%s expects a FILE that ends in .yaml, got %q", cmd.CommandPath(), args[0]),
			"editors know a scenario by that ending"}
	}
	return nil
}

// holds reports whether a file holds just these bytes.
func holds(path string, data []byte) bool {
	there, err := os.ReadFile(path)
	return err == nil && bytes.Equal(there, data)
}
