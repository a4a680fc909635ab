package main

import (
	"context"
	"fmt"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/doubt"
	"warmby/sim/draw"
	"warmby/sim/reference"
	"warmby/sim/rehearse"
)

// drillAsked says which drill is rehearsed.
type drillAsked struct {
	order, whatIf      string
	seed               uint64
	run, runs, workers int
	drawn              bool // a run of the seed; else usual values
}

// rehearsal is one drill as played, and how it came about.
type rehearsal struct {
	*rehearse.Rehearsal
	name    string // of the scenario, for people
	arg     string // FILE that reads it again
	asked   drillAsked
	numbers doubt.Numbers
	doubted *compare.Played // the evenings with its numbers doubted; nil where there is nothing to doubt
	differs string          // how the two engines differ; "" when they agree
}

// rehearsalOf plays what is asked.
func rehearsalOf(ctx context.Context, s *ask.Source, f drillAsked) (*rehearsal, error) {
	d, err := s.Drill(f.order, f.whatIf)
	if err != nil {
		return nil, err
	}
	luck := draw.Usual(d)
	if f.drawn {
		luck = draw.Run(d, f.seed, f.run)
	}
	tl := reference.Play(d, luck)
	r := &rehearsal{name: s.Name, arg: s.Arg, asked: f, differs: differs(tl)}
	if r.Rehearsal, err = rehearse.Of(ctx, tl, compare.Batch{Seed: f.seed, Runs: f.runs, Workers: f.workers}); err != nil {
		return nil, err
	}
	return r, err
}

// doubt plays the evenings again with the numbers doubted.
func (r *rehearsal) doubt(ctx context.Context, n doubt.Numbers) error {
	if r.numbers = n; r.Evenings == nil || !n.Any(r.Drill) {
		return nil
	}
	played, err := compare.Play(ctx, []*sim.Drill{r.Drill}, n.Batch(compare.Batch{Seed: r.asked.seed, Runs: r.asked.runs, Workers: r.asked.workers}))
	if err != nil {
		return err
	}
	r.doubted = played[0]
	return nil
}

// doubts tells luck from numbers; nil where there is nothing to doubt.
func (r *rehearsal) doubts() []doubt.Doubt {
	if r.doubted == nil {
		return nil
	}
	return doubt.Of(r.Evenings, r.doubted)
}

// told is the rehearsal for its report.
func (r *rehearsal) told() report.Rehearsal {
	return report.Rehearsal{
		Rehearsal: r.Rehearsal, WhatIf: r.asked.whatIf, Drawn: r.asked.drawn, Seed: r.asked.seed, Run: r.asked.run,
		OddsSeed: r.asked.seed, Doubts: r.doubts(), Numbers: r.numbers, Differs: r.differs, Repeat: r.repeat(), Cautions: ask.CautionsCommand(r.arg),
	}
}

// document is the rehearsal for programs.
func (r *rehearsal) document() document.Rehearsal {
	about := document.About{
		Scenario: r.name, WhatIf: r.asked.whatIf, Seed: r.asked.seed, Repeat: r.repeat(),
		Why: func(milestone int) string { return report.WhyMilestone(r.Timeline, milestone).Write(report.Full) },
	}
	if r.asked.drawn {
		about.Run = &r.asked.run
	}
	doc := document.OfRehearsal(r.Rehearsal, about)
	if r.doubted != nil {
		doc.Doubt = &document.DoubtedDrill{Doubt: document.DoubtOf(r.numbers, len(r.doubted.Times[0])), Milestones: document.DoubtedMilestones(r.Evenings, r.doubted)}
	}
	return doc
}

// repeat returns the command that plays the same drill again.
func (r *rehearsal) repeat() string {
	c := ask.CommandOf("rehearse", ask.FileWord(r.arg)).With("order", r.asked.order).With("what-if", r.asked.whatIf)
	if r.asked.drawn {
		c.With("seed", r.asked.seed).With("run", r.asked.run)
	}
	if r.asked.runs != 1000 {
		c.With("runs", r.asked.runs)
	}
	return c.String()
}

// asError makes the difference of the engines an error, once the drill has
// been shown marked so.
func (r *rehearsal) asError() error {
	if r.differs == "" {
		return nil
	}
	return mistake.WithHint(fmt.Errorf("%s: the two engines differ: %s", r.name, r.differs),
		"do not rely on this drill; please report it with the scenario file and: %s", r.repeat())
}
