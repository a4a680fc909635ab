package report

import (
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// apartColumns head what [apartCells] tells.
var apartColumns = []Column{{Head: "on average"}, {Head: "9 of 10 by"}, {Head: "in time"}}

// apartCells says how much sooner the first of two things comes than the second:
// on average, in 9 of 10 runs, and how much more often it is in time.
func apartCells(mean stats.Mean, gap compare.Apart, many string) []Sentence {
	row := []Sentence{apartBy(mean), gapBy(gap.Quantiles[compare.NineOfTen]), Say("no target")}
	if s := gap.OnTime; s != nil {
		row[2] = Say("{}", MoreOften{s.Value, s.Low, s.High, many})
	}
	return row
}

// gapBy says how much sooner the first has come in a share of the runs.
func gapBy(g stats.QuantileGap) Sentence {
	switch {
	case !g.OK():
		return Say("not always reached")
	case g.Low == 0 && g.High == 0 && !g.LowOpen && !g.HighOpen:
		return Say("the same")
	}
	return Say("{}", SoonerIn{g.Turned()})
}

// BatchApart is how far one order is from another, or from itself at the first
// point, at the milestone that a batch is about.
type BatchApart struct {
	Point  int    // from 1 on; 0 where there is only one
	Order  string // which is sooner or later
	Than   string // than this one; "" for the first point
	Values []string
	Diff   stats.Difference
	Apart  compare.Apart
}

// apartTable has a row for each that was held against another.
func (b Batched) apartTable() []Block {
	if len(b.Apart) == 0 {
		return nil
	}
	says := Say("How much sooner {} comes, run by run under the same luck; intervals in brackets hold one by one.", b.shown().Name)
	t := Table{Caption: "How far apart, at " + b.shown().Name, Columns: []Column{{}}}
	if b.Points > 1 {
		says = Say("How much sooner {} comes than at point 1, run by run under the same luck; intervals in brackets hold one by one.", b.shown().Name)
		t.Columns = append(t.Columns, Column{Head: "point", Right: true})
		for _, key := range b.Keys {
			t.Columns = append(t.Columns, Column{Head: key})
		}
	}
	t.Columns = append(t.Columns, apartColumns...)
	for _, a := range b.Apart {
		name := Say("{}", nameOf(a.Order))
		if a.Than != "" {
			name = Say("{} than {}", name, nameOf(a.Than))
		}
		row := []Sentence{name}
		if b.Points > 1 {
			row = append(row, Cells(a.Point)...)
			for k := range b.Keys {
				row = append(row, Say("{}", b.value(BatchRow{Values: a.Values}, k)))
			}
		}
		t.Rows = append(t.Rows, append(row, apartCells(a.Diff.Mean.Negated(), a.Apart, "runs")...))
	}
	return []Block{Text{Says: says}, t}
}

func nameOf(order string) string {
	if order == "" {
		return "in file order"
	}
	return quote(order)
}
