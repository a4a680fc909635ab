package results

import (
	"unicode"
	"unicode/utf8"

	"warmby/cmd/warmby/internal/report"
)

// grouped writes a number with commas between thousands.
func grouped(n int64) string { return report.Grouped(n).Write(report.Full) }

// capital makes a text begin with a capital.
func capital(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[size:]
}
