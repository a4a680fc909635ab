package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"warmby/sim"
	"warmby/sim/split"
	"warmby/sim/stats"
)

func (s Splits) worthHeading() string {
	return fmt.Sprintf("What is worth how much to the %d at %s, against %s", s.own(), quote(s.milestone().Name), s.under(s.Worth.Base))
}

// sorted returns what wins most first.
func (s Splits) sorted() []*split.Worth {
	list := slices.Clone(s.Worth.List)
	value := func(w *split.Worth) float64 {
		if !w.Change.Mean.OK() {
			return math.Inf(1)
		}
		return w.Change.Mean.Value
	}
	slices.SortStableFunc(list, func(a, b *split.Worth) int { return cmp.Compare(value(a), value(b)) })
	return list
}

// worth lists what wins or loses beyond what luck explains, most first.
func (s Splits) worth() []Block {
	t := Table{Caption: "What is worth how much", Columns: []Column{{}, {}}}
	for _, w := range s.sorted() {
		if w.Told() != 0 {
			t.Rows = append(t.Rows, Cells(s.thing(w), s.gain(w)))
		}
	}
	if t.Rows == nil {
		return []Block{Text{Says: Say("Nothing that can be told.")}}
	}
	return []Block{t}
}

// gain says what a thing more does. Nobody has to use it, or to follow another order:
// what was found to make it later is no loss to people, but for a load packed otherwise.
func (s Splits) gain(w *split.Worth) Sentence {
	by := s.by(w.Change.Mean.Negated())
	if w.Told() < 0 || w.Kind == split.Packing {
		return by
	}
	return Sentence{noGain{by}}
}

// noGain is a loss that nobody has to take.
type noGain struct{ by Sentence }

func (g noGain) Write(p Precision) string {
	if p == Full {
		return g.by.Write(p)
	}
	return "no gain found"
}

// rest names what cannot be told from nothing.
func (s Splits) rest() []Block {
	var items []Sentence
	for _, w := range s.Worth.List {
		switch mean := w.Change.Mean; {
		case !mean.OK():
			items = append(items, Say("{} ({})", s.thing(w), mean.Why))
		case w.Told() == 0:
			items = append(items, Say("{}", s.thing(w)))
		}
	}
	if items == nil {
		return nil
	}
	head := Say("Cannot be told from nothing in {}", Count{s.Game.Runs, "run"})
	switch {
	case s.usual():
		head = Say("Changes nothing with usual values")
	case s.Game.Runs < stats.FewRuns:
		head = Say("Too few runs to tell ({}, of at least {})", s.Game.Runs, stats.FewRuns)
	}
	return []Block{Text{Says: sentenceEnd(Say("{}: {}", head, Join(items, "; ")))}}
}

// thing names a thing more.
func (s Splits) thing(w *split.Worth) string {
	switch w.Kind {
	case split.Better:
		return "a better order alone"
	case split.Person, split.Skilled:
		text := "one more person"
		if w.What != "" {
			text += fmt.Sprintf(" with the skill %q", w.What)
		}
		if w.Where != "" && w.Where != sim.Everyone {
			text += fmt.Sprintf(" (group %q)", w.Where)
		}
		return text
	case split.Learned:
		return fmt.Sprintf("the skill %q for %s as well", w.What, w.Where)
	case split.Tool, split.Stove:
		return "one more " + w.What
	}
	return fmt.Sprintf("%s on top of %s", w.What, w.Where)
}
