package report

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"warmby/sim/cold"
)

// WithCautions gives a report the most urgent of some cautions, with the
// command that prints all of them, and closes its lead with a line that names
// them; what the lead has no room for then is dropped.
func (r *Report) WithCautions(all []cold.Caution, by string) {
	r.CautionsBy = by
	var topics []string
	for _, c := range cold.MostUrgent(all, MostCautions) {
		r.Cautions = append(r.Cautions, Caution{capital(c.Topic), c.Line()})
		topics = append(topics, c.Topic)
	}
	if len(topics) > 0 {
		r.Lead = append(r.Lead, Text{Says: cautionsLine(topics, by)})
	}
	r.fit()
}

// cautionsLine names the most urgent topics, two at least, and the command; where
// that takes more than a line, because the command has tonight's facts in it, it
// says where to look.
func cautionsLine(topics []string, by string) Sentence {
	topics = topics[:min(3, len(topics))]
	for n := len(topics); n >= min(2, len(topics)); n-- {
		if says := Say("{}: {}", capital(strings.Join(topics[:n], ", ")), by); lines(says) == 1 {
			return says
		}
	}
	return Say("{}: see the cautions below", capital(strings.Join(topics, ", ")))
}

// OfCautions is the report of all cautions in full.
func OfCautions(title string, all []cold.Caution, repeat string) *Report {
	r := &Report{Title: title, Subtitle: Say("Cautions in full."), Repeat: repeat, All: repeat}
	s := Section{Heading: "Cautions"}
	for _, c := range all {
		head := capital(c.Topic)
		if c.Because != "" {
			head += " (" + c.Because + ")"
		}
		text := c.Text
		if c.DeferTo != "" {
			text += " Defer to " + c.DeferTo + "."
		}
		s.Blocks = append(s.Blocks, Text{Head: head, Says: Say("{}", text), Item: true})
	}
	r.Sections = []Section{s}
	return r
}

// capital makes a text begin with a capital.
func capital(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	if size == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[size:]
}

// sentence makes a sentence begin with a capital and end in a full stop.
func sentence(s Sentence) Sentence {
	if len(s) == 0 {
		return s
	}
	out := append(Sentence(nil), s...)
	if w, ok := out[0].(Words); ok {
		out[0] = Words(capital(string(w)))
	}
	return append(out, Words("."))
}

// Named joins names as people say them: "Aila, Berend and Caro".
func Named(names []string) string {
	switch len(names) {
	case 0:
		return "nobody"
	case 1:
		return names[0]
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}
