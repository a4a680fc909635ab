package report

import (
	"fmt"

	"warmby/sim"
	"warmby/sim/cold"
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
			cell := Say("cannot be played")
			if o.Never == "" {
				cell = h.both(h.sure(o.Answer), o.Latest())
			}
			row = append(row, Briefly(cell))
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
	head := "In time, " + h.Cases[0].Name + ", " + orderName(h.Drill.Order)
	if !h.several() {
		head = "In time"
	}
	if h.Runs == 0 {
		head += " (with usual values)"
	}
	return head
}

// timed lists the milestones with a target: the one asked about, then the
// others.
func (h Halts) timed() []int {
	list := []int{h.first().Milestone}
	for m, milestone := range h.Drill.Milestones {
		if m != list[0] && HasTarget(milestone) {
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
	for _, m := range milestones {
		milestone := h.Drill.Milestones[m]
		columns = append(columns, Column{Head: milestone.Name + " " + targetWords(milestone)})
	}
	return append(columns, Column{Head: "coldest"})
}

// mostAcross is how many milestones one screen has room for side by side.
const mostAcross = 4

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
		for _, m := range timed {
			row = append(row, Briefly(h.cell(h.first().Points[i].OnTime[m], true)))
		}
		t.Rows = append(t.Rows, append(row, Briefly(coldestCell(h.first().Points[i].Coldest))))
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
	for _, m := range h.timed() {
		text := func(i int) string { return h.cell(points[i].OnTime[m], true).Write(People) }
		same := text(i-1) == text(i) && text(i+1) == text(i)
		if !same && (m == h.first().Milestone || onTheClock(h.Drill.Milestones[m])) {
			return false
		}
	}
	return true
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
		return Say("{}", NarrowShare{*s})
	}
	return Say("{}", Share{Share: *s})
}

func coldestCell(c *cold.Person) Sentence {
	if c == nil {
		return Say("not known")
	}
	s := Say("{} {}", c.Name, Quantity{Value: c.Peak, Decimals: 1})
	if c.Peak >= cold.HeatLimit {
		s = Say("{} !", s)
	}
	return s
}

// notes explain the table of arrivals.
func (h Halts) notes() []Block {
	says := Say("File: the arrival of the file. Coldest: with usual values, the most heat lost in Wh/m2, of {} allowed; ! marks more. "+
		"Left out (...): arrivals that tell the same as those beside them.", cold.HeatLimit)
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
	for i, p := range o.Points {
		row := Cells(h.when(i), h.mark(o, i))
		for _, m := range h.timed() {
			row = append(row, h.cell(onTime(p, h.Drill.Milestones[m].Name), false))
		}
		t.Rows = append(t.Rows, append(row, coldestCell(p.Coldest)))
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
			if o.Never != "" {
				t.Rows = append(t.Rows, Cells(c.Name, orderName(o.Order), "cannot be played"))
				continue
			}
			row := Cells(c.Name, orderName(o.Order))
			at, next := o.Latest(), -1
			if at >= 0 && at+1 < len(h.Arrivals) {
				next = at + 1
			}
			for _, i := range []int{h.sure(o.Answer), at, next} {
				odds := Say("")
				if i >= 0 {
					odds = h.cell(o.Points[i].OnTime[o.Milestone], false)
				}
				row = append(row, h.whenever(i), odds)
			}
			t.Rows = append(t.Rows, row)
		}
	}
	blocks := []Block{t}
	for _, s := range []Sentence{h.missed(), h.coldest(), h.stays()} {
		if !s.IsEmpty() {
			blocks = append(blocks, Text{Item: true, Says: s})
		}
	}
	return blocks
}
