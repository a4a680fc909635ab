package main

import (
	"fmt"
	"math"
	"strings"

	"warmby/cmd/warmby/internal/ask"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/search"
	"warmby/sim/stats"
)

// oneWhatIf returns the what-if that is searched by itself, "" for none.
func (f *improveFlags) oneWhatIf() string {
	if len(f.whatIfs) == 1 && f.whatIfs[0] != ask.AllWhatIfs {
		return f.whatIfs[0]
	}
	return ""
}

// settleCases makes a case of each of several what-ifs.
func (m *improvement) settleCases(src *ask.Source) error {
	if len(m.flags.whatIfs) == 0 || m.flags.oneWhatIf() != "" {
		return nil
	}
	wanted, err := src.WhatIfs(m.flags.whatIfs)
	if err != nil {
		return err
	}
	for _, name := range wanted {
		s, err := src.Scenario.WhatIf(name)
		if err != nil {
			return err
		}
		d, _ := s.Parts()
		m.options.Cases = append(m.options.Cases, search.Case{Name: name, Drill: d})
		if m.flags.runs > 0 && isDrawn(d) {
			m.options.Runs = m.flags.runs
		}
	}
	return nil
}

// casesText is a table for each aim: the order to beat and the best in each
// case, what is gained, and what no order can beat.
func (m *improvement) casesText(width int) string {
	if len(m.result.Cases) < 2 {
		return ""
	}
	var b strings.Builder
	for k, a := range m.result.Aims {
		best := m.bestAt(k)
		if len(m.result.Aims) > 1 {
			b.WriteString(wrap(sentenceCase(m.aimText(a))+":", width, "  ", "    "))
		}
		rows := [][]string{{"what if", m.beforeName(), best.Order.Name, "", "no order before"}}
		for c, r := range m.result.Cases {
			name := r.Name
			if c == 0 {
				name = "as it stands"
			}
			if r.Why != "" {
				rows = append(rows, []string{name, "left out"})
				continue
			}
			rows = append(rows, []string{name, momentText(m.result.Before.Cases[c].Value[k]), momentText(best.Cases[c].Value[k]),
				m.caseGain(best.Cases[c].Gain[k]), momentText(r.Bound[k])})
		}
		b.WriteString(tableWithin(width, 1, "  ", rows, 1, 2, 4))
	}
	return b.String()
}

// caseInterval says what stands in brackets in casesText.
func (m *improvement) caseInterval() string {
	if m.result.Runs == 0 {
		return ", usual values"
	}
	return fmt.Sprintf("; in brackets the 95 %% interval of %s", counted(m.result.Runs, "run"))
}

// momentText writes a moment that may never come in minutes and seconds.
func momentText(ms float64) string {
	if math.IsInf(ms, 1) {
		return "never"
	}
	return short(wholeMillis(ms))
}

// changeText writes a change that may be below 0 in minutes and seconds.
func changeText(ms float64) string { return signed(wholeMillis(ms)) }

func (m *improvement) caseGain(g search.Gain) string {
	switch {
	case g.Why != "":
		return "not always reached"
	case g.Value == 0:
		return "the same"
	case m.result.Runs == 0:
		if g.Value < 0 {
			return changeText(-g.Value) + " later"
		}
		return changeText(g.Value) + " sooner"
	case m.result.Runs < stats.FewRuns || math.IsInf(g.Low, 0):
		return "too few runs"
	case g.Low <= 0 && g.High >= 0:
		return fmt.Sprintf("no telling (%s sooner to %s later)", changeText(g.High), changeText(-g.Low))
	case g.Value < 0:
		return fmt.Sprintf("%s later (%s to %s)", changeText(-g.Value), changeText(-g.High), changeText(-g.Low))
	}
	return fmt.Sprintf("%s sooner (%s to %s)", changeText(g.Value), changeText(g.Low), changeText(g.High))
}

// improvedCaseJSON is what can be said of a case; lists are by aim.
type improvedCaseJSON struct {
	WhatIf *string     `json:"what_if"` // null for the scenario as it stands
	Why    string      `json:"left_out_why,omitempty"`
	Bounds []seconds   `json:"bounds_s"`
	Before []seconds   `json:"before_s"`
	Best   []seconds   `json:"best_s"` // of the first order
	Gains  []*gainJSON `json:"gains"`
}

func (m *improvement) casesDocument() (list []improvedCaseJSON) {
	if len(m.result.Cases) < 2 {
		return nil
	}
	for c, r := range m.result.Cases {
		doc := improvedCaseJSON{Why: r.Why}
		if c > 0 {
			doc.WhatIf = &r.Name
		}
		for k := range r.Bound {
			before, best := m.result.Before.Cases[c], m.result.Orders[0].Cases[c]
			doc.Bounds = append(doc.Bounds, secondsOf(r.Bound[k]))
			doc.Before, doc.Best = append(doc.Before, secondsOf(before.Value[k])), append(doc.Best, secondsOf(best.Value[k]))
			doc.Gains = append(doc.Gains, m.gainDocument(best.Gain[k]))
		}
		list = append(list, doc)
	}
	return list
}

// cautions returns what all cases together call for.
func (m *improvement) cautions() []cold.Caution {
	drills := []*sim.Drill{m.d}
	for _, c := range m.options.Cases {
		drills = append(drills, c.Drill)
	}
	return cautionsOfDrills(drills)
}
