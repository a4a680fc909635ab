package library

import (
	"embed"
	"strings"
)

//go:generate go run warmby/cmd/inventlogs logs

//go:embed logs/*.csv
var logs embed.FS

// Log returns the invented stop-watch log of a shipped scenario. Ok is false
// when there is none of that name.
func Log(name string) (text []byte, ok bool) {
	text, err := logs.ReadFile("logs/" + strings.TrimSuffix(name, ending) + ".csv")
	return text, err == nil
}
