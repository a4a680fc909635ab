package report

import (
	"cmp"
	"fmt"
	"slices"

	"warmby/sim"
	"warmby/sim/split"
	"warmby/sim/stats"
)

// lead says in so many lines what one more is worth, which split is for which
// size, how cold it gets, and where more people are later; the last of it only
// where there is room.
func (s Splits) lead(room int) (list []Block) {
	first := Say("{} {}", s.oneMore(), s.better())
	room -= lines(first)
	list = append(list, Text{Says: first})
	says := []Sentence{s.tooCold(), s.laterShort(), s.leastBent(), s.worthMost()}
	const fewest = shownSizes
	headings := headLines(s.leadTable(s.Sizes))
	for k := range says {
		if n := lines(says[k]); !says[k].IsEmpty() && room-n >= headings+min(fewest, len(s.Sizes)) {
			room -= n
		} else {
			says[k] = nil
		}
	}
	list = append(list, s.leadTable(s.leadSizes(room-headings)))
	for _, one := range says {
		if !one.IsEmpty() {
			list = append(list, Text{Says: one})
		}
	}
	return list
}

// leadSizes returns so many of the sizes, those next to the team's own first.
func (s Splits) leadSizes(rows int) []*split.Size {
	list := slices.Clone(s.Sizes)
	apart := func(z *split.Size) int { return max(z.People-s.own(), s.own()-z.People) }
	slices.SortStableFunc(list, func(a, b *split.Size) int { return cmp.Compare(apart(a), apart(b)) })
	list = list[:min(len(list), max(rows, 1))]
	slices.SortFunc(list, func(a, b *split.Size) int { return cmp.Compare(a.People, b.People) })
	return list
}

// oneMore says what one more person is worth: without a skill, and with the one
// that wins most.
func (s Splits) oneMore() Sentence {
	u := s.Worth
	plain := u.Of(split.Person)
	if plain == nil {
		return Say("Nobody can say what one more person is worth: there is no group for one.")
	}
	says := Say("One more person: {}", s.won(plain))
	if skilled := bestOf(u, split.Skilled); skilled != nil && s.minutes(skilled) > max(0, s.minutes(plain)) {
		says = Say("{}, with the skill {} {} sooner", says, quote(skilled.What), Length(s.minutes(skilled)))
	}
	return sentenceEnd(says)
}

// won says what a thing more wins at the milestone.
func (s Splits) won(w *split.Worth) Sentence {
	m := w.Change.Mean
	switch {
	case !m.OK():
		return Say("no telling ({})", m.Why)
	case m.Runs > 1 && m.Runs < stats.FewRuns:
		return Say("too few runs to tell")
	case w.Told() == 0 || s.minutes(w) == 0:
		return Say("{} no sooner", s.milestone().Name)
	}
	return Say("{} {}", s.milestone().Name, Briefly(s.by(m.Negated())))
}

// minutes is by how much a thing more wins, in whole minutes; 0 where there is no
// telling.
func (s Splits) minutes(w *split.Worth) sim.Time {
	if w == nil || w.Told() == 0 {
		return 0
	}
	return roundTo(millis(-w.Change.Mean.Value), sim.Minute)
}

// bestOf returns what wins most of one kind, beyond what luck explains.
func bestOf(u split.Under, kind split.Kind) *split.Worth {
	var list []*split.Worth
	for _, w := range u.List {
		if w.Kind == kind {
			list = append(list, w)
		}
	}
	return split.WorthMost(list)
}

// better says what a better order alone wins, held against one more person.
func (s Splits) better() Sentence {
	u := s.Worth
	order := s.minutes(u.Of(split.Better))
	one := max(s.minutes(u.Of(split.Person)), s.minutes(bestOf(u, split.Skilled)))
	switch {
	case order <= 0:
		return Say("No better order than {} was found.", s.under(u.Base))
	case s.Own.BestSplit().Order != "" && order > one:
		return Say("With {} the {} you have win {} on {}.", s.under(s.Own.BestSplit()), s.own(), Length(order), s.under(u.Base))
	case order > one && one > 0:
		return Say("A better order for the {} you have wins more: {} sooner than with {}.", s.own(), Length(order), s.under(u.Base))
	case order > one:
		return Say("A better order for the {} you have: {} sooner than with {}.", s.own(), Length(order), s.under(u.Base))
	}
	return Say("A better order alone: {} sooner than with {}.", Length(order), s.under(u.Base))
}

// leadTable has a row for each of some sizes.
func (s Splits) leadTable(sizes []*split.Size) Table {
	t := Table{Caption: "When each size reaches " + s.milestone().Name + " under its best split",
		Columns: []Column{{}, {Head: s.milestone().Name}, {Head: "best split"}, {Head: "than one fewer"}}, Spare: []int{3}}
	if s.Cold != nil && s.accounted() {
		t.Columns, t.Spare = append(t.Columns, Column{Head: "somebody too cold"}), []int{3, 4}
	}
	for i, size := range s.Sizes {
		if slices.Contains(sizes, size) {
			t.Rows = append(t.Rows, s.leadRow(i, size, len(t.Columns)))
		}
	}
	return t
}

func (s Splits) leadRow(i int, size *split.Size, columns int) []Sentence {
	best := size.BestSplit()
	if best == nil {
		return Cells(s.people(size.People), "cannot play")
	}
	row := Cells(s.people(size.People), s.when(best.Mean(s.Game.Milestone)), s.form(best.Form()), "")
	if c := s.change(i, split.Form{}); c != nil && c.Now.People == c.Fewer.People+1 {
		row[3] = s.versus(c.Diff)
	}
	if k := s.Cold[best]; columns > len(row) && k != nil {
		row = append(row, Say("{}", Share{Share: k.OverShare()}))
	}
	return row
}

// accounted reports whether there is an account of cold of any best split.
func (s Splits) accounted() bool {
	return slices.ContainsFunc(s.Sizes, func(z *split.Size) bool {
		best := z.BestSplit()
		return best != nil && s.Cold[best] != nil
	})
}

// tooCold says how often somebody is too cold under the best split of the team,
// and under the one where it is least often.
func (s Splits) tooCold() Sentence {
	size := s.Shown()
	if size == nil {
		return nil
	}
	best, least := size.BestSplit(), size.LeastOver(s.Cold)
	if least == nil {
		return nil
	}
	share := func(one *split.Split) Share { return Share{Share: s.Cold[one].OverShare(), Of: s.site().Many} }
	says := Say("Somebody too cold with the best split of {}: {}", size.People, share(best))
	if least != best && share(least).Write(People) != share(best).Write(People) {
		says = Say("{}; with {}: {}", says, s.under(least), share(least))
	}
	return sentenceEnd(says)
}

// laterShort says where more people are later.
func (s Splits) laterShort() Sentence {
	var items []Sentence
	for _, c := range s.Later() {
		if by := millis(c.Diff.Mean.Value); roundTo(by, sim.Minute) > 0 {
			with := Say(" with {}", s.form(c.Form))
			if s.warmer(c) {
				with = Say(", too cold less often")
			}
			items = append(items, Say("{} by {}{}", s.people(c.Now.People), Length(by), with))
		}
	}
	if len(items) == 0 {
		return nil
	}
	return listed("More people, and later", items)
}

// warmer reports whether this is what more people are later for: somebody is too cold in
// clearly fewer evenings with the best split of each.
func (s Splits) warmer(c *split.Change) bool {
	if c.Form != (split.Form{}) {
		return false
	}
	fewer, now := s.Cold[c.Fewer.BestSplit()], s.Cold[c.Now.BestSplit()]
	return fewer != nil && now != nil && now.OverShare().High < fewer.OverShare().Low
}

// leastBent says which split bends least over the cases.
func (s Splits) leastBent() Sentence {
	for _, b := range s.Bends {
		if b.Least >= 0 && (len(s.Bends) == 1 || b.Size == s.Shown()) {
			return Say("Whatever happens: {} by {} at the latest with {} (worst: {}).", s.milestone().Name,
				s.site().Came(b.Latest(b.Least)), s.under(b.Size.Splits[b.Least]), s.called(b.Worst[b.Least]))
		}
	}
	return nil
}

// called names a case in a sentence.
func (s Splits) called(i int) string {
	if s.Cases[i] == "" {
		return "as it stands"
	}
	return fmt.Sprintf("%q", s.Cases[i])
}

// worthMost says what else wins most.
func (s Splits) worthMost() Sentence {
	var items []Sentence
	for _, w := range s.sorted() {
		more := w.Kind != split.Better && w.Kind != split.Person && w.Kind != split.Skilled
		if by := s.minutes(w); more && by > 0 && len(items) < 2 {
			items = append(items, Say("{} {}", s.thing(w), Length(by)))
		}
	}
	if len(items) == 0 {
		return nil
	}
	return sentenceEnd(Say("Then: {}", Join(items, "; ")))
}
