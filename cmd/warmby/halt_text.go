package main

import (
	"fmt"
	"math"
	"strings"
	"time"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/stats"
)

// text writes one page for people.
func (h *halting) text(width int, among *haltings) string {
	var b strings.Builder
	b.WriteString(wrap(h.d.Title, width, "", ""))
	b.WriteString(wrap(h.subtitle(), width, "", ""))
	for _, w := range h.warnings() {
		b.WriteString(wrap("Warning: "+w, width, "", "  "))
	}
	section := func(heading, body string) { section(&b, width, heading, body) }
	section("In short", wrap(strings.Join(h.sentences(), " "), width, "  ", "  "))
	if among != nil {
		section("Latest arrival by case and order, "+quoteWord(h.asked())+" "+targetWords(h.d.Milestones[h.Milestone])+" ("+h.often()+")", among.text(width))
	}
	section(h.tableHeading(among != nil), h.tableText(width))
	section("How to read it", h.methodText(width))
	section("Cautions", cautionsText(h.cautions, width))
	fmt.Fprintf(&b, "\nPlayed by: %s\n", h.repeat())
	return b.String()
}

func (h *halting) subtitle() string {
	parts := []string{"Tasks in file order"}
	if h.d.Order != "" {
		parts[0] = fmt.Sprintf("Order %q", h.d.Order)
	}
	if h.in.WhatIf != "" {
		parts = append(parts, fmt.Sprintf("what if: %q", h.in.WhatIf))
	}
	tried := counted(len(h.arrivals), "arrival")
	parts = append(parts, fmt.Sprintf("%s tried, from %s to %s", tried, h.when(0), h.when(len(h.arrivals)-1)),
		h.runsWords(), fmt.Sprintf("played %s drills", grouped(int64(h.played))),
		"the file's own arrival "+h.d.Site.Arrival.Format("Mon 2 Jan 2006 15:04 -07:00"))
	return strings.Join(parts, "; ")
}

// when writes an arrival for people, with its day when that is not the file's.
func (h *halting) when(i int) string {
	at, own := h.arrivals[i], h.d.Site.Arrival
	if at.YearDay() != own.YearDay() {
		return at.Format("Mon ") + h.clock(i)
	}
	return h.clock(i)
}

// warnings returns what should keep readers from leaning on the figures.
func (h *halting) warnings() []string {
	var list []string
	if h.runs == 0 {
		list = append(list, "usual values only: no run is drawn and no mishap happens, so that every milestone is in time or not, without odds or interval")
	} else if few := stats.ShareOf(0, int64(h.runs)).Warning; few != "" {
		list = append(list, few)
	}
	if h.runs < h.flags.runs {
		list = append(list, fmt.Sprintf("--evaluations %d leaves %s for each arrival rather than %d: intervals are wider", h.flags.evaluations, counted(h.runs, "run"), h.flags.runs))
	}
	if !isDrawn(h.d) && h.runs > 0 {
		list = append(list, "nothing in this scenario is left to luck: every run is the same, and intervals say nothing")
	}
	for i, p := range h.Points {
		if p.Stopped > 0 {
			list = append(list, fmt.Sprintf("arriving at %s it came to a stop in %d of %d runs; they count as not in time", h.when(i), p.Stopped, h.runs))
		}
	}
	if m := h.d.Milestones[h.Milestone]; !onTheClock(m) {
		list = append(list, fmt.Sprintf("%q is asked for by %s, which counts from arrival: it moves with the halt, and only light and weather tell one halt from another", m.Name, m.ByText))
	}
	return list
}

// onTheClock reports whether a target stays where it is on the clock.
func onTheClock(m sim.Milestone) bool { return m.ByText == "dark" || strings.Contains(m.ByText, ":") }

// oddsInWords writes odds as people say them: "9 of 10".
func oddsInWords(odds float64) string {
	for _, of := range []float64{10, 4, 20, 100, 1000} {
		if n := odds * of; math.Abs(n-math.Round(n)) < 1e-9 {
			return fmt.Sprintf("%.0f of %.0f", n, of)
		}
	}
	return fmt.Sprintf("%g of 100", decimals(100*odds))
}

// runsWords says how many runs there were at each arrival.
func (h *halting) runsWords() string {
	f := h.flags.trialFlags
	f.runs = h.runs
	return f.withRuns("of each")
}

func (h *halting) tableHeading(among bool) string {
	text := "In time in so many of 100 " + occasions(h.d) + " (beside it the 95 % interval)"
	if h.runs == 0 {
		text = "In time with usual values"
	}
	if among {
		text += ", " + h.in.Called() + ", " + h.orderWords()
	}
	return text
}

// often says how often it must be in time.
func (h *halting) often() string {
	if h.runs == 0 {
		return "with usual values"
	}
	return oddsInWords(h.Odds) + " " + occasions(h.d)
}

func (h *halting) orderWords() string {
	if h.d.Order == "" {
		return "tasks in file order"
	}
	return fmt.Sprintf("order %q", h.d.Order)
}

// act is what people do at the arrival: they halt, or begin the morning.
func (h *halting) act() string {
	if occasions(h.d) == mornings {
		return "begin"
	}
	return "halt"
}

// shortOf writes a share that falls short of the odds; counted out where it would
// be rounded up to them.
func (h *halting) shortOf(s stats.Share, many string) string {
	if math.Round(100*s.Value) >= 100*h.Odds {
		return fmt.Sprintf("in only %d of %d (%s)", s.Count, s.Runs, percentRange(s))
	}
	return inHundred(s, many)
}

// sentences says when to halt, how sure that is, and what keeps it from being
// simple.
func (h *halting) sentences() []string {
	many, m := occasions(h.d), h.d.Milestones[h.Milestone]
	asked := fmt.Sprintf("%s %s", quoteWord(m.Name), targetWords(m))
	at := h.Latest()
	if at < 0 {
		if h.runs == 0 {
			return []string{fmt.Sprintf("With usual values %s is in time at none of the arrivals tried.", asked), sentenceCase(h.act()) + " earlier still (--from), or change the order or the team."}
		}
		best := h.Best()
		if share := *h.Points[best].OnTime[h.Milestone]; share.Count > 0 {
			return []string{fmt.Sprintf("None of the arrivals tried has %s in %s %s. The best of them is %s: %s.",
				asked, oddsInWords(h.Odds), many, h.when(best), h.shortOf(share, many)),
				sentenceCase(h.act()) + " earlier still (--from), ask for less (--odds), or change the order or the team."}
		}
		out := fmt.Sprintf("At none of the arrivals tried is %s in time, in any of %s.", asked, counted(h.runs, "run"))
		switch by := h.Points[0].Drill.Milestones[h.Milestone].By; {
		case m.ByText == "dark" && by <= 0:
			return []string{out, "It is dark already at the first of them: change the target."}
		case !onTheClock(m):
			return []string{out, "The target counts from the arrival, and moves with it: change the order or the team."}
		}
		return []string{out, sentenceCase(h.act()) + " earlier still (--from), or change the order or the team."}
	}
	if h.runs == 0 {
		out := []string{fmt.Sprintf("With usual values %s is in time up to an arrival at %s.", asked, h.when(at))}
		if at+1 == len(h.arrivals) {
			out = append(out, "It is the latest arrival tried: --to tries later ones.")
		}
		return append(out, "That is not a matter of odds: --runs 1000 tells in how many "+many+" it holds.")
	}
	share := *h.Points[at].OnTime[h.Milestone]
	out := []string{fmt.Sprintf("%s by %s for %s %s with %s: it is in time %s.", sentenceCase(h.act()), h.when(at), oddsInWords(h.Odds), many, asked, inHundred(share, many))}
	switch sure := h.LatestSure(); {
	case sure == at:
		out = append(out, "The lower end of the interval is enough as well.")
	case sure >= 0:
		out = append(out, fmt.Sprintf("To be sure of it, the lower end of the interval too, %s by %s.", h.act(), h.when(sure)))
	default:
		out = append(out, "The lower end of the interval is not enough at any arrival tried: more --runs tell more.")
	}
	if at+1 < len(h.arrivals) {
		next := *h.Points[at+1].OnTime[h.Milestone]
		out = append(out, fmt.Sprintf("At %s, the next one tried, it is %s.", h.when(at+1), h.shortOf(next, many)))
		if h.step > time.Minute {
			out = append(out, fmt.Sprintf("For the minute: --from %s --to %s --step 1min.", h.arrivals[at].Format(clockLayout), h.arrivals[at+1].Format(clockLayout)))
		}
	} else {
		out = append(out, "It is the latest arrival tried: --to tries later ones.")
	}
	var not []string
	for _, i := range h.MissedBefore(at) {
		not = append(not, h.when(i))
	}
	if len(not) > 0 {
		out = append(out, fmt.Sprintf("But earlier is not always better: the odds are not met at %s.", list(not)))
	}
	if c := h.Points[at].Coldest; c != nil {
		s := fmt.Sprintf("Coldest then, with usual values: %s, %.0f of the %d Wh/m2 allowed.", c.Name, c.Peak, cold.HeatLimit)
		if c.Peak >= cold.HeatLimit {
			s = fmt.Sprintf("Coldest then, with usual values: %s, %.0f Wh/m2, which is over the limit of %d: see warmby rehearse.", c.Name, c.Peak, cold.HeatLimit)
		}
		out = append(out, s)
	}
	return out
}

func quoteWord(name string) string { return fmt.Sprintf("%q", name) }

// targetWords writes a target after the name of its milestone: "by dark".
func targetWords(m sim.Milestone) string {
	if onTheClock(m) {
		return "by " + m.ByText
	}
	return "within " + m.ByText
}

// tableText writes a row for each arrival: the milestone asked about first.
func (h *halting) tableText(width int) string {
	columns := []int{h.Milestone}
	for i, m := range h.d.Milestones {
		if i != h.Milestone && m.ByText != "" {
			columns = append(columns, i)
		}
	}
	rows := h.headings(columns)
	right := []int{}
	for k := range columns {
		right = append(right, 2+k)
	}
	left := false // whether the row before was left out
	for i := range h.Points {
		if h.leavesOut(i, columns) {
			if left = true; !h.leavesOut(i-1, columns) {
				rows = append(rows, []string{"", "..."})
			}
			continue
		}
		rows = append(rows, h.row(i, columns))
	}
	explained := "Target below each name. File: the arrival of the file. Coldest: with usual values, the most heat lost in Wh/m2, of " +
		fmt.Sprintf("%d allowed; ! marks more.", cold.HeatLimit)
	if h.Latest() >= 0 {
		mark := "->: the latest that meets the odds. "
		if h.runs == 0 {
			mark = "->: the latest that is in time. "
		}
		explained = mark + explained
	}
	if left {
		explained += " Left out (...): arrivals at which no share on the clock differs from those beside it; --json has all."
	}
	return tableWithin(width, 1, "  ", rows, right...) + wrap(explained, width, "  ", "  ")
}

func (h *halting) row(i int, columns []int) []string {
	mark := ""
	switch {
	case i == h.Latest():
		mark = "->"
	case h.arrivals[i].Equal(h.d.Site.Arrival):
		mark = "file"
	}
	row := []string{mark, h.when(i)}
	for _, m := range columns {
		row = append(row, h.cell(*h.Points[i].OnTime[m]))
	}
	return append(row, coldestCell(h.Points[i].Coldest))
}

// leavesOut reports whether an arrival tells nothing that those before and
// after it do not.
func (h *halting) leavesOut(i int, columns []int) bool {
	if i < 1 || i+1 >= len(h.Points) || h.row(i, nil)[0] != "" {
		return false
	}
	for _, m := range columns {
		cell := h.cell(*h.Points[i].OnTime[m])
		same := h.cell(*h.Points[i-1].OnTime[m]) == cell && h.cell(*h.Points[i+1].OnTime[m]) == cell
		if !same && (m == h.Milestone || onTheClock(h.d.Milestones[m])) {
			return false
		}
	}
	return true
}

// headings writes names of milestones one word below the other, so that
// columns stay narrow, and targets under them.
func (h *halting) headings(columns []int) [][]string {
	texts := [][]string{{""}, {h.act() + " at"}}
	for _, m := range columns {
		words := append(strings.Fields(h.d.Milestones[m].Name), h.d.Milestones[m].ByText)
		texts = append(texts, words)
	}
	texts = append(texts, []string{"coldest"})
	deep := 0
	for _, words := range texts {
		deep = max(deep, len(words))
	}
	rows := make([][]string, deep)
	for _, words := range texts {
		for k := range rows {
			word := ""
			if j := k - (deep - len(words)); j >= 0 {
				word = words[j]
			}
			rows[k] = append(rows[k], word)
		}
	}
	return rows
}

// cell writes a share of a hundred with its interval; with usual values only,
// whether it is in time.
func (h *halting) cell(s stats.Share) string {
	switch {
	case h.runs > 0:
	case s.Count > 0:
		return "in time"
	default:
		return "late"
	}
	return fmt.Sprintf("%s %s-%s", hundredths(s.Value), hundredths(s.Low), hundredths(s.High))
}

func coldestCell(c *cold.Person) string {
	if c == nil {
		return "not known"
	}
	cell := fmt.Sprintf("%s %.0f", c.Name, c.Peak)
	if c.Peak >= cold.HeatLimit {
		cell += " !"
	}
	return cell
}

func (h *halting) methodText(width int) string {
	text := "Only the arrival moves. Weather rows keep their clock times, and before the first of them the first holds; dark, and targets such as 15:00, stay on the clock, " +
		"so that a halt after the target is too late. What counts from arrival moves with it: targets such as 100 min, those who come behind, lookouts. " +
		h.luckWords() +
		"It is foretold from lengths in a file: halt sooner when the team is tired, or the place is not found at once."
	return wrap(text, width, "  ", "  ")
}

// luckWords says what luck the arrivals met.
func (h *halting) luckWords() string {
	if h.runs == 0 {
		return "Every arrival is played once, with usual values. "
	}
	return fmt.Sprintf("Run 0 to %d of seed %d: all arrivals meet the same lengths, mishaps and weather cases. ", h.runs-1, h.flags.seed) +
		"The halt is chosen by the share itself, not by an end of its interval; each interval holds with 95 % for one arrival at a time (Wilson's, or the exact one for rare shares). "
}
