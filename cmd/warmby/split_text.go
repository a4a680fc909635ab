package main

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/split"
	"warmby/sim/stats"
)

// text writes the splits for people.
func (s *splitting) text(width int) string {
	var b strings.Builder
	b.WriteString(wrap(s.d.Title, width, "", ""))
	b.WriteString(wrap(s.subtitle(), width, "", ""))
	for _, w := range s.warnings() {
		b.WriteString(wrap("Warning: "+w, width, "", "  "))
	}
	section := func(heading, body string) { section(&b, width, heading, body) }
	what := quoteWord(s.milestone().Name)
	section("In short", s.shortText(width))
	section("Team sizes: "+what+" under the best split of each (minutes:seconds since arrival)", s.sizesText(width))
	section(s.heading()+" under each kind of split ("+what+", minutes:seconds; ! later than with fewer people)", s.kindsText(width))
	if shown := s.shown(); shown != nil {
		section(fmt.Sprintf("%s at every milestone, %s (minutes:seconds since arrival)", s.heading(), countedPeople(shown.People)), s.milestonesText(shown, width))
		if len(s.sizes) > 1 {
			section(s.heading()+" at every milestone under the best split of each size (minutes:seconds since arrival)", s.milestonesBySize(width))
		}
		section("Cold, "+countedPeople(shown.People), s.coldText(shown, width))
		if best := shown.BestSplit(); best.Order == "" {
			bare := split.Team(s.game.Bare, shown.People)
			section(fmt.Sprintf("The best split for %s, to paste under \"orders\"", countedPeople(shown.People)),
				scenarios.OrderYAML(bare, split.OrderOf(bare, best.Drill), "best split", 2))
		}
	}
	for _, w := range s.worth {
		section(fmt.Sprintf("Worth to the %s of the file at %s under %s (minutes:seconds sooner, %s)", countedPeople(len(s.d.People)), what, s.under(w.base), s.intervalWords()), s.worthText(w.list, width))
	}
	section("What if: the split that bends least, "+what+" ("+s.measure()+", minutes:seconds)", s.bendsText(width))
	section("How to read it", s.methodText(width))
	section("Cautions", cautionsText(cautionsOfCases(s.cases), width))
	fmt.Fprintf(&b, "\nPlayed by: %s\n", s.repeat())
	return b.String()
}

func (s *splitting) milestone() sim.Milestone { return s.d.Milestones[s.game.Milestone] }

// countedPeople counts people.
func countedPeople(n int) string {
	if n == 1 {
		return "1 person"
	}
	return fmt.Sprintf("%d people", n)
}

// under names a split after "under".
func (s *splitting) under(one *split.Split) string {
	switch {
	case one.Order != "":
		return fmt.Sprintf("order %q", one.Order)
	case len(one.Drill.Groups) == 1:
		return "a split into one group found here"
	}
	return fmt.Sprintf("a split into %d groups found here", len(one.Drill.Groups))
}

func (s *splitting) subtitle() string {
	tried := 0
	for _, size := range s.sizes {
		tried += size.Tried
	}
	text := fmt.Sprintf("Milestone %q; %s, %s splits tried; played %s drills in search; %s",
		s.milestone().Name, counted(len(s.sizes), "team size"), grouped(int64(tried)), grouped(int64(s.game.Played())), s.flags.withRuns("of each that was chosen"))
	if s.flags.evaluations > 0 {
		text += fmt.Sprintf(" (at most %s in search)", grouped(int64(s.flags.evaluations)))
	}
	switch {
	case len(s.cases) > 1:
		text += fmt.Sprintf("; as it stands and %s", counted(len(s.cases)-1, "what-if"))
	case s.cases[0].WhatIf != "":
		text += fmt.Sprintf("; what if: %q", s.cases[0].WhatIf)
	}
	return text
}

// measure names what is told of a milestone.
func (s *splitting) measure() string {
	if s.flags.usual() {
		return "usual time"
	}
	return "mean"
}

func (s *splitting) heading() string { return sentenceCase(s.measure()) }

func (s *splitting) intervalWords() string {
	if s.flags.usual() {
		return onlyUsual
	}
	return "95 % interval of " + counted(s.flags.runs, "run")
}

func (s *splitting) warnings() []string {
	var list []string
	if s.flags.usual() {
		list = append(list, "usual values only: no run is drawn and no mishap happens, so that times flatter and there are no intervals")
	} else if few := stats.ShareOf(0, int64(s.flags.runs)).Warning; few != "" {
		list = append(list, few)
	}
	if !isDrawn(s.d) && !s.flags.usual() {
		list = append(list, "nothing in this scenario is left to luck: every run is the same, and intervals say nothing")
	}
	if s.least != nil {
		list = append(list, fmt.Sprintf("%s cannot play this drill: %s", countedPeople(s.least.People), firstCause(s.least.Why)))
	}
	for _, size := range s.sizes {
		if size.Best < 0 {
			list = append(list, fmt.Sprintf("%s cannot play this drill: %s", countedPeople(size.People), firstCause(size.Why)))
		}
		if one := size.SoonerThanBest(s.game.Milestone); one != nil {
			list = append(list, fmt.Sprintf("%s: the search chose %s, but %s is sooner on the runs below: let it play more drills (--evaluations)",
				countedPeople(size.People), s.under(size.BestSplit()), s.under(one)))
		}
		for _, one := range size.Splits {
			if one.Stopped > 0 {
				list = append(list, fmt.Sprintf("%s under %s came to a stop in %d of %d runs, which count as never", countedPeople(size.People), s.under(one), one.Stopped, s.flags.runs))
			}
		}
	}
	return list
}

// firstCause says the first reason why a drill cannot be played, and how many
// more there are.
func firstCause(err error) string {
	var n *sim.NeverError
	if !errors.As(err, &n) || len(n.Causes) == 0 {
		return fmt.Sprint(err)
	}
	text := causeLine(n.Causes[0])
	if more := len(n.Causes) - 1; more > 0 {
		text += fmt.Sprintf(" (and %d more)", more)
	}
	return text
}

// shortText says what the best split is, what the next person does, and where
// more people are later.
func (s *splitting) shortText(width int) string {
	var text string
	if s.own.BestSplit() != nil && slices.Contains(s.sizes, s.own) {
		text = s.soonestWords(s.own)
	} else {
		for i, size := range s.sizes { // the fewest and the most people asked for
			if i == 0 || i == len(s.sizes)-1 {
				text = strings.TrimSpace(text + " " + s.soonestWords(size))
			}
		}
	}
	var later []string
	wide := false // whether sizes lie farther apart than one person
	for i := range s.sizes {
		for _, form := range s.forms() {
			if c := s.changeAt(i, form); c.Later() {
				later = append(later, changeWords(c))
				wide = wide || c.Now.People > c.Fewer.People+1
			}
		}
	}
	for _, under := range s.worth[:1] {
		if w := split.WorthMost(under.list); w != nil {
			text += fmt.Sprintf(" Worth most to the %s of the file under %s: %s, %s sooner.", countedPeople(len(s.d.People)), s.under(under.base), worthWords(w), s.meanWords(w.Change.Mean.Negated()))
		}
	}
	for _, b := range s.bends {
		if b.Least >= 0 && (len(s.bends) == 1 || b.Size == s.own) {
			text += fmt.Sprintf(" What bends least over %s: %s, at the latest %s (%s).", counted(len(s.cases), "case"), s.under(b.Size.Splits[b.Least]), short(b.Latest(b.Least)), s.cases[b.Worst[b.Least]].Called())
		}
	}
	out := wrap(text, width, "  ", "  ")
	if shown := s.shown(); shown != nil {
		out += wrap(s.coldWords(shown), width, "  ", "  ")
	}
	if len(later) > 0 {
		who := "One more person makes it later here: "
		if wide {
			who = "More people make it later here: "
		}
		if more := len(later) - mostLater; more > 0 {
			later = append(later[:mostLater], fmt.Sprintf("and %d more, marked ! below", more))
		}
		out += wrap(who+strings.Join(later, "; ")+
			"; see \"More is not always sooner\" in warmby help scenario.", width, "  ", "  ")
	}
	return out
}

// soonestWords says under which split a size is soonest.
func (s *splitting) soonestWords(size *split.Size) string {
	people, milestone := sentenceCase(countedPeople(size.People)), quoteWord(s.milestone().Name)
	best := size.BestSplit()
	if best == nil {
		return fmt.Sprintf("%s cannot play this drill.", people)
	}
	if sooner := size.SoonerThanBest(s.game.Milestone); sooner != nil {
		best = sooner // on the runs that tell; the search chose on others
	}
	if best.Never(s.game.Milestone) {
		return fmt.Sprintf("%s never have %s, in any run, under any split found.", people, milestone)
	}
	have := "have"
	if size.People == 1 {
		have = "has"
	}
	return fmt.Sprintf("%s %s %s soonest under %s: %s %s.", people, have, milestone, s.under(best), s.measure(), s.meanWords(best.Mean(s.game.Milestone)))
}

// mostLater is how many cases of more people being later are told at length.
const mostLater = 4

func changeWords(c *split.Change) string {
	kind := "the best split found"
	if c.Form != (split.Form{}) {
		kind = formWords(c.Form)
	}
	was, is := c.Was, c.Is
	text := fmt.Sprintf("under %s %d take %s and %d take %s, %s later", kind, c.Fewer.People, short(was), c.Now.People, short(is), short(wholeMillis(c.Diff.Mean.Value)))
	if c.Diff.Mean.Runs > 1 {
		text += fmt.Sprintf(" (%s, %s)", shortRange(c.Diff.Mean), counted(int(c.Diff.Mean.Runs), "run"))
	}
	return text
}

func (s *splitting) meanWords(m stats.Mean) string {
	if !m.OK() {
		return "none (" + m.Why + ")"
	}
	if s.flags.usual() {
		return short(wholeMillis(m.Value))
	}
	return fmt.Sprintf("%s (%s)", short(wholeMillis(m.Value)), shortRange(m))
}

func (s *splitting) sizesText(width int) string {
	rows := [][]string{{"people", "best split", s.measure(), "95 % interval", "8 of 10 by", "than the row above"}}
	for i, size := range s.sizes {
		best := size.BestSplit()
		if best == nil {
			rows = append(rows, []string{fmt.Sprint(size.People), "none plays"})
			continue
		}
		mean, interval := "none", ""
		if m := best.Mean(s.game.Milestone); m.OK() {
			mean, interval = short(wholeMillis(m.Value)), shortRange(m)
		}
		versus := ""
		if c := s.changeAt(i, split.Form{}); c != nil {
			versus = changeCell(c.Diff)
		}
		rows = append(rows, []string{fmt.Sprint(size.People), kindOf(best), mean, interval, short(best.Quantile(s.game.Milestone, 0.8).Value), versus})
	}
	if s.flags.usual() { // no interval, no odds
		for i, row := range rows {
			if len(row) > 2 {
				rows[i] = append(row[:3:3], row[5])
			}
		}
		return tableWithin(width, 1, "  ", rows, 0, 2)
	}
	return tableWithin(width, 1, "  ", rows, 0, 2, 4)
}

// changeCell writes a difference in words, with its interval.
func changeCell(d stats.Difference) string {
	switch {
	case !d.Mean.OK():
		return "no mean of it"
	case split.Ahead(d) > 0:
		return "LATER by " + short(wholeMillis(d.Mean.Value)) + inBrackets(d.Mean)
	case split.Ahead(d) < 0:
		return "sooner by " + short(-wholeMillis(d.Mean.Value)) + inBrackets(d.Mean.Negated())
	case d.Mean.Value == 0 && (d.Mean.Runs == 1 || d.Mean.SD == 0):
		return "the same"
	case d.Mean.Runs < stats.FewRuns:
		return "too few runs"
	}
	return "no telling"
}

// inBrackets writes the interval of a mean behind it; nothing for a single run.
func inBrackets(m stats.Mean) string {
	if m.Runs == 1 {
		return ""
	}
	return " (" + shortRange(m) + ")"
}

// kindsText writes the mean of every kind of split at every size.
func (s *splitting) kindsText(width int) string {
	forms := split.Forms(s.sizes)
	rows := [][]string{{"people"}}
	right := []int{0}
	for k, form := range forms {
		rows[0] = append(rows[0], formWords(form))
		right = append(right, k+1)
	}
	for i, size := range s.sizes {
		row := []string{fmt.Sprint(size.People)}
		for _, form := range forms {
			cell := "-"
			if one := size.Of(form); one != nil {
				cell = "none"
				if m := one.Mean(s.game.Milestone); m.OK() {
					cell = short(wholeMillis(m.Value))
				}
				if c := s.changeAt(i, form); c.Later() {
					cell = "! " + cell
				}
			}
			row = append(row, cell)
		}
		rows = append(rows, row)
	}
	return tableWithin(width, 1, "  ", rows, right...)
}

// shown returns the size that is told of at length: the team's own, or else the
// largest of those asked for that plays; nil when none does.
func (s *splitting) shown() *split.Size {
	var last *split.Size
	for _, size := range s.sizes {
		if size == s.own {
			return size
		}
		if size.Best >= 0 {
			last = size
		}
	}
	return last
}

// milestonesBySize writes every milestone under the best split of each size.
func (s *splitting) milestonesBySize(width int) string {
	rows := [][]string{{"people"}}
	right := []int{0}
	for k, m := range s.d.Milestones {
		rows[0], right = append(rows[0], m.Name), append(right, k+1)
	}
	for _, size := range s.sizes {
		best := size.BestSplit()
		if best == nil {
			continue
		}
		row := []string{fmt.Sprint(size.People)}
		for m := range s.d.Milestones {
			row = append(row, shortOrNone(best.Mean(m)))
		}
		rows = append(rows, row)
	}
	return tableWithin(width, 1, "  ", rows, right...)
}

// shortOrNone writes a mean; "none" where some run never comes.
func shortOrNone(m stats.Mean) string {
	if !m.OK() {
		return "none"
	}
	return short(wholeMillis(m.Value))
}

// milestonesText writes the mean of every milestone with a team of one size: what
// is soonest at the one need not be at the others.
func (s *splitting) milestonesText(size *split.Size, width int) string {
	rows := [][]string{{""}}
	right := []int{}
	for k, one := range size.Splits {
		kind := kindOf(one)
		if k == size.Best {
			kind += " (best)"
		}
		rows[0] = append(rows[0], kind)
		right = append(right, k+1)
	}
	for m, milestone := range s.d.Milestones {
		row := []string{milestone.Name}
		for _, one := range size.Splits {
			row = append(row, shortOrNone(one.Mean(m)))
		}
		rows = append(rows, row)
	}
	return tableWithin(width, 1, "  ", rows, right...) +
		wrap(fmt.Sprintf("Best is what is soonest at %s; the other milestones pay for it where they are later.", quoteWord(s.milestone().Name)), width, "  ", "  ")
}

// worthText lists what wins or loses, most first, and names the rest.
func (s *splitting) worthText(worth []*split.Worth, width int) string {
	told := [][]string{}
	var rest []string
	list := slices.Clone(worth)
	slices.SortStableFunc(list, func(a, b *split.Worth) int { return cmp.Compare(a.Change.Mean.Value, b.Change.Mean.Value) })
	for _, w := range list {
		switch mean := w.Change.Mean; {
		case !mean.OK():
			rest = append(rest, worthWords(w)+" ("+mean.Why+")")
		case w.Told() < 0:
			told = append(told, []string{worthWords(w), short(-wholeMillis(mean.Value)), rangeOrNone(mean.Negated())})
		case w.Told() > 0:
			told = append(told, []string{worthWords(w), "-" + short(wholeMillis(mean.Value)), strings.TrimSpace(rangeOrNone(mean.Negated()) + "  LATER")})
		default:
			rest = append(rest, worthWords(w))
		}
	}
	out := table("  ", told, 1)
	if len(rest) > 0 {
		text := fmt.Sprintf("Cannot be told from nothing in %s: ", counted(s.flags.runs, "run"))
		if s.flags.runs < stats.FewRuns {
			text = fmt.Sprintf("Too few runs to tell (%d, of at least %d): ", s.flags.runs, stats.FewRuns)
		}
		if s.flags.usual() {
			text = "Changes nothing with usual values: "
		}
		out += wrap(text+strings.Join(rest, "; ")+".", width, "  ", "    ")
	}
	return out
}

func rangeOrNone(m stats.Mean) string {
	if m.Runs == 1 {
		return ""
	}
	return shortRange(m)
}

func worthWords(w *split.Worth) string {
	switch w.Kind {
	case split.Better:
		return "a better order alone"
	case split.Person, split.Skilled:
		text := "one more person"
		if w.What != "" {
			text += fmt.Sprintf(" with the skill %q", w.What)
		}
		if w.Where != sim.Everyone {
			text += fmt.Sprintf(" (group %q)", w.Where)
		}
		return text
	case split.Learned:
		return fmt.Sprintf("the skill %q for %s as well", w.What, w.Where)
	case split.Tool, split.Stove:
		return "one more " + w.What
	}
	return fmt.Sprintf("%s on top of %s", w.What, w.Where)
}

func (s *splitting) methodText(width int) string {
	text := "A team of fewer is the first of the roster, so those who must be there stand first; those beyond it are copies of the last one without skills; a lookout of whom nobody is left is not stood. " +
		"Splits are made from the orders of the file: tasks in the sequence in which they are called with usual values, in chains of one after the other or by milestone, dealt out by the work in them, " +
		"people by skills and by work, every group lending its people to all; under common luck losers are dropped early, and single chains and people are moved about the winner. A larger team also starts from what the smaller one before it does best. " +
		"Then the search of warmby improve looks for a better order from all of these on. It is a search, not a proof. " +
		s.runsWords() + "What one thing more is worth is what it wins under an order that is good with it, against a better order alone. One more person has usual pace and no skill but the one named, and joins the group in which that wins most; one more tool or stove comes with the item that brings its kind."
	return wrap(text, width, "  ", "  ")
}

// runsWords says what the figures come from.
func (s *splitting) runsWords() string {
	text := fmt.Sprintf("What is told comes from run 0 to %d of seed %d, on which nothing was chosen. ", s.flags.runs-1, s.flags.seed) +
		"Intervals hold with 95 %, those of what things are worth under one split all together. "
	if s.flags.usual() {
		text = "Everything is played once, with usual values: what is chosen and what is told come from the same play, and luck may turn it round. "
	}
	if s.flags.evaluations > 0 {
		text += "The most drills that the search may play are shared out evenly among team sizes and worth, so that a size may have another answer in other company. "
	}
	return text
}
