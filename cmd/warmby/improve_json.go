package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"

	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/search"
)

type improveJSON struct {
	document.Head
	WhatIf      string               `json:"what_if,omitempty"`
	Seed        uint64               `json:"seed"`
	Runs        int                  `json:"runs"` // fresh ones; 0 with usual values only
	Aim         string               `json:"aim"`  // the first
	Aims        []string             `json:"aims"`
	Evaluations int                  `json:"evaluations"`
	Interrupted bool                 `json:"interrupted"`
	Before      improvedOrderJSON    `json:"before"` // the order to beat
	Orders      []improvedOrderJSON  `json:"orders"`
	WinsOn      string               `json:"wins_on,omitempty"` // which order of the file they begin from
	Wins        []winJSON            `json:"wins"`
	Bound       seconds              `json:"bound_s"`         // of the first aim
	Bounds      []seconds            `json:"bounds_s"`        // by aim
	BoundCI     *document.Interval   `json:"bound_ci95_s"`    // null when there are no runs
	BoundsCI    []*document.Interval `json:"bounds_ci95_s"`   // by aim
	Cases       []improvedCaseJSON   `json:"cases,omitempty"` // when there are several
	UsualBound  moments              `json:"usual_bound"`
	Unmet       []unmetJSON          `json:"unmet"`
	Warnings    []string             `json:"warnings"`
	Cautions    []cautionJSON        `json:"cautions"`
	Repeat      string               `json:"repeat"`
}

type improvedOrderJSON struct {
	Name    string          `json:"name"`
	Known   bool            `json:"known"` // an order of the file
	Order   json.RawMessage `json:"order"` // as in the file
	Usual   moments         `json:"usual"`
	Values  []seconds       `json:"values_s"` // by aim
	Gain    *gainJSON       `json:"gain"`     // in the first aim, against the order to beat
	Gains   []*gainJSON     `json:"gains"`    // by aim
	Behind  []*gainJSON     `json:"behind"`   // against the best, by aim
	Changes []changeJSON    `json:"changes"`

	Evenings  eveningsJSON     `json:"evenings"`
	MoreOften *moreOftenJSON   `json:"more_often"` // than under the order to beat; null for a first aim that is a moment
	People    []personTaskJSON `json:"by_person"`
	Turned    []turnedJSON     `json:"turned"`
}

// personTaskJSON is the sequence of a person with usual values.
type personTaskJSON struct {
	Name  string   `json:"name"`
	Tasks []string `json:"tasks"`
}

// turnedJSON is a pair of tasks that all orders of the file have the other way
// round.
type turnedJSON struct {
	Task   string `json:"task"`
	Before string `json:"now_before"`
}

// winJSON is one change, or several that only win together, on top of those
// before it.
type winJSON struct {
	Edits     []editJSON     `json:"edits"`
	Gain      *gainJSON      `json:"gain"`       // null for an aim that is a share of evenings
	MoreOften *moreOftenJSON `json:"more_often"` // null for one that is a moment
}

type editJSON struct {
	Task    string `json:"task,omitempty"`
	Before  string `json:"now_before,omitempty"`
	After   string `json:"now_after,omitempty"`
	Crew    string `json:"crew,omitempty"`
	Regroup bool   `json:"regrouped,omitempty"`
}

// moreOftenJSON is in what share of evenings more a goal is met.
type moreOftenJSON struct {
	Share float64     `json:"share"`
	CI    *[2]float64 `json:"ci95"` // null with usual values only
	Told  bool        `json:"told"`
}

// gainJSON is a difference; without an interval when there are no runs.
type gainJSON struct {
	document.Difference
	Told bool `json:"told"` // more than luck explains
}

type changeJSON struct {
	Task   string  `json:"task"`
	Later  seconds `json:"later_s"`
	Before string  `json:"now_before,omitempty"`
	After  string  `json:"now_after,omitempty"`
}

type unmetJSON struct {
	Milestone string   `json:"milestone,omitempty"`
	Goal      string   `json:"goal,omitempty"` // all well, all targets, nobody cold
	By        *seconds `json:"by_s,omitempty"`
	At        *seconds `json:"at_s,omitempty"`
	Least     *seconds `json:"no_order_before_s,omitempty"`
	Share     *float64 `json:"share,omitempty"`
	Person    string   `json:"person,omitempty"` // over the cold limit
	Peak      *float64 `json:"peak_wh_m2,omitempty"`
}

// moments are milestones with when they are reached, in file order.
type moments struct {
	d  *sim.Drill
	at []sim.Time
}

func (m moments) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, at := range m.at {
		if i > 0 {
			b.WriteByte(',')
		}
		name, err := json.Marshal(m.d.Milestones[i].Name)
		if err != nil {
			return nil, err
		}
		value, err := seconds(at).MarshalJSON()
		if err != nil {
			return nil, err
		}
		b.Write(name)
		b.WriteByte(':')
		b.Write(value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// secondsOf writes milliseconds; what is infinite never comes.
func secondsOf(ms float64) seconds {
	if math.IsInf(ms, 1) {
		return seconds(sim.Never)
	}
	return seconds(wholeMillis(ms))
}

// document writes what was found for other programs.
func (m *improvement) document(told report.Improvement) improveJSON {
	r := m.result
	doc := improveJSON{
		Head: document.Head{SchemaVersion: 2, Scenario: m.name}, WhatIf: m.flags.oneWhatIf(), Seed: m.flags.seed, Runs: r.Runs, Evaluations: r.Evaluations,
		Interrupted: r.Interrupted, Before: m.orderDocument(r.Before), Orders: []improvedOrderJSON{}, UsualBound: moments{m.d, r.UsualBound},
		Unmet: []unmetJSON{}, Warnings: []string{}, Repeat: m.repeat(), Wins: m.winsDocument(), WinsOn: r.WinsOn,
	}
	for _, w := range told.Warnings() {
		doc.Warnings = append(doc.Warnings, w.Full.Write(report.Full))
	}
	for k, a := range r.Aims {
		doc.Aims = append(doc.Aims, m.aimName(a))
		doc.Bounds = append(doc.Bounds, m.valueDocument(k, r.Bound[k]))
		var ci *document.Interval
		if r.Runs > 0 && !math.IsInf(r.Bound[k], 1) && !a.Goal.Share() {
			ci = document.IntervalOf(r.BoundLow[k], r.BoundHigh[k])
		}
		doc.BoundsCI = append(doc.BoundsCI, ci)
	}
	doc.Aim, doc.Bound, doc.BoundCI = doc.Aims[0], doc.Bounds[0], doc.BoundsCI[0]
	for _, f := range r.Orders {
		doc.Orders = append(doc.Orders, m.orderDocument(f))
	}
	doc.Cases = m.casesDocument()
	for _, u := range r.Unmet {
		doc.Unmet = append(doc.Unmet, m.unmetDocument(u))
	}
	doc.Cautions = cautionsDocument(m.cautions())
	return doc
}

// aimName is an aim as --aim takes it.
func (m *improvement) aimName(a search.Aim) string {
	if a.Goal.Share() {
		return a.Goal.String()
	}
	name := m.d.Milestones[a.Milestone].Name
	if m.result.Runs > 0 {
		name += " " + a.Statistic.String()
	}
	return name
}

// valueDocument writes the moment of an aim; null for one that is a share of
// evenings, see evenings.
func (m *improvement) valueDocument(aim int, value float64) seconds {
	if m.result.Aims[aim].Goal.Share() {
		return seconds(sim.Never)
	}
	return secondsOf(value)
}

// eveningsJSON says in what share of evenings an order goes as it should, in the
// worst case.
type eveningsJSON struct {
	AllWell    float64 `json:"all_well"`
	AllTargets float64 `json:"all_targets"`
	NobodyCold float64 `json:"nobody_cold"`
}

func eveningsDocument(e search.Evenings) eveningsJSON {
	return eveningsJSON{decimals(e.AllWell), decimals(e.AllTargets), decimals(e.NobodyCold)}
}

func (m *improvement) orderDocument(f search.Found) improvedOrderJSON {
	o := improvedOrderJSON{Name: f.Order.Name, Known: f.Known != "", Order: scenarios.OrderJSON(m.d, f.Order), Usual: moments{m.d, f.Milestones}, Changes: []changeJSON{}, Evenings: eveningsDocument(f.Evenings)}
	for k := range m.result.Aims {
		o.Values = append(o.Values, m.valueDocument(k, f.Value[k]))
		o.Gains = append(o.Gains, m.gainDocument(k, f.Gain[k]))
		o.Behind = append(o.Behind, m.gainDocument(k, negated(f.Behind[k])))
	}
	o.Gain, o.MoreOften = o.Gains[0], m.moreOftenDocument(f.Gain[0])
	o.People, o.Turned = m.peopleDocument(f), m.turnedDocument(f)
	for _, c := range m.result.Changes(f) {
		change := changeJSON{Task: m.d.Tasks[c.Task].Name, Later: seconds(c.Later)}
		switch {
		case c.Anchor < 0:
		case c.After:
			change.After = m.d.Tasks[c.Anchor].Name
		default:
			change.Before = m.d.Tasks[c.Anchor].Name
		}
		o.Changes = append(o.Changes, change)
	}
	return o
}

func (m *improvement) peopleDocument(f search.Found) (list []personTaskJSON) {
	for who, tasks := range f.People {
		p := personTaskJSON{Name: m.d.People[who].Name, Tasks: []string{}}
		for _, task := range tasks {
			p.Tasks = append(p.Tasks, m.d.Tasks[task].Name)
		}
		list = append(list, p)
	}
	return list
}

func (m *improvement) turnedDocument(f search.Found) []turnedJSON {
	list := []turnedJSON{}
	for _, p := range f.Turned {
		list = append(list, turnedJSON{m.d.Tasks[p.First].Name, m.d.Tasks[p.Then].Name})
	}
	return list
}

func (m *improvement) winsDocument() []winJSON {
	list := []winJSON{}
	for _, w := range m.result.Wins {
		j := winJSON{Gain: m.gainDocument(0, w.Gain), MoreOften: m.moreOftenDocument(w.Gain)}
		for _, e := range w.Edits {
			j.Edits = append(j.Edits, m.editDocument(e))
		}
		list = append(list, j)
	}
	return list
}

func (m *improvement) editDocument(e search.Edit) (j editJSON) {
	switch {
	case e.Task < 0:
		return editJSON{Regroup: true}
	case e.Kind == search.Crews:
		j.Crew = fmt.Sprintf("%d-%d", e.Crew.Min, e.Crew.Max)
	case e.Anchor < 0:
	case e.After:
		j.After = m.d.Tasks[e.Anchor].Name
	default:
		j.Before = m.d.Tasks[e.Anchor].Name
	}
	j.Task = m.d.Tasks[e.Task].Name
	return j
}

// moreOftenDocument writes a gain at the first aim when that is a share.
func (m *improvement) moreOftenDocument(g search.Gain) *moreOftenJSON {
	if g.Why != "" || !m.result.Aims[0].Goal.Share() {
		return nil
	}
	out := &moreOftenJSON{Share: decimals(g.Value), Told: g.Told}
	if m.result.Runs > 0 {
		out.CI = &[2]float64{decimals(g.Low), decimals(g.High)}
	}
	return out
}

// negated is a gain with the other sign.
func negated(g search.Gain) search.Gain {
	g.Value, g.Low, g.High = -g.Value, -g.High, -g.Low
	return g
}

func (m *improvement) gainDocument(aim int, g search.Gain) *gainJSON {
	if g.Why != "" || m.result.Aims[aim].Goal.Share() {
		return nil
	}
	out := &gainJSON{document.Difference{Sooner: secondsOf(g.Value)}, g.Told}
	if m.result.Runs > 0 {
		out.CI95 = document.IntervalOf(g.Low, g.High)
	}
	return out
}

func (m *improvement) unmetDocument(u search.Unmet) unmetJSON {
	if u.InTime == nil && m.result.Runs > 0 {
		share := decimals(u.Share)
		return unmetJSON{Goal: u.AtLeast.Goal.String(), Share: &share, Person: u.Person}
	}
	if u.InTime == nil {
		peak := decimals(u.Peak)
		return unmetJSON{Person: u.Person, Peak: &peak}
	}
	by, at, least := seconds(u.InTime.By), seconds(u.At), seconds(u.Least)
	out := unmetJSON{Milestone: m.d.Milestones[u.InTime.Milestone].Name, By: &by, At: &at, Least: &least}
	if m.result.Runs > 0 {
		share := decimals(u.Share)
		out.Share = &share
	}
	return out
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
			doc.Bounds = append(doc.Bounds, m.valueDocument(k, r.Bound[k]))
			doc.Before, doc.Best = append(doc.Before, m.valueDocument(k, before.Value[k])), append(doc.Best, m.valueDocument(k, best.Value[k]))
			doc.Gains = append(doc.Gains, m.gainDocument(k, best.Gain[k]))
		}
		list = append(list, doc)
	}
	return list
}
