package main

import (
	"warmby/cmd/warmby/internal/document"
	"warmby/sim/doubt"
	"warmby/sim/halt"
	"warmby/sim/stats"
)

// haltShareDocument writes a share of runs; with usual values only it is 0 or 1.
func haltShareDocument(s stats.Share, usual bool) *document.Share {
	j := document.ShareOf(s)
	if usual {
		j = document.WithoutLuck(s, document.OnlyUsual)
	}
	return &j
}

// document writes the odds for other programs, without warnings and cautions.
func (h *halting) document() *document.Halt {
	doc := &document.Halt{
		Head: document.Head{SchemaVersion: 1, Scenario: h.name}, Order: h.d.Order, WhatIf: h.in.WhatIf, Seed: h.flags.seed, Runs: h.runs,
		Milestone: h.asked(), Odds: document.Decimals(h.Odds), Points: []document.HaltPoint{},
		Repeat: h.repeat(),
	}
	if i := h.Latest(); i >= 0 {
		doc.LatestAt = &h.arrivals[i]
	}
	doc.Latest, doc.LatestSure, doc.LatestWell = h.someClock(h.Latest()), h.someClock(h.LatestSure()), h.someClock(h.LatestWell())
	if h.ColdOdds > 0 {
		odds := document.Decimals(h.ColdOdds)
		doc.ColdOdds = &odds
	}
	doc.Points, doc.Doubt = h.pointsDocument(), h.doubtDocument()
	return doc
}

func (h *halting) doubtDocument() *document.HaltDoubt {
	if h.doubted == nil {
		return nil
	}
	return &document.HaltDoubt{Doubt: document.DoubtOf(h.numbers, doubt.RunsOf(h.runs)), Latest: h.someClock(h.doubted.Latest()), LatestSure: h.someClock(h.doubted.LatestSure())}
}

// someClock writes an arrival by its index; nil for -1, none.
func (h *halting) someClock(i int) *string {
	if i < 0 {
		return nil
	}
	text := h.clock(i)
	return &text
}

func (h *halting) pointsDocument() []document.HaltPoint {
	points := []document.HaltPoint{}
	for i, p := range h.Points {
		j := document.HaltPoint{Arrival: h.clock(i), ArrivalAt: h.arrivals[i]}
		for m, milestone := range p.Drill.Milestones {
			mj := document.HaltMilestone{Name: milestone.Name, By: document.Seconds(milestone.By)}
			if p.OnTime[m] != nil {
				mj.OnTime = haltShareDocument(*p.OnTime[m], h.runs == 0)
			}
			j.Milestones = append(j.Milestones, mj)
		}
		j.AllWell, j.NobodyCold, j.Cold = h.someShare(p.Well.All), h.someShare(p.Well.NobodyCold), h.coldDocument(p)
		points = append(points, j)
	}
	return points
}

// someShare writes a share, null for none.
func (h *halting) someShare(s *stats.Share) *document.Share {
	if s == nil {
		return nil
	}
	return haltShareDocument(*s, h.runs == 0)
}

// coldDocument lists who passes the limit.
func (h *halting) coldDocument(p halt.Point) []document.HaltCold {
	list := []document.HaltCold{}
	if p.Cold == nil {
		return list
	}
	for who, count := range p.Cold.OverBy {
		if count > 0 {
			s := stats.ShareOf(int64(count), int64(len(p.Cold.Peaks)))
			list = append(list, document.HaltCold{Name: p.Drill.People[who].Name, Over: *haltShareDocument(s, h.runs == 0)})
		}
	}
	return list
}

// clock writes an arrival as the clock shows it, with seconds where it has any.
func (h *halting) clock(i int) string {
	at := h.arrivals[i]
	if at.Second() != 0 {
		return at.Format("15:04:05")
	}
	return at.Format(clockLayout)
}
