package main

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"warmby/sim"
	"warmby/sim/cold"
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
	section := func(heading, body string) {
		if body != "" {
			fmt.Fprintf(&b, "\n%s\n%s", heading, body)
		}
	}
	what := quoteWord(s.milestone().Name)
	section("In short", s.shortText(width))
	section("Team sizes: "+what+" under the best split of each (minutes:seconds since arrival)", s.sizesText(width))
	section("Mean under each kind of split ("+what+", minutes:seconds; ! later than with fewer people)", s.kindsText(width))
	section(fmt.Sprintf("Mean at every milestone, %s (minutes:seconds since arrival)", countedPeople(len(s.d.People))), s.milestonesText(width))
	if best := bestOf(s.own); best.Order == "" {
		section(fmt.Sprintf("The best split for %s, to paste under \"orders\"", countedPeople(len(s.d.People))), orderYAML("best split", best.Drill, width))
	}
	for _, w := range s.worth {
		section(fmt.Sprintf("Worth at %s under %s (minutes:seconds sooner, 95 %% interval)", what, s.under(w.base)), s.worthText(w.list, width))
	}
	section("How to read it", s.methodText(width))
	section("Cautions", cautionsText(cold.Cautions(s.d, nil), width))
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
	case len(one.Drill.Details) == 1:
		return "a split into one detail found here"
	}
	return fmt.Sprintf("a split into %d details found here", len(one.Drill.Details))
}

func (s *splitting) subtitle() string {
	tried := 0
	for _, size := range s.sizes {
		tried += size.Tried
	}
	text := fmt.Sprintf("Milestone %q; %s, %s splits tried; %s of each that was chosen, seed %d",
		s.milestone().Name, counted(len(s.sizes), "team size"), grouped(int64(tried)), counted(s.flags.runs, "run"), s.flags.seed)
	if s.flags.whatIf != "" {
		text += fmt.Sprintf("; what if: %q", s.flags.whatIf)
	}
	return text
}

func (s *splitting) warnings() []string {
	var list []string
	if few := stats.ShareOf(0, int64(s.flags.runs)).Warning; few != "" {
		list = append(list, few)
	}
	if !isDrawn(s.d) {
		list = append(list, "nothing in this scenario is left to luck: every run is the same, and intervals say nothing")
	}
	if s.least != nil {
		list = append(list, fmt.Sprintf("%s cannot play this drill: %s", countedPeople(s.least.People), firstCause(s.least.Why)))
	}
	for _, size := range s.sizes {
		if size.Best < 0 {
			list = append(list, fmt.Sprintf("%s cannot play this drill: %s", countedPeople(size.People), firstCause(size.Why)))
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
	m := s.game.Milestone
	best := bestOf(s.own)
	text := fmt.Sprintf("%s have %s soonest under %s: mean %s.", sentenceCase(countedPeople(len(s.d.People))), quoteWord(s.milestone().Name), s.under(best), meanWords(splitMean(best, m)))
	var later []string
	for i := range s.sizes {
		for _, kind := range append([]string{""}, s.kinds()...) {
			if c := s.changeAt(i, kind); c.later() {
				later = append(later, c.words())
			}
		}
	}
	for _, under := range s.worth[:1] {
		if w := most(under.list); w != nil {
			text += fmt.Sprintf(" Worth most under %s: %s, %s sooner.", s.under(under.base), worthWords(w), meanWords(negated(w.Change.Mean)))
		}
	}
	out := wrap(text, width, "  ", "  ")
	if len(later) > 0 {
		out += wrap("More people can make it later: they take up work, tools or places in a sequence that was good for fewer (Graham's anomaly). Here it is so for: "+
			strings.Join(later, "; ")+".", width, "  ", "  ")
	}
	return out
}

func (c *change) words() string {
	kind := "the best split found"
	if c.kind != "" {
		kind = c.kind
	}
	return fmt.Sprintf("%s, %s %s later than %d", kind, countedPeople(c.now.People), sim.Clock(wholeMillis(c.diff.Mean.Value)), c.fewer.People)
}

func meanWords(m stats.Mean) string {
	if !m.OK() {
		return "none (" + m.Why + ")"
	}
	return fmt.Sprintf("%s (%s)", short(wholeMillis(m.Value)), shortRange(m))
}

func (s *splitting) sizesText(width int) string {
	rows := [][]string{{"people", "best split", "mean", "95 % interval", "8 of 10 by", "than the row above"}}
	for i, size := range s.sizes {
		best := bestOf(size)
		if best == nil {
			rows = append(rows, []string{fmt.Sprint(size.People), "none plays"})
			continue
		}
		mean, interval := "none", ""
		if m := splitMean(best, s.game.Milestone); m.OK() {
			mean, interval = short(wholeMillis(m.Value)), shortRange(m)
		}
		versus := ""
		if c := s.changeAt(i, ""); c != nil {
			versus = changeCell(c.diff)
		}
		rows = append(rows, []string{fmt.Sprint(size.People), kindOf(best), mean, interval, short(eightOfTen(best, s.game.Milestone).Value), versus})
	}
	return table("  ", rows, 0, 2, 4)
}

// changeCell writes a difference in words, with its interval.
func changeCell(d stats.Difference) string {
	switch {
	case !d.Mean.OK():
		return "no mean of it"
	case d.Ahead() > 0:
		return fmt.Sprintf("LATER by %s (%s)", short(wholeMillis(d.Mean.Value)), shortRange(d.Mean))
	case d.Ahead() < 0:
		return fmt.Sprintf("sooner by %s (%s)", short(-wholeMillis(d.Mean.Value)), shortRange(negated(d.Mean)))
	}
	return "no telling"
}

// kindsText writes the mean of every kind of split at every size.
func (s *splitting) kindsText(width int) string {
	kinds := s.kinds()
	rows := [][]string{append([]string{"people"}, kinds...)}
	right := []int{0}
	for k := range kinds {
		right = append(right, k+1)
	}
	for i, size := range s.sizes {
		row := []string{fmt.Sprint(size.People)}
		for _, kind := range kinds {
			cell := "-"
			if one := ofKind(size, kind); one != nil {
				cell = "none"
				if m := splitMean(one, s.game.Milestone); m.OK() {
					cell = short(wholeMillis(m.Value))
				}
				if c := s.changeAt(i, kind); c.later() {
					cell = "! " + cell
				}
			}
			row = append(row, cell)
		}
		rows = append(rows, row)
	}
	return table("  ", rows, right...)
}

// milestonesText writes the mean of every milestone with the whole team: what is
// soonest at the one need not be at the others.
func (s *splitting) milestonesText(width int) string {
	rows := [][]string{{""}}
	right := []int{}
	for k, one := range s.own.Splits {
		kind := kindOf(one)
		if k == s.own.Best {
			kind += " (best)"
		}
		rows[0] = append(rows[0], kind)
		right = append(right, k+1)
	}
	for m, milestone := range s.d.Milestones {
		row := []string{milestone.Name}
		for _, one := range s.own.Splits {
			cell := "none"
			if mean := splitMean(one, m); mean.OK() {
				cell = short(wholeMillis(mean.Value))
			}
			row = append(row, cell)
		}
		rows = append(rows, row)
	}
	return table("  ", rows, right...) +
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
		case mean.Runs >= stats.FewRuns && mean.High < 0:
			told = append(told, []string{worthWords(w), short(-wholeMillis(mean.Value)), shortRange(negated(mean))})
		case mean.Runs >= stats.FewRuns && mean.Low > 0:
			told = append(told, []string{worthWords(w), "-" + short(wholeMillis(mean.Value)), shortRange(negated(mean)) + "  LATER"})
		default:
			rest = append(rest, worthWords(w))
		}
	}
	out := table("  ", told, 1)
	if len(rest) > 0 {
		text := fmt.Sprintf("Cannot be told from nothing in %s: ", counted(s.flags.runs, "run"))
		out += wrap(text+strings.Join(rest, "; ")+".", width, "  ", "    ")
	}
	return out
}

// most returns what wins most, beyond what luck explains; nil for nothing.
func most(list []*split.Worth) *split.Worth {
	var best *split.Worth
	for _, w := range list {
		if mean := w.Change.Mean; mean.OK() && mean.Runs >= stats.FewRuns && mean.High < 0 && (best == nil || mean.Value < best.Change.Mean.Value) {
			best = w
		}
	}
	return best
}

func worthWords(w *split.Worth) string {
	switch w.Kind {
	case split.Person, split.Skilled:
		text := "one more person"
		if w.What != "" {
			text += fmt.Sprintf(" with the skill %q", w.What)
		}
		if w.Where != sim.Everyone {
			text += fmt.Sprintf(" (detail %q)", w.Where)
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
		"people by skills and by work, every detail lending its people to all; under common luck losers are dropped early, and single chains and people are moved about the winner. A larger team also starts from what the smaller one before it does best. " +
		"It is a search among simple splits, not a proof: a better order may be found by warmby improve. " +
		fmt.Sprintf("What is told comes from run 0 to %d of seed %d, on which nothing was chosen. ", s.flags.runs-1, s.flags.seed) +
		"Intervals hold with 95 %, those of what things are worth under one split all together. A split that was searched for is cut to the people, tools and loads that there are: one thing more may well make it later, and less under an order that is not. One more person has usual pace and no skill but the one named, and joins the detail in which that wins most; one more tool or stove comes with the item that brings its kind."
	return wrap(text, width, "  ", "  ")
}
