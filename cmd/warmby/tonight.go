package main

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
)

const tonightUsage = `Lays what is known of tonight over a scenario, and plays it: the ten lines of
"warmby rehearse" on top, and all orders side by side as in "warmby compare". No
file is edited.

Usage:
  warmby tonight [FILE] [flags]

Examples:
  warmby tonight --arrive 15:30 --air "-28 C" --wind "8 m/s"
  warmby tonight kestrel-fell --without Berend --late "pulk=20min"
  warmby tonight kestrel-fell --order "two groups" --stove-dead burner
  warmby tonight mine.yaml --air "-28 C" --report tonight.html

--arrive is a clock time on the day of the file. --air and --wind hold for the
whole evening. --late says how long after the team a load or a person comes.
--stove-dead takes away one stove of a kind, burner=2 takes two. Any other value
of the file is set by --set.
`

type tonightFlags struct {
	ask.Answer
	order         string
	facts         scenarios.Facts
	late, dead    []string // as given
	seed          uint64
	runs, workers int
}

func tonightCommand(e *environment) *cobra.Command {
	var f tonightFlags
	cmd := &cobra.Command{
		Use:               "tonight [FILE]",
		Short:             "tonight's facts over a file: the evening, and which order to take",
		Long:              tonightUsage,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			return e.tonight(cmd.Context(), args, f)
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&f.facts.Arrive, "arrive", "", "the team arrives at this `TIME` on the file's day, as 15:30")
	flags.StringVar(&f.facts.Air, "air", "", "the air has this `TEMPERATURE` all evening, as \"-28 C\"")
	flags.StringVar(&f.facts.Wind, "wind", "", "the wind has this `SPEED` all evening, as \"8 m/s\"")
	flags.StringArrayVar(&f.facts.Without, "without", nil, "this `PERSON` is not there; several")
	flags.StringArrayVar(&f.late, "late", nil, "a load or a person comes so long after the team, as pulk=20min; several: `NAME=TIME`")
	flags.StringArrayVar(&f.dead, "stove-dead", nil, "one `STOVE` of this kind does not work, as burner, or burner=2 for two; several")
	ask.Order(flags, &f.order)
	ask.Seed(flags, &f.seed)
	ask.Runs(flags, &f.runs, 2000, " of each order")
	ask.Workers(flags, &f.workers)
	f.Declare(flags, "the drill")
	cmd.RegisterFlagCompletionFunc("order", e.completeOrder)
	return cmd
}

// check reads the facts that have two parts.
func (f *tonightFlags) check() error {
	if f.runs < 1 || f.runs > mostRehearsed {
		return &usageError{fmt.Sprintf("--runs expects a whole number from 1 to %d, got %d", mostRehearsed, f.runs), "2000 are played unless you say otherwise"}
	}
	for _, text := range f.late {
		name, by, ok := strings.Cut(text, "=")
		if !ok || strings.TrimSpace(by) == "" {
			return &usageError{fmt.Sprintf("--late expects NAME=TIME, got %q", text), "such as --late \"pulk=20min\""}
		}
		f.facts.Late = append(f.facts.Late, scenarios.Late{Name: strings.TrimSpace(name), By: strings.TrimSpace(by)})
	}
	for _, text := range f.dead {
		name, number, several := strings.Cut(text, "=")
		count := 1
		if several {
			var err error
			if count, err = strconv.Atoi(strings.TrimSpace(number)); err != nil || count < 1 {
				return &usageError{fmt.Sprintf("--stove-dead expects STOVE or STOVE=NUMBER, got %q", text), "such as --stove-dead burner, or burner=2 for two"}
			}
		}
		f.facts.Dead = append(f.facts.Dead, scenarios.Dead{Stove: strings.TrimSpace(name), Count: count})
	}
	return ask.SettleWorkers(&f.workers)
}

// tonight is both answers about one evening.
type tonight struct {
	flags      tonightFlags
	arg        string
	remarks    []string
	rehearsal  *rehearsal
	comparison *comparison
}

func (e *environment) tonight(ctx context.Context, args []string, f tonightFlags) error {
	if err := e.mayAnswer(f.Answer); err != nil {
		return err
	}
	t, err := e.tonightOf(ctx, args, f)
	if err != nil {
		return err
	}
	if err := e.answer(f.Answer, t.report(), func() any { return t.document() }, t.rehearsal.told().Drawing); err != nil {
		return err
	}
	return t.rehearsal.asError()
}

// tonightOf lays the facts over the file and plays it.
func (e *environment) tonightOf(ctx context.Context, args []string, f tonightFlags) (*tonight, error) {
	if err := f.check(); err != nil {
		return nil, err
	}
	src, err := e.loadArgs(args)
	if err != nil {
		return nil, err
	}
	t := &tonight{flags: f, arg: src.Arg}
	over := *src
	if over.Scenario, t.remarks, err = src.Scenario.Tonight(f.facts); err != nil {
		return nil, oddFacts(err)
	}
	return t, t.play(ctx, &over)
}

// oddFacts is every fact that cannot be, as mistakes of the command line.
func oddFacts(err error) error {
	var odd *scenarios.OddFacts
	if !errors.As(err, &odd) {
		return err
	}
	list := &mistake.Several{}
	for _, one := range odd.List {
		list.List = append(list.List, &mistake.Usage{What: fmt.Sprintf("--%s %s: %s", one.Fact, ask.ShellWord(one.Value), one.Reason), Cure: one.Hint})
	}
	return list
}

// play rehearses one order and compares all under the same luck.
func (t *tonight) play(ctx context.Context, over *ask.Source) (err error) {
	f := t.flags
	one := rehearseFlags{Answer: f.Answer, order: f.order, seed: f.seed, runs: f.runs, workers: f.workers}
	if t.rehearsal, err = rehearsalOf(ctx, over, one); err != nil {
		return err
	}
	all := compareFlags{Answer: f.Answer, seed: f.seed, runs: f.runs, workers: f.workers}
	if t.comparison, err = newComparison(over, all); err != nil {
		return err
	}
	return t.comparison.play(ctx, over.Scenario)
}

// report is the lead of the rehearsal, the table of orders, and then both.
func (t *tonight) report() *report.Report {
	told := report.Tonight(t.rehearsal.told().Report(), t.comparison.told().Report(), t.facts(), t.remarks)
	told.Repeat, told.All = t.repeat(), t.repeat()+" --all"
	return told
}

// facts are what is said of tonight, as they were given.
func (t *tonight) facts() (list []string) {
	f := t.flags.facts
	add := func(pattern, value string) {
		if value != "" {
			list = append(list, fmt.Sprintf(pattern, value))
		}
	}
	add("arrive %s", f.Arrive)
	add("air %s", f.Air)
	add("wind %s", f.Wind)
	add("without %s", strings.Join(f.Without, ", "))
	for _, l := range f.Late {
		add("%s", l.Name+" "+l.By+" behind")
	}
	for _, d := range f.Dead {
		add("%s dead", counted(d.Count, d.Stove))
	}
	return list
}

// tonightJSON is both answers for programs, as the two commands give them.
type tonightJSON struct {
	SchemaVersion int                `json:"schema_version"`
	Facts         []string           `json:"facts"`
	Remarks       []string           `json:"remarks"`
	Rehearse      document.Rehearsal `json:"rehearse"`
	Compare       compareJSON        `json:"compare"`
	Repeat        string             `json:"repeat"`
}

func (t *tonight) document() tonightJSON {
	doc := tonightJSON{SchemaVersion: 1, Facts: append([]string{}, t.facts()...), Remarks: append([]string{}, t.remarks...),
		Rehearse: t.rehearsal.document(), Compare: t.comparison.document(), Repeat: t.repeat()}
	doc.Rehearse.Repeat, doc.Compare.Repeat = doc.Repeat, doc.Repeat // neither alone has the facts
	return doc
}

// repeat returns the command that gives the same answer again.
func (t *tonight) repeat() string {
	f := t.flags
	c := ask.CommandOf("tonight", fileWord(t.arg)).With("arrive", f.facts.Arrive).With("air", f.facts.Air).With("wind", f.facts.Wind)
	for _, one := range f.facts.Without {
		c.With("without", one)
	}
	for _, one := range f.late {
		c.With("late", one)
	}
	for _, one := range f.dead {
		c.With("stove-dead", one)
	}
	c.With("order", f.order)
	if f.runs != 2000 {
		c.With("runs", f.runs)
	}
	if f.seed != 1 {
		c.With("seed", f.seed)
	}
	return c.String()
}
