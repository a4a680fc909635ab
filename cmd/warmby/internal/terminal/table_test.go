package terminal

import (
	"testing"

	"warmby/cmd/warmby/internal/report"
)

// By hand: the columns take 4 + 2 + 4 + 2 + 9 = 21 characters. Where that is too
// wide, headings break first; then the last column of words, down to its least
// width; numbers go on in a table below, with the names again.
func TestTablesKeepTheirWidth(t *testing.T) {
	numbers := report.Table{Columns: []report.Column{{}, {Head: "mean", Right: true}, {Head: "least one", Right: true}},
		Rows: [][]report.Sentence{report.Cells("left", 10, 9), report.Cells("up", 110, 90)}}
	words := report.Table{Columns: []report.Column{{}, {Head: "who"}},
		Rows: [][]report.Sentence{report.Cells("dig", "Aila, Berend, Caro, Dario and Edda")}}
	for _, c := range []struct {
		table report.Table
		width int
		want  string
	}{
		{numbers, 23, "        mean  least one\n  left    10          9\n  up     110         90\n"},
		{numbers, 22, "              least\n        mean    one\n  left    10      9\n  up     110     90\n"},
		{numbers, 16, "        mean\n  left    10\n  up     110\n\n        least\n          one\n  left      9\n  up       90\n"},
		{words, 41, "       who\n  dig  Aila, Berend, Caro, Dario and Edda\n"},
		{words, 40, "       who\n  dig  Aila, Berend, Caro, Dario and\n       Edda\n"},
	} {
		p := printer{Options: Options{Width: c.width}}
		p.table(c.table, "  ")
		if got := p.text.String(); got != c.want {
			t.Errorf("width %d:\n%s\nwant\n%s", c.width, got, c.want)
		}
	}
}
