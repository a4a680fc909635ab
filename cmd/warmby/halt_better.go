package main

import (
	"context"
	"fmt"
	"slices"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/document"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/halt"
)

const (
	// haltEvaluations is how many drills each search of halt --improve plays unless
	// flags say otherwise.
	haltEvaluations = 100_000
	// betterOrder is what the order found is called.
	betterOrder = "better for halting late"
)

// improve looks for an order under which one may halt later than under those
// played, and adds it to them.
func (g *haltings) improve(ctx context.Context) error {
	later, cases, err := g.later()
	if err != nil {
		return err
	}
	if g.found, err = later.Improve(ctx); err != nil {
		return fmt.Errorf("%s: %w", g.first().name, err)
	}
	if ctx.Err() != nil {
		return ctx.Err()
	}
	g.played += g.found.Evaluations + len(g.found.Searched)*len(cases)*len(g.first().arrivals)*max(1, g.first().runs)
	if g.found.Order == nil {
		return nil
	}
	g.found.Order.Name = freshOf(betterOrder, g.cases[0].Scenario.Orders())
	g.orders = append(g.orders, g.found.Order.Name)
	for k, i := range cases {
		first := g.grid[i][0]
		h := *first
		h.order, h.Answer = g.found.Order.Name, *g.found.Cases[k]
		h.d = h.Points[0].Drill.Under(sim.Order{})
		h.d.Order = g.found.Order.Name
		g.grid[i] = append(g.grid[i], &h)
	}
	for i, row := range g.grid { // cases that cannot be played
		if len(row) < len(g.orders) {
			h := *row[0]
			h.order, h.d = g.found.Order.Name, row[0].d.Under(sim.Order{Name: g.found.Order.Name})
			g.grid[i] = append(row, &h)
		}
	}
	return nil
}

// later is what is asked of the search, and which cases it is about.
func (g *haltings) later() (halt.Later, []int, error) {
	h := g.first()
	l := halt.Later{From: -1, Asked: h.Asked, Evaluations: g.searched(),
		Batch: compare.Batch{Seed: h.flags.seed, Runs: h.runs, Workers: h.flags.workers}}
	d, orders := g.cases[0].Scenario.Parts()
	if l.Orders = orders; len(orders) == 0 {
		l.Orders = []sim.Order{d.FileOrder(ask.FileOrder)}
	}
	for k := range g.orders {
		l.From = max(l.From, g.latestOfAll(k))
	}
	var cases []int
	for i, c := range g.cases {
		var drills []*sim.Drill
		for _, at := range h.arrivals {
			d, err := c.Scenario.PartsArriving(at)
			if err != nil {
				return l, nil, err
			}
			drills = append(drills, d)
		}
		l.Cases, cases = append(l.Cases, drills), append(cases, i)
	}
	return l, cases, nil
}

// searched is how many drills each search may play.
func (g *haltings) searched() int {
	if n := g.first().flags.evaluations; n > 0 {
		return max(1, n/2/halt.MostSearches)
	}
	return haltEvaluations
}

// laterBy says by how much an arrival lies behind another, both by index; nil when
// one of them is none.
func (g *haltings) laterBy(now, was int) *document.Seconds {
	if now < 0 || was < 0 {
		return nil
	}
	by := document.Seconds(g.first().arrivals[now].Sub(g.first().arrivals[was]).Milliseconds())
	return &by
}

func (g *haltings) betterDocument() *document.HaltBetter {
	if g.found == nil {
		return nil
	}
	j := &document.HaltBetter{SearchedAt: []string{}}
	for _, i := range g.found.Searched {
		j.SearchedAt = append(j.SearchedAt, g.first().clock(i))
	}
	if o := g.found.Order; o != nil {
		d, _ := g.cases[0].Scenario.Parts()
		j.Order = &document.HaltOrder{Name: o.Name, Order: scenarios.OrderJSON(d, *o)}
		j.Later = g.laterBy(g.latestOfAll(len(g.orders)-1), g.bestOfFile())
	}
	return j
}

// bestOfFile is the latest arrival that the orders played first keep in all cases.
func (g *haltings) bestOfFile() int {
	best := -1
	for k := range g.orders[:len(g.orders)-1] {
		best = max(best, g.latestOfAll(k))
	}
	return best
}

// yaml writes the order that was found as it stands in a file; "" for none.
func (g *haltings) yaml() string {
	if g.found == nil || g.found.Order == nil {
		return ""
	}
	d, _ := g.cases[0].Scenario.Parts()
	return scenarios.OrderYAML(d, *g.found.Order, g.found.Order.Name, 2)
}

// freshOf returns a name that a list does not have.
func freshOf(name string, taken []string) string {
	fresh := name
	for n := 2; slices.Contains(taken, fresh); n++ {
		fresh = fmt.Sprintf("%s %d", name, n)
	}
	return fresh
}
