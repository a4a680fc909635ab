package main

import (
	"time"

	"warmby/cmd/warmby/internal/document"
	"warmby/sim/doubt"
	"warmby/sim/halt"
	"warmby/sim/stats"
)

type haltJSON struct {
	document.Head
	Order      string          `json:"order"`
	WhatIf     string          `json:"what_if,omitempty"`
	Seed       uint64          `json:"seed"`
	Runs       int             `json:"runs"`
	Milestone  string          `json:"milestone"` // or all well
	Odds       float64         `json:"odds"`
	ColdOdds   *float64        `json:"cold_odds,omitempty"`
	Latest     *string         `json:"latest"` // on the clock; null when no arrival tried meets the odds
	LatestAt   *time.Time      `json:"latest_at"`
	LatestSure *string         `json:"latest_sure"` // the lower end of the interval counts
	Played     int             `json:"evaluations"` // drills played, of all cases and orders
	LatestWell *string         `json:"latest_all_well"`
	Points     []haltPointJSON `json:"points"`
	Doubt      *haltDoubtJSON  `json:"numbers_doubted"`     // null where there is nothing to doubt
	Cases      []haltCaseJSON  `json:"cases,omitempty"`     // with several cases or orders
	AllCases   []haltAllJSON   `json:"all_cases,omitempty"` // by order, the one that halts latest first
	Improved   *haltBetterJSON `json:"improve,omitempty"`
	Warnings   []string        `json:"warnings"`
	Cautions   []cautionJSON   `json:"cautions"`
	Repeat     string          `json:"repeat"`
}

type haltPointJSON struct {
	Arrival    string              `json:"arrival"` // on the clock
	ArrivalAt  time.Time           `json:"arrival_at"`
	Milestones []haltMilestoneJSON `json:"milestones"`
	AllWell    *shareJSON          `json:"all_well_in"`    // null where nothing is asked for
	NobodyCold *shareJSON          `json:"nobody_cold_in"` // null without an account of cold
	Cold       []haltColdJSON      `json:"too_cold"`       // who passes the cold limit; never null
}

type haltMilestoneJSON struct {
	Name   string     `json:"name"`
	By     seconds    `json:"by_s"`    // below 0 when it has passed on arrival
	OnTime *shareJSON `json:"on_time"` // null without a target
}

// haltShareDocument writes a share of runs; with usual values only it is 0 or 1.
func haltShareDocument(s stats.Share, usual bool) *shareJSON {
	j := shareDocument(s)
	if usual {
		j = document.WithoutLuck(s, document.OnlyUsual)
	}
	return &j
}

// haltColdJSON is somebody who passes the cold limit in some run.
type haltColdJSON struct {
	Name string    `json:"name"`
	Over shareJSON `json:"over_limit"`
}

// document writes the odds for other programs, without warnings and cautions.
func (h *halting) document() *haltJSON {
	doc := &haltJSON{
		Head: document.Head{SchemaVersion: 1, Scenario: h.name}, Order: h.d.Order, WhatIf: h.in.WhatIf, Seed: h.flags.seed, Runs: h.runs,
		Milestone: h.asked(), Odds: decimals(h.Odds), Points: []haltPointJSON{},
		Repeat: h.repeat(),
	}
	if i := h.Latest(); i >= 0 {
		doc.LatestAt = &h.arrivals[i]
	}
	doc.Latest, doc.LatestSure, doc.LatestWell = h.someClock(h.Latest()), h.someClock(h.LatestSure()), h.someClock(h.LatestWell())
	if h.ColdOdds > 0 {
		odds := decimals(h.ColdOdds)
		doc.ColdOdds = &odds
	}
	doc.Points, doc.Doubt = h.pointsDocument(), h.doubtDocument()
	return doc
}

// haltDoubtJSON is by when to halt with the numbers doubted; null as in haltJSON.
type haltDoubtJSON struct {
	document.Doubt
	Latest     *string `json:"latest"`
	LatestSure *string `json:"latest_sure"`
}

func (h *halting) doubtDocument() *haltDoubtJSON {
	if h.doubted == nil {
		return nil
	}
	return &haltDoubtJSON{document.DoubtOf(h.numbers, doubt.RunsOf(h.runs)), h.someClock(h.doubted.Latest()), h.someClock(h.doubted.LatestSure())}
}

// someClock writes an arrival by its index; nil for -1, none.
func (h *halting) someClock(i int) *string {
	if i < 0 {
		return nil
	}
	text := h.clock(i)
	return &text
}

func (h *halting) pointsDocument() []haltPointJSON {
	points := []haltPointJSON{}
	for i, p := range h.Points {
		j := haltPointJSON{Arrival: h.clock(i), ArrivalAt: h.arrivals[i]}
		for m, milestone := range p.Drill.Milestones {
			mj := haltMilestoneJSON{Name: milestone.Name, By: seconds(milestone.By)}
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
func (h *halting) someShare(s *stats.Share) *shareJSON {
	if s == nil {
		return nil
	}
	return haltShareDocument(*s, h.runs == 0)
}

// coldDocument lists who passes the limit.
func (h *halting) coldDocument(p halt.Point) []haltColdJSON {
	list := []haltColdJSON{}
	if p.Cold == nil {
		return list
	}
	for who, count := range p.Cold.OverBy {
		if count > 0 {
			s := stats.ShareOf(int64(count), int64(len(p.Cold.Peaks)))
			list = append(list, haltColdJSON{p.Drill.People[who].Name, *haltShareDocument(s, h.runs == 0)})
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
