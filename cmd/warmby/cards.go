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
	"warmby/sim/draw"
	"warmby/sim/reference"
)

const cardsUsage = `Writes what goes along on paper, as PDF: a card a person, four to a sheet to be
cut apart, and a sheet for the wall. All of it is one order, played with usual
values: who does what next, with whom, with what, and when to call out. It is
black on white and large, for mittens and a red lamp.

Without --out the answer says how much there is to print; --all prints the words.

Usage:
  warmby cards [FILE] [flags]

Examples:
  warmby cards kestrel-fell --order "shelter first" --out cards.pdf
  warmby cards kestrel-fell --only people --paper letter --out people.pdf
  warmby cards ravengill --language de --out karten.pdf
  warmby cards --all

Parts for --only: people, wall. --language takes de, en, or a FILE.yaml of your
own words; "warmby help language" prints the English file to translate.
`

type cardsFlags struct {
	ask.Answer
	order, whatIf        string
	only                 []string
	paper, out, language string
	parts                []cards.Part
	size                 onpaper.Size
	words                *cards.Language
}

func cardsCommand(e *environment) *cobra.Command {
	var f cardsFlags
	cmd := &cobra.Command{
		Use:               "cards [FILE]",
		Short:             "what goes along on paper: a card a person, and a sheet for the wall",
		Long:              cardsUsage,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE:              func(cmd *cobra.Command, args []string) error { return e.cards(cmd.Context(), args, f) },
	}
	flags := cmd.Flags()
	ask.Order(flags, &f.order)
	ask.WhatIf(flags, &f.whatIf)
	flags.StringSliceVar(&f.only, "only", nil, "print only these `PARTS`: "+partNames())
	flags.StringVar(&f.paper, "paper", "a4", "print on this `PAPER`: a4 or letter")
	flags.StringVar(&f.out, "out", "", "write the cards: `FILE`.pdf")
	flags.StringVar(&f.language, "language", "en", "the fixed words: de, en, or a `FILE`.yaml")
	f.DeclareWithoutPicture(flags)
	cmd.RegisterFlagCompletionFunc("order", e.completeOrder)
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
	if len(wrong.List) > 0 {
		return wrong
	}
	return nil
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
	printed, err := onpaper.Print(sheets, f.size)
	if err != nil {
		return err
	}
	doc := cardsDocument(src, f, deck, printed)
	told := &cards.Printed{Deck: deck, Sheets: sheets, Cards: printed.Cards, Pages: printed.Pages, Out: f.out, Repeat: f.repeat(src), CautionsBy: cautionsCommandLine(src.Arg)}
	if err := e.answer(f.Answer, told.Report(), func() any { return doc }, func() *plots.Picture { return nil }); err != nil {
		return err
	}
	if f.out == "" {
		return nil
	}
	if err := e.writeFiles(f.Force, outFile{f.out, printed.Bytes}); err != nil {
		return err
	}
	e.note("wrote %s", f.out)
	return nil
}

// repeat returns the command that prints the same again.
func (f *cardsFlags) repeat(src *ask.Source) string {
	c := ask.CommandOf("cards", fileWord(src.Arg)).With("order", f.order).With("what-if", f.whatIf)
	if len(f.only) > 0 {
		c.With("only", strings.Join(f.only, ","))
	}
	if f.language != "en" {
		c.With("language", f.language)
	}
	return c.String()
}

// deckOf plays the drill with usual values.
func deckOf(_ context.Context, src *ask.Source, f cardsFlags) (*cards.Deck, error) {
	d, err := src.Drill(f.order, f.whatIf)
	if err != nil {
		return nil, err
	}
	tl, err := usually(src, f, d)
	if err != nil {
		return nil, err
	}
	return cards.DeckOf(tl, cold.Account(tl)), nil
}

// usually plays a drill with usual values.
func usually(src *ask.Source, f cardsFlags, d *sim.Drill) (*sim.Timeline, error) {
	luck := draw.Usual(d)
	tl, err := reference.Play(d, luck)
	if err != nil {
		return nil, refusal(src.Name, rehearseFlags{order: f.order, whatIf: f.whatIf}, d, luck, err)
	}
	return tl, nil
}
