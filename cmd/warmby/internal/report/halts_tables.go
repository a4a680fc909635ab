package report

import (
	"fmt"
	"slices"

	"warmby/sim"
	"warmby/sim/halt"
	"warmby/sim/stats"
)

// grid has the cases down and the orders across: the sure moment and the
// toss-up.
func (h Halts) grid() Block {
	t := Table{Caption: "By when to " + h.act() + " in each case under each order: sure, and the toss-up", Columns: []Column{{}}}
	for _, o := range h.Cases[0].Orders {
		t.Columns = append(t.Columns, Column{Head: orderName(o.Order)})
	}
	for _, c := range h.Cases {
		row := Cells(c.Name)
		for _, o := range c.Orders {
			row = append(row, Briefly(h.both(h.sure(o.Answer), o.Latest())))
		}
		t.Rows = append(t.Rows, row)
	}
	if len(h.Cases) > 1 {
		row := Cells("in all of them")
		for k := range h.Cases[0].Orders {
			row = append(row, Briefly(h.both(h.sureOfAll(k), h.latestOfAll(k))))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func (h Halts) gridHeading() string {
	if h.Runs == 0 {
		return capital(h.act()) + " by, with usual values"
	}
	return capital(h.act()) + " by: sure / toss-up"
}

// both writes the sure moment and the toss-up; with usual values they are one.
func (h Halts) both(sure, latest int) Sentence {
	if h.Runs == 0 {
		return h.whenever(latest)
	}
	return Say("{} / {}", h.whenever(sure), h.whenever(latest))
}

func (h Halts) arrivalsHeading() string {
	head := "In time"
	if h.first().AllWell {
		head = "All well"
	}
	if h.several() {
		head += ", " + h.Cases[0].Name + ", " + orderName(h.Drill.Order)
	}
	if h.Runs == 0 {
		head += " (with usual values)"
	}
	return head
}

// timed lists the milestones with a target: the one asked about, then the
// others.
func (h Halts) timed() (list []int) {
	if !h.first().AllWell {
		list = append(list, h.first().Milestone)
	}
	for m, milestone := range h.Drill.Milestones {
		if !slices.Contains(list, m) && HasTarget(milestone) {
			list = append(list, m)
		}
	}
	return list
}

// HasTarget reports whether a milestone has a target. One that never comes, as
// dark in summer, is none.
func HasTarget(m sim.Milestone) bool { return m.ByText != "" && m.By != sim.Never }

// arrivalsColumns are the columns of a table of milestones with a row for each
// arrival.
func (h Halts) arrivalsColumns(milestones []int) []Column {
	columns := []Column{{Head: h.act() + " at"}, {}}
	if h.first().AllWell {
		columns = append(columns, Column{Head: "all well"})
	}
	for _, m := range milestones {
		milestone := h.Drill.Milestones[m]
		columns = append(columns, Column{Head: milestone.Name + " " + targetWords(milestone)})
	}
	if h.tellsCold() {
		columns = append(columns, Column{Head: "nobody too cold"})
	}
	if h.tellsWell() {
		columns = append(columns, Column{Head: "all well"})
	}
	return columns
}

// tellsCold reports whether there is an account of cold, and tellsWell whether all
// well is told beside what was asked.
func (h Halts) tellsCold() bool { return h.first().Points[0].Well.NobodyCold != nil }

func (h Halts) tellsWell() bool {
	return !h.first().AllWell && h.first().Points[0].Well.All != nil
}

// row tells of an arrival what the columns say.
func (h Halts) row(o Halting, p halt.Point, inTime []*stats.Share, narrow bool) (row []Sentence) {
	cell := func(s *stats.Share) Sentence {
		if narrow {
			return Briefly(h.cell(s, true))
		}
		return h.cell(s, false)
	}
	if o.AllWell {
		row = append(row, cell(p.Well.All))
	}
	for _, s := range inTime {
		row = append(row, cell(s))
	}
	if h.tellsCold() {
		row = append(row, h.yes(p.Well.NobodyCold, cell, "yes", "no"))
	}
	if h.tellsWell() {
		row = append(row, h.yes(p.Well.All, cell, "yes", "no"))
	}
	return row
}

// yes is a cell of what is so or not with usual values.
func (h Halts) yes(s *stats.Share, cell func(s *stats.Share) Sentence, yes, no string) Sentence {
	switch {
	case h.Runs > 0 || s == nil:
		return cell(s)
	case s.Count > 0:
		return Say("{}", yes)
	}
	return Say("{}", no)
}

// mostAcross is how many milestones one screen has room for side by side.
const mostAcross = 3

// arrivalsShort has the arrivals that tell something, and the first milestones.
func (h Halts) arrivalsShort() Table {
	timed := h.timed()
	timed = timed[:min(len(timed), mostAcross)]
	t := Table{Caption: "How often each milestone is in time, by arrival", Columns: h.arrivalsColumns(timed)}
	left := false // whether the row before was left out
	for i := range h.Arrivals {
		if h.leavesOut(i) {
			if !left {
				t.Rows = append(t.Rows, Cells("..."))
			}
			left = true
			continue
		}
		left = false
		row := Cells(Briefly(Say("{}", h.when(i))), h.mark(h.first(), i))
		var inTime []*stats.Share
		for _, m := range timed {
			inTime = append(inTime, h.first().Points[i].OnTime[m])
		}
		t.Rows = append(t.Rows, append(row, h.row(h.first(), h.first().Points[i], inTime, true)...))
	}
	return t
}

// mark says what is special about an arrival.
func (h Halts) mark(o Halting, i int) string {
	switch {
	case i == h.sure(o.Answer):
		return h.act() + " by"
	case i == o.Latest():
		return "toss-up"
	case h.Arrivals[i] == 0:
		return "file"
	}
	return ""
}

// leavesOut reports whether an arrival tells nothing that those before and after
// it do not.
func (h Halts) leavesOut(i int) bool {
	points := h.first().Points
	if i < 1 || i+1 >= len(points) || h.mark(h.first(), i) != "" {
		return false
	}
	same := func(share func(p halt.Point) *stats.Share) bool {
		text := func(i int) string { return h.cell(share(points[i]), true).Write(People) }
		return text(i-1) == text(i) && text(i+1) == text(i)
	}
	for _, m := range h.timed() {
		if onTheClock(h.Drill.Milestones[m]) && !same(func(p halt.Point) *stats.Share { return p.OnTime[m] }) {
			return false
		}
	}
	return same(h.first().ShareOf)
}

// cell says how often it is in time; with usual values, whether it is.
func (h Halts) cell(s *stats.Share, narrow bool) Sentence {
	switch {
	case s == nil:
		return Say("no target")
	case h.Runs == 0 && s.Count > 0:
		return Say("in time")
	case h.Runs == 0:
		return Say("late")
	case narrow:
		return Say("{}", Share{Share: *s})
	}
	return Say("{}", Share{Share: *s})
}

// chilledCell lists who gets too cold at an arrival.
func (h Halts) chilledCell(p halt.Point) Sentence {
	var items []Sentence
	for _, c := range tooColdAt(p, 0) {
		if h.Runs == 0 {
			items = append(items, Say("{}", c.name))
			continue
		}
		items = append(items, Say("{} {}", c.name, Share{Share: c.share}))
	}
	if items == nil {
		return Say("nobody")
	}
	return Join(items, ", ")
}

// andWarm is what else all well asks for.
func (h Halts) andWarm() Sentence {
	if !h.tellsCold() {
		return nil
	}
	return Say(", and nobody over the cold limit")
}

// notes explain the table of arrivals.
func (h Halts) notes() []Block {
	says := Say("File: the arrival of the file. Left out (...): arrivals that tell the same as those beside them.")
	if h.first().AllWell || h.tellsWell() {
		says = Say("{} All well: every target met{}.", says, h.andWarm())
	}
	if at := h.first().Latest(); at >= 0 && at+1 < len(h.Arrivals) && h.Step > sim.Minute {
		says = Say("{} For the minute: --from {} --to {} --step 1min.", says, Briefly(Say("{}", h.when(at))), Briefly(Say("{}", h.when(at+1))))
	}
	return []Block{Text{Says: says}}
}

// every is the heading of all arrivals of a case under an order.
func (h Halts) every(i, k int) string {
	c := h.Cases[i]
	return fmt.Sprintf("Every arrival, %s, %s", c.Name, orderName(c.Orders[k].Order))
}

// arrivals has every arrival of a case under an order, with intervals.
func (h Halts) arrivals(i, k int) Block {
	o := h.Cases[i].Orders[k]
	t := Table{Caption: h.every(i, k), Columns: h.arrivalsColumns(h.timed())}
	if h.tellsCold() {
		t.Columns = append(t.Columns, Column{Head: "too cold"})
	}
	for i, p := range o.Points {
		var inTime []*stats.Share
		for _, m := range h.timed() {
			inTime = append(inTime, onTime(p, h.Drill.Milestones[m].Name))
		}
		row := append(Cells(h.when(i), h.mark(o, i)), h.row(o, p, inTime, false)...)
		if p.Cold != nil {
			row = append(row, h.chilledCell(p))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// onTime is how often a milestone is in time; nil where a case has none of that
// name, or no target for it.
func onTime(p halt.Point, name string) *stats.Share {
	for m, milestone := range p.Drill.Milestones {
		if milestone.Name == name {
			return p.OnTime[m]
		}
	}
	return nil
}

// latest has the sure moment and the toss-up of each case under each order, with
// the odds there and at the next one tried; then what holds in all cases.
func (h Halts) latest() []Block {
	t := Table{Caption: "The latest " + h.act() + " of each case under each order", Columns: []Column{
		{}, {Head: "order"}, {Head: "sure"}, {Head: "in time"}, {Head: "toss-up"}, {Head: "in time"}, {Head: "next tried"}, {Head: "in time"}}}
	for _, c := range h.Cases {
		for _, o := range c.Orders {
			row := Cells(c.Name, orderName(o.Order))
			at, next := o.Latest(), -1
			if at >= 0 && at+1 < len(h.Arrivals) {
				next = at + 1
			}
			for _, i := range []int{h.sure(o.Answer), at, next} {
				odds := Say("")
				if i >= 0 {
					odds = h.cell(o.ShareOf(o.Points[i]), false)
				}
				row = append(row, h.whenever(i), odds)
			}
			t.Rows = append(t.Rows, row)
		}
	}
	blocks := []Block{t}
	for _, s := range []Sentence{h.missed(), h.well(), h.tooCold(), h.stays()} {
		if !s.IsEmpty() {
			blocks = append(blocks, Text{Item: true, Says: s})
		}
	}
	return blocks
}
