package main

import (
	"fmt"
	"math"

	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/search"
)

// document writes what was found for other programs.
func (m *improvement) document(told report.Improvement) document.Improvement {
	r := m.result
	doc := document.Improvement{
		Head: document.Head{SchemaVersion: 2, Scenario: m.name}, WhatIf: m.flags.oneWhatIf(), Seed: m.flags.seed, Runs: r.Runs, Evaluations: r.Evaluations,
		Interrupted: r.Interrupted, Before: m.orderDocument(r.Before), Orders: []document.ImprovedOrder{}, UsualBound: document.Moments{Drill: m.d, At: r.UsualBound},
		Unmet: []document.Unmet{}, Warnings: []string{}, Repeat: m.repeat(), Wins: m.winsDocument(), WinsOn: r.WinsOn,
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
	doc.Cautions = document.Cautions(m.cautions())
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
func (m *improvement) valueDocument(aim int, value float64) document.Seconds {
	if m.result.Aims[aim].Goal.Share() {
		return document.Seconds(sim.Never)
	}
	return document.SecondsOf(value)
}

func eveningsDocument(e search.Evenings) document.Evenings {
	return document.Evenings{AllWell: document.Decimals(e.AllWell), AllTargets: document.Decimals(e.AllTargets), NobodyCold: document.Decimals(e.NobodyCold)}
}

func (m *improvement) orderDocument(f search.Found) document.ImprovedOrder {
	o := document.ImprovedOrder{Name: f.Order.Name, Known: f.Known != "", Order: scenarios.OrderJSON(m.d, f.Order), Usual: document.Moments{Drill: m.d, At: f.Milestones}, Changes: []document.Change{}, Evenings: eveningsDocument(f.Evenings)}
	for k := range m.result.Aims {
		o.Values = append(o.Values, m.valueDocument(k, f.Value[k]))
		o.Gains = append(o.Gains, m.gainDocument(k, f.Gain[k]))
		o.Behind = append(o.Behind, m.gainDocument(k, negated(f.Behind[k])))
	}
	o.Gain, o.MoreOften = o.Gains[0], m.moreOftenDocument(f.Gain[0])
	o.People, o.Turned = m.peopleDocument(f), m.turnedDocument(f)
	for _, c := range m.result.Changes(f) {
		change := document.Change{Task: m.d.Tasks[c.Task].Name, Later: document.Seconds(c.Later)}
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

func (m *improvement) peopleDocument(f search.Found) (list []document.PersonTasks) {
	for who, tasks := range f.People {
		p := document.PersonTasks{Name: m.d.People[who].Name, Tasks: []string{}}
		for _, task := range tasks {
			p.Tasks = append(p.Tasks, m.d.Tasks[task].Name)
		}
		list = append(list, p)
	}
	return list
}

func (m *improvement) turnedDocument(f search.Found) []document.Turned {
	list := []document.Turned{}
	for _, p := range f.Turned {
		list = append(list, document.Turned{Task: m.d.Tasks[p.First].Name, Before: m.d.Tasks[p.Then].Name})
	}
	return list
}

func (m *improvement) winsDocument() []document.Win {
	list := []document.Win{}
	for _, w := range m.result.Wins {
		j := document.Win{Gain: m.gainDocument(0, w.Gain), MoreOften: m.moreOftenDocument(w.Gain)}
		for _, e := range w.Edits {
			j.Edits = append(j.Edits, m.editDocument(e))
		}
		list = append(list, j)
	}
	return list
}

func (m *improvement) editDocument(e search.Edit) (j document.Edit) {
	switch {
	case e.Task < 0:
		return document.Edit{Regroup: true}
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
func (m *improvement) moreOftenDocument(g search.Gain) *document.MoreOften {
	if g.Why != "" || !m.result.Aims[0].Goal.Share() {
		return nil
	}
	out := &document.MoreOften{Share: document.Decimals(g.Value), Told: g.Told}
	if m.result.Runs > 0 {
		out.CI = &[2]float64{document.Decimals(g.Low), document.Decimals(g.High)}
	}
	return out
}

// negated is a gain with the other sign.
func negated(g search.Gain) search.Gain {
	g.Value, g.Low, g.High = -g.Value, -g.High, -g.Low
	return g
}

func (m *improvement) gainDocument(aim int, g search.Gain) *document.Gain {
	if g.Why != "" || m.result.Aims[aim].Goal.Share() {
		return nil
	}
	out := &document.Gain{Difference: document.Difference{Sooner: document.SecondsOf(g.Value)}, Told: g.Told}
	if m.result.Runs > 0 {
		out.CI95 = document.IntervalOf(g.Low, g.High)
	}
	return out
}

func (m *improvement) unmetDocument(u search.Unmet) document.Unmet {
	if u.InTime == nil && m.result.Runs > 0 {
		share := document.Decimals(u.Share)
		return document.Unmet{Goal: u.AtLeast.Goal.String(), Share: &share, Person: u.Person}
	}
	if u.InTime == nil {
		peak := document.Decimals(u.Peak)
		return document.Unmet{Person: u.Person, Peak: &peak}
	}
	by, at, least := document.Seconds(u.InTime.By), document.Seconds(u.At), document.Seconds(u.Least)
	out := document.Unmet{Milestone: m.d.Milestones[u.InTime.Milestone].Name, By: &by, At: &at, Least: &least}
	if m.result.Runs > 0 {
		share := document.Decimals(u.Share)
		out.Share = &share
	}
	return out
}

func (m *improvement) casesDocument() (list []document.ImprovedCase) {
	if len(m.result.Cases) < 2 {
		return nil
	}
	for c, r := range m.result.Cases {
		doc := document.ImprovedCase{Why: r.Why}
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
