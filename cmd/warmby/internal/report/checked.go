package report

import (
	"fmt"
	"strings"

	"warmby/sim/cold"
)

// Checked is what was found in scenario files, for its report.
type Checked struct {
	Files    []CheckedFile
	Calls    []cold.Caution // that a single good file calls for
	Repeat   string         // commands, as in [Comparison]
	Cautions string
}

// CheckedFile is what was found in one file.
type CheckedFile struct {
	Name, Title            string
	Good                   bool
	Why                    string // why it is not good, in a few words
	Tasks, Orders, WhatIfs int
	Findings               []Finding
}

// Finding is one thing that there is to say about a scenario.
type Finding struct {
	Kind         string // one of the kinds below
	Says         Sentence
	Hint         string
	Line, Column int // of a mistake; both from 1
}

// The kinds of finding.
const (
	UnreadFile = "unread"  // the file cannot be read at all
	BrokenFile = "mistake" // it does not hold what it should
	NeverPlays = "never"   // a task can never start or end
	WorthALook = "warning"
	ToKnow     = "note"
)

// Of returns the findings of a kind.
func (f CheckedFile) Of(kind string) (list []Finding) {
	for _, one := range f.Findings {
		if one.Kind == kind {
			list = append(list, one)
		}
	}
	return list
}

// Report tells whether files are good, and what is worth a look.
func (c Checked) Report() *Report {
	out := &Report{Title: c.title(), Subtitle: c.subtitle(), Repeat: c.Repeat, All: c.Repeat + " --all"}
	out.Lead = c.lead(most - 1 - lines(Say("{}. {}", out.Title, out.Subtitle)))
	add := func(more bool, heading string, blocks []Block) {
		if len(blocks) > 0 {
			out.Sections = append(out.Sections, Section{heading, blocks, more})
		}
	}
	for _, f := range c.Files {
		in := ""
		if len(c.Files) > 1 {
			in = " in " + f.Name
		}
		add(false, "Worth a look"+in, items(f.Of(WorthALook)))
		add(false, "Never"+in, items(f.Of(NeverPlays)))
		add(false, "Mistakes"+in, items(f.Of(BrokenFile)))
		add(false, "To know"+in, items(f.Of(ToKnow)))
	}
	if c.Calls != nil {
		out.WithCautions(c.Calls, c.Cautions)
	}
	return out
}

func (c Checked) title() string {
	if len(c.Files) == 1 {
		f := c.Files[0]
		if !f.Good {
			return f.Name + ": not good"
		}
		return f.Name + ": good"
	}
	good := 0
	for _, f := range c.Files {
		if f.Good {
			good++
		}
	}
	return fmt.Sprintf("%d of %d files are good", good, len(c.Files))
}

func (c Checked) subtitle() Sentence {
	if len(c.Files) != 1 {
		return nil
	}
	return sentence(c.Files[0].summary())
}

// summary says what a file holds and how much there is to look at.
func (f CheckedFile) summary() Sentence {
	if !f.Good {
		return Say("{}", f.Why)
	}
	parts := []Sentence{Say("{}", Count{f.Tasks, "task"}), Say("{}", Count{f.Orders, "order"})}
	if f.WhatIfs > 0 {
		parts = append(parts, Say("{}", Count{f.WhatIfs, "what-if"}))
	}
	if n := len(f.Of(WorthALook)); n > 0 {
		return Say("{}; {}", Join(parts, ", "), Count{n, "warning"})
	}
	return Say("{}; no warnings", Join(parts, ", "))
}

// lead has the first warnings of one file, or a line for each of several.
func (c Checked) lead(room int) (list []Block) {
	var says []Sentence
	if len(c.Files) == 1 {
		for _, f := range c.Files[0].Of(WorthALook) {
			says = append(says, Briefly(sentence(f.Says)))
		}
	} else {
		for _, f := range c.Files {
			good := "good"
			if !f.Good {
				good = "not good"
			}
			says = append(says, Say("{}: {}; {}.", f.Name, good, f.summary()))
		}
	}
	for i, s := range says {
		left := 0
		if i+1 < len(says) {
			left = 1
		}
		if lines(s) > room-left {
			return append(list, Text{Says: Say("And {} more below.", len(says)-i)})
		}
		room -= lines(s)
		list = append(list, Text{Says: s})
	}
	return list
}

// items lists findings, each with its cure.
func items(found []Finding) (list []Block) {
	for _, f := range found {
		says := sentence(f.Says)
		if f.Line > 0 { // begins with a key of the file
			says = Say("Line {}: {}.", f.Line, f.Says)
		}
		if f.Hint != "" {
			hint := Say("{}", f.Hint)
			if !strings.HasSuffix(f.Hint, "?") {
				hint = sentenceEnd(hint)
			}
			says = Say("{} Hint: {}", says, hint)
		}
		list = append(list, Text{Says: says, Item: true})
	}
	return list
}
