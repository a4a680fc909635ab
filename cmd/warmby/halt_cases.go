package main

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"warmby/cmd/warmby/internal/ask"
	"warmby/plots"
	"warmby/sim/halt"
)

// allOrders stands for every order of a file.
const allOrders = "all"

// haltings is every case under every order asked for, at the same arrivals.
type haltings struct {
	cases  []*ask.Case
	orders []string     // "" for the first of the file, or tasks in file order
	grid   [][]*halting // by case, then order
}

// first is what everything is told of at length.
func (g *haltings) first() *halting { return g.grid[0][0] }

// several reports whether there is anything to hold against each other.
func (g *haltings) several() bool { return len(g.cases) > 1 || len(g.orders) > 1 }

// newHaltings settles what is asked.
func newHaltings(src *ask.Source, f haltFlags) (*haltings, error) {
	g := &haltings{orders: f.orders}
	var err error
	if g.cases, err = src.Cases(f.whatIfs); err != nil {
		return nil, err
	}
	if slices.Contains(f.orders, allOrders) && !slices.Contains(src.Scenario.Orders(), allOrders) {
		g.orders = src.Scenario.Orders()
	} else if g.orders, err = ask.Asked(f.orders, src.Scenario.Orders(), "order", src.Name); err != nil {
		return nil, err
	}
	if len(g.orders) == 0 {
		g.orders = []string{""}
	}
	cautions := cautionsOfCases(g.cases)
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
			h.flags, h.cautions = f, cautions
			g.grid[i] = append(g.grid[i], h)
			h.arrivals, h.step = g.first().arrivals, g.first().step
		}
	}
	return g, g.settleRuns(f)
}

// asked names the milestone that must be in time.
func (h *halting) asked() string { return h.d.Milestones[h.Milestone].Name }

// settleRuns settles how many runs there are at each arrival: as many as asked
// for, or fewer when only so many drills may be played. Each arrival is played
// once more with usual values, for the coldest.
func (g *haltings) settleRuns(f haltFlags) error {
	points := len(g.cases) * len(g.orders) * len(g.first().arrivals)
	if f.runs > mostMoments || f.runs*points*len(g.first().d.Milestones) > mostMoments {
		return &usageError{fmt.Sprintf("--runs %d at %s would not fit into memory", f.runs, counted(points, "arrival")),
			"ask for fewer runs or arrivals; 1000 runs tell a share of 90 % to 2 %"}
	}
	runs, least := f.runs, points
	if runs > 0 {
		least = 2 * points
	}
	if f.evaluations > 0 {
		if f.evaluations < least {
			return &usageError{fmt.Sprintf("--evaluations %d is too few for %s: %d at least", f.evaluations, counted(points, "arrival"), least),
				"make --step longer, or play usual values only (--runs 0)"}
		}
		runs = min(runs, f.evaluations/points-1)
	}
	for _, row := range g.grid {
		for _, h := range row {
			h.runs, h.played = max(0, runs), points*(max(0, runs)+1)
		}
	}
	return nil
}

// play plays all of them under the same luck. A what-if that cannot be played
// is an answer; the scenario itself must play.
func (g *haltings) play(ctx context.Context) error {
	for i, row := range g.grid {
		for _, h := range row {
			err := h.play(ctx)
			if i > 0 && never(err) {
				h.never, h.Points = err.Error(), nil
				continue
			}
			if err != nil {
				return err
			}
		}
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

// latestOfAll returns the last arrival at which the odds are kept in every case
// that can be played, under an order; -1 for none.
func (g *haltings) latestOfAll(order int) int { return halt.LatestOfAll(g.under(order)) }

// ranking returns the orders, the one under which one may halt latest first.
func (g *haltings) ranking() []int {
	var orders [][]*halt.Answer
	for k := range g.orders {
		orders = append(orders, g.under(k))
	}
	return halt.Ranking(orders)
}

// page writes one page for people.
func (g *haltings) page(width int) string {
	if !g.several() {
		return g.first().text(width, nil)
	}
	return g.first().text(width, g)
}

// text says when to halt in each case and under each order.
func (g *haltings) text(width int) string {
	h := g.first()
	rows := [][]string{{"case"}}
	for k := range g.orders {
		rows[0] = append(rows[0], cmp.Or(g.grid[0][k].d.Order, "file order"))
	}
	var stops []string
	for i, row := range g.grid {
		cells := []string{g.cases[i].Called()}
		for _, one := range row {
			cells = append(cells, one.latestCell())
			if one.never != "" {
				stops = append(stops, fmt.Sprintf("%s cannot be played under %s, and is left out of what holds in all: %s", quoteWord(g.cases[i].Called()), one.orderWords(), one.never))
			}
		}
		rows = append(rows, cells)
	}
	if len(g.cases) > 1 {
		cells := []string{"in all of them"}
		for k := range g.orders {
			cells = append(cells, g.clockOf(g.latestOfAll(k)))
		}
		rows = append(rows, cells)
	}
	out := tableWithin(width, 1, "  ", rows)
	for _, s := range stops {
		out += wrap(s, width, "  ", "    ")
	}
	text := g.sentence()
	if h.runs > 0 {
		text += " Beside each arrival its odds in 100 with their 95 % interval, " + counted(h.runs, "run") + " of each."
	}
	if n := len(h.arrivals); n > 1 {
		text += fmt.Sprintf(" Arrivals from %s to %s were tried, %s apart.", h.when(0), h.when(n-1), spanWords(h.step))
	}
	return out + wrap(text, width, "  ", "  ")
}

// sentence says which arrival keeps the odds in all cases, and under which
// order one may halt latest.
func (g *haltings) sentence() string {
	h, where, keeps := g.first(), "", "keeps the odds"
	if h.runs == 0 {
		keeps = "is in time with usual values"
	}
	if len(g.cases) > 1 {
		where = " in all of these cases"
	}
	ranked := g.ranking()
	best := g.latestOfAll(ranked[0])
	if best < 0 {
		return "None of the arrivals tried " + keeps + where + "."
	}
	text := fmt.Sprintf("Latest arrival that %s%s: %s", keeps, where, h.when(best))
	if len(g.orders) == 1 {
		return text + "."
	}
	var first, others []string
	for _, k := range ranked {
		name := quoteWord(cmp.Or(g.grid[0][k].d.Order, "file order"))
		if at := g.latestOfAll(k); at == best {
			first = append(first, name)
		} else {
			others = append(others, name+" "+g.clockOf(at))
		}
	}
	text += " under " + list(first)
	if others != nil {
		text += "; then " + strings.Join(others, ", ")
	}
	return text + "."
}

func (g *haltings) clockOf(at int) string {
	if at < 0 {
		return "none tried"
	}
	return g.first().when(at)
}

// latestCell writes the latest arrival that meets the odds, with them.
func (h *halting) latestCell() string {
	if h.never != "" {
		return "cannot be played"
	}
	at := h.Latest()
	switch {
	case at < 0:
		return "none tried"
	case h.runs == 0:
		return h.when(at)
	}
	return h.when(at) + "  " + h.cell(*h.Points[at].OnTime[h.Milestone])
}

func spanWords(step time.Duration) string {
	if step%time.Minute == 0 {
		return fmt.Sprintf("%d min", step/time.Minute)
	}
	return fmt.Sprintf("%d s", step/time.Second)
}

// picture draws the odds against the arrival: of every milestone; of several
// cases or orders, of the one asked about, a line for each case under the first
// order, or for each order.
func (g *haltings) picture() *plots.Picture {
	h := g.first()
	in := h.pictureInput()
	if !g.several() {
		return plots.HaltOdds(in)
	}
	m := h.d.Milestones[h.Milestone]
	of := []*halting{}
	for i := range g.cases {
		of = append(of, g.grid[i][0])
	}
	in.Lead = fmt.Sprintf("%s %s, by case, %s", sentenceCase(m.Name), targetWords(m), h.orderWords())
	if len(g.cases) == 1 {
		of = g.grid[0]
		in.Lead = fmt.Sprintf("%s %s, by order", sentenceCase(m.Name), targetWords(m))
	}
	in.Milestones, in.Latest = nil, time.Time{}
	if at := g.latestOfAll(0); len(g.cases) > 1 && at >= 0 {
		in.Latest = h.arrivals[at]
		in.Lead += "; the arrival marked is the latest for all"
	}
	for i, one := range of {
		if one.never != "" {
			continue
		}
		line := one.oddsLine(h.Milestone)
		line.Name, line.Asked = one.in.Called(), i == 0
		if len(g.cases) == 1 {
			line.Name = cmp.Or(one.d.Order, "file order")
		}
		in.Milestones = append(in.Milestones, line)
	}
	return plots.HaltOdds(in)
}

// haltCaseJSON is one case under one order.
type haltCaseJSON struct {
	WhatIf     string          `json:"what_if"` // "" as it stands
	Order      string          `json:"order"`
	Latest     *string         `json:"latest"`
	LatestAt   *time.Time      `json:"latest_at"`
	LatestSure *string         `json:"latest_sure"`
	Why        string          `json:"why,omitempty"` // it cannot be played
	Points     []haltPointJSON `json:"points"`
}

// haltAllJSON is the latest arrival that keeps the odds in all cases.
type haltAllJSON struct {
	Order    string     `json:"order"`
	Latest   *string    `json:"latest"`
	LatestAt *time.Time `json:"latest_at"`
}

// document writes the odds for other programs.
func (g *haltings) document() *haltJSON {
	h := g.first()
	doc := h.document()
	if !g.several() {
		return doc
	}
	for _, row := range g.grid {
		for _, one := range row {
			own := one.document()
			doc.Cases = append(doc.Cases, haltCaseJSON{one.in.WhatIf, one.d.Order, own.Latest, own.LatestAt, own.LatestSure, one.never, own.Points})
		}
	}
	for _, k := range g.ranking() {
		j := haltAllJSON{Order: g.grid[0][k].d.Order}
		if at := g.latestOfAll(k); at >= 0 {
			clock := h.clock(at)
			j.Latest, j.LatestAt = &clock, &h.arrivals[at]
		}
		doc.AllCases = append(doc.AllCases, j)
	}
	return doc
}
