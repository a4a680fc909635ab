// Package page prints a report as one HTML file that needs nothing else: no
// script, no font, no picture from elsewhere. It is read on a phone, on a wide
// screen, in the dark and on paper; whoever does not see its pictures has the
// same in tables.
package page

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"strings"

	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
)

//go:embed page.css
var style string

//go:embed page.html
var layout string

var pageTemplate = template.Must(template.New("page").Funcs(template.FuncMap{
	"say":    func(s report.Sentence) template.HTML { return say(s, report.Full) },
	"people": func(s report.Sentence) template.HTML { return say(s, report.People) },
	"plain":  func(s report.Sentence) string { return s.Write(report.People) },
}).Parse(layout))

// Write writes a report as a page, all of it: the lead for people, the sections
// with seconds and intervals. It fails when a picture cannot be drawn, or w.
func Write(w io.Writer, r *report.Report) error {
	v := view{Report: r, Style: template.CSS(style)}
	var err error
	if v.Lead, err = blocks(r.Lead, report.People); err != nil {
		return err
	}
	for i, s := range r.Sections {
		part := section{ID: fmt.Sprintf("s%d", i+1), Heading: s.Heading}
		if part.Blocks, err = blocks(s.Blocks, report.Full); err != nil {
			return err
		}
		v.Sections = append(v.Sections, part)
	}
	return pageTemplate.Execute(w, v)
}

// view is a report as the layout takes it.
type view struct {
	*report.Report
	Style    template.CSS
	Lead     []block
	Sections []section
}

type section struct {
	ID, Heading string
	Blocks      []block
}

// block is one block: of all fields but one, none is set. Items that follow
// each other are one list.
type block struct {
	Text    template.HTML
	Items   []template.HTML
	Table   *table
	Strips  *strips
	Picture *picture
	Code    string
}

type table struct {
	Caption string
	Heads   []column
	Rows    [][]cell
}

type column struct {
	Head  string
	Right bool
}

type cell struct {
	Text  template.HTML
	Right bool
}

type picture struct {
	Caption string
	SVG     template.HTML
	Table   *table
}

type strips struct {
	Caption string
	Rows    []strip
	Legend  []template.HTML
	Table   *table
}

type strip struct {
	Name  string
	Spans []span
}

type span struct {
	Left, Width template.CSS
	Mark, What  string
	Kind        string // "task" or "lookout"; "" for walking and waiting
}

func blocks(list []report.Block, p report.Precision) ([]block, error) {
	var out []block
	for _, b := range list {
		switch b := b.(type) {
		case report.Text:
			text := say(b.Says, p)
			if b.Head != "" {
				text = template.HTML("<b>"+template.HTMLEscapeString(b.Head)+":</b> ") + text
			}
			switch {
			case b.Item && len(out) > 0 && out[len(out)-1].Items != nil:
				out[len(out)-1].Items = append(out[len(out)-1].Items, text)
			case b.Item:
				out = append(out, block{Items: []template.HTML{text}})
			default:
				out = append(out, block{Text: text})
			}
		case report.Table:
			out = append(out, block{Table: tableOf(b, p)})
		case report.Strips:
			out = append(out, block{Strips: stripsOf(b, p)})
		case report.Picture:
			svg, err := inline(b)
			if err != nil {
				return nil, err
			}
			out = append(out, block{Picture: &picture{b.Caption, svg, tableOf(b.Table, p)}})
		case report.Code:
			out = append(out, block{Code: b.Text})
		}
	}
	return out, nil
}

func tableOf(t report.Table, p report.Precision) *table {
	v := &table{Caption: t.Caption}
	said := false
	for _, c := range t.Columns {
		v.Heads = append(v.Heads, column{c.Head, c.Right})
		said = said || c.Head != ""
	}
	for _, r := range t.Rows {
		var row []cell
		for i, c := range r {
			row = append(row, cell{say(c, p), t.Columns[i].Right})
		}
		v.Rows = append(v.Rows, row)
	}
	if !said {
		v.Heads = nil
	}
	return v
}

// stripsOf places the spans by their share of the whole, so that they fit any
// width. The table beside them has only what the terminal has beside them too.
func stripsOf(s report.Strips, p report.Precision) *strips {
	v := &strips{Caption: s.Caption}
	of := func(l report.Length) float64 { return 100 * sim.Time(l).Seconds() / max(1, sim.Time(s.End).Seconds()) }
	for _, r := range s.Rows {
		row := strip{Name: r.Name}
		for _, sp := range r.Spans {
			row.Spans = append(row.Spans, spanOf(sp, of))
		}
		v.Rows = append(v.Rows, row)
	}
	for _, l := range s.Legend {
		v.Legend = append(v.Legend, say(l, p))
	}
	totals := report.Table{Caption: s.Caption, Columns: append([]report.Column{{}}, s.Totals...)}
	for _, r := range s.Rows {
		totals.Rows = append(totals.Rows, append(report.Cells(r.Name), r.Totals...))
	}
	v.Table = tableOf(totals, p)
	return v
}

func spanOf(s report.Span, of func(report.Length) float64) span {
	v := span{What: s.What}
	switch s.Kind {
	case report.Work:
		v.Kind, v.Mark = "task", s.Mark
	case report.Lookout:
		v.Kind = "lookout"
	}
	v.Left = template.CSS(fmt.Sprintf("%.3f%%", of(s.From)))
	v.Width = template.CSS(fmt.Sprintf("%.3f%%", of(s.To)-of(s.From)))
	return v
}

// say writes a sentence; its figures do not break across lines.
func say(s report.Sentence, p report.Precision) template.HTML {
	var b strings.Builder
	for _, part := range s {
		text := template.HTMLEscapeString(part.Write(p))
		if _, ok := part.(report.Figure); ok && len(text) < 24 {
			text = `<span class="figure">` + text + `</span>`
		}
		b.WriteString(text)
	}
	return template.HTML(b.String())
}

// inline returns the drawing of a picture to stand in a page.
func inline(p report.Picture) (template.HTML, error) {
	data, err := p.Drawing().Bytes("svg")
	if err != nil {
		return "", fmt.Errorf("cannot draw %q: %w", p.Caption, err)
	}
	at := bytes.Index(data, []byte("<svg"))
	if at < 0 {
		return "", fmt.Errorf("cannot draw %q: no drawing came out", p.Caption)
	}
	label := template.HTMLEscapeString(p.Caption)
	return template.HTML(`<svg role="img" aria-label="` + label + `"` + string(data[at+len("<svg"):])), nil
}
