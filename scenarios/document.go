package scenarios

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
)

// Bounds of a file, so that reading any file ends soon.
const (
	maxBytes  = 1 << 20
	maxMarks  = 50_000 // commas, opening brackets, anchors and aliases
	maxValues = 50_000
	maxDepth  = 16
	maxLine   = 4096 // of a text value, in characters
	// maxProblems is how many mistakes against YAML are counted before the
	// rest of a file is left unread.
	maxProblems = 1000
)

// document is a file as text and as a tree of values with positions.
type document struct {
	file  string
	lines []string
	root  *yaml.Node
	list  []Problem
	// refused holds what has been reported and is not read further: an alias,
	// or a key with all that belongs to it.
	refused map[*yaml.Node]bool
	hurt    []*yaml.Node // keys of the lookouts that a change made for people who are hurt
	gone    []string     // people whom a change made absent
	with    []string     // people whom a change lets stay with somebody hurt

	learnt func(*sim.Drill) *sim.Drill // what becomes of the drill; nil: nothing
	known  *known                      // what reading the file has found; nil until then, and when something is wrong
}

// hurtNames returns the people whom a change lets be hurt.
func (d *document) hurtNames() []string {
	var list []string
	for _, key := range d.hurt {
		list = append(list, strings.TrimPrefix(key.Value, hurtName))
	}
	return list
}

// unfitNames returns the people whom a change lets be hurt, or stay with somebody
// who is: others do not wait for what each of these does for himself.
func (d *document) unfitNames() []string { return append(d.hurtNames(), d.with...) }

// hurtName begins the name of the lookout of somebody who is hurt.
const hurtName = "hurt: "

// parse reads the text of a file into a tree. It refuses what YAML allows and
// a scenario does not: several documents, anchors, aliases, tags, merge keys,
// doubled keys and control characters. The tree is nil when there is none.
func parse(file string, src []byte) *document {
	d := &document{file: file, refused: map[*yaml.Node]bool{}}
	if len(src) > maxBytes {
		d.add(1, 1, fmt.Sprintf("the file is too large: %d bytes", len(src)), "a scenario has at most 1 MiB (1048576 bytes)")
		return d
	}
	text := strings.TrimPrefix(string(src), "\uFEFF")
	d.lines = splitLines(text)
	if !d.plainText(text) {
		return d
	}
	if n := marks(text); n > maxMarks {
		d.add(1, 1, fmt.Sprintf("too many values: %d commas, brackets, anchors and aliases", n), fmt.Sprintf("at most %d are read", maxMarks))
		return d
	}
	loader, err := yaml.NewLoader(bytes.NewReader([]byte(text)))
	if err != nil {
		d.yamlError(err)
		return d
	}
	var first, second yaml.Node
	if err := loader.Load(&first); err != nil || len(first.Content) == 0 {
		if text := strings.TrimSpace(withoutComments(d.lines)); text == "" {
			d.add(1, 1, "the file is empty", "a scenario begins with \"warmby: 1\"")
		} else {
			d.yamlError(err)
		}
		return d
	}
	root := first.Content[0]
	if err := loader.Load(&second); err == nil && len(second.Content) > 0 {
		at := second.Content[0]
		d.add(at.Line, at.Column, "a second document begins here", "a file holds one scenario: remove the line \"---\" above, or make two files")
		return d
	} else if err != nil && !strings.Contains(err.Error(), "no documents") && !errors.Is(err, errEnd) {
		d.yamlError(err)
		return d
	}
	if d.checkTree(root) {
		d.root = root
	}
	return d
}

func (d *document) add(line, col int, message, hint string) {
	d.list = append(d.list, Problem{Line: line, Col: col, Message: message, Hint: hint, Source: d.line(line)})
}

// line returns a line of the file as it may be shown: without characters that
// steer a terminal.
func (d *document) line(n int) string {
	if n < 1 || n > len(d.lines) {
		return ""
	}
	return strings.Map(visible, strings.ToValidUTF8(d.lines[n-1], "?"))
}

// splitLines splits at line feed, carriage return, or both.
func splitLines(text string) []string {
	return strings.Split(strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n"), "\n")
}

func withoutComments(lines []string) string {
	var b strings.Builder
	for _, l := range lines {
		if l = strings.TrimSpace(l); l != "---" && l != "..." && !strings.HasPrefix(l, "#") {
			b.WriteString(l)
		}
	}
	return b.String()
}

func marks(text string) int {
	n := 0
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case ',', '[', '{', '&', '*':
			n++
		}
	}
	return n
}

// plainText reports whether the text is UTF-8 without characters that steer a
// terminal or hide what is written.
func (d *document) plainText(text string) bool {
	line, col, after := 1, 1, rune(0)
	for i, r := range text {
		size := 1
		if r == utf8.RuneError {
			_, size = utf8.DecodeRuneInString(text[i:])
		}
		switch {
		case r == utf8.RuneError && size <= 1:
			d.add(line, col, fmt.Sprintf("not UTF-8 text: byte 0x%02x", text[i]), "save the file as UTF-8")
			return false
		case r == '\n' && after == '\r':
			after = r
			continue
		case r == '\n' || r == '\r':
			line, col, after = line+1, 0, r
		case steers(r) && r != '\t':
			d.add(line, col, fmt.Sprintf("the control character U+%04X is not allowed", r), "remove it")
			return false
		default:
			after = r
		}
		col++
	}
	return true
}

// steers reports whether a character has no shape of its own: control
// characters, line separators, marks that turn the direction of writing.
func steers(r rune) bool {
	return r < 0x20 || r >= 0x7f && r <= 0x9f || r == 0x2028 || r == 0x2029 || r == 0xFEFF ||
		r >= 0x202A && r <= 0x202E || r >= 0x2066 && r <= 0x2069
}

func visible(r rune) rune {
	if steers(r) && r != '\t' {
		return '?'
	}
	return r
}
