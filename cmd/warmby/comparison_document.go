package main

import (
	"warmby/cmd/warmby/internal/document"
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// document writes a comparison for other programs.
func (c *comparison) document() document.Comparison {
	doc := document.Comparison{
		Head: document.Head{SchemaVersion: 2, Scenario: c.name}, Seed: c.asked.seed, Runs: c.runs,
		FirstAt: c.d.Milestones[c.primary[0]].Name, Orders: []document.ComparedOrder{}, Differences: []document.Match{}, Best: []document.BestRow{}, WhatIfs: []document.WhatIfChange{},
		CanWait: []document.CanWait{}, Moves: []document.Moves{}, Warnings: append([]string{}, c.warnings()...), Repeat: c.repeat(),
	}
	if u := c.until; u != nil {
		doc.Until = &document.Until{First: u.First, Most: u.Most, All: u.All}
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
	doc.Cautions = document.Cautions(c.cautions())
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
			share := document.Decimals(all.Value)
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

func (c *comparison) ordersDocument(w *bout) []document.ComparedOrder {
	var list []document.ComparedOrder
	for i, order := range w.orders {
		oj := document.ComparedOrder{Order: order, WhatIf: w.whatIfName(), FirstShare: document.Decimals(w.Odds[c.primary[0]][i].First.Value), Cold: document.OrderColdOf(w.played[i].Drill, w.cold[i])}
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
				holm := document.Decimals(p.Diff.P)
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

func (c *comparison) whatIfDocument(w *bout) []document.WhatIfChange {
	var list []document.WhatIfChange
	for i, order := range w.orders {
		for m, milestone := range c.d.Milestones {
			d := c.change(w, i, m)
			list = append(list, document.WhatIfChange{WhatIf: w.whatIf, Order: order, Milestone: milestone.Name, Difference: document.DifferenceOf(d.Mean), Apart: document.ApartOf(c.changeApart(w, i, m))})
		}
	}
	return list
}

func (c *comparison) canWaitDocument() []document.CanWait {
	var list []document.CanWait
	for i, left := range c.leftOut {
		for _, l := range left {
			base := document.CanWait{Task: l.Task, Order: c.asIs.orders[i], Runs: l.Runs, Difference: document.Difference{Sooner: document.Seconds(sim.Never)}}
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

func (c *comparison) movesDocument() []document.Moves {
	var list []document.Moves
	for i, moves := range c.moves {
		if moves == nil {
			continue
		}
		for k, movers := range moves.Milestones {
			j := document.Moves{
				Order: c.asIs.orders[i], Milestone: c.d.Milestones[c.primary[k]].Name,
				ToldRuns: moves.Told, AgainRuns: moves.Again, RankedRuns: moves.Ranked, Tasks: []document.Mover{},
			}
			for _, v := range movers {
				if v.Critical.Count == 0 {
					continue
				}
				j.Tasks = append(j.Tasks, moverDocument(c.d, v))
			}
			sharesDocument(&j, &c.luck[i][k])
			list = append(list, j)
		}
	}
	return list
}

// sharesDocument writes how what is drawn shares in the variance.
func sharesDocument(j *document.Moves, luck *compare.Luck) {
	j.SharesRuns, j.RedrawnRuns, j.VarianceWhy = luck.Runs, luck.Redrawn, luck.Explained.Why
	j.Explained, j.ExplainedCI = varianceDocument(luck.Explained)
	j.Chances = []document.Chance{}
	for _, c := range luck.Chances {
		one := document.Chance{Drawn: drawnDocument(c)}
		one.First, one.FirstCI = varianceDocument(c.First)
		one.Total, one.TotalCI = varianceDocument(c.Total)
		j.Chances = append(j.Chances, one)
	}
	for _, g := range luck.Together {
		var one document.Together
		for _, c := range g.Chances {
			one.Of = append(one.Of, drawnDocument(c))
		}
		one.Total, one.TotalCI = varianceDocument(g.Total)
		j.Together = append(j.Together, one)
	}
}

func drawnDocument(c compare.Chance) document.Drawn {
	return document.Drawn{Name: c.Name, Purpose: c.Purpose}
}

func varianceDocument(v stats.VarianceShare) (*float64, *[2]float64) {
	if !v.OK() {
		return nil, nil
	}
	value := document.Decimals(v.Value)
	return &value, &[2]float64{document.Decimals(v.Low), document.Decimals(v.High)}
}

func moverDocument(d *sim.Drill, v compare.Mover) document.Mover {
	j := document.Mover{
		Task: d.Tasks[v.Task].Name, Critical: document.ShareOf(v.Critical), WonWhy: v.PerMinute.Why,
	}
	if v.Rank.OK() {
		r := document.Decimals(v.Rank.Value)
		j.Rank, j.RankCI = &r, &[2]float64{document.Decimals(v.Rank.Low), document.Decimals(v.Rank.High)}
	}
	if v.PerMinute.OK() {
		won := document.Decimals(v.PerMinute.Value)
		j.Won = &won
		if v.PerMinute.Runs > 1 {
			j.WonCI = &[2]float64{document.Decimals(v.PerMinute.Low), document.Decimals(v.PerMinute.High)}
		}
	}
	return j
}
