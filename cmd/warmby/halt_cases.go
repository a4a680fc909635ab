package main

import (
	"context"
	"fmt"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/doubt"
	"warmby/sim/halt"
	"warmby/sim/rehearse"
	"warmby/sim/search"
)

// haltings is every case under every order asked for, at the same arrivals.
type haltings struct {
	cases    []*ask.Case
	cautions []cold.Caution // of all that were asked for
	orders   []string       // "" for the first of the file, or tasks in file order
	grid     [][]*halting   // by case, then order
	played   int            // drills
	found    *halt.Found    // an order under which one may halt later; nil when not asked for
}

// first is what everything is told of at length.
func (g *haltings) first() *halting { return g.grid[0][0] }

// several reports whether there is anything to compare.
func (g *haltings) several() bool { return len(g.cases) > 1 || len(g.orders) > 1 }

// newHaltings settles what is asked.
func newHaltings(src *ask.Source, f haltFlags) (*haltings, error) {
	g := &haltings{}
	var err error
	if g.cases, err = src.Cases(f.whatIfs); err != nil {
		return nil, err
	}
	if g.orders, err = src.Orders(f.orders); err != nil {
		return nil, err
	}
	if len(g.orders) == 0 {
		g.orders = []string{""}
	}
	g.cautions = ask.Cautions(g.cases)
	for i, c := range g.cases {
		g.grid = append(g.grid, nil)
		for _, order := range g.orders {
			own := f
			if len(g.grid[0]) > 0 { // all are about the milestone of the first
				own.milestone = g.first().asked()
			}
			h, err := newHalting(src, c, order, own)
			if err != nil {
				return nil, err
			}
			h.flags = f
			g.grid[i] = append(g.grid[i], h)
			h.arrivals, h.step = g.first().arrivals, g.first().step
		}
	}
	return g, g.settleRuns(f)
}

// asked names what must go well.
func (h *halting) asked() string {
	if h.AllWell {
		return search.AllWell.String()
	}
	return h.d.Milestones[h.Milestone].Name
}

// settleRuns settles how many runs there are at each arrival: as many as asked for,
// or fewer when only so many drills may be played. A search takes half of those.
func (g *haltings) settleRuns(f haltFlags) error {
	points := len(g.cases) * len(g.orders) * len(g.first().arrivals)
	if f.runs > ask.MostMoments || f.runs*points*len(g.first().d.Milestones) > ask.MostMoments {
		return &mistake.Usage{What: fmt.Sprintf("--runs %d at %s would not fit into memory", f.runs, report.Counted(points, "arrival")), Cure: "ask for fewer runs or arrivals; 1000 runs tell a share of 90 % to 2 %"}
	}
	runs := f.runs
	if f.evaluations > 0 {
		least := points
		if f.improve { // what is found is played at all arrivals, too, and half is for the search
			least = 2 * (points + halt.MostSearches*len(g.cases)*len(g.first().arrivals))
		}
		if f.evaluations < least {
			return &mistake.Usage{What: fmt.Sprintf("--evaluations %d is too few for %s: %d at least", f.evaluations, report.Counted(points, "arrival"), least), Cure: "make --step longer, or try fewer orders"}
		}
		runs = min(runs, f.evaluations/least)
	}
	for _, row := range g.grid {
		for _, h := range row {
			h.runs = runs
		}
	}
	g.played = points * max(1, runs)
	if g.first().doubts() {
		g.played += points * doubt.RunsOf(runs)
	}
	return nil
}

// play plays all of them under the same luck.
func (g *haltings) play(ctx context.Context) error {
	for _, row := range g.grid {
		for _, h := range row {
			if err := h.play(ctx); err != nil {
				return err
			}
		}
	}
	if g.first().flags.improve {
		return g.improve(ctx)
	}
	return nil
}

// under returns what came of every case under an order.
func (g *haltings) under(order int) []*halt.Answer {
	var list []*halt.Answer
	for _, row := range g.grid {
		list = append(list, &row[order].Answer)
	}
	return list
}

// latestOfAll returns the last arrival at which the odds are kept in every case,
// under an order; -1 for none.
func (g *haltings) latestOfAll(order int) int { return halt.LatestOfAll(g.under(order)) }

// ranking returns the orders, the one under which one may halt latest first.
func (g *haltings) ranking() []int {
	var orders [][]*halt.Answer
	for k := range g.orders {
		orders = append(orders, g.under(k))
	}
	return halt.Ranking(orders)
}

// told is what came of it for its report.
func (g *haltings) told() report.Halts {
	h := g.first()
	told := report.Halts{
		Drill: h.d, Step: sim.Time(h.step.Milliseconds()), Seed: h.flags.seed, Runs: h.runs, Wanted: h.flags.runs, Evaluations: h.flags.evaluations,
		Played: g.played, Drawn: rehearse.IsDrawn(h.d), Numbers: h.numbers, All: g.cautions, Repeat: h.repeat(), Cautions: ask.CautionsCommand(h.arg),
	}
	for _, at := range h.arrivals {
		told.Arrivals = append(told.Arrivals, sim.Time(at.Sub(h.d.Site.Arrival).Milliseconds()))
	}
	if g.found != nil {
		told.Search = &report.HaltSearch{Found: g.found, YAML: g.yaml()}
	}
	for i, c := range g.cases {
		one := report.HaltCase{Name: c.Called(), WhatIf: c.WhatIf}
		for _, h := range g.grid[i] {
			one.Orders = append(one.Orders, report.Halting{Order: h.d.Order, Answer: &h.Answer, Doubted: h.doubted})
		}
		told.Cases = append(told.Cases, one)
	}
	return told
}

// warnings returns what should keep readers from leaning on the figures.
func (g *haltings) warnings() []string {
	list := []string{}
	for _, w := range g.told().Warnings() {
		list = append(list, w.Write(report.Full))
	}
	return list
}

// document writes the odds for other programs.
func (g *haltings) document() *document.Halt {
	h := g.first()
	doc := h.document()
	doc.Played, doc.Improved = g.played, g.betterDocument()
	doc.Warnings, doc.Cautions = g.warnings(), document.Cautions(g.cautions)
	if !g.several() {
		return doc
	}
	for _, row := range g.grid {
		for _, one := range row {
			own := one.document()
			doc.Cases = append(doc.Cases, document.HaltCase{WhatIf: one.in.WhatIf, Order: one.d.Order, Latest: own.Latest, LatestAt: own.LatestAt, LatestSure: own.LatestSure, Points: own.Points, Doubt: own.Doubt})
		}
	}
	for _, k := range g.ranking() {
		j := document.HaltAllCases{Order: g.grid[0][k].d.Order}
		if at := g.latestOfAll(k); at >= 0 {
			clock := h.clock(at)
			j.Latest, j.LatestAt = &clock, &h.arrivals[at]
		}
		doc.AllCases = append(doc.AllCases, j)
	}
	return doc
}
