package main

import (
	"math"

	"warmby/cmd/warmby/internal/document"
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// document writes a comparison for other programs.
func (c *comparison) document() compareJSON {
	doc := compareJSON{
		Head: document.Head{SchemaVersion: 2, Scenario: c.name}, Seed: c.flags.seed, Runs: c.flags.runs,
		FirstAt: c.d.Milestones[c.primary[0]].Name, Orders: []orderJSON{}, Differences: []document.Match{}, Best: []document.BestRow{}, WhatIfs: []whatIfJSON{},
		CanWait: []canWaitJSON{}, Moves: []movesJSON{}, Warnings: append([]string{}, c.warnings()...), Repeat: c.repeat(),
	}
	for _, m := range c.primary {
		doc.Primary = append(doc.Primary, c.d.Milestones[m].Name)
	}
	for _, w := range append([]*bout{c.asIs}, c.whatIfs...) {
		doc.Orders = append(doc.Orders, c.ordersDocument(w)...)
		doc.Differences = append(doc.Differences, w.differencesDocument()...)
		doc.Best = append(doc.Best, c.bestDocument(w)...)
		if w.whatIf != "" {
			doc.WhatIfs = append(doc.WhatIfs, c.whatIfDocument(w)...)
		}
	}
	doc.CanWait = append(doc.CanWait, c.canWaitDocument()...)
	doc.Moves = append(doc.Moves, c.movesDocument()...)
	doc.Doubt = c.doubtDocument()
	doc.Cautions = cautionsDocument(c.cautions())
	return doc
}

func (c *comparison) doubtDocument() *document.DoubtedOrders {
	if c.doubted == nil {
		return nil
	}
	doc := &document.DoubtedOrders{Doubt: document.DoubtOf(c.doubted.Numbers, c.doubted.Runs), Orders: []document.DoubtedOrder{}, Choices: []document.Choice{}}
	for i, order := range c.asIs.orders {
		j := document.DoubtedOrder{Order: order, Milestones: document.DoubtedMilestones(c.asIs.played[i], c.doubted.Played[i])}
		if all := c.doubted.Well[i].All; all != nil {
			share := decimals(all.Value)
			j.AllWell = &share
		}
		doc.Orders = append(doc.Orders, j)
	}
	for _, one := range c.told().Choices() {
		j := document.Choice{For: one.For, Order: c.asIs.orders[one.Order], Holds: one.Holds, Best: []string{}}
		for _, i := range one.Best {
			j.Best = append(j.Best, c.asIs.orders[i])
		}
		doc.Choices = append(doc.Choices, j)
	}
	return doc
}

func (w *bout) whatIfName() *string {
	if w.whatIf == "" {
		return nil
	}
	return &w.whatIf
}

func (c *comparison) ordersDocument(w *bout) []orderJSON {
	var list []orderJSON
	for i, order := range w.orders {
		oj := orderJSON{Order: order, WhatIf: w.whatIfName(), FirstShare: decimals(w.Odds[c.primary[0]][i].First.Value), Cold: document.OrderColdOf(w.played[i].Drill, w.cold[i])}
		if p := w.played[i]; p.Stopped > 0 {
			oj.Stopped = &document.Stops{Runs: p.Stopped, First: p.StopRun, Why: p.Stop.Error()}
		}
		for m, milestone := range w.played[i].Drill.Milestones {
			oj.Milestones = append(oj.Milestones, document.OddsOf(&w.Odds[m][i], milestone))
		}
		list = append(list, oj)
	}
	return list
}

func (w *bout) differencesDocument() []document.Match {
	var list []document.Match
	for m, pairs := range w.Matches {
		for _, p := range pairs {
			j := document.MatchOf(w.orders[p.A], w.orders[p.B], p.Diff)
			j.Apart = document.ApartOf(p.Apart)
			j.Milestone, j.WhatIf, j.Exploratory = w.played[0].Drill.Milestones[m].Name, w.whatIfName(), p.Exploratory
			if !p.Exploratory && p.Diff.Mean.OK() {
				holm := decimals(p.Diff.P)
				j.P = &holm
			}
			list = append(list, j)
		}
	}
	return list
}

// bestDocument tells how near the best each order is, at all that orders may be
// taken for.
func (c *comparison) bestDocument(w *bout) []document.BestRow {
	var list []document.BestRow
	told, of := c.told(), w.told()
	for _, b := range told.Bests(of) {
		for i, order := range w.orders {
			j := document.BestRowOf(b, i)
			j.For, j.WhatIf, j.Order, j.Taken = told.BestFor(b), w.whatIfName(), order, told.Taken(of, b) == i
			list = append(list, j)
		}
	}
	return list
}

func (c *comparison) whatIfDocument(w *bout) []whatIfJSON {
	var list []whatIfJSON
	for i, order := range w.orders {
		for m, milestone := range c.d.Milestones {
			d := c.change(w, i, m)
			list = append(list, whatIfJSON{WhatIf: w.whatIf, Order: order, Milestone: milestone.Name, Difference: document.DifferenceOf(d.Mean), Apart: document.ApartOf(c.changeApart(w, i, m))})
		}
	}
	return list
}

func (c *comparison) canWaitDocument() []canWaitJSON {
	var list []canWaitJSON
	for i, left := range c.leftOut {
		for _, l := range left {
			base := canWaitJSON{Task: l.Task, Order: c.asIs.orders[i], Runs: l.Runs, Difference: document.Difference{Sooner: seconds(sim.Never)}}
			for m, win := range l.Wins {
				if win == nil {
					continue // the milestone asks for nothing but the task
				}
				j := base
				j.Milestone, j.Difference = c.d.Milestones[m].Name, document.DifferenceOf(win.Mean)
				list = append(list, j)
			}
		}
	}
	return list
}

func (c *comparison) movesDocument() []movesJSON {
	var list []movesJSON
	for i, moves := range c.moves {
		if moves == nil {
			continue
		}
		for k, movers := range moves.Milestones {
			j := movesJSON{
				Order: c.asIs.orders[i], Milestone: c.d.Milestones[c.primary[k]].Name,
				ToldRuns: moves.Told, AgainRuns: moves.Again, RankedRuns: moves.Ranked, Tasks: []moverJSON{},
			}
			for _, v := range movers {
				if v.Critical.Count == 0 {
					continue
				}
				j.Tasks = append(j.Tasks, moverDocument(c.d, v))
			}
			j.shares(&moves.Luck[k])
			list = append(list, j)
		}
	}
	return list
}

// shares writes how what is drawn shares in the variance.
func (j *movesJSON) shares(luck *compare.Luck) {
	j.SharesRuns, j.RedrawnRuns, j.VarianceWhy = luck.Runs, luck.Redrawn, luck.Explained.Why
	j.Explained, j.ExplainedCI = varianceDocument(luck.Explained)
	j.Chances = []chanceJSON{}
	for _, c := range luck.Chances {
		one := chanceJSON{Name: c.Name, Purpose: c.Purpose}
		one.First, one.FirstCI = varianceDocument(c.First)
		one.Total, one.TotalCI = varianceDocument(c.Total)
		j.Chances = append(j.Chances, one)
	}
}

func varianceDocument(v stats.VarianceShare) (*float64, *[2]float64) {
	if !v.OK() {
		return nil, nil
	}
	value := decimals(v.Value)
	return &value, &[2]float64{decimals(v.Low), decimals(v.High)}
}

func moverDocument(d *sim.Drill, v compare.Mover) moverJSON {
	j := moverJSON{
		Task: d.Tasks[v.Task].Name, Critical: shareDocument(v.Critical), WonWhy: v.PerMinute.Why,
	}
	if v.Rank.OK() {
		r := decimals(v.Rank.Value)
		j.Rank, j.RankCI = &r, &interval[float64]{decimals(v.Rank.Low), decimals(v.Rank.High)}
	}
	if v.PerMinute.OK() {
		won := decimals(v.PerMinute.Value)
		j.Won = &won
		if v.PerMinute.Runs > 1 {
			j.WonCI = &interval[float64]{decimals(v.PerMinute.Low), decimals(v.PerMinute.High)}
		}
	}
	return j
}

func shareDocument(s stats.Share) shareJSON { return document.ShareOf(s) }

// decimals keeps six, so that the last bits of a processor do not show.
func decimals(x float64) float64 { return math.Round(x*1e6) / 1e6 }

// wholeMillis rounds a mean of milliseconds, half away from zero.
func wholeMillis(ms float64) sim.Time { return document.WholeMillis(ms) }
