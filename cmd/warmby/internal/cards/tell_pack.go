package cards

import "warmby/cmd/warmby/internal/report"

// pack is the pack list of one load.
func (t teller) pack(l Load) Card {
	c := Card{Name: l.Name}
	c.add(Line{Text: t.Say("top first"), Bold: true})
	for i, item := range l.Items {
		text := item.Name
		if item.Weight > 0 {
			text = t.Say("item", "name", text, "weight", kilograms(item.Weight))
		}
		c.add(Line{Left: report.Number(i + 1).Write(report.People), Text: text})
	}
	switch {
	case l.Limit > 0:
		c.add(Line{Text: t.Say("weight of limit", "weight", kilograms(l.Weight), "limit", kilograms(l.Limit)), Bold: true, Rule: true})
	case l.Weight > 0:
		c.add(Line{Text: t.Say("weight", "weight", kilograms(l.Weight)), Bold: true, Rule: true})
	}
	for i, w := range l.Wins {
		text := t.Say("on top", "item", w.Item, "name", w.Milestone, "sooner", report.Length(w.Sooner))
		c.add(Line{Text: text, Rule: i == 0})
	}
	return c
}

func kilograms(v float64) report.Quantity { return report.Quantity{Value: v, Unit: "kg"} }
