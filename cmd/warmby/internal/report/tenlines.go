package report

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// leadWidth is how wide the narrowest terminal is on which a lead has ten
// lines, in characters.
const leadWidth = 80

// lines is how many lines a sentence takes on the narrowest terminal.
func lines(s Sentence) int {
	n, at := 0, leadWidth
	for _, word := range strings.Fields(s.Write(People)) {
		if at += 1 + utf8.RuneCountInString(word); at > leadWidth {
			n, at = n+1, utf8.RuneCountInString(word)
		}
	}
	return n
}

// headLines is how many lines the headings of a table take on the narrowest
// terminal.
func headLines(t Table) int {
	const gap, indent = 2, 2
	width := indent - gap
	for i, c := range t.Columns {
		widest := utf8.RuneCountInString(c.Head)
		for _, row := range t.Rows {
			if i < len(row) {
				widest = max(widest, utf8.RuneCountInString(row[i].Write(People)))
			}
		}
		width += gap + widest
	}
	if width > leadWidth {
		return 2
	}
	return 1
}

// fit drops what a lead has no room for on the narrowest terminal: sentences, the
// last but the line of cautions first, and then rows of its table. What is dropped
// stands further down as well.
func (r *Report) fit() {
	const fewestRows = 2
	for over := r.leadLines() - most; over > 0; over = r.leadLines() - most {
		at := r.lastText()
		t, k := r.leadTable()
		switch {
		case at > 1:
			r.Lead = slices.Delete(slices.Clone(r.Lead), at, at+1)
		case k >= 0 && len(t.Rows) > fewestRows:
			t.Rows = t.Rows[:max(fewestRows, len(t.Rows)-over)]
			r.Lead = slices.Clone(r.Lead)
			r.Lead[k] = t
		default:
			return
		}
	}
}

// lastText is the last sentence of a lead before that of the cautions; -1 for none.
func (r *Report) lastText() int {
	end := len(r.Lead)
	if len(r.Cautions) > 0 {
		end--
	}
	for i := end - 1; i >= 0; i-- {
		if _, ok := r.Lead[i].(Text); ok {
			return i
		}
	}
	return -1
}

// leadTable is the first table of a lead, and where it stands; -1 for none.
func (r *Report) leadTable() (Table, int) {
	for i, b := range r.Lead {
		if t, ok := b.(Table); ok {
			return t, i
		}
	}
	return Table{}, -1
}

// leadLines is how many lines stand on top of a report.
func (r *Report) leadLines() int {
	title := Say("{}", r.Title)
	if !r.Subtitle.IsEmpty() {
		title = Say("{}. {}", title, r.Subtitle)
	}
	n := lines(title)
	for _, w := range r.Warnings {
		n += lines(Briefly(w))
	}
	for _, b := range r.Lead {
		switch b := b.(type) {
		case Text:
			n += lines(b.Says)
		case Table:
			n += len(b.Rows) + headLines(b)
		}
	}
	return n
}
