package main

import "warmby/sim/split"

// forms lists the best split and then all forms that there are at any size.
func (s *splitting) forms() []split.Form {
	return append([]split.Form{{}}, split.Forms(s.sizes)...)
}

// changeAt holds a size against the one before it, under one form of split.
func (s *splitting) changeAt(i int, form split.Form) *split.Change {
	return split.ChangeAt(s.sizes, i, form, s.game.Milestone)
}

// formWords names a form of split: "2 groups", or the order it is.
func formWords(form split.Form) string {
	if form.Order != "" {
		return form.Order
	}
	return counted(form.Groups, "group")
}

// kindOf names what form of split one is.
func kindOf(one *split.Split) string { return formWords(one.Form()) }
