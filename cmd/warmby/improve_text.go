package main

import (
	"fmt"
	"math"
	"strings"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/search"
	"warmby/sim/stats"
)

// How much of a long list is printed; --json has all.
const (
	shownChanges = 12
	shownOrders  = 6
)

// text writes what was found for people.
func (m *improvement) text(width int) string {
	var b strings.Builder
	b.WriteString(wrap(m.d.Title, width, "", ""))
	b.WriteString(wrap(m.subtitle(), width, "", ""))
	for _, w := range m.warnings() {
		b.WriteString(wrap("Warning: "+w, width, "", "  "))
	}
	section := func(heading, body string) { section(&b, width, heading, body) }
	section("In short", m.shortText(width))
	if len(m.result.Aims) > 1 {
		heading := "None of these is better in all"
		if len(m.result.Orders) == 1 {
			heading = "By aim"
		}
		section(heading, m.frontText(width))
	} else {
		section("With usual values", m.usualText(width))
		section("How often each target is met, with the best order of the file and with the one found", m.eveningsText(width))
	}
	section("The changes that win most, each on top of those above it", m.winsText(width))
	section("In each case (minutes:seconds since arrival"+m.caseInterval()+")", m.casesText(width))
	for i, f := range m.shown() {
		if i == shownOrders {
			b.WriteString(wrap(fmt.Sprintf("%s more: see --json, or --write.", counted(len(m.shown())-i, "order")), width, "\n", ""))
			break
		}
		m.orderText(section, f, width)
	}
	if len(m.result.Aims) == 1 {
		section("Not told from the best", m.tiedText(width))
	}
	section("How to read it", m.readingText(width))
	section("Cautions", cautionsText(m.cautions(), width))
	fmt.Fprintf(&b, "\nPlayed by: %s\n", m.repeat())
	return b.String()
}

func (m *improvement) orderText(section func(heading, body string), f search.Found, width int) {
	switch {
	case f.Known != "" && len(m.own) == 0:
		section("The sequence of the tasks in the file", "  It stands there as it is.\n")
		return
	case f.Known != "":
		section(fmt.Sprintf("The order %q of the file", f.Known), "  It stands there as it is.\n")
		return
	}
	section("Person by person, with usual values", m.peopleText(f, width))
	section("Turned round", m.turnedText(f, width))
	section("The order, to paste under orders", scenarios.OrderYAML(m.d, f.Order, f.Order.Name, 2))
	section("What changes against "+m.beforeName()+", with usual values", m.changesText(f, width))
}

func (m *improvement) subtitle() string {
	var aims []string
	for _, a := range m.result.Aims {
		aims = append(aims, m.aimText(a))
	}
	s := "Aim: " + list(aims)
	switch one := m.flags.oneWhatIf(); {
	case one != "":
		s += fmt.Sprintf("; what if: %s", one)
	case len(m.result.Cases) > 1:
		s += fmt.Sprintf(", in the latest of %s", counted(m.result.CasesJudged(), "case"))
	}
	s += fmt.Sprintf("; %s drills played in search", grouped(int64(m.result.Evaluations)))
	if m.result.Runs > 0 {
		s += fmt.Sprintf(", %s judged on %s fresh runs of seed %d", counted(m.result.Judged, "order"), grouped(int64(m.result.Runs)), m.flags.seed)
	} else {
		s += ", usual values only"
	}
	return s
}

// aimText says an aim in words: "hot drink in 8 of 10 evenings".
func (m *improvement) aimText(a search.Aim) string {
	if a.Goal.Share() {
		return goalWords(a.Goal)
	}
	name := m.d.Milestones[a.Milestone].Name
	if m.result.Runs == 0 {
		return name
	}
	return name + " " + statisticText(a.Statistic, occasions(m.d))
}

func statisticText(s search.Statistic, many string) string {
	percent := math.Round(100 * float64(s))
	switch {
	case s == search.Mean:
		return "on average"
	case math.Mod(percent, 10) == 0:
		return fmt.Sprintf("in %.0f of 10 %s", percent/10, many)
	}
	return fmt.Sprintf("in %.0f of 100 %s", percent, many)
}

func (m *improvement) beforeName() string {
	if m.result.Before.Known == "" {
		return "file order"
	}
	return m.result.Before.Known
}

func (m *improvement) warnings() []string {
	var list []string
	r := m.result
	if r.Interrupted {
		list = append(list, "the search was broken off; this is the best so far")
	}
	if m.flags.runs > 0 && !isDrawn(m.d) {
		list = append(list, "nothing in this scenario is left to luck: usual values are all there is")
	}
	if r.Runs > 0 && r.Runs < 100 {
		list = append(list, fmt.Sprintf("%s only: intervals are wide and rough, ask for 100 or more", counted(r.Runs, "run")))
	}
	for _, c := range r.Cases {
		if c.Why != "" {
			list = append(list, fmt.Sprintf("what if %q has no part in it: %s", c.Name, c.Why))
		}
	}
	for _, u := range r.Unmet {
		list = append(list, m.unmetText(u))
	}
	if !m.flags.keepCold && len(m.options.AtLeast) == 0 {
		if who := m.overLimit(r.Orders[0]); who != "" {
			text := fmt.Sprintf("with usual values %s takes %s over the cold limit", r.Orders[0].Order.Name, who)
			if r.Orders[0].Order.Name == "" {
				text = fmt.Sprintf("with usual values %s passes the cold limit", who)
			}
			if also := m.overLimit(r.Before); also != "" && r.Orders[0].Known != r.Before.Known {
				text += fmt.Sprintf(" (%s takes %s over it)", m.beforeName(), also)
			}
			list = append(list, text+"; --keep-cold-limit looks for one in which nobody passes it")
		}
	}
	return list
}

// overLimit names those who pass the cold limit under an order with usual
// values, "" for nobody.
func (m *improvement) overLimit(f search.Found) string {
	var names []string
	for _, who := range search.OverLimit(m.d, f.Order) {
		names = append(names, m.d.People[who].Name)
	}
	if names == nil {
		return ""
	}
	return list(names)
}

// unmetText says what no order that was found keeps to, and how near it gets.
func (m *improvement) unmetText(u search.Unmet) (text string) {
	if u.InTime == nil && u.AtLeast != nil && m.result.Runs > 0 {
		return fmt.Sprintf("no order was found with %s in %s; the one that comes nearest has it in %.0f of 100", goalWords(u.AtLeast.Goal), oftenText(u.AtLeast.Odds), 100*u.Share)
	}
	if u.InTime == nil {
		return fmt.Sprintf("no order found keeps everybody within the cold limit of %d Wh/m2; under the one that comes nearest %s loses %.0f with usual values", cold.HeatLimit, u.Person, u.Peak)
	}
	name := m.d.Milestones[u.InTime.Milestone].Name
	if u.Case != "" {
		defer func() { text = fmt.Sprintf("what if %q: %s", u.Case, text) }()
	}
	by := byText(m.d, sim.Milestone{By: u.InTime.By})
	late := ""
	switch {
	case m.result.Runs == 0 && u.Least > u.InTime.By:
		return fmt.Sprintf("no order at all reaches %q by %s: with usual values none can before %s; the one found does at %s", name, by, sim.Clock(u.Least), sim.Clock(u.At))
	case m.result.Runs == 0:
		return fmt.Sprintf("no order was found that reaches %q by %s; the one that comes nearest does at %s", name, by, sim.Clock(u.At))
	case u.Least > u.InTime.By:
		late = fmt.Sprintf("; with usual values no order at all can before %s", sim.Clock(u.Least))
	}
	return fmt.Sprintf("no order was found that reaches %q by %s in %s; the one that comes nearest does in %.0f of 100, and by %s as often as asked%s",
		name, by, oftenText(u.InTime.Odds), 100*u.Share, sim.Clock(u.At), late)
}

func oftenText(share float64) string { return fmt.Sprintf("%.4g of 100 runs", 100*share) }

// shortText says for each aim what is gained, how sure that is, and what no
// order can beat.
func (m *improvement) shortText(width int) string {
	var b strings.Builder
	for k, a := range m.result.Aims {
		best := m.bestAt(k)
		b.WriteString(wrap(m.gainText(a, k, best), width, "  ", "    "))
		b.WriteString(wrap(m.boundText(k, best), width, "    ", "    "))
	}
	if n := len(m.result.Orders) - 1; len(m.result.Aims) == 1 && n > 0 {
		what := fmt.Sprintf("%s cannot be told from it", plural(n, "other order", "other orders"))
		if math.IsInf(m.result.Orders[0].Value[0], 1) {
			what = fmt.Sprintf("%s never get there either", plural(n, "other order", "other orders"))
		} else if m.result.Runs == 0 {
			what = fmt.Sprintf("%s get there at the same moment", plural(n, "other order", "other orders"))
		}
		b.WriteString(wrap(what+".", width, "  ", "    "))
	}
	return b.String()
}

// bestAt returns the order that is told of at an aim: with one aim the one found,
// of several the best of each.
func (m *improvement) bestAt(aim int) search.Found {
	if len(m.result.Aims) == 1 {
		return m.result.Orders[0]
	}
	return m.result.BestAt(aim)
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func (m *improvement) gainText(a search.Aim, k int, best search.Found) string {
	if a.Goal.Share() {
		return m.shareGainText(k, best)
	}
	before, under := m.result.Before, m.beforeName()
	name := sentenceCase(m.aimText(a))
	if m.result.CasesJudged() > 1 {
		name += " in the latest case"
	}
	if len(m.result.Aims) > 1 {
		name += fmt.Sprintf(" (%s)", best.Order.Name)
	}
	switch g := best.Gain[k]; {
	case g.Why != "" && math.IsInf(best.Value[k], 1):
		return fmt.Sprintf("%s: never, or too seldom, under every order tried.", name)
	case g.Why != "":
		return fmt.Sprintf("%s: %s; never, or too seldom, under %s.", name, m.at(best.Value[k]), under)
	case m.result.NothingBetter(best, k):
		return fmt.Sprintf("%s: %s; nothing sooner than %s was found.", name, m.at(best.Value[k]), under)
	case m.result.Runs == 0:
		return fmt.Sprintf("%s: %s instead of %s under %s: %s%s.", name, m.at(best.Value[k]), m.at(before.Value[k]), under, sooner(g.Value), m.price(g))
	case m.result.Runs < stats.FewRuns:
		return fmt.Sprintf("%s: %s; too few runs to say whether that is sooner than under %s: %s (%s).", name, m.at(best.Value[k]), under, sooner(g.Value), gainRange(g.Low, g.High))
	case !g.Told:
		return fmt.Sprintf("%s: %s; there is no telling whether that is sooner than under %s: %s on average (%s).", name, m.at(best.Value[k]), under,
			length(g.Value), gainRange(g.Low, g.High))
	case g.Value < 0:
		return fmt.Sprintf("%s: %s instead of %s under %s: %s (%s)%s.", name, m.at(best.Value[k]), m.at(before.Value[k]), under,
			sooner(g.Value), gainRange(-g.High, -g.Low), m.price(g))
	default:
		return fmt.Sprintf("%s: %s instead of %s under %s: %s (%s).", name, m.at(best.Value[k]), m.at(before.Value[k]), under,
			sooner(g.Value), gainRange(g.Low, g.High))
	}
}

// gainRange writes the interval of a gain.
func gainRange(low, high float64) string {
	if math.IsInf(low, 0) || math.IsInf(high, 0) {
		return "its interval cannot be told"
	}
	return length(low) + " to " + length(high)
}

// price says why what was found may be later than what there was: it keeps to
// what is asked for where the other does not.
func (m *improvement) price(g search.Gain) string {
	if g.Value >= 0 || len(m.options.InTime)+len(m.options.AtLeast) == 0 && !m.options.ColdLimit {
		return ""
	}
	return ", the price of keeping nearer to what is asked for"
}

// sooner writes a gain: "5 min sooner", "5 min later".
func sooner(gain float64) string {
	if gain < 0 {
		return length(-gain) + " later"
	}
	return length(gain) + " sooner"
}

// at writes a moment that is a mean or the like: "45 min 10 s (14:25)".
func (m *improvement) at(ms float64) string {
	if math.IsInf(ms, 1) {
		return "never"
	}
	t := wholeMillis(ms)
	if clock := clockUp(m.d, t); clock != "" {
		return fmt.Sprintf("%s (%s)", sim.Clock(t), clock)
	}
	return sim.Clock(t)
}

func length(ms float64) string { return sim.Clock(wholeMillis(ms)) }

// boundText says what no order can beat.
func (m *improvement) boundText(k int, best search.Found) string {
	bound, value := m.result.Bound[k], best.Value[k]
	if m.result.Aims[k].Goal.Share() {
		return fmt.Sprintf("No order can do better than %s, as far as targets go.", m.ofHundred(bound))
	}
	least := length(bound)
	if m.result.Runs > 0 && !math.IsInf(bound, 1) {
		least += fmt.Sprintf(" %s (%s, %s runs)", statisticText(m.result.Aims[k].Statistic, occasions(m.d)),
			gainRange(m.result.BoundLow[k], m.result.BoundHigh[k]), grouped(int64(m.result.Runs)))
	}
	switch {
	case math.IsInf(bound, 1):
		return "No order gets there."
	case math.IsInf(value, 1):
		return fmt.Sprintf("No order can beat %s.", least)
	case value <= bound:
		return fmt.Sprintf("No order can beat %s: this one is the best there is.", least)
	}
	return fmt.Sprintf("No order can beat %s; this one is at most %s above.", least, percentAbove(m.result.PercentAbove(best, k)))
}

func percentAbove(percent float64) string {
	if percent < 10 {
		return fmt.Sprintf("%.1f %%", math.Ceil(10*percent)/10)
	}
	return fmt.Sprintf("%.0f %%", math.Ceil(percent))
}

// usualText is a table of the milestones before and after.
func (m *improvement) usualText(width int) string {
	best, before := m.result.Orders[0], m.result.Before
	rows := [][]string{{"", m.beforeName(), best.Order.Name, "", "no order before"}}
	for i, ms := range m.d.Milestones {
		change := ""
		if was, is := before.Milestones[i], best.Milestones[i]; was != sim.Never && is != sim.Never && was != is {
			change = sooner(float64(was - is))
		}
		rows = append(rows, []string{ms.Name, sim.Clock(before.Milestones[i]), sim.Clock(best.Milestones[i]), change, sim.Clock(m.result.UsualBound[i])})
	}
	if best.Known != "" && best.Known == before.Known { // nothing to set beside it
		for i, r := range rows {
			rows[i] = []string{r[0], r[1], r[4]}
		}
		return tableWithin(width, 1, "  ", rows, 1, 2)
	}
	return tableWithin(width, 1, "  ", rows, 1, 2, 3, 4)
}

// frontText is a table of the orders by aims.
func (m *improvement) frontText(width int) string {
	head := []string{""}
	for _, a := range m.result.Aims {
		head = append(head, m.aimText(a))
	}
	rows := [][]string{head}
	row := func(name string, values []float64) {
		cells := []string{name}
		for k, v := range values {
			cells = append(cells, m.valueOf(k, v))
		}
		rows = append(rows, cells)
	}
	listed := false
	for _, f := range m.result.Orders {
		row(f.Order.Name, f.Value)
		listed = listed || f.Known != "" && f.Known == m.result.Before.Known
	}
	if !listed {
		row("before: "+m.beforeName(), m.result.Before.Value)
	}
	row("no order before", m.result.Bound)
	return tableWithin(width, 1, "  ", rows)
}

func (m *improvement) changesText(f search.Found, width int) string {
	changes := m.result.MainChanges(f)
	var b strings.Builder
	for i, c := range changes {
		if i == shownChanges {
			b.WriteString(wrap(fmt.Sprintf("and %s", plural(len(changes)-i, "more task", "more tasks")), width, "  ", "    "))
			break
		}
		text := m.d.Tasks[c.Task].Name
		if c.Anchor >= 0 {
			where := " before "
			if c.After {
				where = " after "
			}
			text += where + m.d.Tasks[c.Anchor].Name
		}
		b.WriteString(wrap(text+": "+sooner(-float64(c.Later)), width, "  ", "    "))
	}
	return b.String()
}

// tiedText is a table of the orders that cannot be told from the best.
func (m *improvement) tiedText(width int) string {
	orders := m.result.Orders
	if len(orders) < 2 {
		return ""
	}
	rows := [][]string{{"", m.aimText(m.result.Aims[0]), "behind", "finish, usual"}}
	for i, f := range orders {
		if i > shownOrders {
			rows = append(rows, []string{fmt.Sprintf("and %d more", len(orders)-i)})
			break
		}
		behind := ""
		if g := f.Behind[0]; i > 0 && g.Why == "" {
			behind = m.behindText(0, g)
		}
		rows = append(rows, []string{f.Order.Name, m.valueOf(0, f.Value[0]), behind, sim.Clock(f.Milestones[len(f.Milestones)-1])})
	}
	return tableWithin(width, 1, "  ", rows)
}

func (m *improvement) readingText(width int) string {
	var lines []string
	if m.result.Runs > 0 {
		lines = append(lines, fmt.Sprintf("The search had runs of its own; orders are judged on run 0 to %d of seed %d, which compare plays, too. "+
			"Intervals hold with 95 %%. Orders are told apart when their difference is more than luck explains, with regard to all that were judged (Holm).",
			m.result.Runs-1, m.flags.seed))
	}
	lines = append(lines, "What no order can beat is reckoned, not searched: the longest chain of tasks, what cannot go on beside it, and the work for people, skills, tools and stoves, "+
		"each at its best. The best possible may well be later than that. More --evaluations may find a better order.")
	if len(m.options.InTime)+len(m.options.AtLeast) > 0 || m.options.ColdLimit {
		lines = append(lines, "What no order can beat knows nothing of the limits asked for: what they cost counts as above it.")
	}
	lines = append(lines, "All of it is as true as the lengths in the file, and an order is a plan: whoever leads the drill decides.")
	var b strings.Builder
	for _, l := range lines {
		b.WriteString(wrap(l, width, "  ", "  "))
	}
	return b.String()
}
