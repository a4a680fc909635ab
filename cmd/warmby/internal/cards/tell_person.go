package cards

import (
	"strings"

	"warmby/cmd/warmby/internal/report"
)

// person is one person's card.
func (t teller) person(p Person) Card {
	c := Card{Name: p.Name}
	if t.Order != "" {
		c.add(Line{Text: t.quoted(t.Order)})
	}
	c.add(Line{Text: t.Say("arrived"), Field: true})
	dark, spot := t.Dark, ""
	for i, s := range p.Steps {
		for len(dark) > 0 && dark[0] <= s.From {
			c.add(t.darkLine(dark[0] == 0, t.clock(dark[0])))
			dark = dark[1:]
		}
		c.add(t.step(s, i == 0, spot)...)
		spot = s.Spot
	}
	if len(p.Steps) == 0 {
		c.add(Line{Text: t.Say("nothing to do"), Large: true, Rule: true})
	}
	if len(p.Leave) > 0 {
		c.add(Line{Text: t.Say("leave when late", "tasks", strings.Join(p.Leave, ", ")), Bold: true, Rule: true})
	}
	if len(p.Cautions) > 0 {
		c.add(Line{Text: t.Say("take care"), Bold: true, Rule: true})
	}
	for _, topic := range p.Cautions {
		c.add(Line{Text: t.caution(topic), Joins: true, Flush: true})
	}
	return c
}

func (c *Card) add(lines ...Line) { c.Lines = append(c.Lines, lines...) }

func (t teller) darkLine(already bool, clock string) Line {
	if already {
		return Line{Text: t.Say("dark already"), Bold: true, Rule: true}
	}
	return Line{Text: t.Say("dark", "clock", clock), Bold: true, Rule: true}
}

// step is what is to do, and below it with whom, with what and where, unless that
// is where the person has been or stands in the name.
func (t teller) step(s Step, first bool, was string) []Line {
	if s.Spot == was || strings.Contains(t.what(s), s.Spot) {
		s.Spot = ""
	}
	head := Line{Left: mark(s.From), Text: t.what(s), Large: first, Bold: !first, Rule: true}
	lines := []Line{head}
	if says := t.details(s); says != "" {
		lines = append(lines, Line{Text: says, Joins: true})
	}
	if s.CallsOut {
		lines = append(lines, Line{Text: t.Say("call out"), Bold: true, Joins: true})
	}
	return lines
}

// what names a step: tasks, or a lookout.
func (t teller) what(s Step) string {
	if s.Lookout != "" {
		return s.Lookout
	}
	if len(s.Items) > 0 {
		return t.Say("unpack", "items", strings.Join(s.Items, ", "))
	}
	return strings.Join(s.Tasks, ", ")
}

func (t teller) details(s Step) string {
	if s.Lookout != "" {
		return t.lookout(s)
	}
	var parts []string
	switch {
	case len(s.With) > 1 && len(s.With) == len(t.Deck.People)-1:
		parts = append(parts, t.Say("with all"))
	case len(s.With) > 0:
		parts = append(parts, t.Say("with", "names", t.names(s.With)))
	}
	if len(s.Tools) > 0 {
		parts = append(parts, t.Say("take", "tools", t.tools(s.Tools)))
	}
	if s.Spot != "" {
		parts = append(parts, t.Say("at", "spot", s.Spot))
	}
	if s.After != "" {
		parts = append(parts, t.Say("hand over", "clock", t.clock(s.To), "name", s.After))
	}
	return strings.Join(parts, "; ")
}

func (t teller) tools(list []Tool) string {
	var words []string
	for _, tool := range list {
		word := tool.Name
		if tool.Count > 1 {
			word = report.Number(tool.Count).Write(report.People) + " " + word
		}
		words = append(words, word)
	}
	return strings.Join(words, ", ")
}

// lookout says from when to when, who is relieved and who comes.
func (t teller) lookout(s Step) string {
	parts := []string{t.Say("from to", "from", t.clock(s.From), "to", t.clock(s.To))}
	if s.Before != "" {
		parts = append(parts, t.Say("relieve", "name", s.Before))
	}
	if s.After != "" {
		parts = append(parts, t.Say("then comes", "name", s.After))
	}
	if len(s.With) > 0 {
		parts = append(parts, t.Say("with", "names", t.names(s.With)))
	}
	return strings.Join(parts, "; ")
}

func (t teller) caution(topic string) string { return t.Say("caution " + topic) }
