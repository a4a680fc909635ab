package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// Batched is what came of a batch, for its report.
type Batched struct {
	Drill    *sim.Drill // the first, for what all have in common
	Points   int
	Orders   []string
	Runs     string // of each order at each point: "10,000 runs"
	Seed     uint64
	Keys     []string   // what is varied
	Rows     []BatchRow // orders at points, those that there is room for
	Best     []BatchRow // those of all points that come first, see [BetterRow]
	Shown    int        // the milestone that a sweep is about
	Apart    []BatchApart
	Over     []BatchOver // every two orders, over all points
	Warns    []string
	Folder   string
	Files    []BatchFile
	All      []cold.Caution // that all points call for
	Cautions string         // the command that prints them in full
	Repeat   string         // the command that makes the batch
	Again    string         // the one that tells everything of it
}

// BatchRow is one order at one point.
type BatchRow struct {
	Point  int      // from 1 on
	Values []string // by key; "" is as in the file
	Drill  *sim.Drill
	Odds   []compare.Odds // by milestone
	Well   compare.Well
}

// BatchFile is a file that was written.
type BatchFile struct {
	Name  string
	Rows  int64 // 0 for none
	Bytes int64 // 0 where it is not said
}

// Report tells what came of a batch.
func (b Batched) Report() *Report {
	out := &Report{Title: ShortTitle(b.Drill.Title), Subtitle: b.subtitle(), Repeat: b.Repeat, All: b.Again}
	for _, w := range b.Warns {
		out.Warnings = append(out.Warnings, Say("Warning: {}.", w))
	}
	const titleHeadingsFilesAndCautions = 7
	rows := max(2, most-titleHeadingsFilesAndCautions+1)
	out.Lead = []Block{b.leadTable(rows), Text{Says: b.written()}}
	if b.Points == 1 {
		out.Sections = append(out.Sections, Section{Heading: "When: usually / 9 of 10 by / in time", Blocks: []Block{b.whole()}})
	} else {
		out.Sections = append(out.Sections, Section{Heading: capital(b.shown().Name) + ": usually, 9 of 10 by, in time", Blocks: []Block{b.sweep(b.Shown, mostSwept)}})
	}
	out.Sections = append(out.Sections, Section{Heading: "Drill", Blocks: []Block{Text{Says: b.facts()}}, More: true})
	for m := range b.Drill.Milestones {
		out.Sections = append(out.Sections, Section{Heading: "When, in full: " + b.Drill.Milestones[m].Name, Blocks: []Block{b.sweep(m, len(b.Rows))}, More: true})
	}
	if over := b.overTable(); over != nil {
		out.Sections = append(out.Sections, Section{Heading: "Over all points: " + b.shown().Name, Blocks: over, More: true})
	}
	if apart := b.apartTable(); apart != nil {
		out.Sections = append(out.Sections, Section{Heading: "How far apart: " + b.shown().Name, Blocks: apart, More: true})
	}
	out.Sections = append(out.Sections,
		Section{Heading: "Written to " + b.Folder, Blocks: []Block{b.files()}, More: true},
		Section{Heading: "How to read it", Blocks: []Block{Text{Says: b.method()}}, More: true})
	out.WithCautions(b.All, b.Cautions)
	return out
}

// mostSwept is how many orders at points stand on the first screen.
const mostSwept = 20

func (b Batched) shown() sim.Milestone { return b.Drill.Milestones[b.Shown] }

func (b Batched) subtitle() Sentence {
	parts := []Sentence{Say("{} of each of {}", b.Runs, Count{len(b.Orders), "order"})}
	if b.Points > 1 {
		parts = append(parts, Say("at {} points", Grouped(b.Points)))
	}
	return sentence(Say("{}, seed {}", Join(parts, " "), fmt.Sprint(b.Seed)))
}

// MostLeading is how many orders at points the lead has room for.
const MostLeading = most

// BetterRow tells which of two orders at points comes first: that in which all is
// well more often, of equals that which reaches a milestone sooner in 9 of 10 runs.
func BetterRow(shown int, x, y *BatchRow) int {
	soonest := func(r *BatchRow) sim.Time { return r.Odds[shown].Quantiles[compare.NineOfTen].Value }
	return cmp.Or(cmp.Compare(allWell(&y.Well), allWell(&x.Well)), cmp.Compare(soonest(x), soonest(y)))
}

// leadTable has a row for each order: of several points what is varied stands
// beside it, and only the milestone that the sweep is about.
func (b Batched) leadTable(rows int) Table {
	t := Table{Caption: "By when each order reaches what in 9 of 10 runs, and how often all is well"}
	var milestones []int
	aimless := b.shown().By == sim.Never // no milestone has a target
	for m, one := range b.Drill.Milestones {
		if b.Points == 1 && (one.By != sim.Never || aimless) || m == b.Shown {
			milestones = append(milestones, m)
		}
	}
	lead := b.Keys
	if b.Points == 1 {
		lead = nil
	}
	t.Columns = append(t.Columns, Column{Head: "9 of 10 by"})
	for _, key := range lead {
		t.Columns = append(t.Columns, Column{Head: key})
	}
	for k, m := range milestones {
		t.Columns = append(t.Columns, Column{Head: b.Drill.Milestones[m].Name})
		if k > 0 {
			t.Spare = append(t.Spare, 1+len(lead)+k)
		}
	}
	shares := b.wellColumns()
	for _, s := range shares {
		t.Columns = append(t.Columns, Column{Head: s.head})
	}
	for _, r := range b.Best[:min(rows, len(b.Best))] {
		row := Cells(b.order(r))
		for k := range lead {
			row = append(row, Say("{}", b.value(r, k)))
		}
		for _, m := range milestones {
			row = append(row, Say("{}", By{r.Odds[m].Quantiles[compare.NineOfTen], SiteOf(r.Drill)}))
		}
		for _, s := range shares {
			row = append(row, Say("{}", Share{Share: *s.of(&r.Well)}))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// wellColumns lists what there is to tell of how well all goes.
func (b Batched) wellColumns() (list []wellColumn) {
	all := []wellColumn{
		{"all in time", func(w *compare.Well) *stats.Share { return w.Targets }},
		{"nobody too cold", func(w *compare.Well) *stats.Share { return w.NobodyCold }},
	}
	for _, col := range all {
		missing := func(r BatchRow) bool { return col.of(&r.Well) == nil }
		if !slices.ContainsFunc(b.Rows, missing) && !slices.ContainsFunc(b.Best, missing) {
			list = append(list, col)
		}
	}
	if len(list) == 2 {
		list = append(list, wellColumn{"all well", func(w *compare.Well) *stats.Share { return w.All }})
	}
	return list
}

func (b Batched) order(r BatchRow) string {
	return nameOf(r.Drill.Order)
}

func (b Batched) value(r BatchRow, key int) string {
	return cmp.Or(r.Values[key], "as in the file")
}

// written says where everything is, and what the lead leaves out.
func (b Batched) written() Sentence {
	s := Say("Written to {}: {}; \"warmby help results\" says how to read them.", b.Folder, Count{len(b.Files), "file"})
	if b.Points > 1 {
		s = Say("Best first, of {} at {} points. {}", Count{len(b.Orders), "order"}, Grouped(b.Points), s)
	}
	return s
}

// whole tells of the only point when each order reaches each milestone.
func (b Batched) whole() Table {
	t := Table{Caption: "When each order reaches each milestone: usually, in 9 of 10 runs by, and how often in time", Columns: []Column{{}}}
	for _, r := range b.Rows {
		t.Columns = append(t.Columns, Column{Head: cmp.Or(r.Drill.Order, "in file order")})
	}
	for m, one := range b.Drill.Milestones {
		name := Say("{}", one.Name)
		if one.By != sim.Never {
			name = Say("{} {}", one.Name, target(b.Drill, m))
		}
		row := []Sentence{Briefly(name)}
		for _, r := range b.Rows {
			o := &r.Odds[m]
			s := Say("{} / {}", By{o.Quantiles[0], SiteOf(r.Drill)}, By{o.Quantiles[compare.NineOfTen], SiteOf(r.Drill)})
			if o.OnTime != nil {
				s = Say("{} / {}", s, Share{Share: *o.OnTime})
			}
			row = append(row, Briefly(s))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// sweep tells of a milestone when it is reached, at each point under each order.
func (b Batched) sweep(m, rows int) Table {
	t := Table{Caption: "When " + b.Drill.Milestones[m].Name + " is reached", Columns: []Column{{Head: "order"}}}
	if b.Points > 1 {
		t.Columns = append(t.Columns, Column{Head: "point", Right: true})
	}
	for _, key := range b.Keys {
		t.Columns = append(t.Columns, Column{Head: key})
	}
	target, never := false, false
	for _, r := range b.Rows {
		target, never = target || r.Odds[m].OnTime != nil, never || r.Odds[m].Never.Count > 0
	}
	for _, head := range []string{"mean since arrival", "usually", "9 of 10 by"} {
		t.Columns = append(t.Columns, Column{Head: head})
	}
	if target {
		t.Columns = append(t.Columns, Column{Head: "in time"})
	}
	if never {
		t.Columns = append(t.Columns, Column{Head: "never"})
	}
	for _, r := range b.Rows[:min(rows, len(b.Rows))] {
		t.Rows = append(t.Rows, b.sweptRow(r, m, target, never))
	}
	return t
}

func (b Batched) sweptRow(r BatchRow, m int, target, never bool) []Sentence {
	o := &r.Odds[m]
	row := Cells(b.order(r))
	if b.Points > 1 {
		row = append(row, Cells(r.Point)...)
	}
	for k := range b.Keys {
		row = append(row, Say("{}", b.value(r, k)))
	}
	mean := Say("none: not always reached")
	if o.Mean.OK() {
		mean = Say("{}", Mean{o.Mean})
	}
	row = append(row, mean, Say("{}", By{o.Quantiles[0], SiteOf(r.Drill)}), Say("{}", By{o.Quantiles[compare.NineOfTen], SiteOf(r.Drill)}))
	switch {
	case o.OnTime != nil:
		row = append(row, Say("{}", Share{Share: *o.OnTime}))
	case target:
		row = append(row, Say("no target"))
	}
	if never {
		row = append(row, Say("{}", Share{Share: o.Never}))
	}
	return row
}

// files lists what was written.
func (b Batched) files() Table {
	t := Table{Caption: "The files of the batch", Columns: []Column{{Head: "file"}, {Head: "rows", Right: true}, {Head: "bytes", Right: true}}}
	for _, f := range b.Files {
		row := Cells(f.Name, "", "")
		if f.Rows > 0 {
			row[1] = Say("{}", Grouped(f.Rows))
		}
		if f.Bytes > 0 {
			row[2] = Say("{}", Grouped(f.Bytes))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// facts says what was played.
func (b Batched) facts() Sentence {
	s := Say("{}; {} of each of {}, seed {}", b.Drill.Title, b.Runs, Count{len(b.Orders), "order"}, fmt.Sprint(b.Seed))
	if len(b.Keys) > 0 {
		s = Say("{}; at {}, at which {}", s, Count{b.Points, "point"}, strings.Join(b.Keys, ", ")+map[bool]string{true: " is varied", false: " are varied"}[len(b.Keys) == 1])
	}
	if n := b.Points*len(b.Orders) - len(b.Rows); n > 0 {
		s = Say("{}; the report has the first {} of {} orders at points, the tables all", s, Grouped(len(b.Rows)), Grouped(b.Points*len(b.Orders)))
	}
	return sentence(s)
}

// method says how the figures are made.
func (b Batched) method() Sentence {
	return Say("In brackets are 95 % intervals: they tell how far luck may have moved a figure, not how true the lengths in the file are. \"Usually\" is the median. All of it, and every two orders against each other, stands in summary.json; \"warmby help odds\" tells how figures are made.")
}
