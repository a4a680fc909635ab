package terminal

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
)

// leastStrip is how many characters a strip has at least.
const leastStrip = 24

// strips writes what each row is about, one character for each tick of time.
func (p *printer) strips(s report.Strips, indent string) {
	name, totals := 0, 0
	for _, r := range s.Rows {
		name = max(name, utf8.RuneCountInString(r.Name))
	}
	for _, c := range s.Totals {
		totals += len(gap) + utf8.RuneCountInString(c.Head)
	}
	end := sim.Time(s.End)
	columns := max(leastStrip, p.Width-len(indent)-name-len(gap)-totals)
	tick := niceTick(end, columns)
	columns = min(columns, int((end+tick-1)/tick)+1)

	g := grid{right: []bool{false, false}}
	heads := []string{"", ruler(tick, columns)}
	for _, c := range s.Totals {
		heads, g.right = append(heads, c.Head), append(g.right, c.Right)
	}
	g.rows = append(g.rows, heads)
	for _, r := range s.Rows {
		row := []string{r.Name, strip(r.Spans, tick, columns)}
		for _, t := range r.Totals {
			row = append(row, t.Write(p.precision))
		}
		g.rows = append(g.rows, row)
	}
	g.write(&p.text, indent)
	p.text.WriteString("\n")
	p.text.WriteString(Wrap("One sign is "+report.Length(tick).Write(report.Full)+".", p.Width, indent, indent))
	for _, l := range s.Legend {
		p.text.WriteString(Wrap(l.Write(p.precision), p.Width, indent, indent))
	}
}

// niceTick returns the length that one sign stands for, so that end fits into
// columns.
func niceTick(end sim.Time, columns int) sim.Time {
	for _, t := range []sim.Time{30 * sim.Second, sim.Minute, 2 * sim.Minute, 3 * sim.Minute, 5 * sim.Minute, 10 * sim.Minute, 15 * sim.Minute, 30 * sim.Minute, sim.Hour} {
		if end <= t*sim.Time(columns) {
			return t
		}
	}
	return (end/sim.Time(columns)/sim.Hour + 1) * sim.Hour
}

// ruler marks every tenth sign with the minutes since arrival.
func ruler(tick sim.Time, columns int) string {
	var b strings.Builder
	for b.Len() < columns {
		at := fmt.Sprintf("|%.0f", (sim.Time(b.Len()) * tick).Minutes())
		if b.Len()+len(at) > columns {
			at = ""
		}
		b.WriteString(at + strings.Repeat(" ", min(10-len(at), columns-b.Len()-len(at))))
	}
	return b.String()
}

// strip writes what took most of each sign's time.
func strip(spans []report.Span, tick sim.Time, columns int) string {
	var b strings.Builder
	k := 0
	for c := range columns {
		from, to := sim.Time(c)*tick, sim.Time(c+1)*tick
		for k < len(spans) && sim.Time(spans[k].To) <= from {
			k++
		}
		best, most := " ", sim.Time(0)
		for _, s := range spans[k:] {
			if sim.Time(s.From) >= to {
				break
			}
			if dt := min(sim.Time(s.To), to) - max(sim.Time(s.From), from); dt > most {
				most, best = dt, s.Mark
			}
		}
		b.WriteString(best)
	}
	return b.String()
}
