package main

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
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
of the file is set by --set. "warmby cautions" takes the same facts.
`

type tonightFlags struct {
	ask.Answer
	factFlags
	order         string
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
	f.declareFacts(flags)
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
	if f.runs < 1 || f.runs > ask.MostRuns {
		return &mistake.Usage{What: fmt.Sprintf("--runs expects a whole number from 1 to %d, got %d", ask.MostRuns, f.runs), Cure: "2000 are played unless you say otherwise"}
	}
	if err := f.readFacts(); err != nil {
		return err
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
	var over *ask.Source
	if over, t.remarks, err = f.over(src); err != nil {
		return nil, err
	}
	return t, t.play(ctx, over, e.inFull(f.Answer))
}

// play rehearses one order and compares all under the same luck; in full, with what
// is not told on a screen.
func (t *tonight) play(ctx context.Context, over *ask.Source, inFull bool) (err error) {
	f := t.flags
	one := drillAsked{order: f.order, seed: f.seed, runs: f.runs, workers: f.workers}
	if t.rehearsal, err = rehearsalOf(ctx, over, one); err != nil {
		return err
	}
	all := ordersAsked{allMoves: f.JSON, luck: inFull, seed: f.seed, runs: f.runs, workers: f.workers}
	if t.comparison, err = newComparison(over, all); err != nil {
		return err
	}
	return t.comparison.play(ctx, over.Scenario)
}

// report is the lead of the rehearsal, the table of orders, and then both.
func (t *tonight) report() *report.Report {
	one, all := t.rehearsal.told(), t.comparison.told()
	all.StopTold = len(one.Stops) > 0
	one.Cautions = t.flags.repeatFacts(ask.CommandOf("cautions", ask.FileWord(t.arg))).String()
	all.Cautions = one.Cautions
	told := report.Tonight(one.Report(), all.Report(), t.flags.said(), t.remarks)
	told.Repeat, told.All = t.repeat(), t.repeat()+" --all"
	return told
}

func (t *tonight) document() document.Tonight {
	doc := document.Tonight{SchemaVersion: 2, Facts: append([]string{}, t.flags.said()...), Remarks: append([]string{}, t.remarks...),
		Rehearse: t.rehearsal.document(), Compare: t.comparison.document(), Repeat: t.repeat()}
	doc.Rehearse.Repeat, doc.Compare.Repeat = doc.Repeat, doc.Repeat // neither alone has the facts
	return doc
}

// repeat returns the command that gives the same answer again.
func (t *tonight) repeat() string {
	f := t.flags
	c := f.repeatFacts(ask.CommandOf("tonight", ask.FileWord(t.arg))).With("order", f.order)
	if f.runs != 2000 {
		c.With("runs", f.runs)
	}
	if f.seed != 1 {
		c.With("seed", f.seed)
	}
	return c.String()
}
