package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"warmby/plots"
	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/draw"
	"warmby/sim/heat"
	"warmby/sim/reference"
)

const rehearseUsage = `Plays one drill and shows when the shelter is up, when it is heated, when the
first hot drink is served and when everything is ready for the night, who did
what from when to when, and what held it up.

Without --seed usual values hold and no mishap happens; with it, durations,
mishaps, arrivals and weather are drawn.

Usage:
  warmby rehearse [FILE] [flags]

Examples:
  warmby rehearse
  warmby rehearse kestrel-fell --order "two groups" --picture evening.svg
  warmby rehearse mine.yaml --seed 7 --run 3 --json
`

type rehearseFlags struct {
	order, whatIf string
	seed          uint64
	run           int
	pictures      []string
	json, force   bool
	drawn         bool // whether --seed or --run was given
}

func rehearseCommand(e *environment) *cobra.Command {
	var f rehearseFlags
	cmd := &cobra.Command{
		Use:               "rehearse [FILE]",
		Short:             "play one drill: milestones, who did what, what held it up",
		Long:              rehearseUsage,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			f.drawn = cmd.Flags().Changed("seed") || cmd.Flags().Changed("run")
			return e.rehearse(args, f)
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&f.order, "order", "", "drill order to play; the first of the file unless given `NAME`")
	flags.StringVar(&f.whatIf, "what-if", "", "play the scenario as changed by the what-if `NAME` of the file")
	flags.Uint64Var(&f.seed, "seed", 1, "draw the run with this seed `N` instead of usual values")
	flags.IntVar(&f.run, "run", 0, "which run of the seed to play, from 0 on: `N`")
	flags.StringArrayVar(&f.pictures, "picture", nil, "write a picture `FILE`.svg, .png or .pdf; may be given several times")
	flags.BoolVar(&f.json, "json", false, "print the timeline as JSON")
	flags.BoolVar(&f.force, "force", false, "overwrite files that exist")
	cmd.RegisterFlagCompletionFunc("order", e.completeOrder)
	cmd.RegisterFlagCompletionFunc("what-if", e.completeOf(func(s *scenarios.Scenario) []string { return s.WhatIfs() }))
	return cmd
}

// rehearsal is one drill as played, and how it came about.
type rehearsal struct {
	tl      *sim.Timeline
	name    string // of the scenario, for people
	arg     string // FILE that reads it again
	flags   rehearseFlags
	share   share
	cold    []cold.Person
	differs string // how the two engines differ; "" when they agree
}

func (e *environment) rehearse(args []string, f rehearseFlags) error {
	if f.run < 0 {
		return &usageError{fmt.Sprintf("--run expects a whole number, 0 or more, got %d", f.run), "runs are numbered from 0 on"}
	}
	for _, p := range f.pictures {
		if _, err := pictureFormat(p); err != nil {
			return err
		}
	}
	if err := e.mayWrite(f.force, f.pictures...); err != nil {
		return err
	}
	src, err := e.loadArgs(args)
	if err != nil {
		return err
	}
	d, err := src.drill(f.order, f.whatIf)
	if err != nil {
		return err
	}
	luck := draw.Usual(d)
	if f.drawn {
		luck = draw.Run(d, f.seed, f.run)
	}
	tl, err := reference.Play(d, luck)
	if err != nil {
		return refusal(src.name, f, d, luck, err)
	}
	r := &rehearsal{tl: tl, name: src.name, arg: src.arg, flags: f}
	r.differs, r.cold = differs(tl), cold.Account(tl)
	if !f.drawn {
		if r.share, err = asQuickly(tl); err != nil {
			return err
		}
	}
	err = e.tell(func() error { return e.printRehearsal(r) }, func() error { return e.writePictures(r) })
	if err != nil {
		return err
	}
	return r.asError()
}

func (e *environment) printRehearsal(r *rehearsal) error {
	if r.flags.json {
		return writeTimelineJSON(e.stdout, r)
	}
	_, err := fmt.Fprint(e.stdout, r.text(e.width()))
	return err
}

// drill returns the drill of an order, changed by a what-if when one is named.
func (s *source) drill(order, whatIf string) (*sim.Drill, error) {
	scenario := s.scenario
	if whatIf != "" {
		changed, err := scenario.WhatIf(whatIf)
		if err != nil {
			return nil, unknownName(err, "what-ifs", scenario.WhatIfs())
		}
		scenario = changed
	}
	d, err := scenario.Drill(order)
	if err != nil {
		return nil, unknownName(err, "orders", scenario.Orders())
	}
	return d, nil
}

// unknownName makes a name that a scenario does not know a mistake of the
// command line: what is wrong on the first line, the likely cure as its hint.
func unknownName(err error, what string, known []string) error {
	text, _, _ := strings.Cut(err.Error(), "\n")
	return &usageError{text, fmt.Sprintf("its %s: %s", what, orNone(known))}
}

func orNone(names []string) string {
	if len(names) == 0 {
		return "none"
	}
	return quoted(names)
}

// pictureFormat tells the format of a picture by the ending of its name.
func pictureFormat(path string) (string, error) {
	switch ext := strings.ToLower(filepath.Ext(path)); ext {
	case ".svg", ".png", ".pdf":
		return ext[1:], nil
	}
	return "", &usageError{fmt.Sprintf("--picture expects a name that ends in .svg, .png or .pdf, got %q", path),
		"the ending chooses the format"}
}

// primary returns the milestone whose critical sequence pictures mark: the
// finish.
func primary(tl *sim.Timeline) int { return len(tl.Milestones) - 1 }

func (e *environment) writePictures(r *rehearsal) error {
	if len(r.flags.pictures) == 0 {
		return nil
	}
	picture := plots.Drill(r.tl, plots.Options{Critical: r.tl.Critical(primary(r.tl)), Curves: heat.Curves(r.tl), Cold: r.cold})
	return e.writePicture(picture, r.flags.pictures, r.flags.force)
}

// repeat returns the command that plays the same drill again.
func (r *rehearsal) repeat() string {
	words := []string{"warmby", "rehearse"}
	if r.arg != library.Default {
		words = append(words, shellWord(r.arg))
	}
	if r.flags.order != "" {
		words = append(words, "--order", shellWord(r.flags.order))
	}
	if r.flags.whatIf != "" {
		words = append(words, "--what-if", shellWord(r.flags.whatIf))
	}
	if r.flags.drawn {
		words = append(words, fmt.Sprintf("--seed %d --run %d", r.flags.seed, r.flags.run))
	}
	return strings.Join(words, " ")
}

// shellWord quotes a word for a shell when it needs it.
func shellWord(s string) string {
	if s != "" && strings.Trim(s, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_./") == "" {
		return s
	}
	return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'"
}
