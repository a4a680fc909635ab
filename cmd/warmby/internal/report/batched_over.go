package report

import (
	"warmby/sim/stats"
)

// BatchOver is two orders held against each other over all points of a batch, at
// the milestone that it is about.
type BatchOver struct {
	A, B string
	// ASooner and BSooner are at how many points the one is ahead of the other beyond
	// what luck explains, Level at how many there is no telling, and Never at how many
	// there is no mean of one.
	ASooner, BSooner, Level, Never int
	Least, Most                    float64 // by how much A is later on average, in milliseconds, of the points with a mean
}

// Add takes in a point: d is of a - b.
func (o *BatchOver) Add(d stats.Difference) {
	if !d.Mean.OK() {
		o.Never++
		return
	}
	if o.ASooner+o.BSooner+o.Level == 0 {
		o.Least, o.Most = d.Mean.Value, d.Mean.Value
	}
	o.Least, o.Most = min(o.Least, d.Mean.Value), max(o.Most, d.Mean.Value)
	switch d.Ahead() {
	case -1:
		o.ASooner++
	case 1:
		o.BSooner++
	default:
		o.Level++
	}
}

// overTable has a row for every two orders.
func (b Batched) overTable() []Block {
	if b.Points < 2 || len(b.Over) == 0 {
		return nil
	}
	name := b.shown().Name
	t := Table{Caption: "At how many points which order is ahead at " + name,
		Columns: []Column{{}, {Head: "sooner", Right: true}, {Head: "later", Right: true}, {Head: "no telling", Right: true}, {Head: "no mean", Right: true}, {Head: "on average"}}}
	for _, o := range b.Over {
		apart := Say("?")
		if o.ASooner+o.BSooner+o.Level > 0 {
			apart = Say("{} to {}", Sooner(-millis(o.Most)), Sooner(-millis(o.Least)))
		}
		t.Rows = append(t.Rows, Cells(Say("{} than {}", nameOf(o.A), nameOf(o.B)), Grouped(o.ASooner), Grouped(o.BSooner), Grouped(o.Level), Grouped(o.Never), apart))
	}
	return []Block{t, Text{Says: Say("Run by run under the same luck, at each of {}: sooner and later are points at which the 95 % interval of the mean difference does not hold 0, and nothing that so few runs see too seldom can turn it round; "+
		"intervals hold one by one, so that of points at which orders are equal one in twenty would count. On average: from where it is sooner least to where it is sooner most.", Count{b.Points, "point"})}}
}
