package cards

import (
	"warmby/sim"
)

// wallStep is how much time a row of the wall sheet has; a longer drill has longer
// rows, so that the sheet stays one that can be looked over.
func wallStep(end sim.Time) sim.Time {
	for _, step := range []sim.Time{15, 30, 60, 120, 240} {
		if end <= step*sim.Minute*24 {
			return step * sim.Minute
		}
	}
	return 12 * sim.Hour
}

// wall is the evening by person, time downwards.
func (t teller) wall() *Wall {
	w := &Wall{Title: t.Say("wall title", "title", t.Title), Subtitle: t.subtitle()}
	for _, p := range t.People {
		w.Columns = append(w.Columns, p.Name)
	}
	step := wallStep(t.End)
	dark := t.Dark
	for from := sim.Time(0); from < max(t.End, 1); from += step {
		for len(dark) > 0 && dark[0] < from+step {
			w.Rows = append(w.Rows, WallRow{Banner: t.darkLine(dark[0] == 0, t.clock(dark[0])).Text})
			dark = dark[1:]
		}
		w.Rows = append(w.Rows, t.wallRow(from, from+step))
	}
	return w
}

func (t teller) subtitle() string {
	says := ""
	if t.Order != "" {
		says = t.quoted(t.Order)
	}
	return says
}

func (t teller) wallRow(from, to sim.Time) WallRow {
	row := WallRow{Since: mark(from)}
	if !t.Site.Arrival.IsZero() {
		row.Clock = t.clock(from)
	}
	for _, p := range t.People {
		var cell []WallEntry
		for _, s := range p.Steps {
			e := WallEntry{At: mark(s.From), Text: t.what(s), Lookout: s.Lookout != ""}
			switch {
			case s.From >= from && s.From < to:
				if e.Lookout {
					e.Text = t.Say("until", "what", e.Text, "clock", t.clock(s.To))
				}
				cell = append(cell, e)
			case s.From < from && s.To > from && s.To-from >= (to-from)/3:
				e.At, e.Text = "", t.Say("goes on", "what", e.Text)
				cell = append(cell, e)
			}
		}
		row.Cells = append(row.Cells, cell)
	}
	return row
}
