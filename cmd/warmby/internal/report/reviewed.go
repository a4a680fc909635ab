package report

import (
	"fmt"

	"warmby/plots"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/review"
)

// Reviewed is one timed drill beside what was foretold, for its report.
type Reviewed struct {
	*review.Review
	// Foretold says what it was foretold from: "the 7 other drills", "the file".
	Foretold         Sentence
	Accounts         []cold.Person // of the drill as timed; nil without one
	Invented         bool
	Repeat, Cautions string
}

func (r Reviewed) drill() *sim.Drill    { return r.Evening.Drill }
func (r Reviewed) site() Site           { return SiteOf(r.drill()) }
func (r Reviewed) name(task int) string { return r.drill().Tasks[task].Name }

// Report tells a review.
func (r Reviewed) Report() *Report {
	t := r.Evening.Timed
	out := &Report{Title: fmt.Sprintf("%s, drill %s as timed", ShortTitle(r.drill().Title), t.Name), Repeat: r.Repeat, All: r.Repeat + " --all"}
	var parts []Sentence
	for _, text := range []string{t.Date, t.Team, r.order()} {
		if text != "" {
			parts = append(parts, Say("{}", text))
		}
	}
	out.Subtitle = sentence(Join(parts, "; "))
	var off []Sentence
	if t.CalledOff {
		off = []Sentence{Say("{}", t.Name)}
	}
	const enough = 3
	out.Warnings = oneWarning(r.Invented, off, enough)
	changes := r.changes()
	room := most - titleHeadingsAndCautions - len(out.Warnings)
	for _, c := range changes {
		room -= lines(c)
	}
	out.Lead = []Block{r.leadTable(room)}
	for _, c := range changes {
		out.Lead = append(out.Lead, Text{Says: c})
	}
	add := func(more bool, heading string, blocks []Block) {
		if len(blocks) > 0 {
			out.Sections = append(out.Sections, Section{heading, blocks, more})
		}
	}
	add(false, "As foretold and as timed", r.picture())
	add(false, "What took longer, and what that did", r.over(false))
	add(false, "Who waited for what", r.waits())
	add(false, "Another order with the works as timed", r.orders())
	add(true, "All tasks", r.over(true))
	add(true, "How cold people felt, beside the account", r.felt())
	add(true, "What this rests on", r.gaps())
	out.WithCautions(cold.Cautions(r.drill(), nil), r.Cautions)
	return out
}

func (r Reviewed) order() string {
	if r.drill().Order == "" {
		return ""
	}
	return quote(r.drill().Order)
}

// Drawing is the picture of the drill as foretold and as timed.
func (r Reviewed) Drawing() *plots.Picture {
	return plots.Review(plots.ReviewInput{
		Title: fmt.Sprintf("%s: drill %s as foretold and as timed", ShortTitle(r.drill().Title), r.Evening.Timed.Name),
		Plan:  r.Plan, AsTimed: r.AsTimed,
	})
}

func (r Reviewed) picture() []Block {
	t := Table{Caption: "Each person's free and waiting time, as timed", Columns: []Column{{}, {Head: "nothing to do", Right: true}, {Head: "waited at a task", Right: true}}}
	for _, one := range r.Idle {
		t.Rows = append(t.Rows, Cells(r.drill().People[one.Person].Name, Length(one.Free), Length(one.Ready)))
	}
	return []Block{Picture{Drawing: r.Drawing, Caption: "Each person as foretold and as timed; on a melt or a warm-up the part of a mishap is what it took longer than its stove", Table: t}}
}

func (r Reviewed) leadTable(rows int) Table {
	t := Table{Caption: "Milestones as timed and as foretold", Columns: []Column{{}, {Head: "came"}, {Head: "foretold"}, {Head: "8 in 10"}, {}}}
	for _, m := range r.Review.Milestones[:max(1, len(r.Review.Milestones)-1)] {
		if len(t.Rows) < rows {
			t.Rows = append(t.Rows, r.milestoneRow(m))
		}
	}
	return t
}

func (r Reviewed) milestoneRow(m review.Milestone) []Sentence {
	row := Cells(r.drill().Milestones[m.Milestone].Name, "not timed", r.site().Came(m.Usual),
		Say("{} to {}", r.site().Came(m.Low), r.site().Came(m.High)), "")
	if m.Came == sim.Never {
		return row
	}
	row[1] = Say("{}", r.site().Came(m.Came))
	switch {
	case m.Came > m.High:
		row[4] = Say("later than 9 in 10")
	case m.Came < m.Low:
		row[4] = Say("sooner than 9 in 10")
	default:
		row[4] = Say("within")
	}
	return row
}

// changes are the two things to change.
func (r Reviewed) changes() []Sentence {
	if len(r.Changes) == 0 {
		return []Sentence{Say("Nothing to change stands out: it went about as foretold.")}
	}
	var out []Sentence
	for i, c := range r.Changes {
		out = append(out, Say("{}. {}", i+1, r.change(c)))
	}
	return out
}

func (r Reviewed) change(c review.Change) Sentence {
	switch c.Kind {
	case review.TakeOrder:
		return Say("Take {}: with the works as timed it saves {}.", quote(c.Order), Length(c.Gain))
	case review.Shorten:
		return Say("Practise {}: done as foretold, it saves {}.", quote(r.name(c.Task)), Length(c.Gain))
	case review.Supply:
		return Say("Have {} sooner: {} stood ready for {}.", r.lacked(c.Why), quote(r.name(c.Task)), Length(c.Gain))
	}
	return Say("Plan {} with {} more: it cost nothing this time.", quote(r.name(c.Task)), Length(c.Gain))
}

// lacked names what a task stood waiting for.
func (r Reviewed) lacked(why sim.Reason) Sentence {
	d := r.drill()
	switch {
	case why.Kind == sim.ToolShort && why.Tool >= 0:
		return Say("a {}", d.Tools[why.Tool].Name)
	case why.Kind == sim.StoveShort && why.Stove >= 0:
		return Say("a {}", d.Stoves[why.Stove].Name)
	case why.Kind == sim.PeopleShort && why.Person >= 0:
		return Say("{} free", d.People[why.Person].Name)
	case why.Kind == sim.PeopleShort:
		return Say("people free")
	}
	return Say("its turn")
}

func (r Reviewed) over(all bool) []Block {
	const few = 8
	t := Table{Caption: "Tasks as timed and as foretold", Columns: []Column{{}, {Head: "took", Right: true}, {Head: "foretold", Right: true}, {Head: "milestones later by", Right: true}}}
	for _, o := range r.Over {
		if !all && (len(t.Rows) == few || o.Took-o.Usual < sim.Minute && o.Cost < sim.Minute) {
			continue
		}
		t.Rows = append(t.Rows, Cells(r.name(o.Task), Length(o.Took), Length(o.Usual), Stopwatch(o.Cost)))
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []Block{t, Text{Says: Say("From start to end, in the drill played with the log's own lengths; the last column is the mean over the milestones that have a target, had this task alone taken what was foretold.")}}
}

func (r Reviewed) waits() []Block {
	var out []Block
	for _, w := range r.Waits {
		out = append(out, Text{Head: r.name(w.Task), Says: Say("{} for {}", Length(w.For), r.lacked(w.Reason)), Item: true})
	}
	return out
}

func (r Reviewed) orders() []Block {
	if len(r.Orders) < 2 {
		return nil
	}
	t := Table{Caption: "Orders with the works as timed", Columns: []Column{{}}}
	d := r.drill()
	named := d.Milestones[:max(1, len(d.Milestones)-1)]
	for _, m := range named {
		t.Columns = append(t.Columns, Column{Head: m.Name})
	}
	for _, o := range r.Orders {
		row := Cells(quote(o.Order))
		if o.Played {
			row[0] = Say("{} (as drilled)", quote(o.Order))
		}
		for m := range named {
			row = append(row, Say("{}", r.site().Came(o.Milestones[m])))
		}
		t.Rows = append(t.Rows, row)
	}
	return []Block{t, Text{Says: Say("Works and mishaps go with their tasks. What was not timed takes what was foretold; what had not ended, that or as long as it had been worked on.")}}
}

func (r Reviewed) felt() []Block {
	if len(r.Evening.Timed.Felt) == 0 || r.Accounts == nil {
		return nil
	}
	t := Table{Caption: "How cold people felt, beside the account", Columns: []Column{{}, {Head: "at"}, {Head: "felt", Right: true}, {Head: "heat lost", Right: true}, {Head: "limit", Right: true}}}
	for _, x := range r.Evening.Timed.Felt {
		p := r.Accounts[x.Person]
		row := Cells(r.drill().People[x.Person].Name, r.site().At(x.At), Quantity{Value: x.Sense, Decimals: 1}, "?", Quantity{Value: cold.HeatLimit, Unit: "Wh/m2"})
		if p.Why == "" {
			debt := 0.0
			for _, e := range p.Ledger {
				if e.From <= x.At {
					debt = e.Debt
				}
			}
			row[3] = Say("{}", Quantity{Value: debt, Unit: "Wh/m2", Decimals: 1})
		}
		t.Rows = append(t.Rows, row)
	}
	return []Block{t, Text{Says: Say("0 is neutral, -4 very cold. What people feel is more than the account knows: where they feel colder than it says, believe the people.")}}
}

func (r Reviewed) gaps() []Block {
	out := []Block{Text{Head: "Foretold from", Says: r.Foretold, Item: true}}
	if r.Evening.Timed.CalledOff {
		out = append(out, Text{Head: "Called off", Says: Say("what is played after the end of the log is foretold and did not happen"), Item: true})
	}
	list := func(head string, tasks []int) {
		var names []Sentence
		for _, i := range tasks {
			names = append(names, Say("{}", r.name(i)))
		}
		if len(names) > 0 {
			out = append(out, Text{Head: head, Says: Join(names, ", "), Item: true})
		}
	}
	list("Not timed, played as foretold", r.NotDone)
	list("Could not have ended when the log says, by the scenario", r.Off)
	return out
}
