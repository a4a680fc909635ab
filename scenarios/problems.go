package scenarios

import (
	"fmt"
	"sort"
	"strings"
	"unicode/utf8"
)

// Problem is one mistake in a scenario file.
type Problem struct {
	Line, Col int    // both from 1; Col counts characters
	Path      string // the key that it is about, such as "tasks.pitch the tent.crew"; "" for the whole file
	Message   string // what is wrong, with the value that was found
	Hint      string // a likely cure or the form expected; may be empty
	Source    string // the line itself

	wrong string   // a name that nothing defines,
	known []string // and those it could have been: worked out only when shown
}

// Problems are all mistakes of a file, in order of position.
type Problems struct {
	File string
	List []Problem
}

// shownProblems is how many mistakes are printed; the rest is counted.
const shownProblems = 20

// Error returns the first mistakes, each with its line, a caret under the
// place and a hint, and says how many more there are.
func (p *Problems) Error() string {
	var b strings.Builder
	for i, one := range p.List {
		if i == shownProblems {
			fmt.Fprintf(&b, "and %d more", len(p.List)-shownProblems)
			break
		}
		one.write(&b, p.File)
	}
	return strings.TrimSuffix(b.String(), "\n")
}

func (p *Problem) write(b *strings.Builder, file string) {
	fmt.Fprintf(b, "%s:%d:%d: ", file, p.Line, p.Col)
	if p.Path != "" {
		b.WriteString(p.Path + ": ")
	}
	b.WriteString(p.Message + "\n")
	if line, caret := window(p.Source, p.Col); strings.TrimSpace(line) != "" {
		b.WriteString("  " + line + "\n  " + caret + "\n")
	}
	if p.Hint != "" {
		b.WriteString("  hint: " + p.Hint + "\n")
	}
}

// window returns as much of a line as fits a screen, around a column, and a
// caret for the next line.
func window(line string, col int) (shown, caret string) {
	const wide, before = 110, 60
	runes := []rune(strings.ReplaceAll(clip(line, 8*maxLine), "\t", " "))
	col = min(max(col-1, 0), len(runes))
	from := 0
	if len(runes) > wide && col > before {
		from = col - before
	}
	to := min(len(runes), from+wide)
	lead := ""
	if from > 0 {
		lead = "..."
	}
	tail := ""
	if to < len(runes) {
		tail = "..."
	}
	return lead + strings.TrimRight(string(runes[from:to]), " ") + tail,
		strings.Repeat(" ", len(lead)+col-from) + "^"
}

// generalHint stands where nothing better is known.
const generalHint = "the manual says what may stand here: warmby help scenario"

// finish sorts the problems by position and adds the nearest known names to
// those that are shown.
func (p *Problems) finish() {
	sort.SliceStable(p.List, func(i, j int) bool {
		a, b := p.List[i], p.List[j]
		return a.Line < b.Line || a.Line == b.Line && a.Col < b.Col
	})
	for i := range p.List {
		one := &p.List[i]
		if i < shownProblems && one.Hint == "" && len(one.known) > 0 {
			one.Hint = nameHint(one.wrong, one.known)
		}
		if one.Hint == "" {
			one.Hint = generalHint
		}
		one.Path, one.Message, one.Hint = Printable(one.Path), Printable(one.Message), Printable(one.Hint)
		one.known = nil
	}
}

// quote returns text in quotes for a message, shortened when it is long.
func quote(s string) string { return fmt.Sprintf("%q", clip(s, 60)) }

// clip shortens a text to at most n bytes, on a character's edge.
func clip(s string, n int) string {
	if len(s) <= n {
		return s
	}
	for n > 0 && !utf8.RuneStart(s[n]) {
		n--
	}
	return s[:n] + "..."
}
