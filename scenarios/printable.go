package scenarios

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// hidden reports whether a character acts on what is around it instead of being
// seen, newlines and tabs apart.
func hidden(r rune) bool { return steers(r) && r != '\n' && r != '\t' }

// Fault says what keeps a text from being a name, or part of a title: that it is
// not UTF-8, or holds characters that cannot be seen and change what is printed
// around them. It returns "" when nothing is wrong.
func Fault(text string) string {
	if !utf8.ValidString(text) {
		return "is not UTF-8"
	}
	if i := strings.IndexFunc(text, hidden); i >= 0 {
		r, _ := utf8.DecodeRuneInString(text[i:])
		return fmt.Sprintf("holds the character %U, which cannot be seen and changes what is printed around it", r)
	}
	return ""
}

// Printable returns a text as it may be shown on a terminal: what cannot be seen
// and is no newline or tab is written as an escape, such as \u202e.
func Printable(text string) string {
	if Fault(text) == "" {
		return text
	}
	var b strings.Builder
	for len(text) > 0 {
		r, size := utf8.DecodeRuneInString(text)
		switch {
		case r == utf8.RuneError && size == 1:
			fmt.Fprintf(&b, `\x%02x`, text[0])
		case hidden(r):
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.WriteString(text[:size])
		}
		text = text[size:]
	}
	return b.String()
}
