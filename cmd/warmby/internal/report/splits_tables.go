package report

import (
	"fmt"
	"slices"
	"strings"

	"warmby/sim/cold"
	"warmby/sim/search"
	"warmby/sim/split"
)

// sizes has all sizes under the best split of each.
func (s Splits) sizes() []Block {
	t := Table{Caption: "Team sizes under the best split of each", Columns: []Column{{}, {Head: s.milestone().Name}, {Head: "8 of 10 by"}, {Head: "best split"}, {Head: "than the row above"}}}
	if s.usual() { // no odds
		t.Columns = append(t.Columns[:2:2], t.Columns[3:]...)
	}
	for i, size := range s.Sizes {
		best := size.BestSplit()
		if best == nil {
			t.Rows = append(t.Rows, Cells(s.people(size.People), "cannot play"))
			continue
		}
		row := Cells(s.people(size.People), s.when(best.Mean(s.Game.Milestone)))
		if !s.usual() {
			row = append(row, Say("{}", By{best.Quantile(s.Game.Milestone, 0.8), s.site()}))
		}
		row = append(row, Say("{}", s.form(best.Form())))
		if c := s.change(i, split.Form{}); c != nil {
			row = append(row, s.versus(c.Diff))
		}
		t.Rows = append(t.Rows, row)
	}
	return []Block{Picture{Drawing: s.Drawing, Caption: "How much sooner with more people", Table: t}}
}

func (s Splits) kindsHeading() string {
	head := fmt.Sprintf("%s %s under each kind of split", capital(s.milestone().Name), s.measure())
	if len(s.Later()) > 0 {
		head += " (! later than with fewer people)"
	}
	return head
}

// kinds has the mean of every form of split at every size.
func (s Splits) kinds() []Block {
	forms := split.Forms(s.Sizes)
	t := Table{Caption: "Every kind of split at every size", Columns: []Column{{}}}
	for _, form := range forms {
		t.Columns = append(t.Columns, Column{Head: s.form(form)})
	}
	for i, size := range s.Sizes {
		row := Cells(s.people(size.People))
		for _, form := range forms {
			cell := Say("-")
			if one := size.Of(form); one != nil {
				cell = s.when(one.Mean(s.Game.Milestone))
				if s.change(i, form).Later() {
					cell = Say("! {}", cell)
				}
			}
			row = append(row, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	return []Block{t}
}

// milestones has every milestone with a team of one size: what is soonest at the
// one need not be at the others.
func (s Splits) milestones(size *split.Size) []Block {
	t := Table{Caption: "Every milestone under each kind of split", Columns: []Column{{}}}
	for k, one := range size.Splits {
		head := s.form(one.Form())
		if k == size.Best {
			head += ", best"
		}
		t.Columns = append(t.Columns, Column{Head: head})
	}
	for m, milestone := range s.Drill.Milestones {
		row := Cells(milestone.Name)
		for _, one := range size.Splits {
			row = append(row, s.when(one.Mean(m)))
		}
		t.Rows = append(t.Rows, row)
	}
	return []Block{t, Text{Says: s.whatIsBest(size)}}
}

// whatIsBest says what makes a split the best.
func (s Splits) whatIsBest(size *split.Size) Sentence {
	kept := map[search.Goal]string{search.AllWell: "all is well", search.NobodyCold: "nobody is too cold", search.AllTargets: "all targets are met"}
	if what := kept[size.Keeps()]; what != "" {
		return Say("Best is what is soonest at {} of all with which {} about as often as with the best order of the file; other milestones pay for it where they are later.", quote(s.milestone().Name), what)
	}
	return Say("Best is what is soonest at {}; the other milestones pay for it where they are later.", quote(s.milestone().Name))
}

// groups tells who is in which group of the best split, and what each does first.
func (s Splits) groups(size *split.Size) (list []Block) {
	best := size.BestSplit()
	if best == nil {
		return nil
	}
	for _, group := range best.Drill.Groups {
		var who, first []string
		for _, p := range group.People {
			who = append(who, best.Drill.People[p].Name)
		}
		const shown = 4
		for _, task := range group.Sequence[group.Lead:] {
			t := &best.Drill.Tasks[task]
			if !t.Unloads() && len(first) < shown && !slices.Contains(first, t.OwnName()) {
				first = append(first, t.OwnName())
			}
		}
		list = append(list, Text{Head: group.Name, Item: true, Says: Say("{}; first {}.", Named(who), strings.Join(first, ", then "))})
	}
	return list
}

// milestonesBySize has every milestone under the best split of each size.
func (s Splits) milestonesBySize() []Block {
	t := Table{Caption: "Every milestone under the best split of each size", Columns: []Column{{}}}
	for _, m := range s.Drill.Milestones {
		t.Columns = append(t.Columns, Column{Head: m.Name})
	}
	for _, size := range s.Sizes {
		best := size.BestSplit()
		if best == nil {
			continue
		}
		row := Cells(s.people(size.People))
		for m := range s.Drill.Milestones {
			row = append(row, s.when(best.Mean(m)))
		}
		t.Rows = append(t.Rows, row)
	}
	return []Block{t}
}

// laterInFull tells where more people are later.
func (s Splits) laterInFull() (list []Block) {
	for _, c := range s.Later() {
		says := Say("With {}, {} take {} and {} take {}", s.form(c.Form), s.people(c.Fewer.People), Length(c.Was), s.people(c.Now.People), Length(c.Is))
		if c.Diff.Mean.Runs > 1 {
			says = Say("{}: {} in {}", says, Difference{c.Diff.Mean.Negated()}, Count{int(c.Diff.Mean.Runs), "run"})
		}
		list = append(list, Text{Item: true, Says: sentenceEnd(says)})
	}
	if list == nil {
		return nil
	}
	return append(list, Text{Says: Say("See \"More is not always sooner\" in warmby help scenario.")})
}

// cold tells how cold the coldest of a team gets under each kind of split, and
// with other sizes under the best split of each.
func (s Splits) cold(shown *split.Size) []Block {
	t := Table{Caption: "How cold the coldest person gets", Columns: []Column{
		{}, {Head: "over the limit"}, {Head: "5 of 10, at most"}, {Head: "9 of 10, at most"}, {Head: "coldest most often"}}}
	runs := 0
	add := func(name string, one *split.Split) {
		k := s.Cold[one]
		if k == nil {
			return
		}
		runs = max(runs, len(k.Peaks))
		who := k.MostOften()
		t.Rows = append(t.Rows, Cells(name, Share{Share: k.OverShare()}, peak(k, 0.5), peak(k, 0.9),
			Say("{}, {} of {}", one.Drill.People[who].Name, k.Coldest[who], len(k.Peaks))))
	}
	for k, one := range shown.Splits {
		name := s.form(one.Form())
		if k == shown.Best {
			name += ", best"
		}
		add(name, one)
	}
	for _, size := range s.Sizes {
		if best := size.BestSplit(); best != nil && size != shown {
			add("best of "+s.people(size.People), best)
		}
	}
	if runs == 0 {
		return nil
	}
	return []Block{t, Text{Says: Say("The most heat that anybody has lost at any moment of a run, reached at most in 5 and in 9 of 10 {}, and in how many somebody passes the limit of {}. "+
		"The account is kept in the first {}. Coldest most often: who in most runs loses more than anybody else.", s.site().Many, heatLost(cold.HeatLimit, 0), Count{runs, "run"})}}
}

func (s Splits) method() []Block {
	says := Say("A team of fewer is the first of the roster, so those who must be there stand first; those beyond it are copies of the last one without skills; a lookout of whom nobody is left is not stood. " +
		"Splits are made from the orders of the file: tasks in the sequence in which they are called with usual values, in chains of one after the other or by milestone, dealt out by the work in them, " +
		"people by skills and by work, every group lending its people to all; under common luck losers are dropped early, and single chains and people are moved about the winner. A larger team also starts from what the smaller one before it does best. " +
		"Then the search of warmby improve looks for a better order from all of these on. It is a search, not a proof.")
	if !s.usual() {
		says = Say("{} Where all is well in some evenings with an order of the file, every target met and nobody over the cold limit, no split is called best with which that happens clearly less often; "+
			"where all is never well the same goes for nobody being too cold, and else for the targets.", says)
	}
	worth := Say("What one thing more is worth is what it wins under an order that is good with it, against a better order alone. One more person has usual pace and no skill but the one named, and joins the group in which that wins most; one more tool or stove comes with the item that brings its kind.")
	list := []Block{Text{Says: says}, Text{Says: s.luck()}}
	if s.Game.Evaluations > 0 {
		list = append(list, Text{Says: Say("The most drills that the search may play are shared out evenly among team sizes and worth, so that a size may have another answer in other company.")})
	}
	return append(list, Text{Says: worth})
}

// luck says what the figures come from.
func (s Splits) luck() Sentence {
	if s.usual() {
		return Say("Everything is played once, with usual values: what is chosen and what is told come from the same play, and luck may turn it round.")
	}
	return Say("What is told comes from run {} to {} of seed {}, on which nothing was chosen. Intervals hold with {}, those of what things are worth under one split all together.",
		0, s.Game.Runs-1, fmt.Sprint(s.Game.Seed), Percent(0.95))
}
