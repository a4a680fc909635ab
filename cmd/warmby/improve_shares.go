package main

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"warmby/sim/search"
	"warmby/sim/stats"
)

// goals are what may be aimed at in a share of evenings.
var goals = []search.Goal{search.AllWell, search.AllTargets, search.NobodyCold}

func goalNamed(name string) (search.Goal, bool) {
	for _, g := range goals {
		if g.String() == name {
			return g, true
		}
	}
	return search.Reached, false
}

// goalAndShare is what --at-least expects.
var goalAndShare = regexp.MustCompile(`^\s*([a-z]+ [a-z]+)\s+(\S.*)$`)

// settleShares settles in how many evenings all must be well.
func (m *improvement) settleShares() error {
	if m.flags.coldOdds != "" {
		odds, err := oddsOfFlag(m.flags.coldOdds)
		if err != nil {
			return &usageError{fmt.Sprintf("--cold-odds expects a share over 0 up to 100 %%, got %q", m.flags.coldOdds), "such as --cold-odds \"90 %\""}
		}
		m.options.AtLeast = append(m.options.AtLeast, search.AtLeast{Goal: search.NobodyCold, Odds: odds})
	}
	for _, text := range m.flags.atLeast {
		wrong := &usageError{fmt.Sprintf("--at-least expects \"all well\", \"all targets\" or \"nobody cold\" and a share, got %q", text), "such as --at-least \"all well 80 %\""}
		parts := goalAndShare.FindStringSubmatch(text)
		if parts == nil {
			return wrong
		}
		goal, is := goalNamed(parts[1])
		odds, err := oddsOfFlag(parts[2])
		if !is || err != nil {
			return wrong
		}
		m.options.AtLeast = append(m.options.AtLeast, search.AtLeast{Goal: goal, Odds: odds})
	}
	return nil
}

// goalWords says a goal in a sentence.
func goalWords(g search.Goal) string {
	switch g {
	case search.AllTargets:
		return "all targets in time"
	case search.NobodyCold:
		return "nobody too cold"
	}
	return "all in time and nobody too cold"
}

// ofHundred writes a share of evenings, given that in which something is missed.
func (m *improvement) ofHundred(missed float64) string {
	if m.result.Runs == 0 {
		return map[bool]string{true: "yes", false: "no"}[missed == 0]
	}
	return fmt.Sprintf("%.0f of 100 %s", math.Round(100*(1-missed)), occasions(m.d))
}

// valueOf writes the value of an aim.
func (m *improvement) valueOf(k int, value float64) string {
	if m.result.Aims[k].Goal.Share() {
		return m.ofHundred(value)
	}
	return m.at(value)
}

// behindText writes by how much an order is behind another in an aim.
func (m *improvement) behindText(k int, g search.Gain) string {
	if m.result.Aims[k].Goal.Share() {
		return fmt.Sprintf("%.1f of 100 fewer", 100*g.Value)
	}
	text := length(g.Value)
	if m.result.Runs > 0 {
		text += " (" + gainRange(g.Low, g.High) + ")"
	}
	return text
}

// shareGainText says how much more often a goal is met, against the best order of
// the file.
func (m *improvement) shareGainText(k int, best search.Found) string {
	name, known := sentenceCase(goalWords(m.result.Aims[k].Goal)), m.result.Known
	if len(m.result.Aims) > 1 {
		name += fmt.Sprintf(" (%s)", best.Order.Name)
	}
	under := known.Known
	if under == "" {
		under = "file order"
	}
	switch g := best.Over[k]; {
	case best.Known != "" && best.Known == known.Known:
		return fmt.Sprintf("%s: %s; nothing better than %q was found.", name, m.ofHundred(best.Value[k]), under)
	case m.result.Runs == 0:
		return fmt.Sprintf("%s with usual values: %s; with %q, the best of the file: %s.", name, m.ofHundred(best.Value[k]), under, m.ofHundred(known.Value[k]))
	case m.result.Runs < stats.FewRuns || !g.Told:
		return fmt.Sprintf("%s: %s; there is no telling whether that is more than with %q, the best of the file: %s.", name, m.ofHundred(best.Value[k]), under, m.ofHundred(known.Value[k]))
	default:
		return fmt.Sprintf("%s: %s instead of %s with %q, the best of the file (%.1f to %.1f of 100 more).", name, m.ofHundred(best.Value[k]), m.ofHundred(known.Value[k]), under, 100*g.Low, 100*g.High)
	}
}

// eveningsText is a table of what every target pays: how often each is met with
// the order to beat, the best of the file and the order found.
func (m *improvement) eveningsText(width int) string {
	best, known := m.result.Orders[0], m.result.Known
	if m.result.Runs == 0 {
		return ""
	}
	rows := [][]string{{"", known.Order.Name, best.Order.Name}}
	if known.Order.Name == "" {
		rows[0][1] = "file order"
	}
	add := func(name string, a, b float64) {
		rows = append(rows, []string{name, m.ofHundred(1 - a), m.ofHundred(1 - b)})
	}
	for i, ms := range m.d.Milestones {
		if !math.IsNaN(best.Evenings.InTime[i]) {
			add(ms.Name+" by "+byText(m.d, ms), known.Evenings.InTime[i], best.Evenings.InTime[i])
		}
	}
	if best.Evenings.Cold {
		add(goalWords(search.NobodyCold), known.Evenings.NobodyCold, best.Evenings.NobodyCold)
	}
	if len(rows) == 1 {
		return ""
	}
	add(goalWords(search.AllWell), known.Evenings.AllWell, best.Evenings.AllWell)
	return tableWithin(width, 1, "  ", rows, 1, 2)
}

// winsText lists the changes that win most, one line each.
func (m *improvement) winsText(width int) string {
	var b strings.Builder
	for _, w := range m.result.Wins {
		var changes []string
		for _, e := range w.Edits {
			changes = append(changes, m.editText(e))
		}
		gain := length(w.Gain.Value)
		if m.result.Aims[0].Goal.Share() {
			gain = fmt.Sprintf("%.0f more of 100 %s", 100*w.Gain.Value, occasions(m.d))
		}
		b.WriteString(wrap(strings.Join(changes, "; ")+": "+gain, width, "  ", "    "))
	}
	return b.String()
}

func (m *improvement) editText(e search.Edit) string {
	switch {
	case e.Kind == search.Splits:
		return "groups as in the order below"
	case e.Kind == search.Crews && e.Crew.Min == e.Crew.Max:
		return fmt.Sprintf("%s with %d", m.d.Tasks[e.Task].Name, e.Crew.Max)
	case e.Kind == search.Crews:
		return fmt.Sprintf("%s with %d to %d", m.d.Tasks[e.Task].Name, e.Crew.Min, e.Crew.Max)
	case e.Anchor < 0:
		return m.d.Tasks[e.Task].Name + " first"
	case e.After:
		return m.d.Tasks[e.Task].Name + " after " + m.d.Tasks[e.Anchor].Name
	}
	return m.d.Tasks[e.Task].Name + " before " + m.d.Tasks[e.Anchor].Name
}

// turnedText lists the pairs that all orders of the file have the other way round.
func (m *improvement) turnedText(f search.Found, width int) string {
	var b strings.Builder
	for _, p := range f.Turned {
		b.WriteString(wrap(fmt.Sprintf("%s now comes before %s. Must it come after? Then write that under \"after\".", m.d.Tasks[p.First].Name, m.d.Tasks[p.Then].Name), width, "  ", "    "))
	}
	return b.String()
}

// peopleText is the order person by person, with usual values.
func (m *improvement) peopleText(f search.Found, width int) string {
	var b strings.Builder
	for who, tasks := range f.People {
		var names []string
		for _, i := range tasks {
			names = append(names, m.d.Tasks[i].Name)
		}
		if len(names) == 0 {
			names = []string{"nothing to do"}
		}
		b.WriteString(wrap(m.d.People[who].Name+": "+strings.Join(names, ", then "), width, "  ", "    "))
	}
	return b.String()
}
