// Package terminal prints a report as characters. It is the only code that
// knows how wide a line may be.
package terminal

import (
	"strings"
	"unicode/utf8"

	"warmby/cmd/warmby/internal/report"
)

// Paper is how wide text is when it does not go to a terminal, in characters.
const Paper = 100

// Screen is how many lines a report has at most, unless all of it is asked for.
const Screen = 50

// Options says how a report is printed.
type Options struct {
	Width int  // characters in a line; the command that repeats an answer may be longer
	All   bool // everything, with seconds and intervals; else one screen, for people
}

// Print returns a report as text: the lead, then a screen of the sections, or
// all of them.
func Print(r *report.Report, o Options) string {
	p := printer{Options: o}
	p.lead(r)
	if o.All {
		p.precision = report.Full
		for _, s := range r.Sections {
			p.section(s)
		}
		p.cautions(r)
		return p.text.String() + "\nPlayed by: " + r.Repeat + "\n"
	}
	foot := printer{Options: o}
	foot.cautions(r)
	foot.text.WriteString("\nEverything, to the second: " + r.All + "\n")
	room := Screen - lines(p.text.String()) - lines(foot.text.String())
	return p.text.String() + p.screen(r.Sections, room) + foot.text.String()
}

// Lead returns what stands on top of a report: the title, warnings and at most
// ten lines.
func Lead(r *report.Report, width int) string {
	p := printer{Options: Options{Width: width}}
	p.lead(r)
	return p.text.String()
}

// printer writes blocks one below the other.
type printer struct {
	Options
	precision report.Precision
	text      strings.Builder
}

func (p *printer) lead(r *report.Report) {
	title := r.Title
	if sub := r.Subtitle.Write(report.People); sub != "" {
		title += ". " + sub
	}
	p.text.WriteString(Wrap(title, p.Width, "", "  "))
	for _, w := range r.Warnings {
		p.text.WriteString(Wrap(w.Write(report.Full), p.Width, "", "  "))
	}
	for _, b := range r.Lead {
		p.block(b, "")
	}
}

func (p *printer) section(s report.Section) {
	p.text.WriteString("\n" + Wrap(s.Heading, p.Width, "", "  "))
	for i, b := range s.Blocks {
		if text, ok := b.(report.Text); i > 0 && ok && !text.Item {
			if before, ok := s.Blocks[i-1].(report.Text); !ok || !before.Item {
				p.text.WriteString("\n")
			}
		}
		p.block(b, "  ")
	}
}

// screen returns the sections that are for everybody, in so many lines at most:
// what is too long is cut, and says so.
func (p *printer) screen(sections []report.Section, room int) string {
	var out strings.Builder
	for _, s := range sections {
		if s.More {
			continue
		}
		one := printer{Options: p.Options}
		one.section(s)
		text := one.text.String()
		if n := lines(text); n > room {
			if room > 4 {
				out.WriteString(firstLines(text, room-1) + "  .. (the rest with --all)\n")
			}
			break
		} else {
			room -= n
		}
		out.WriteString(text)
	}
	return out.String()
}

func (p *printer) cautions(r *report.Report) {
	if len(r.Cautions) == 0 {
		return
	}
	heading := "Cautions"
	if r.CautionsBy != "" {
		heading += " (in full: " + r.CautionsBy + ")"
	}
	p.text.WriteString("\n" + heading + "\n")
	for _, c := range r.Cautions {
		p.text.WriteString(Wrap(c.Topic+": "+c.Line, p.Width, "  ", "    "))
	}
}

func (p *printer) block(b report.Block, indent string) {
	switch b := b.(type) {
	case report.Text:
		text := b.Says.Write(p.precision)
		rest := indent
		if b.Head != "" {
			text, rest = b.Head+": "+text, indent+"  "
		}
		if b.Item {
			rest = indent + "  "
		}
		p.text.WriteString(Wrap(text, p.Width, indent, rest))
	case report.Table:
		p.table(b, "  ")
	case report.Strips:
		p.strips(b, "  ")
	case report.Picture:
		p.table(b.Table, "  ")
	case report.Code:
		p.text.WriteString(b.Text)
	}
}

func lines(text string) int { return strings.Count(text, "\n") }

// firstLines returns the first n lines of a text.
func firstLines(text string, n int) string {
	all := strings.SplitAfter(text, "\n")
	return strings.Join(all[:min(n, len(all))], "")
}

// Wrap breaks words into lines of at most width characters; the first line has
// one indent, the others another.
func Wrap(text string, width int, first, rest string) string {
	var b strings.Builder
	line, indent := "", first
	for _, word := range strings.Fields(text) {
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(indent)+utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width:
			b.WriteString(indent + line + "\n")
			line, indent = word, rest
		default:
			line += " " + word
		}
	}
	if line != "" {
		b.WriteString(indent + line + "\n")
	}
	return b.String()
}
