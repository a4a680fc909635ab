package main

import (
	"context"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/cards"
	"warmby/cmd/warmby/internal/mistake"
	onpaper "warmby/cmd/warmby/internal/paper"
	"warmby/plots"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/ifthen"
	"warmby/sim/packing"
	"warmby/sim/reference"
)

const cardsUsage = `Writes what goes along on paper, as PDF, of one order played with usual values:

  people   a card a person, four to a sheet to be cut apart: what next, with whom,
           with what, when to call out, what to leave when it is late
  ifthen   the leader's card: what to do when a load is late, a stove dead, somebody
           down, the wind up, the tent not up; each line from many drawn runs
  pack     a card a load: what lies where, and what on top wins how much
  brief    at most eight sentences to say aloud at the halt
  wall     who does what when, for the wall
  sketch   the camp by bearing and walk, and what lies downwind
  timing   call-outs with blanks, to be typed as a log for warmby fit

It is black on white and large, for mittens and a red lamp. Without --out the
answer says how much there is to print; --all prints the words.

Usage:
  warmby cards [FILE] [flags]

Examples:
  warmby cards kestrel-fell --order "shelter first" --out cards.pdf
  warmby cards kestrel-fell --only people --paper letter --out people.pdf
  warmby cards ravengill --language de --out karten.pdf
  warmby cards --all

--language takes de, en, or a FILE.yaml of your own words; "warmby help language"
prints the English file to translate.
`

type cardsFlags struct {
	ask.Answer
	order, whatIf        string
	only                 []string
	paper, out, language string
	parts                []cards.Part
	size                 onpaper.Size
	words                *cards.Language
	seed                 uint64
	runs, workers        int
}

func cardsCommand(e *environment) *cobra.Command {
	var f cardsFlags
	cmd := &cobra.Command{
		Use:               "cards [FILE]",
		Short:             "what goes along on paper: cards, if-then, pack list, sheets",
		Long:              cardsUsage,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE:              func(cmd *cobra.Command, args []string) error { return e.cards(cmd.Context(), args, f) },
	}
	flags := cmd.Flags()
	ask.Order(flags, &f.order)
	ask.WhatIf(flags, &f.whatIf)
	ask.Seed(flags, &f.seed)
	ask.Runs(flags, &f.runs, 512, " of each trouble of the if-then card")
	ask.Workers(flags, &f.workers)
	flags.StringSliceVar(&f.only, "only", nil, "print only these `PARTS`: "+partNames())
	flags.StringVar(&f.paper, "paper", "a4", "print on this `PAPER`: a4 or letter")
	flags.StringVar(&f.out, "out", "", "write the cards: `FILE`.pdf")
	flags.StringVar(&f.language, "language", "en", "the fixed words: de, en, or a `FILE`.yaml")
	f.DeclareWithoutPicture(flags)
	cmd.RegisterFlagCompletionFunc("order", e.completeOrder)
	fixed := func(words ...string) cobra.CompletionFunc {
		return cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp)
	}
	cmd.RegisterFlagCompletionFunc("only", fixed(strings.Split(partNames(), ",")...))
	cmd.RegisterFlagCompletionFunc("paper", fixed(slices.Sorted(maps.Keys(onpaper.Sizes))...))
	cmd.RegisterFlagCompletionFunc("what-if", e.completeOf(func(s *scenarios.Scenario) []string { return s.WhatIfs() }))
	return cmd
}

func partNames() string {
	var list []string
	for _, p := range cards.Parts {
		list = append(list, string(p))
	}
	return strings.Join(list, ",")
}

// check settles what is asked for.
func (f *cardsFlags) check() error {
	wrong := &mistake.Several{}
	var known []string
	for _, p := range cards.Parts {
		known = append(known, string(p))
	}
	for _, name := range f.only {
		if name = strings.TrimSpace(name); !slices.Contains(known, name) {
			wrong.List = append(wrong.List, &mistake.Usage{What: fmt.Sprintf("--only knows no part %q", name), Cure: "the parts: " + strings.Join(known, ", ")})
		}
		f.parts = append(f.parts, cards.Part(name))
	}
	if len(f.only) == 0 {
		f.parts = cards.Parts
	}
	var ok bool
	if f.size, ok = onpaper.Sizes[strings.ToLower(f.paper)]; !ok {
		wrong.List = append(wrong.List, &mistake.Usage{What: fmt.Sprintf("--paper expects %s, got %q", strings.Join(slices.Sorted(maps.Keys(onpaper.Sizes)), " or "), f.paper)})
	}
	if f.out != "" && !strings.EqualFold(filepath.Ext(f.out), ".pdf") {
		wrong.List = append(wrong.List, &mistake.Usage{What: fmt.Sprintf("--out expects a name that ends in .pdf, got %q", f.out), Cure: "for example: --out cards.pdf"})
	}
	if f.runs < leastTried || f.runs > mostTried {
		wrong.List = append(wrong.List, &mistake.Usage{What: fmt.Sprintf("--runs expects a whole number from %d to %d, got %d", leastTried, mostTried, f.runs), Cure: "512 are played unless you say otherwise"})
	}
	if len(wrong.List) > 0 {
		return wrong
	}
	return ask.SettleWorkers(&f.workers)
}

func (e *environment) cards(ctx context.Context, args []string, f cardsFlags) error {
	if err := f.check(); err != nil {
		return err
	}
	if err := e.mayAnswer(f.Answer); err != nil {
		return err
	}
	if f.out != "" {
		if err := e.mayWrite(f.Force, f.out); err != nil {
			return err
		}
	}
	var err error
	if f.words, err = e.languageOf(f.language); err != nil {
		return err
	}
	src, err := e.loadArgs(args)
	if err != nil {
		return err
	}
	deck, err := deckOf(ctx, src, f)
	if err != nil {
		return err
	}
	sheets := deck.Tell(f.words, f.parts)
	laid, err := printed(sheets, f)
	if err != nil {
		return err
	}
	doc := cardsDocument(src, f, deck, laid)
	told := &cards.Printed{Deck: deck, Sheets: sheets, Cards: laid.Cards, Pages: laid.Pages, Out: f.out, Repeat: f.repeat(src), CautionsBy: ask.CautionsCommand(src.Arg)}
	if err := e.answer(f.Answer, told.Report(), func() any { return doc }, func() *plots.Picture { return nil }); err != nil {
		return err
	}
	if f.out == "" {
		return nil
	}
	if err := e.writeFiles(f.Force, outFile{f.out, laid.Bytes}); err != nil {
		return err
	}
	e.note("wrote %s", f.out)
	return nil
}

// printed lays sheets out on the paper that is asked for.
func printed(sheets *cards.Sheets, f cardsFlags) (*onpaper.Document, error) {
	return onpaper.Print(sheets, f.size)
}

// repeat returns the command that prints the same again.
func (f *cardsFlags) repeat(src *ask.Source) string {
	c := ask.CommandOf("cards", ask.FileWord(src.Arg)).With("order", f.order).With("what-if", f.whatIf)
	if len(f.only) > 0 {
		c.With("only", strings.Join(f.only, ","))
	}
	if f.language != "en" {
		c.With("language", f.language)
	}
	if f.seed != 1 {
		c.With("seed", f.seed)
	}
	if f.runs != 512 {
		c.With("runs", f.runs)
	}
	return c.String()
}

// How many runs each trouble may be played in.
const (
	leastTried = 100
	mostTried  = 100_000
	mostPacked = 256 // for the pack list: what wins minutes shows in few
)

// deckOf plays the drill with usual values, and works out what the parts that are
// asked for need.
func deckOf(ctx context.Context, src *ask.Source, f cardsFlags) (*cards.Deck, error) {
	d, err := src.Drill(f.order, f.whatIf)
	if err != nil {
		return nil, err
	}
	tl, err := usually(src, d)
	if err != nil {
		return nil, err
	}
	deck := cards.DeckOf(tl, cold.Account(tl))
	b := compare.Batch{Seed: f.seed, Runs: f.runs, Workers: f.workers}
	if slices.Contains(f.parts, cards.IfThen) || slices.Contains(f.parts, cards.Brief) {
		if deck.Advice, err = adviceOf(ctx, src, f, d, b); err != nil {
			return nil, err
		}
	}
	var wins []packing.Win
	if slices.Contains(f.parts, cards.Pack) {
		if wins, err = packing.Wins(ctx, d, compare.Batch{Seed: f.seed, Runs: min(f.runs, mostPacked), Workers: f.workers}); err != nil {
			return nil, err
		}
	}
	deck.Loads = cards.LoadsOf(d, wins)
	return deck, nil
}

// adviceOf works the leader's if-then card out.
func adviceOf(ctx context.Context, src *ask.Source, f cardsFlags, d *sim.Drill, b compare.Batch) ([]cards.Advice, error) {
	scenario := src.Scenario
	if f.whatIf != "" {
		var err error
		if scenario, err = scenario.WhatIf(f.whatIf); err != nil {
			return nil, err
		}
	}
	q := questionOf(scenario, d)
	lines, err := ifthen.Of(ctx, q, b)
	if err != nil {
		return nil, err
	}
	names := scenario.Orders()
	if len(names) == 0 {
		names = []string{""}
	}
	return cards.AdviceOf(d, lines, names), nil
}

// usually plays a drill with usual values. Nobody carries a card of an evening
// that comes to a stop.
func usually(src *ask.Source, d *sim.Drill) (*sim.Timeline, error) {
	tl := reference.Play(d, draw.Usual(d))
	if err := tl.Stopped(); err != nil {
		return nil, fmt.Errorf("%s: %w", src.Name, err)
	}
	return tl, nil
}
