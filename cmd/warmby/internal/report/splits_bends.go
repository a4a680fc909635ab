package report

import (
	"cmp"

	"warmby/sim/split"
)

// bendsShort says for each size which split bends least over the cases.
func (s Splits) bendsShort() []Block {
	if s.Bends == nil {
		return nil
	}
	t := Table{Caption: "Which split bends least, by size", Columns: []Column{{}, {Head: "bends least"}, {Head: "at the latest"}, {Head: "in case"}}}
	for _, b := range s.Bends {
		row := Cells(s.people(b.Size.People), "none", "never")
		if b.Least >= 0 {
			row = Cells(s.people(b.Size.People), s.form(b.Size.Splits[b.Least].Form()), s.site().Came(b.Latest(b.Least)), s.called(b.Worst[b.Least]))
		}
		t.Rows = append(t.Rows, row)
	}
	list := []Block{t}
	for _, b := range s.Bends {
		if left := s.left(b); !left.IsEmpty() {
			list = append(list, Text{Says: left})
		}
	}
	return list
}

// left names the cases that are left out of the judgement.
func (s Splits) left(b *split.Bend) Sentence {
	var names []string
	for _, i := range b.Left {
		names = append(names, s.called(i))
	}
	if names == nil {
		return nil
	}
	return Say("{}: no split always gets there in {}, left out of the judgement.", capital(s.people(b.Size.People)), Named(names))
}

// bendsInFull tells what each split does in each case, of the size that is shown.
func (s Splits) bendsInFull() []Block {
	if s.Bends == nil {
		return nil
	}
	shown := s.Bends[0]
	for _, b := range s.Bends {
		if b.Size == s.Shown() {
			shown = b
		}
	}
	list := []Block{Text{Says: Say("{}, {} (* bends least)", capital(s.people(shown.Size.People)), s.measure())}, s.cases(shown)}
	if len(shown.Size.Splits) > 0 {
		list = append(list, Text{Says: Say("Each case against the scenario as it stands")}, s.caseChanges(shown))
	}
	return append(list, Text{Says: Say("Which bends least: of the splits above, the one whose latest time over all cases is earliest. Splits were chosen for the scenario as it stands, and played in every case under the same luck; " +
		"whoever is absent there is missing from their group. One is never there when it is not in some run. The sizes, kinds and worth, and the picture, are of the scenario as it stands.")})
}

// cases has when each split gets there in each case.
func (s Splits) cases(b *split.Bend) Table {
	t := Table{Caption: "When each split gets there in each case", Columns: []Column{{Head: "case"}}}
	for k, one := range b.Size.Splits {
		head := s.form(one.Form())
		if k == b.Least {
			head += " *"
		}
		t.Columns = append(t.Columns, Column{Head: head})
	}
	for i := range s.Cases {
		row := Cells(s.called(i))
		for _, at := range b.Times[i] {
			row = append(row, Say("{}", s.site().Came(at)))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// caseChanges has what each case changes under the order worth is told of, under
// the split that is soonest and under the one that bends least.
func (s Splits) caseChanges(b *split.Bend) Table {
	var of []int
	for k, one := range b.Size.Splits {
		if k == b.Size.Best || k == b.Least || one.Order != "" && one.Order == cmp.Or(s.Order, s.Drill.Order) {
			of = append(of, k)
		}
	}
	t := Table{Caption: "What each case changes", Columns: []Column{{Head: "case"}}}
	for _, k := range of {
		t.Columns = append(t.Columns, Column{Head: s.form(b.Size.Splits[k].Form())})
	}
	for i := range s.Cases[1:] {
		row := Cells(s.called(i + 1))
		for _, k := range of {
			cell := Say("not always there")
			if diff := b.Against(i+1, k); diff.Mean.OK() {
				cell = s.versus(diff)
			}
			row = append(row, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
