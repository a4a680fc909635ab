package report

import (
	"math"

	"warmby/sim"
	"warmby/sim/search"
)

// This file tells of the orders that a search found: what each pays and wins,
// and the order itself.

// How much of a long list is told; JSON has all.
const (
	shownChanges = 12
	shownOrders  = 6
)

// pays tells what the best order does to every milestone, against the best of
// the file.
func (m Improvement) pays() []Block {
	if m.toChoose() {
		return nil
	}
	best := m.Orders[0]
	same := best.Known != "" && best.Known == m.Known.Known
	t := Table{Caption: "Every milestone with the order found and with the best of the file", Columns: []Column{{}}}
	if !same {
		t.Columns = append(t.Columns, Column{Head: m.named(m.Known)})
	}
	t.Columns = append(t.Columns, Column{Head: m.named(best)})
	if !same {
		t.Columns = append(t.Columns, Column{})
	}
	if m.hasTargets() {
		if !same {
			t.Columns = append(t.Columns, Column{Head: "in time before"})
		}
		t.Columns = append(t.Columns, Column{Head: "in time now"}, Column{})
	}
	for i := range m.Drill.Milestones {
		t.Rows = append(t.Rows, m.payRow(i, best, same, len(t.Rows) == 0))
	}
	list := []Block{t, Text{Says: Say("Times with usual values{}.", m.inTimeFrom())}}
	if best.Known == "" {
		list = append(list, Text{Says: Say("To keep it: --write FILE, or paste it into the file from what --all prints.")})
	}
	return list
}

func (m Improvement) inTimeFrom() Sentence {
	if m.Runs == 0 || !m.hasTargets() {
		return nil
	}
	return Say(", in time in {}", Count{m.Runs, "fresh run"})
}

func (m Improvement) payRow(i int, best search.Found, same, first bool) []Sentence {
	ms, is, was := m.Drill.Milestones[i], best.Milestones[i], m.Known.Milestones[i]
	row := Cells(ms.Name)
	if !same {
		row = append(row, Say("{}", m.site().Came(was)))
	}
	row = append(row, Say("{}", m.site().Came(is)))
	if !same {
		row = append(row, m.soonerCell(was, is))
	}
	if !m.hasTargets() || ms.By == sim.Never {
		return row
	}
	if !same {
		row = append(row, m.share(m.Known.Evenings.InTime[i], first))
	}
	return append(row, m.share(best.Evenings.InTime[i], first && same), m.played().target(i))
}

// soonerCell writes by how much something comes sooner than it did.
func (m Improvement) soonerCell(was, is sim.Time) Sentence {
	if was == sim.Never || is == sim.Never || was == is {
		return nil
	}
	return sooner(was - is)
}

func sooner(by sim.Time) Sentence {
	if by < 0 {
		return Say("{} later", Length(-by))
	}
	return Say("{} sooner", Length(by))
}

// wins lists the changes that win most.
func (m Improvement) wins() (list []Block) {
	for _, s := range m.winLines() {
		list = append(list, Text{Item: true, Says: s})
	}
	if list != nil {
		list = append(list, Text{Says: Say("Each on top of the ones above, beginning from {}.", quote(m.WinsOn))})
	}
	return list
}

// winLines says each of the changes that win most.
func (m Improvement) winLines() (list []Sentence) {
	if m.toChoose() || m.Orders[0].Known != "" {
		return nil
	}
	for _, w := range m.Wins {
		if w.Gain.Value <= 0 { // in the search only
			break
		}
		gain := Say("{}", MoreOften{w.Gain.Value, w.Gain.Low, w.Gain.High, m.site().Many})
		if !m.Aims[0].Goal.Share() {
			gain = sooner(millis(w.Gain.Value))
		}
		list = append(list, Say("{}: {} {}.", m.winWords(w), m.goalWord(), gain))
	}
	return list
}

// goalWord names the first aim in a short line.
func (m Improvement) goalWord() string {
	if a := m.Aims[0]; !a.Goal.Share() {
		return m.Drill.Milestones[a.Milestone].Name
	}
	return m.Aims[0].Goal.String() + " in"
}

// mostEdits is how many of the changes that only win together are named.
const mostEdits = 3

// mostRegroups is of how many people and tasks it is told in which other group they are.
const mostRegroups = 6

func (m Improvement) winWords(w search.Win) Sentence {
	var parts []Sentence
	edits := w.Edits[:min(mostEdits, len(w.Edits))]
	for k := 0; k < len(edits); {
		alike := 1 // those that go to the same place are told together
		for k+alike < len(edits) && beside(edits[k], edits[k+alike]) {
			alike++
		}
		if edits[k].Kind == search.Splits {
			parts = append(parts, m.regroupWords(w.Regroups)...)
		} else {
			parts = append(parts, m.editWords(edits[k:k+alike]))
		}
		k += alike
	}
	if more := len(w.Edits) - len(edits); more > 0 {
		parts = append(parts, Say("{} more", more))
	}
	return sentenceCapital(Listed(parts))
}

// beside reports whether two tasks move to the same side of a third.
func beside(a, b search.Edit) bool {
	return a.Kind == search.Moves && b.Kind == search.Moves && a.Anchor >= 0 && a.Anchor == b.Anchor && a.After == b.After
}

// regroupWords says who and what is in which other group, where that is few.
func (m Improvement) regroupWords(list []search.Regroup) (parts []Sentence) {
	if len(list) == 0 || len(list) > mostRegroups {
		return []Sentence{Say("people or tasks in other groups")}
	}
	for _, r := range list {
		var groups []Sentence
		for _, name := range r.Groups {
			groups = append(groups, Say("{}", quote(name)))
		}
		if r.Task < 0 {
			parts = append(parts, Say("{} in {}", m.Drill.People[r.Person].Name, Either(groups)))
		} else {
			parts = append(parts, Say("{} by {}", m.Drill.Tasks[r.Task].Name, Either(groups)))
		}
	}
	return parts
}

// editWords tells of a change or, of tasks that move to the same place, of several.
func (m Improvement) editWords(edits []search.Edit) Sentence {
	e := edits[0]
	var names []Sentence
	for _, e := range edits {
		names = append(names, Say("{}", m.Drill.Tasks[e.Task].Name))
	}
	tasks := Listed(names)
	switch {
	case e.Kind == search.Crews:
		return Say("{} with {}", tasks, crew(e.Crew))
	case e.Anchor < 0 && e.After:
		return Say("{} only when needed", tasks)
	case e.Anchor < 0:
		return Say("{} first", tasks)
	case e.After:
		return Say("{} after {}", tasks, m.Drill.Tasks[e.Anchor].Name)
	}
	return Say("{} before {}", tasks, m.Drill.Tasks[e.Anchor].Name)
}

// sentenceCapital makes words begin with a capital.
func sentenceCapital(s Sentence) Sentence {
	out := append(Sentence(nil), s...)
	if w, ok := out[0].(Words); ok {
		out[0] = Words(capital(string(w)))
	}
	return out
}

func crew(c sim.Crew) Sentence {
	if c.Min == c.Max {
		return Say("{}", c.Min)
	}
	return Say("{} to {}", c.Min, c.Max)
}

// pairs lists the tasks that stand the other way round than in all of the
// file's orders.
func (m Improvement) pairs() (list []Block) {
	if m.toChoose() {
		return nil
	}
	for _, p := range m.Orders[0].Turned {
		list = append(list, Text{Item: true, Says: Say("{} now comes before {}.", m.Drill.Tasks[p.First].Name, m.Drill.Tasks[p.Then].Name)})
	}
	if len(list) > shownChanges {
		more := len(list) - shownChanges
		list = append(list[:shownChanges:shownChanges], Text{Item: true, Says: Say("and {}", Count{more, "more pair"})})
	}
	if list != nil {
		list = append(list, Text{Says: Say("All orders of the file have these the other way round. Where that must be so, write after on the task.")})
	}
	return list
}

// frontHeading says what the table of several aims shows.
func (m Improvement) frontHeading() string {
	if len(m.Orders) == 1 {
		return "By aim"
	}
	return "None of these is better in all"
}

func (m Improvement) front() []Block {
	if len(m.Aims) < 2 {
		return nil
	}
	return []Block{m.frontTable()}
}

// frontTable is a table of the orders by aims.
func (m Improvement) frontTable() Table {
	t := Table{Caption: "Orders by what was aimed at", Columns: []Column{{}}}
	for _, a := range m.Aims {
		t.Columns = append(t.Columns, Column{Head: m.aim(a)})
	}
	row := func(name string, values []float64) {
		cells := Cells(name)
		for k, v := range values {
			cells = append(cells, m.inFull(k, v))
		}
		t.Rows = append(t.Rows, cells)
	}
	for _, f := range m.listed() {
		row(f.Order.Name, f.Value)
	}
	if m.Before.Known != m.Known.Known {
		row("before: "+m.Before.Order.Name, m.Before.Value)
	}
	row("no order before", m.Bound)
	return t
}

// inFull writes what an order gives at an aim since arrival and on the clock.
func (m Improvement) inFull(aim int, v float64) Sentence {
	switch {
	case m.Aims[aim].Goal.Share(), math.IsInf(v, 1):
		return m.value(aim, v, false)
	case m.Drill.Site.Arrival.IsZero():
		return Say("{}", Since(millis(v)))
	}
	return Say("{} ({})", Since(millis(v)), m.site().Came(millis(v)))
}

// orders tells each order that is written out, with what changes.
func (m Improvement) orders(add func(more bool, heading string, blocks []Block)) {
	list := m.Orders[:1]
	if len(m.Aims) > 1 {
		list = m.Orders
	}
	for k, f := range list {
		if k == shownOrders {
			add(true, "More orders", []Block{Text{Says: Say("{}: see --json, or --write.", Count{len(list) - k, "more order"})}})
			return
		}
		if f.Known != "" {
			add(true, capital(m.theOrder(f)), []Block{Text{Says: Say("It stands in the file as it is.")}})
			continue
		}
		add(true, "The order "+m.named(f)+", to paste under orders", []Block{Code{m.YAML[k]}})
		add(true, "What changes against "+m.named(m.Before)+", with usual values", m.changes(f))
	}
}

// theOrder names an order in a heading.
func (m Improvement) theOrder(f search.Found) string {
	if m.InFile {
		return "the sequence of the tasks in the file"
	}
	return "the order " + m.named(f) + " of the file"
}

func (m Improvement) changes(f search.Found) (list []Block) {
	changes := m.MainChanges(f)
	for i, c := range changes {
		if i == shownChanges {
			return append(list, Text{Item: true, Says: Say("and {}", Count{len(changes) - i, "more task"})})
		}
		s := Say("{}", m.Drill.Tasks[c.Task].Name)
		if c.Anchor >= 0 {
			where := "before"
			if c.After {
				where = "after"
			}
			s = Say("{} {} {}", s, where, m.Drill.Tasks[c.Anchor].Name)
		}
		list = append(list, Text{Item: true, Says: Say("{}: {}", s, sooner(-c.Later))})
	}
	return list
}

// tied is a table of the orders that cannot be told from the best.
func (m Improvement) tied() []Block {
	if len(m.Aims) > 1 || len(m.Orders) < 2 {
		return nil
	}
	t := Table{Caption: "Orders that cannot be told from the best",
		Columns: []Column{{}, {Head: m.aim(m.Aims[0])}, {Head: "behind"}, {Head: "finish, usual"}}}
	for i, f := range m.Orders {
		if i > shownOrders {
			t.Rows = append(t.Rows, []Sentence{Say("and {} more", len(m.Orders)-i)})
			break
		}
		behind := Sentence(nil)
		if g := f.Behind[0]; i > 0 && g.Why == "" {
			behind = m.difference(0, search.Gain{Value: -g.Value, Low: -g.High, High: -g.Low})
		}
		t.Rows = append(t.Rows, []Sentence{Say("{}", f.Order.Name), m.inFull(0, f.Value[0]), behind, Say("{}", Since(f.Milestones[len(f.Milestones)-1]))})
	}
	return []Block{t}
}
