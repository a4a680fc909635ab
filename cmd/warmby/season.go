package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/plots"
	"warmby/sim/fit"
	"warmby/sim/review"
)

const seasonUsage = `Shows a season's drills beside each other, one line a drill: when a milestone
came, and whether that is within what the drills before it let expect; and teams
side by side, with conditions, tasks and days evened out. It never ranks people.

LOG is a CSV file ("warmby help log"). Without one, a shipped scenario's own
invented log is taken.

Usage:
  warmby season [LOG ..] [FILE] [flags]

Examples:
  warmby season kestrel-fell
  warmby season kestrel-fell --milestone "hot drink" --all
  warmby season kestrel-fell --report season.html
`

type seasonFlags struct {
	ask.Answer
	milestone string
}

func seasonCommand(e *environment) *cobra.Command {
	var f seasonFlags
	cmd := &cobra.Command{
		Use:               "season [LOG ..] [FILE]",
		Short:             "show timed drills beside each other, one line a drill",
		Long:              seasonUsage,
		Args:              logsAndFile,
		ValidArgsFunction: completeFiles,
		RunE:              func(_ *cobra.Command, args []string) error { return e.season(args, f) },
	}
	flags := cmd.Flags()
	ask.Milestone(flags, &f.milestone, "the first of the file")
	f.DeclareWithoutPicture(flags)
	return cmd
}

func (e *environment) season(args []string, f seasonFlags) error {
	if err := e.mayAnswer(f.Answer); err != nil {
		return err
	}
	t, err := e.loadLogs(args)
	if err != nil {
		return err
	}
	told, err := t.seasoned(f)
	if err != nil {
		return err
	}
	return e.answer(f.Answer, told.Report(), func() any { return seasonDocument(t.Name, told) }, func() *plots.Picture { return nil })
}

func (t *timedDrills) seasoned(f seasonFlags) (*report.Seasoned, error) {
	d, err := t.Scenario.Drill("")
	if err != nil {
		return nil, err
	}
	r := &report.Seasoned{Invented: t.invented, Cautions: ask.CautionsCommand(t.Arg), Repeat: t.words("season").With("milestone", f.milestone).String()}
	var names []string
	found := f.milestone == ""
	for m, one := range d.Milestones {
		if one.Name == f.milestone {
			r.Milestone, found = m, true
		}
		names = append(names, one.Name)
	}
	if !found {
		return nil, &mistake.Usage{What: fmt.Sprintf("no milestone %q", f.milestone), Cure: "its milestones: " + mistake.Quoted(names)}
	}
	r.Fitted = fit.Fit(d, t.log.Evenings, fit.Options{Seed: 1, Teams: true})
	r.Season = review.SeasonOf(r.Fitted)
	return r, nil
}

func seasonDocument(name string, r *report.Seasoned) any {
	d := r.Fitted.Drill
	out := document.Season{Head: document.Head{SchemaVersion: 1, Scenario: name}, Teams: []document.SeasonTeam{}, Repeat: r.Repeat}
	for _, a := range r.Attempts {
		e := r.Fitted.Evenings[a.Evening].Timed
		one := document.SeasonDrill{Name: e.Name, Date: e.Date, Team: e.Team, CalledOff: e.CalledOff, Foretold: a.Foretold, Day: document.FactorRange{Middle: a.Day, Low: a.Low, High: a.High}, Milestones: nil}
		for _, m := range a.Milestones {
			one.Milestones = append(one.Milestones, document.ReviewedMilestone{Name: d.Milestones[m.Milestone].Name, Came: document.Seconds(m.Came), Usual: document.Seconds(m.Usual), Low: document.Seconds(m.Low), High: document.Seconds(m.High)})
		}
		out.Drills = append(out.Drills, one)
	}
	for _, t := range r.Season.Teams {
		out.Teams = append(out.Teams, document.SeasonTeam{Name: t.Name, Drills: t.Drills, Known: t.Known, Factor: document.FactorRange{Middle: t.Factor, Low: t.Low, High: t.High}})
	}
	return out
}
