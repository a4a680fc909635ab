package report

import (
	"fmt"
	"math"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/search"
	"warmby/sim/stats"
)

// This file tells how what a search found was judged, in full.

// asked says what was looked for, and with how much effort.
func (m Improvement) asked() []Block {
	var aims []Sentence
	for _, a := range m.Aims {
		aims = append(aims, Say("{}", m.aim(a)))
	}
	s := Say("{}. Aim: {}", m.Drill.Title, Listed(aims))
	switch {
	case m.WhatIf != "":
		s = Say("{}; what if: {}", s, m.WhatIf)
	case len(m.Cases) > 1:
		s = Say("{}, in the latest of {}", s, Count{m.CasesJudged(), "case"})
	}
	s = Say("{}; {} drills played in search", s, Grouped(m.Evaluations))
	if m.Runs == 0 {
		return []Block{Text{Says: Say("{}, usual values only.", s)}}
	}
	return []Block{Text{Says: Say("{}, {} judged on {} fresh runs of seed {}.", s, Count{m.Judged, "order"}, Grouped(m.Runs), fmt.Sprint(m.Seed))}}
}

// Warning is something that must be known: in short for the lead, nothing when
// that tells it anyway, and in full.
type Warning struct{ Short, Full Sentence }

// Warnings lists what must be known before an order is taken, the most urgent
// first.
func (m Improvement) Warnings() (list []Warning) {
	add := func(short, full Sentence) { list = append(list, Warning{short, full}) }
	same := func(s Sentence) { add(s, s) }
	if m.Interrupted {
		same(Say("the search was broken off; this is the best so far"))
	}
	for _, u := range m.Unmet {
		add(m.unmetShort(u), m.unmet(u))
	}
	for _, c := range m.Cases {
		if c.Why != "" {
			add(Say("what if {}: no order gets there; left out", quote(c.Name)), Say("what if {} has no part in it: {}", quote(c.Name), c.Why))
		}
	}
	if m.Unlucky {
		same(Say("nothing in this scenario is left to luck: usual values are all there is"))
	}
	if m.Runs > 0 && m.Runs < stats.FewRuns {
		add(Say("{} only: too few to tell orders apart", Count{m.Runs, "run"}), Say("{} only: intervals are wide and rough, ask for 100 or more", Count{m.Runs, "run"}))
	}
	if rare := compare.RarestOf(m.Drill, m.Runs); m.Runs >= stats.FewRuns && m.ByMeans() && rare != nil {
		add(Say("so few runs do not know what is rare; ask for {}", Count{rare.Enough, "run"}), RareWarning(rare, m.Runs))
	}
	if s := m.overLimit(); !s.IsEmpty() {
		add(nil, s) // the lead says how often
	}
	return list
}

func (m Improvement) warningBlocks() (list []Block) {
	for _, w := range m.Warnings() {
		list = append(list, Text{Item: true, Says: sentence(w.Full)})
	}
	return list
}

// overLimit names those who pass the cold limit with usual values.
func (m Improvement) overLimit() Sentence {
	if m.KeepCold || len(m.Over) == 0 {
		return nil
	}
	s := Say("with usual values {} takes {} over the cold limit", m.named(m.Orders[0]), Named(m.Over))
	if len(m.OverBefore) > 0 && m.Orders[0].Known != m.Before.Known {
		s = Say("{} ({} takes {} over it)", s, m.named(m.Before), Named(m.OverBefore))
	}
	return Say("{}; --keep-cold-limit looks for one in which nobody passes it", s)
}

// unmetShort says in few words what no order that was found keeps to.
func (m Improvement) unmetShort(u search.Unmet) Sentence {
	s := Say("no order found keeps {} as often as asked", m.limit(u))
	if u.Case != "" {
		s = Say("what if {}: {}", quote(u.Case), s)
	}
	return s
}

func (m Improvement) limit(u search.Unmet) Sentence {
	switch {
	case u.InTime != nil:
		return Say("{} by {}", quote(m.Drill.Milestones[u.InTime.Milestone].Name), m.site().At(u.InTime.By))
	case u.AtLeast != nil && u.AtLeast.Goal != search.NobodyCold:
		return Say("{}", quote(u.AtLeast.Goal.String()))
	}
	return Say("everybody within the cold limit")
}

// unmet says what no order that was found keeps to, and how near it gets.
func (m Improvement) unmet(u search.Unmet) Sentence {
	s := m.unmetBare(u)
	if u.Case != "" {
		s = Say("what if {}: {}", quote(u.Case), s)
	}
	return s
}

func (m Improvement) unmetBare(u search.Unmet) Sentence {
	if u.InTime == nil {
		return m.unmetGoal(u)
	}
	name, by := quote(m.Drill.Milestones[u.InTime.Milestone].Name), m.played().targetInFull(sim.Milestone{By: u.InTime.By})
	if m.Drill.Milestones[u.InTime.Milestone].By == u.InTime.By {
		by = m.played().targetInFull(m.Drill.Milestones[u.InTime.Milestone])
	}
	late := Sentence(nil)
	switch {
	case m.Runs == 0 && u.Least > u.InTime.By:
		return Say("no order at all reaches {} {}: with usual values none can before {}; the one found does at {}", name, by, Since(u.Least), Since(u.At))
	case m.Runs == 0:
		return Say("no order was found that reaches {} {}; the one that comes nearest does at {}", name, by, Since(u.At))
	case u.Least > u.InTime.By:
		late = Say("; with usual values no order at all can before {}", Since(u.Least))
	}
	return Say("no order was found that reaches {} {} in {} of runs; the one that comes nearest does in {}, and by {} as often as asked{}",
		name, by, Percent(u.InTime.Odds), m.share(u.Share, false), Since(u.At), late)
}

func (m Improvement) unmetGoal(u search.Unmet) Sentence {
	s := Say("no order found keeps {}", m.limit(u))
	if u.AtLeast != nil && m.Runs > 0 {
		s = Say("{} in {} of runs; the one that comes nearest does in {}", s, Percent(u.AtLeast.Odds), m.share(u.Share, false))
	}
	if u.Person != "" {
		s = Say("{}; under it {} loses {} with usual values, of {}", s, u.Person, heatLost(u.Peak, 0), heatLost(cold.HeatLimit, 0))
	}
	return s
}

// gains says for each aim what is gained, how sure that is, and what no order
// can beat.
func (m Improvement) gains() (list []Block) {
	for k := range m.Aims {
		best := m.best(k)
		name := capital(m.aim(m.Aims[k]))
		if m.CasesJudged() > 1 {
			name += " in the latest case"
		}
		list = append(list, Text{Item: true, Says: Say("{}: {} with {}.", name, m.inFull(k, best.Value[k]), m.named(best))})
		list = append(list, m.against(k, m.Known, best.Over[k])...)
		if m.Before.Known != m.Known.Known {
			list = append(list, m.against(k, m.Before, best.Gain[k])...)
		}
		list = append(list, Text{Item: true, Says: m.bound(k, best)})
	}
	if n := len(m.Orders) - 1; len(m.Aims) == 1 && n > 0 {
		what := Say("{} cannot be told from it.", Count{n, "other order"})
		switch {
		case math.IsInf(m.Orders[0].Value[0], 1):
			what = Say("{} never get there either.", Count{n, "other order"})
		case m.Runs == 0:
			what = Say("{} as good.", Count{n, "other order"})
		}
		list = append(list, Text{Item: true, Says: what})
	}
	return list
}

// against says what is gained against an order of the file.
func (m Improvement) against(k int, was search.Found, g search.Gain) []Block {
	if m.best(k).Known != "" && m.best(k).Known == was.Known {
		return nil
	}
	d := Say("never, or too seldom, reached there")
	if g.Why == "" {
		d = m.difference(k, g)
	}
	told := ""
	switch {
	case g.Why != "" || m.Runs == 0:
	case m.Runs < stats.FewRuns:
		told = "; too few runs to tell"
	case !g.Told:
		told = "; there is no telling which is ahead"
	}
	return []Block{Text{Item: true, Says: Say("Against {} ({}): {}{}{}.", m.named(was), m.inFull(k, was.Value[k]), d, told, m.price(g))}}
}

// difference writes a gain at an aim.
func (m Improvement) difference(k int, g search.Gain) Sentence {
	switch {
	case g.Value == 0 && g.Low == g.High:
		return Say("level")
	case m.Aims[k].Goal.Share():
		return Say("{}", MoreOften{g.Value, g.Low, g.High, m.site().Many})
	case m.Runs == 0:
		return sooner(millis(g.Value))
	}
	return Say("{}", Difference{stats.Mean{Value: g.Value, Low: g.Low, High: g.High, Runs: int64(m.Runs)}})
}

// bound says what no order can beat.
func (m Improvement) bound(k int, best search.Found) Sentence {
	bound, value := m.Bound[k], best.Value[k]
	if m.Aims[k].Goal.Share() {
		return m.boundOfGoal(k, value)
	}
	least := Say("{}", Since(millis(bound)))
	switch {
	case math.IsInf(bound, 1):
		return Say("No order gets there.")
	case m.Runs > 0:
		mean := Mean{stats.Mean{Value: bound, Low: m.BoundLow[k], High: m.BoundHigh[k], Runs: int64(m.Runs)}}
		least = Say("{} {}, {} runs", mean, m.often(m.Aims[k]), Grouped(m.Runs))
	}
	switch {
	case math.IsInf(value, 1):
		return Say("No order can beat {}.", least)
	case value <= bound:
		return Say("No order can beat {}: this one is the best there is.", least)
	}
	return Say("No order can beat {}; this one is at most {} above.", least, AtMost(m.PercentAbove(best, k)))
}

func (m Improvement) boundOfGoal(k int, value float64) Sentence {
	most := m.value(k, m.Bound[k], false)
	if value <= m.Bound[k] {
		return Say("No order can do better than {}: this one is the best there is.", most)
	}
	return Say("No order can do better than {}.", most)
}

// usual is a table of the milestones before and after, with usual values.
func (m Improvement) usual() []Block {
	if len(m.Aims) > 1 {
		return nil
	}
	best, before := m.Orders[0], m.Before
	t := Table{Caption: "Milestones with usual values", Columns: []Column{{}, {m.named(before), true}}}
	same := best.Known != "" && best.Known == before.Known
	if !same {
		t.Columns = append(t.Columns, Column{m.named(best), true}, Column{Right: true})
	}
	t.Columns = append(t.Columns, Column{"no order before", true})
	for i, ms := range m.Drill.Milestones {
		row := Cells(ms.Name, Since(before.Milestones[i]))
		if !same {
			row = append(row, Say("{}", Since(best.Milestones[i])), m.soonerCell(before.Milestones[i], best.Milestones[i]))
		}
		t.Rows = append(t.Rows, append(row, Say("{}", Since(m.UsualBound[i]))))
	}
	return []Block{t}
}

// cases is a table for each aim: the order to beat and the best in each case,
// what is gained, and what no order can beat.
func (m Improvement) cases() (list []Block) {
	if len(m.Cases) < 2 {
		return nil
	}
	for k, a := range m.Aims {
		best := m.best(k)
		t := Table{Caption: capital(m.aim(a)) + ", by case", Columns: []Column{{Head: "what if"}, {m.named(m.Before), true}, {m.named(best), true}, {}, {"no order before", true}}}
		for c, r := range m.Cases {
			name := r.Name
			if c == 0 {
				name = "as it stands"
			}
			if r.Why != "" {
				t.Rows = append(t.Rows, Cells(name, "left out"))
				continue
			}
			t.Rows = append(t.Rows, []Sentence{Say("{}", name), m.inCase(k, m.Before.Cases[c].Value[k]), m.inCase(k, best.Cases[c].Value[k]),
				m.caseGain(k, best.Cases[c].Gain[k]), m.inCase(k, r.Bound[k])})
		}
		if len(m.Aims) > 1 {
			list = append(list, Text{Says: Say("{}:", capital(m.aim(a)))})
		}
		list = append(list, t)
	}
	if m.Runs > 0 {
		list = append(list, Text{Says: Say("Minutes:seconds since arrival; in brackets the 95 % interval of {}.", Count{m.Runs, "run"})})
	}
	return list
}

func (m Improvement) inCase(k int, v float64) Sentence {
	if m.Aims[k].Goal.Share() || math.IsInf(v, 1) {
		return m.value(k, v, false)
	}
	return Say("{}", Stopwatch(millis(v)))
}

func (m Improvement) caseGain(k int, g search.Gain) Sentence {
	switch {
	case g.Why != "":
		return Say("not always reached")
	case g.Value == 0:
		return Say("the same")
	case m.Runs > 0 && m.Runs < stats.FewRuns:
		return Say("too few runs")
	case m.Runs > 0 && g.Low <= 0 && g.High >= 0:
		return Say("no telling: {}", m.difference(k, g))
	}
	return m.difference(k, g)
}

// reading says how the figures were made.
func (m Improvement) reading() (list []Block) {
	say := func(s Sentence) { list = append(list, Text{Says: s}) }
	if m.Runs > 0 {
		say(Say("The search had runs of its own. Orders are judged on run 0 to {} of seed {}, which compare plays, too. Intervals hold with 95 %. "+
			"Orders are told apart when their difference is more than luck explains, with regard to all that were judged (Holm).", m.Runs-1, fmt.Sprint(m.Seed)))
	}
	say(Say("What no order can beat is reckoned, not searched: the longest chain of tasks, what cannot go on beside it, and the work for people, skills, tools and stoves, " +
		"each at its best. The best possible may well be later than that. More --evaluations may find a better order."))
	if m.Limited {
		say(Say("What no order can beat knows nothing of the limits asked for: what they cost counts as above it."))
	}
	say(Say("All of it is as true as the lengths in the file, and an order is a plan: whoever leads the drill decides."))
	return list
}
