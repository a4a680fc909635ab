package main

import (
	"strings"
	"testing"
	"unicode/utf8"

	"warmby/scenarios/library"
)

// Whatever a shipped scenario calls its orders, tasks and what-ifs, texts keep
// within their width. The command that repeats it stands on one line, to copy.
func TestTextsOfShippedScenariosKeepTheirWidth(t *testing.T) {
	for _, name := range library.Names() {
		for _, line := range [][]string{
			{"improve", name, "--what-if", "all", "--evaluations", "300", "--all", "--runs", "20"},
			{"improve", name, "--what-if", "all", "--evaluations", "300", "--all", "--runs", "0"},
			{"improve", name, "--aim", "finish", "--aim", "hot drink p90", "--aim", "hot drink", "--evaluations", "300", "--all", "--runs", "20"},
			{"split", name, "--what-if", "all", "--evaluations", "400", "--runs", "10"},
			{"split", name, "--what-if", "all", "--evaluations", "400", "--runs", "0"},
			{"halt", name, "--what-if", "all", "--order", "all", "--step", "2h", "--runs", "10"},
			{"halt", name, "--what-if", "all", "--order", "all", "--step", "2h", "--runs", "0"},
			{"compare", name, "--what-if", "all", "--runs", "20"},
			{"rehearse", name},
			{"rehearse", name, "--seed", "1", "--run", "7"},
		} {
			for _, text := range strings.Split(answer(t, append([]string{"warmby"}, line...)...), "\n") {
				if n := utf8.RuneCountInString(text); n > paper && !strings.HasPrefix(text, "Played by: ") && !strings.HasPrefix(text, "Everything, to the second: ") {
					t.Errorf("warmby %s: a line of %d characters: %q", strings.Join(line, " "), n, text)
				}
			}
		}
	}
}
