package cards

import (
	"slices"
	"strings"

	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
)

// MostSentences is how many sentences a briefing has.
const MostSentences = 8

// briefing is what the leader says aloud at the halt.
func (t teller) briefing() Card {
	c := Card{Name: t.Say("brief"), Leaders: true}
	for i, says := range t.sentences() {
		c.add(Line{Left: report.Number(i + 1).Write(report.People), Text: says, Rule: i == 0})
	}
	return c
}

// Sentences are what the leader says aloud, in a language.
func (d *Deck) Sentences(l *Language) []string { return teller{d, l}.sentences() }

// sentences are at most [MostSentences]: what is said of an evening, those that it
// has something to say to.
func (t teller) sentences() (list []string) {
	for _, s := range []func() string{
		t.halt, t.order, t.first, t.whenReached, t.standing, t.whatIf, t.whatToLeave, t.always,
	} {
		if says := s(); says != "" {
			list = append(list, says)
		}
	}
	return list[:min(MostSentences, len(list))]
}

func (t teller) halt() string {
	switch {
	case t.Site.Arrival.IsZero() || len(t.Dark) == 0:
		return t.Say("we halt")
	case t.Dark[0] == 0:
		return t.Say("we halt in the dark")
	}
	return t.Say("we halt before dark", "clock", t.clock(t.Dark[0]))
}

func (t teller) order() string {
	if t.Order == "" {
		return ""
	}
	return t.Say("the order is", "order", t.quoted(t.Order))
}

// mostBegin is how many who begin with something of their own are named.
const mostBegin = 4

// first says who begins with what; those who are most, last and in one go.
func (t teller) first() string {
	var tasks []string
	who := map[string][]string{}
	most := ""
	for _, p := range t.People {
		if len(p.Steps) == 0 {
			continue
		}
		task := t.what(p.Steps[0])
		if load := p.Steps[0].Load; load != "" {
			task = t.Say("unpack", "items", load)
		}
		if who[task] == nil {
			tasks = append(tasks, task)
		}
		who[task] = append(who[task], p.Name)
		if len(who[task]) > len(who[most]) {
			most = task
		}
	}
	if most == "" {
		return ""
	}
	others := t.Say("all others")
	if len(tasks) == 1 {
		others = t.Say("everybody")
	}
	var parts []string
	for _, task := range tasks {
		if task != most && len(parts) < mostBegin {
			parts = append(parts, t.Say("begins", "names", t.names(who[task]), "task", task))
		}
	}
	if len(tasks)-1 > mostBegin {
		return t.Say("first", "list", strings.Join(parts, "; "))
	}
	return t.Say("first", "list", strings.Join(append(parts, t.Say("begins", "names", others, "task", most)), "; "))
}

// mostTold is how many milestones are named.
const mostTold = 4

func (t teller) whenReached() string {
	var parts []string
	for _, m := range t.Milestones {
		if m.At != sim.Never && len(parts) < mostTold {
			parts = append(parts, t.Say("reached", "name", m.Name, "clock", t.clock(byMinute(m.At))))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return t.Say("usually", "list", strings.Join(parts, ", "))
}

func (t teller) standing() string {
	var parts []string
	for _, l := range t.Lookouts {
		next := slices.Compact(slices.Clone(l.Who))
		next = next[:min(2, len(next))]
		parts = append(parts, t.Say("stands first", "name", l.Name, "names", strings.Join(next, ", ")))
	}
	if len(parts) == 0 {
		return ""
	}
	return strings.Join(parts, "; ") + "."
}

// whatIf is the first trouble in which something else is to be done.
func (t teller) whatIf() string {
	for _, a := range t.Advice {
		if a.Take != "" || len(a.Leave) > 0 {
			return t.Say("if said", "trouble", t.trouble(a), "advice", t.whatToDo(a))
		}
	}
	return ""
}

func (t teller) whatToLeave() string {
	if len(t.Leave) == 0 {
		return ""
	}
	return t.Say("when late we leave", "tasks", strings.Join(t.Leave, ", "))
}

func (t teller) always() string { return t.Say("always") }
