// Package report is what a command tells people, before anybody knows how wide
// a terminal is.
//
// A [Report] is a title, at most ten lines that answer the question, sections
// for whoever wants to know more, and the cautions. It is made of values: a
// moment, a length or a share stands in a sentence or a cell as a [Figure], with
// its interval, and is written by figures.go in one of two precisions. The
// printers, [warmby/cmd/warmby/internal/terminal] and
// [warmby/cmd/warmby/internal/page], lay the same report out and write no figure
// of their own.
//
// A file for each answer makes its report from what was worked out: rehearsal.go
// that of rehearse. Nothing here plays a drill, knows a width or opens a file.
package report

import (
	"fmt"
	"strings"

	"warmby/plots"
)

// Report is one answer as it is told.
type Report struct {
	Title string
	// Subtitle stands beside the title: the order, when, with what luck.
	Subtitle Sentence
	// Lead is the answer, ten lines with the title at most. It is always
	// written for people: no seconds, no intervals.
	Lead []Block
	// Warnings say what must be known before anything here is used.
	Warnings []Sentence
	Sections []Section
	Cautions []Caution // the most urgent first, at most [MostCautions]
	// CautionsBy is the command that prints the cautions in full.
	CautionsBy string
	Repeat     string // the command that gives this answer again
	All        string // the command that tells everything; the same as Repeat with --all
}

// MostCautions is how many cautions a report has.
const MostCautions = 5

// Section is some blocks under a heading.
type Section struct {
	Heading string
	Blocks  []Block
	More    bool // told only when everything is
}

// Caution is one line that must not be missed.
type Caution struct{ Topic, Line string }

// Block is a part of a section: [Text], [Table], [Strips], [Picture] or [Code].
type Block interface{ block() }

// Text is a paragraph, or an item of a list.
type Text struct {
	Head string // who or what an item is about; "" for none
	Says Sentence
	Item bool // of a list: no blank line before it
}

// Table is rows under columns. The first column names the row.
type Table struct {
	Columns []Column
	Rows    [][]Sentence // may be shorter than Columns
	Caption string       // what the table shows, for whoever does not see it
	// Spare lists columns, by index, that may be left out where lines are too
	// narrow for all, the last of the list first: they stand elsewhere as well.
	Spare []int
}

// Column is the heading of a column.
type Column struct {
	Head  string
	Right bool // numbers stand at the right edge
}

// Strips shows what each of some people is about, along one ruler.
type Strips struct {
	Caption string
	End     Length // where the ruler ends; it begins at 0
	Rows    []Strip
	Legend  []Sentence
	Totals  []Column // of what stands beside each strip
}

// Strip is one row.
type Strip struct {
	Name   string
	Spans  []Span
	Totals []Sentence
}

// Span is a stretch of a strip. Mark is one character; spans without one are
// left blank.
type Span struct {
	From, To Length
	Mark     string
	What     string // in words
	Kind     Kind
}

// Kind is what somebody is about in a span.
type Kind int

// What a span is about.
const (
	Work Kind = iota
	Walk
	Lookout
	Wait
)

// Picture is a drawing, and the table that says the same.
type Picture struct {
	Drawing func() *plots.Picture // called where it is shown: drawing takes longer than all the rest
	Caption string
	// Table has all that the picture shows; where the picture cannot be shown
	// the table stands alone.
	Table Table
}

// Code is text to be copied as it is: YAML, a command.
type Code struct{ Text string }

func (Text) block()    {}
func (Table) block()   {}
func (Strips) block()  {}
func (Picture) block() {}
func (Code) block()    {}

// Part is a piece of a sentence: [Words], or a [Figure].
type Part interface{ Write(Precision) string }

// Words are words of a sentence.
type Words string

// Write returns the words.
func (w Words) Write(Precision) string { return string(w) }

// Sentence is words and figures in sequence.
type Sentence []Part

// Say makes a sentence: each {} of the pattern stands for one of the parts,
// which are strings, whole numbers, figures and sentences. A wrong number or
// kind of parts is misuse and panics.
func Say(pattern string, parts ...any) Sentence {
	words := strings.Split(pattern, "{}")
	if len(words)-1 != len(parts) {
		panic(fmt.Sprintf("report: %q has %d places for %d parts", pattern, len(words)-1, len(parts)))
	}
	var s Sentence
	for i, w := range words {
		if w != "" {
			s = append(s, Words(w))
		}
		if i < len(parts) {
			s = append(s, asSentence(parts[i])...)
		}
	}
	return s
}

func asSentence(part any) Sentence {
	switch p := part.(type) {
	case Sentence:
		return p
	case string:
		return Sentence{Words(p)}
	case int:
		return Sentence{Number(p)}
	case Part:
		return Sentence{p}
	}
	panic(fmt.Sprintf("report: a sentence cannot hold a %T", part))
}

// Cells makes a row of a table of strings, whole numbers, figures and sentences.
func Cells(parts ...any) []Sentence {
	row := make([]Sentence, len(parts))
	for i, p := range parts {
		row[i] = asSentence(p)
	}
	return row
}

// Briefly is a sentence that is always written for people, because its figures
// stand elsewhere in full.
func Briefly(s Sentence) Sentence { return Sentence{briefly(s)} }

type briefly Sentence

func (b briefly) Write(Precision) string { return Sentence(b).Write(People) }

// Join puts sentences one after the other, with words between them.
func Join(list []Sentence, between string) Sentence {
	var s Sentence
	for i, one := range list {
		if i > 0 {
			s = append(s, Words(between))
		}
		s = append(s, one...)
	}
	return s
}

// Listed joins sentences as people say them: "Aila, Berend and Caro".
func Listed(list []Sentence) Sentence { return listedWith(" and ", list) }

// Either joins sentences of which one will do: "Aila, Berend or Caro".
func Either(list []Sentence) Sentence { return listedWith(" or ", list) }

func listedWith(word Words, list []Sentence) Sentence {
	if len(list) < 2 {
		return Join(list, "")
	}
	last := len(list) - 1
	return append(append(Join(list[:last], ", "), word), list[last]...)
}

// Write returns the sentence as text.
func (s Sentence) Write(p Precision) string {
	var b strings.Builder
	for _, part := range s {
		b.WriteString(part.Write(p))
	}
	return b.String()
}

// IsEmpty reports whether a sentence says nothing.
func (s Sentence) IsEmpty() bool { return s.Write(People) == "" }
