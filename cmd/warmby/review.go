package main

import (
	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/report"
	"warmby/sim/cold"
	"warmby/sim/fit"
	"warmby/sim/review"
)

const reviewUsage = `Lays one timed drill beside what was foretold of it: which milestones came when,
which tasks ran over and what that did, who waited for what, what another order
would have given with the works as timed, and two things to change.

What was foretold comes from the other drills of the log; where there is none,
from the file. LOG is a CSV file ("warmby help log"). Without one, a shipped
scenario's own invented log is taken.

Usage:
  warmby review [LOG ..] [FILE] [flags]

Examples:
  warmby review kestrel-fell
  warmby review kestrel-fell --drill 3 --picture drill.svg
  warmby review kestrel-fell --drill 6 --report drill.html
`

type reviewFlags struct {
	ask.Answer
	drill string
}

func reviewCommand(e *environment) *cobra.Command {
	var f reviewFlags
	cmd := &cobra.Command{
		Use:               "review [LOG ..] [FILE]",
		Short:             "lay a timed drill beside what was foretold of it",
		Long:              reviewUsage,
		Args:              logsAndFile,
		ValidArgsFunction: completeFiles,
		RunE:              func(_ *cobra.Command, args []string) error { return e.review(args, f) },
	}
	flags := cmd.Flags()
	flags.StringVar(&f.drill, "drill", "", "review this drill of the log: `NAME`; else the last")
	f.Declare(flags, "the drill as foretold and as timed")
	return cmd
}

func (e *environment) review(args []string, f reviewFlags) error {
	if err := e.mayAnswer(f.Answer); err != nil {
		return err
	}
	t, err := e.loadLogs(args)
	if err != nil {
		return err
	}
	told, err := t.reviewed(f)
	if err != nil {
		return err
	}
	return e.answer(f.Answer, told.Report(), func() any { return reviewDocument(t.Name, told) }, told.Drawing)
}

func (t *timedDrills) reviewed(f reviewFlags) (*report.Reviewed, error) {
	which, err := t.which(f.drill)
	if err != nil {
		return nil, err
	}
	evening := t.log.Evenings[which]
	orders, err := t.orders()
	if err != nil {
		return nil, err
	}
	g := review.Given{Evening: evening}
	for _, d := range orders {
		like := *evening.Drill // light, weather and arrival of the evening
		like.Order, like.Groups, like.Tasks = d.Order, d.Groups, d.Tasks
		g.Orders = append(g.Orders, &like)
	}
	r := &report.Reviewed{Foretold: report.Say("the file"), Invented: t.invented, Cautions: ask.CautionsCommand(t.Arg),
		Repeat: t.words("review").With("drill", f.drill).String()}
	if len(t.log.Evenings) > 1 {
		if err := t.foretell(&g, which, r); err != nil {
			return nil, err
		}
	}
	r.Review = review.Of(g)
	if cold.Kept(evening.Drill) {
		r.Accounts = cold.Account(r.AsTimed)
	}
	return r, nil
}

// foretell fits the other drills and foretells one from them.
func (t *timedDrills) foretell(g *review.Given, which int, r *report.Reviewed) error {
	d, err := t.Scenario.Drill("")
	if err != nil {
		return err
	}
	all := fit.Fit(d, t.log.Evenings, fit.Options{Effort: fit.Quick, Seed: 1})
	others, ok := all.Without(which)
	if !ok {
		return nil
	}
	g.Expect = others.Usual(g.Evening.Drill, others.At(which))
	g.Range = others.Foretell(g.Evening.Drill, others.At(which), foretoldRuns, 1)
	r.Foretold = report.Say("{}", report.Count{N: len(t.log.Evenings) - 1, What: "other drill"})
	return nil
}

var changeNames = map[review.ChangeKind]string{
	review.TakeOrder: "order", review.Shorten: "practise", review.Supply: "supply", review.PlanLonger: "plan",
}

func reviewDocument(name string, r *report.Reviewed) any {
	d := r.Evening.Drill
	out := document.Review{Head: document.Head{SchemaVersion: 1, Scenario: name}, Drill: r.Evening.Timed.Name, Order: d.Order, Changes: []document.ReviewedChange{}, Repeat: r.Repeat}
	for _, m := range r.Review.Milestones {
		out.Milestones = append(out.Milestones, document.ReviewedMilestone{Name: d.Milestones[m.Milestone].Name, Came: document.Seconds(m.Came), Usual: document.Seconds(m.Usual), Low: document.Seconds(m.Low), High: document.Seconds(m.High)})
	}
	for _, o := range r.Over {
		out.Tasks = append(out.Tasks, document.ReviewedTask{Name: d.Tasks[o.Task].Name, Took: document.Seconds(o.Took), Usual: document.Seconds(o.Usual), Cost: document.Seconds(o.Cost)})
	}
	for _, o := range r.Orders {
		one := document.ReviewedOrder{Name: o.Order, Drilled: o.Played, Milestones: map[string]document.Seconds{}, Gain: document.Seconds(o.Gain)}
		for m, at := range o.Milestones {
			one.Milestones[d.Milestones[m].Name] = document.Seconds(at)
		}
		out.Orders = append(out.Orders, one)
	}
	for _, c := range r.Changes {
		what := c.Order
		if c.Task >= 0 {
			what = d.Tasks[c.Task].Name
		}
		out.Changes = append(out.Changes, document.ReviewedChange{Kind: changeNames[c.Kind], What: what, Gain: document.Seconds(c.Gain)})
	}
	return out
}
