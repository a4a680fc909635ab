package scenarios

import (
	_ "embed"
	"strings"
)

//go:embed doc.go
var docSource string

// Manual returns the manual of the scenario format as plain text: the
// package's documentation from its first heading on, without comment markers.
func Manual() string {
	var b strings.Builder
	b.WriteString("The scenario file: the manual\n=============================\n\n")
	begun := false
	for _, line := range strings.Split(docSource, "\n") {
		text, ok := strings.CutPrefix(line, "//")
		if !ok {
			break
		}
		text = strings.TrimPrefix(text, " ")
		heading, isHeading := strings.CutPrefix(text, "# ")
		begun = begun || isHeading
		switch {
		case !begun:
		case isHeading:
			b.WriteString(heading + "\n" + strings.Repeat("-", len(heading)) + "\n")
		default:
			b.WriteString(text + "\n")
		}
	}
	return strings.ReplaceAll(b.String(), "\t", "    ")
}
