package main

import (
	"context"
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/report"
	"warmby/plots"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/fit"
)

const fitUsage = `Learns from drills that were timed: for each task what the log says, what the file
says and what to plan with; how likely mishaps are, how good the stoves, how much
a day matters; and how well all this foretells a drill that was left out.

LOG is a CSV file: "warmby help log" says what it looks like. FILE is the scenario
that was drilled. Without a LOG, a shipped scenario's own invented log is taken.

Usage:
  warmby fit [LOG ..] [FILE] [flags]

Examples:
  warmby fit kestrel-fell
  warmby fit kestrel-fell --write learnt.yaml
  warmby fit ravengill --all
  warmby fit --json
`

type fitFlags struct {
	ask.Answer
	order, write string
	seed         uint64
}

func fitCommand(e *environment) *cobra.Command {
	var f fitFlags
	cmd := &cobra.Command{
		Use:               "fit [LOG ..] [FILE]",
		Short:             "learn lengths of tasks from a stop-watch log",
		Long:              fitUsage,
		Args:              logsAndFile,
		ValidArgsFunction: completeFiles,
		RunE:              func(cmd *cobra.Command, args []string) error { return e.fit(cmd.Context(), args, f) },
	}
	flags := cmd.Flags()
	ask.Order(flags, &f.order)
	ask.Seed(flags, &f.seed)
	flags.StringVar(&f.write, "write", "", "write the scenario with what was learnt: `FILE`.yaml")
	f.DeclareWithoutPicture(flags)
	cmd.RegisterFlagCompletionFunc("order", e.completeOrder)
	return cmd
}

func (e *environment) fit(_ context.Context, args []string, f fitFlags) error {
	if err := e.mayAnswer(f.Answer); err != nil {
		return err
	}
	if f.write != "" {
		if err := e.mayWrite(f.Force, f.write); err != nil {
			return err
		}
	}
	t, err := e.loadLogs(args)
	if err != nil {
		return err
	}
	told, err := t.fitted(f)
	if err != nil {
		return err
	}
	var written []byte
	if f.write != "" {
		if written, err = t.learnt(told); err != nil {
			return err
		}
		told.Wrote = f.write
	}
	if err := e.answer(f.Answer, told.Report(), func() any { return fitDocument(t.Name, told) }, func() *plots.Picture { return nil }); err != nil {
		return err
	}
	if f.write == "" {
		return nil
	}
	if err := e.writeFiles(f.Force, outFile{f.write, written}); err != nil {
		return err
	}
	e.note("wrote %s", f.write)
	return nil
}

func (t *timedDrills) fitted(f fitFlags) (*report.Fitted, error) {
	d, err := t.Drill(f.order, "")
	if err != nil {
		return nil, err
	}
	r := &report.Fitted{
		Remarks: t.remarks(), Invented: t.invented, Cautions: ask.CautionsCommand(t.Arg),
		Repeat: t.words("fit").With("order", f.order).String(),
	}
	if f.seed != 1 {
		r.Repeat += fmt.Sprintf(" --seed %d", f.seed)
	}
	r.Fitted = fit.Fit(d, t.log.Evenings, fit.Options{Seed: f.seed})
	r.Plans = r.Fitted.Plans()
	r.Left = r.Leave()
	r.Before = fit.ByFile(d, foretoldRuns, f.seed)
	r.Luck = r.Certain().Foretell(d, r.Coming(), foretoldRuns, f.seed)
	r.After = r.Foretell(d, r.Coming(), foretoldRuns, f.seed)
	return r, nil
}

// learnt returns the scenario with what was learnt written into it.
func (t *timedDrills) learnt(r *report.Fitted) ([]byte, error) {
	var edits []scenarios.Edit
	for _, p := range r.Plans {
		task := &r.Drill.Tasks[p.Task]
		if p.Rows == 0 || task.Unloads() {
			continue
		}
		law := fmt.Sprintf("{lognormal: {median: %s min, spread: %s}}", inFile(p.Median.Minutes(), 1), inFile(p.Spread, 2))
		edits = append(edits, scenarios.Edit{Path: lengthPath(task), Value: law, Comment: fmt.Sprintf("from %d drills", p.Rows)})
	}
	for _, c := range r.Chances {
		if c.InFile && c.Drills > 0 {
			edits = append(edits, scenarios.Edit{Path: chancePath(&r.Drill.Tasks[c.Task], c.Then),
				Value: inFile(100*c.Mean(), 0) + " %", Comment: fmt.Sprintf("%d in %d drills", c.Happened, c.Drills)})
		}
	}
	for _, s := range r.Stoves {
		edits = append(edits, scenarios.Edit{Path: []string{"stoves", r.Drill.Stoves[s.Stove].Name, "efficiency"},
			Value: inFile(100*s.Plan, 0) + " %", Comment: fmt.Sprintf("from %d melts and fuel of %d drills", s.Melts, s.Fuels)})
	}
	edits = append(edits, scenarios.Edit{Path: []string{"day"}, Value: inFile(100*r.Day(), 0) + " %", Comment: fmt.Sprintf("from %d drills", len(r.Evenings))})
	out, left, err := scenarios.Rewrite(t.Name, t.Data, edits)
	unloaded := false
	for _, p := range r.Plans {
		unloaded = unloaded || p.Rows > 0 && r.Drill.Tasks[p.Task].Unloads()
	}
	if unloaded {
		r.LeftOut = append(r.LeftOut, "unloading: the figures above are to be written by hand")
	}
	for _, one := range left {
		r.LeftOut = append(r.LeftOut, fmt.Sprintf("%s: %s (the file has its value elsewhere, or over several lines)", one.Path[1], one.Value))
	}
	return out, err
}

// lengthPath is where a file has the length of a task.
func lengthPath(t *sim.Task) []string {
	switch t.Kind {
	case sim.Work:
		return []string{"tasks", t.Name, "work"}
	case sim.Timed:
		return []string{"tasks", t.Name, "timed", "minutes"}
	}
	return []string{"tasks", t.Name, "takes"}
}

// chancePath is where a file has a chance of a task's mishap: that with its
// condition, or the usual one.
func chancePath(t *sim.Task, then bool) []string {
	path := []string{"tasks", t.Name, "mishap", "chance"}
	switch {
	case then:
		return append(path, "then")
	case t.Mishap.When != nil:
		return append(path, "usually")
	}
	return path
}

func inFile(v float64, digits int) string { return strconv.FormatFloat(v, 'f', digits, 64) }
