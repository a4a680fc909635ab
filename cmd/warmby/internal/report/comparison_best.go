package report

import (
	"slices"

	"warmby/sim/compare"
)

// Bests are how orders stand against the best of them at all that they may be
// taken for.
func (c Comparison) Bests(w *Bout) (list []*compare.Best) {
	if w.mostOftenWell() != nil {
		list = append(list, compare.BestWell(w.Well))
	}
	for _, k := range byUrgency(w, c.Primary) {
		list = append(list, w.BestAt(c.Primary[k]))
	}
	return slices.DeleteFunc(list, func(b *compare.Best) bool { return b == nil })
}

// BestFor says what a best is about.
func (c Comparison) BestFor(b *compare.Best) string {
	if b.Milestone < 0 {
		columns := c.wellColumns(c.AsIs)
		return columns[len(columns)-1].head
	}
	return c.Drill.Milestones[b.Milestone].Name
}

// Taken returns the order that is taken for what a best is about; -1 where that
// decides nothing, or no more orders are named.
func (c Comparison) Taken(w *Bout, b *compare.Best) int {
	for _, p := range picks(c.goals(w)) {
		if slices.ContainsFunc(p.goals, func(g goal) bool { return g.milestone == b.Milestone }) {
			return p.order
		}
	}
	return -1
}

// nearBest says how far the order that is taken for something is behind the best
// at most; empty where it is the best for sure, and where that cannot be said.
func (c Comparison) nearBest(w *Bout, b *compare.Best) Sentence {
	if b == nil || b.Doubt != "" {
		return nil
	}
	i := c.Taken(w, b)
	if i < 0 || b.IsClear(i) {
		return nil
	}
	than := "worse"
	if b.Means != nil {
		than = "later"
	}
	return Say("{} is at most {} {} than the best.", w.order(i), c.behindBest(b, i), than)
}

func (c Comparison) behindBest(b *compare.Best, i int) Sentence {
	if late, ok := b.AtMost(i); ok {
		return Say("{}", UpTo(late))
	}
	return Say("{}", FewerUpTo{b.Within[i].AtMost, c.site().Many})
}

// nearBestInFull has every order at all that orders may be taken for.
func (c Comparison) nearBestInFull() (list []Block) {
	for _, b := range c.Bests(c.AsIs) {
		if b.Doubt != "" {
			list = append(list, Text{Says: Say("{}: not told, for {}.", capital(c.BestFor(b)), b.Doubt)})
			continue
		}
		t := Table{Caption: "How near the best for " + c.BestFor(b), Columns: []Column{{}, {Head: "though chosen"}, {Head: "behind the best at most"}, {Head: "may be the best"}}}
		for i := range c.AsIs.Played {
			row := Cells(c.AsIs.heading(i), "", Say("{}", c.behindBest(b, i)), map[bool]string{true: "yes", false: "no"}[b.Within[i].MayBe])
			if b.Means != nil {
				row[1] = Say("{}", Mean{b.Means[i]})
			} else {
				row[1] = Say("{}", Share{Share: b.Shares[i]})
			}
			t.Rows = append(t.Rows, row)
		}
		list = append(list, Text{Says: Say("{}:", capital(c.BestFor(b)))}, t)
	}
	if list == nil {
		return nil
	}
	return append(list, Text{Says: Say("With 95 % all of a table holds at once (Hsu's comparisons with the best): the best is one of those that may be, and no order is farther behind it. Though chosen: the interval holds although the order was chosen for looking best.")})
}
