package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
	"warmby/scenarios/draft"
	"warmby/scenarios/library"
)

const newUsage = `Asks ten questions about an evening, each with a standard answer and a flag, and
writes a commented scenario to go on from, for 2 to 20 people in 1 to 4 tents.
Beside it goes the JSON Schema of scenario files, which lets an editor complete
keys and mark mistakes.

Usage:
  warmby new FILE [flags]

Examples:
  warmby new mine.yaml --yes         take the standard answers
  warmby new ours.yaml --yes --people 9 --tents 2 --arrive 15:00 --air -15 --snow "knee deep"
  warmby new team.yaml --yes --people "Tove, Ole, Ida, Per" --stove-people 2
  warmby new there.yaml --yes --place "66.4 N 25.3 E" --wind strong --heater no
  warmby new copy.yaml --from kestrel-fell   a copy of a shipped scenario

Answers are taken as people type them: "9 people" or their names, 15:00 and
"tomorrow 15:00", -15 and "5 F", "8 m/s" and strong, "80 cm" and "knee deep". A
time without a date is tomorrow's. A place is degrees, "61.5 N 9.8 E" or "60 N",
or a kind of country: mountains, hills, forest, fells, tundra, ice, southern
mountains, southern ice.

FILE must end in .yaml. Nothing is asked with --yes, or when standard input is
no terminal: flags and standard answers are taken. Nothing is overwritten
without --force.
`

// schemaName is the name of the JSON Schema beside a scenario.
const schemaName = "warmby-scenario.schema.json"

func newCommand(e *environment) *cobra.Command {
	var (
		from       string
		yes, force bool
	)
	ours := newAnswers(wallClock())
	questions := ours.questions()
	cmd := &cobra.Command{
		Use:   "new FILE",
		Short: "ask ten questions and write a commented scenario",
		Long:  newUsage,
		Args:  fileToWrite,
		RunE: func(cmd *cobra.Command, args []string) error {
			for i := range questions {
				questions[i].isGiven = cmd.Flags().Changed(questions[i].flag)
			}
			outputs, done, err := e.newFiles(args[0], force)
			if err != nil {
				return err
			}
			defer done()
			if from != "" {
				return e.copyShipped(from, questions, force, outputs)
			}
			ask := !yes && e.asks()
			if err := e.settle(cmd.Context(), questions, ask); err != nil {
				return err
			}
			if !yes && !ask {
				e.note("standard input is no terminal: took the standard answer to what no flag says")
			}
			return e.writeNew(ours.answers(), force, outputs)
		},
	}
	flags := cmd.Flags()
	for i := range questions {
		q := &questions[i]
		flags.StringVar(&q.given, q.flag, "", fmt.Sprintf("`%s` %s (%s unless given)", q.value, q.about, q.unlessGiven()))
		expectFlag(flags, q.flag, q.expects)
	}
	flags.StringVar(&from, "from", "", "copy this shipped scenario instead: `NAME`")
	flags.BoolVar(&yes, "yes", false, "ask nothing")
	flags.BoolVar(&force, "force", false, "overwrite files that exist")
	cmd.RegisterFlagCompletionFunc("from", cobra.FixedCompletions(library.Names(), cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

// newFiles returns what is to be written: a scenario, and the schema beside it
// unless it is there already. What done has to say comes last.
func (e *environment) newFiles(path string, force bool) (outputs []string, done func(), err error) {
	schema := filepath.Join(filepath.Dir(path), schemaName)
	outputs, done = []string{path}, func() {}
	switch _, err := os.Stat(schema); {
	case holds(schema, scenarios.Schema()):
	case err == nil && !force:
		done = func() {
			e.note("%s is not that of this version, and was left as it is; editors may complain where they should not", schema)
		}
	default:
		outputs = append(outputs, schema)
	}
	return outputs, done, e.mayWrite(force, outputs...)
}

// writeNew drafts the scenario and writes it, with the schema if that is
// among the outputs.
func (e *environment) writeNew(answers draft.Answers, force bool, outputs []string) error {
	answers.Schema = schemaName
	d, err := draft.Write(answers)
	if err != nil {
		return oddAnswers(err)
	}
	if err := e.writeScenario(d.Text, force, outputs); err != nil {
		return err
	}
	e.note("%s", newSummary(answers, d))
	if d.TooCold {
		e.note("with these answers somebody gets too cold in most evenings, under every order and in the warmest clothing")
	}
	e.note("next: warmby check %s, then warmby rehearse %[1]s and warmby compare %[1]s", ask.ShellWord(outputs[0]))
	return nil
}

// writeScenario writes a scenario, and the schema if that is among the outputs.
func (e *environment) writeScenario(text []byte, force bool, outputs []string) error {
	files := []outFile{{outputs[0], text}}
	for _, path := range outputs[1:] {
		files = append(files, outFile{path, scenarios.Schema()})
	}
	if err := e.writeFiles(force, files...); err != nil {
		return err
	}
	for _, path := range outputs {
		e.note("wrote %s", path)
	}
	return nil
}

// newSummary says what was made of the answers.
func newSummary(a draft.Answers, d *draft.Draft) string {
	return fmt.Sprintf("%s, %s, %s, arrival %s; air %s, wind %s, snow %s", fmt.Sprint(a.People, " people"), report.Counted(a.Tents, "tent"),
		a.Place, d.Arrival.Format("Monday 2 January 2006 15:04 (UTC-07:00)"), a.Air.Text, a.Wind.Text, a.Snow.Text)
}

// oddAnswers makes answers that do not go together mistakes of the command line.
func oddAnswers(err error) error {
	var odd *draft.OddAnswers
	if !errors.As(err, &odd) {
		return err
	}
	list := &mistake.Several{}
	for _, one := range odd.List {
		list.List = append(list.List, &mistake.Usage{What: fmt.Sprintf("--%s: %s", one.Question, one.Why), Cure: "\"warmby new --help\" lists what may be answered"})
	}
	return list
}

// fileToWrite is the argument check of commands that write one scenario.
func fileToWrite(cmd *cobra.Command, args []string) error {
	switch {
	case len(args) == 0:
		return &mistake.Usage{What: cmd.CommandPath() + " expects the FILE to write", Cure: "for example: " + cmd.CommandPath() + " mine.yaml"}
	case len(args) > 1:
		return oneFile(cmd, args)
	case filepath.Ext(args[0]) != ".yaml":
		return &mistake.Usage{What: fmt.Sprintf("%s expects a FILE that ends in .yaml, got %q", cmd.CommandPath(), args[0]), Cure: "editors know a scenario by that ending"}
	}
	return nil
}

// holds reports whether a file holds just these bytes.
func holds(path string, data []byte) bool {
	there, err := os.ReadFile(path)
	return err == nil && bytes.Equal(there, data)
}

// copyShipped writes a shipped scenario as it is, under another title if one is
// given.
func (e *environment) copyShipped(from string, questions []question, force bool, outputs []string) error {
	title := ""
	odd := &mistake.Several{}
	for _, q := range questions {
		switch {
		case q.isGiven && q.flag == "title":
			if err := q.take(strings.TrimSpace(q.given)); err != nil {
				odd.List = append(odd.List, q.refused(err))
			}
			title = strings.TrimSpace(q.given)
		case q.isGiven:
			odd.List = append(odd.List, &mistake.Usage{What: fmt.Sprintf("--%s does not go with --from, which copies a scenario as it is", q.flag),
				Cure: "facts of one evening go over a file with \"warmby tonight\", other values with --set"})
		}
	}
	text, ok := library.Read(from)
	if !ok {
		odd.List = append(odd.List, &mistake.Usage{What: fmt.Sprintf("--from: no shipped scenario %q", from), Cure: "one of " + strings.Join(library.Names(), ", ")})
	}
	if odd.List != nil {
		return odd
	}
	text, err := draft.Copy(text, from, title, schemaName)
	if err != nil {
		return err
	}
	if err := e.writeScenario(text, force, outputs); err != nil {
		return err
	}
	e.note("next: warmby rehearse %s; change what is different for you, and play it again", ask.ShellWord(outputs[0]))
	return nil
}
