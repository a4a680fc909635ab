package cards

import (
	"slices"
	"strings"

	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
)

// Part is one kind of sheet.
type Part string

// The parts of a deck, in the sequence in which they are laid out.
const (
	People   Part = "people"
	IfThen   Part = "ifthen"
	Pack     Part = "pack"
	Brief    Part = "brief"
	Walls    Part = "wall"
	Sketches Part = "sketch"
	Timings  Part = "timing"
)

// Parts lists all of them.
var Parts = []Part{People, IfThen, Pack, Brief, Walls, Sketches, Timings}

// Tell makes the sheets of some parts in a language.
func (d *Deck) Tell(l *Language, parts []Part) *Sheets {
	t := teller{d, l}
	s := &Sheets{Title: d.Title, Part: func(n, of int) string {
		return l.Say("part", "n", report.Number(n), "of", report.Number(of))
	}}
	if slices.Contains(parts, People) {
		for _, p := range d.People {
			s.Cards = append(s.Cards, t.person(p))
		}
	}
	if slices.Contains(parts, IfThen) {
		s.Cards = append(s.Cards, t.ifThen())
	}
	if slices.Contains(parts, Pack) {
		for _, load := range d.Loads {
			s.Cards = append(s.Cards, t.pack(load))
		}
	}
	if slices.Contains(parts, Brief) {
		s.Cards = append(s.Cards, t.briefing())
	}
	if slices.Contains(parts, Walls) {
		s.Wall = t.wall()
	}
	if slices.Contains(parts, Sketches) {
		s.Sketch = t.sketch()
	}
	if slices.Contains(parts, Timings) {
		s.Timing = t.timing()
	}
	return s
}

// teller says a deck in a language.
type teller struct {
	*Deck
	*Language
}

// mark is a moment as a card counts it: whole minutes since arrival, those that a
// watch shows when it begins.
func mark(at sim.Time) string { return report.Minutes(at).Write(report.People) }

// clock is a moment on the clock; since arrival where there is none.
func (t teller) clock(at sim.Time) string { return t.Site.At(at).Write(report.People) }

// quoted is a name that is called out as it stands: an order.
func (t teller) quoted(name string) string { return t.Say("quoted", "name", name) }

// most is how many names stand in a line; the rest are counted.
const mostNames = 5

func (t teller) names(list []string) string {
	if len(list) > mostNames+1 {
		rest := report.Number(len(list) - mostNames)
		return t.Say("and others", "names", strings.Join(list[:mostNames], ", "), "n", rest)
	}
	return strings.Join(list, ", ")
}
