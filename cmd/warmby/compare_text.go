package main

import (
	"fmt"
	"strings"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// text writes a comparison for people.
func (c *comparison) text(width int) string {
	var b strings.Builder
	b.WriteString(wrap(c.d.Title, width, "", ""))
	b.WriteString(wrap(c.subtitle(), width, "", ""))
	for _, w := range c.warnings() {
		b.WriteString(wrap("Warning: "+w, width, "", "  "))
	}
	section := func(heading, body string) { section(&b, width, heading, body) }
	section("In short", c.shortText(c.asIs, width)+wrap(c.coldSentence(), width, "  ", "    "))
	section("When: "+whenHeading(c.d), c.whenText(c.asIs, width))
	section("Cold", c.coldText(c.asIs, width))
	for _, w := range c.whatIfs {
		if w.never != "" {
			continue // among the warnings
		}
		section(fmt.Sprintf("What if: %s", w.whatIf), c.shortText(w, width))
		section(fmt.Sprintf("What if: %s. Later than as it is (minutes:seconds, under each its 95 %% interval)", w.whatIf), c.changeText(w, width))
		section(fmt.Sprintf("What if: %s. When: %s", w.whatIf, whenHeading(c.d)), c.whenText(w, width))
		section(fmt.Sprintf("What if: %s. Cold", w.whatIf), c.coldText(w, width))
	}
	section("What can wait: sooner without it (minutes:seconds, under each its 95 % interval)", c.canWaitText(width))
	section("What moves it", c.movesText(width))
	section("How to read it", c.methodText(width))
	section("Cautions", cautionsText(c.cautions(), width))
	fmt.Fprintf(&b, "\nPlayed by: %s\n", c.repeat())
	return b.String()
}

func (c *comparison) subtitle() string {
	orders := "Tasks in file order"
	switch n := len(c.asIs.orders); {
	case n > 1:
		orders = fmt.Sprintf("%d orders under the same luck", n)
	case c.asIs.orders[0] != "":
		orders = fmt.Sprintf("Order %q", c.asIs.orders[0])
	}
	s := fmt.Sprintf("%s; %s each, seed %d", orders, counted(c.flags.runs, "run"), c.flags.seed)
	if len(c.asIs.orders) == 1 {
		s = strings.Replace(s, " each", "", 1)
	}
	if !c.d.Site.Arrival.IsZero() {
		s += "; arrival " + c.d.Site.Arrival.Format("Mon 2 Jan 2006 15:04 -07:00")
	}
	return s
}

// warnings returns what should keep readers from leaning on the figures.
func (c *comparison) warnings() []string {
	var list []string
	if few := stats.ShareOf(0, int64(c.flags.runs)).Warning; few != "" {
		list = append(list, few)
	}
	if !c.drawn {
		list = append(list, "nothing in this scenario is left to luck: every run is the same, and intervals say nothing")
	}
	for _, w := range append([]*bout{c.asIs}, c.whatIfs...) {
		if w.never != "" {
			list = append(list, fmt.Sprintf("what if %q cannot be played: %s", w.whatIf, w.never))
			continue
		}
		for i, p := range w.played {
			if p.Stopped > 0 {
				list = append(list, fmt.Sprintf("%scame to a stop in %d of %d runs, first in run %d (%v); what was not reached by then counts as never",
					drillName(w, i), p.Stopped, c.flags.runs, p.StopRun, p.Stop))
			}
		}
	}
	for i, left := range c.leftOut {
		for _, l := range left {
			if l.Why != "" {
				list = append(list, fmt.Sprintf("order %q cannot be played without %q: %s", c.asIs.orders[i], l.Task, l.Why))
			}
		}
	}
	return list
}

// drillName names one drill in front of a verb.
func drillName(w *bout, order int) string {
	name := "the drill "
	if w.orders[order] != "" {
		name = fmt.Sprintf("order %q ", w.orders[order])
	}
	if w.whatIf != "" {
		name += fmt.Sprintf("(what if %q) ", w.whatIf)
	}
	return name
}

// shortText says for each primary milestone, in a sentence or three, which
// order is soonest and how sure that is.
func (c *comparison) shortText(w *bout, width int) string {
	var b strings.Builder
	for _, m := range c.primary {
		b.WriteString(wrap(w.sentences(m), width, "  ", "    "))
	}
	return b.String()
}

// sentences says by when a milestone is reached in 9 of 10 runs, how often it is
// on time, and which order is ahead on average. Each names the order that is best
// at just that.
func (w *bout) sentences(m int) string {
	d := w.played[0].Drill
	many := occasions(d)
	ranking := w.Ranking(m)
	soonest := w.Soonest(m)
	surest := w.Surest(m)
	under := func(order int) string {
		if len(ranking) < 2 {
			return ""
		}
		return " under " + w.orders[order]
	}
	o := w.Odds[m][soonest]
	q := o.Quantiles[compare.NineOfTen]
	text := sentenceCase(d.Milestones[m].Name) + ": "
	switch clock := clockUp(d, q.Value); {
	case q.Value == sim.Never:
		text += fmt.Sprintf("9 of 10 %s cannot be had%s: never reached %s.", many, under(soonest), inHundred(o.Never, many))
	case clock == "":
		text += fmt.Sprintf("in 9 of 10 %s by %s after arrival (%s)%s.", many, sim.Clock(q.Value), momentRange(d, q), under(soonest))
	default:
		text += fmt.Sprintf("in 9 of 10 %s by %s (%s), %s after arrival,%s.", many, clock, momentRange(d, q), sim.Clock(q.Value), under(soonest))
		text = strings.Replace(text, ",.", ".", 1)
	}
	if on := w.Odds[m][surest].OnTime; on != nil {
		text += fmt.Sprintf(" On time, by %s, %s", byText(d, d.Milestones[m]), inHundred(*on, many))
		if surest != soonest {
			text += under(surest)
		}
		text += "."
	}
	if len(ranking) > 1 {
		text += " " + sentenceCase(w.differenceSentence(m, ranking[0], ranking[1], many)) + "."
	}
	return text
}

// differenceSentence says how far an order is ahead of another: "on average drink
// first is ahead of shelter first by 6 min 10 s (4 min to 8 min); sooner in 83 of
// 100 evenings".
func (w *bout) differenceSentence(m, a, b int, many string) string {
	p := w.Between(m, a, b)
	first, second := w.orders[a], w.orders[b]
	sooner := inHundred(p.Diff.ASooner, many)
	if ties := p.Diff.ASooner.Runs - p.Diff.ASooner.Count - p.Diff.BSooner.Count; ties > 0 {
		sooner += fmt.Sprintf(", later in %s", outOf(p.Diff.BSooner))
	}
	mean := p.Diff.Mean.Negated() // over 0: the first is sooner
	switch {
	case p.Diff.ASooner.Count == 0 && p.Diff.BSooner.Count == 0:
		return fmt.Sprintf("%s and %s get there at the same moment in every run", first, second)
	case !mean.OK():
		return fmt.Sprintf("%s comes before %s %s; there is no mean difference: %s", first, second, sooner, mean.Why)
	case p.Diff.Ahead() == 1: // ranked by something else
		return w.differenceSentence(m, b, a, many)
	case p.Diff.Ahead() == -1 && mean.Low < 0:
		return fmt.Sprintf("on average %s is ahead of %s, but by how little is not settled: %s (%s); it is sooner %s",
			first, second, sim.Clock(wholeMillis(mean.Value)), lengthRange(mean), sooner)
	case p.Diff.Ahead() == -1:
		return fmt.Sprintf("on average %s is ahead of %s by %s (%s); sooner %s", first, second, sim.Clock(wholeMillis(mean.Value)), lengthRange(mean), sooner)
	case mean.Warning != "":
		return fmt.Sprintf("too few runs to say whether %s or %s is ahead (%s sooner %s)", first, second, first, sooner)
	}
	return fmt.Sprintf("there is no telling whether %s or %s is ahead: %s on average (%s); %s is sooner %s",
		first, second, sim.Clock(wholeMillis(mean.Value)), lengthRange(mean), first, sooner)
}

func (c *comparison) methodText(width int) string {
	var lines []string
	n := 0
	for _, m := range c.primary {
		n += len(c.asIs.Matches[m])
	}
	var names []string
	for _, m := range c.primary {
		names = append(names, c.d.Milestones[m].Name)
	}
	lines = append(lines, fmt.Sprintf("Run 0 to %d of seed %d: in each, all orders meet the same lengths, mishaps, arrivals and weather. "+
		"\"9 of 10\" is when a milestone is reached in 9 of 10 runs; a run that never gets there counts as infinitely late, and then there is no mean. "+
		"Intervals hold with 95 %%: Student's t for means and differences, order statistics for \"of 10\", Wilson's or the exact one for shares.",
		c.flags.runs-1, c.flags.seed))
	if n > 1 {
		families := "one family"
		if len(c.whatIfs) > 0 {
			families = "one family, and so are those under each what-if"
		}
		lines = append(lines, fmt.Sprintf("The %d differences at %s are %s: with 95 %% all intervals of a family hold at once, and \"ahead\" is said when Holm's procedure finds it for the family (with a question mark where the interval all the same holds 0). Everything else is exploratory: of twenty such intervals one is expected to miss.",
			n, list(names), families))
	}
	lines = append(lines, "All of it is as true as the lengths in the file. Stop-watch your own team and put them in.")
	var b strings.Builder
	for _, l := range lines {
		b.WriteString(wrap(l, width, "  ", "  "))
	}
	return b.String()
}
