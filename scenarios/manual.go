package scenarios

import (
	_ "embed"
	"strings"
)

//go:embed doc.go
var docSource string

// Manual returns the manual of the scenario format as plain text: the
// package's documentation without comment markers.
func Manual() string {
	var b strings.Builder
	for _, line := range strings.Split(docSource, "\n") {
		if !strings.HasPrefix(line, "//") {
			break
		}
		line = strings.TrimPrefix(strings.TrimPrefix(line, "//"), " ")
		b.WriteString(strings.TrimPrefix(line, "# ") + "\n")
	}
	return strings.ReplaceAll(b.String(), "\t", "    ")
}
