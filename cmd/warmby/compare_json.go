package main

import (
	"encoding/json"
	"io"
	"math"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

type compareJSON struct {
	SchemaVersion int              `json:"schema_version"`
	Scenario      string           `json:"scenario"`
	Seed          uint64           `json:"seed"`
	Runs          int              `json:"runs"`
	Primary       []string         `json:"primary"`
	FirstAt       string           `json:"first_share_milestone"` // what first_share of an order is about
	Orders        []orderJSON      `json:"orders"`
	Differences   []differenceJSON `json:"differences"`
	WhatIfs       []whatIfJSON     `json:"what_ifs"`
	CanWait       []canWaitJSON    `json:"can_wait"`
	Moves         []movesJSON      `json:"what_moves_it"`
	Warnings      []string         `json:"warnings"`
	Cautions      []cautionJSON    `json:"cautions"`
	Repeat        string           `json:"repeat"`
}

// interval is the two ends of a 95 % interval; an end that cannot be told, or
// that never comes, is null.
type interval[T any] [2]T

type orderJSON struct {
	Order      string     `json:"order"`
	WhatIf     *string    `json:"what_if"` // null as it is
	Milestones []oddsJSON `json:"milestones"`
	FirstShare float64    `json:"first_share"`
	Stopped    *stopsJSON `json:"stopped,omitempty"`
}

// stopsJSON says in how many runs a drill came to a stop.
type stopsJSON struct {
	Runs  int    `json:"runs"`
	First int    `json:"first_run"`
	Why   string `json:"why"`
}

type oddsJSON struct {
	Name       string             `json:"name"`
	Mean       seconds            `json:"mean_s"`
	MeanCI     *interval[seconds] `json:"mean_ci95_s"`
	Why        string             `json:"why,omitempty"`
	P50        seconds            `json:"p50_s"`
	P50CI      interval[seconds]  `json:"p50_ci95_s"`
	P80        seconds            `json:"p80_s"`
	P80CI      interval[seconds]  `json:"p80_ci95_s"`
	P90        seconds            `json:"p90_s"`
	P90CI      interval[seconds]  `json:"p90_ci95_s"`
	P95        seconds            `json:"p95_s"`
	P95CI      interval[seconds]  `json:"p95_ci95_s"`
	Never      int64              `json:"never"` // runs
	NeverShare shareJSON          `json:"never_share"`
	By         seconds            `json:"by_s"`
	OnTime     *shareJSON         `json:"on_time"`
	First      shareJSON          `json:"first"`
}

type shareJSON struct {
	Share float64           `json:"share"`
	CI    interval[float64] `json:"ci95"`
}

type differenceJSON struct {
	Milestone   string             `json:"milestone"`
	A           string             `json:"a"`
	B           string             `json:"b"`
	WhatIf      *string            `json:"what_if"`
	Mean        seconds            `json:"mean_s"` // of a less b: below 0 when a is sooner
	CI          *interval[seconds] `json:"ci95_s"`
	Why         string             `json:"why,omitempty"`
	ASooner     float64            `json:"a_sooner_share"`
	ASoonerCI   interval[float64]  `json:"a_sooner_ci95"`
	BSooner     float64            `json:"b_sooner_share"`
	BSoonerCI   interval[float64]  `json:"b_sooner_ci95"`
	Ahead       *string            `json:"ahead"` // null when there is no telling
	P           *float64           `json:"p_holm,omitempty"`
	Exploratory bool               `json:"exploratory"`
}

// whatIfJSON is what a what-if does to one milestone of one order.
type whatIfJSON struct {
	WhatIf    string             `json:"what_if"`
	Order     string             `json:"order,omitempty"`
	Milestone string             `json:"milestone,omitempty"`
	Mean      seconds            `json:"mean_s"` // over 0: later than as it is
	CI        *interval[seconds] `json:"ci95_s"`
	Why       string             `json:"why,omitempty"`
}

// canWaitJSON is what leaving out one task wins at one milestone of one order.
type canWaitJSON struct {
	Task      string             `json:"task"`
	Order     string             `json:"order"`
	Milestone string             `json:"milestone,omitempty"`
	Won       seconds            `json:"won_s"` // over 0: sooner without the task
	CI        *interval[seconds] `json:"ci95_s"`
	Runs      int                `json:"runs"`
	Why       string             `json:"why,omitempty"`
}

type movesJSON struct {
	Order      string      `json:"order"`
	Milestone  string      `json:"milestone"`
	ToldRuns   int         `json:"critical_runs"`
	AgainRuns  int         `json:"won_runs"`
	RankedRuns int         `json:"rank_runs"`
	Tasks      []moverJSON `json:"tasks"`
}

type moverJSON struct {
	Task       string             `json:"task"`
	Critical   float64            `json:"critical_share"`
	CriticalCI interval[float64]  `json:"critical_ci95"`
	Rank       *float64           `json:"rank_correlation"`
	RankCI     *interval[float64] `json:"rank_ci95"`
	Won        *float64           `json:"won_per_minute"`
	WonCI      *interval[float64] `json:"won_ci95"`
	WonWhy     string             `json:"won_why,omitempty"`
}

func writeJSON(w io.Writer, document any) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(document)
}

// document writes a comparison for other programs.
func (c *comparison) document() compareJSON {
	doc := compareJSON{
		SchemaVersion: 1, Scenario: c.name, Seed: c.flags.seed, Runs: c.flags.runs,
		FirstAt: c.d.Milestones[c.primary[0]].Name, Orders: []orderJSON{}, Differences: []differenceJSON{}, WhatIfs: []whatIfJSON{},
		CanWait: []canWaitJSON{}, Moves: []movesJSON{}, Warnings: append([]string{}, c.warnings()...), Repeat: c.repeat(),
	}
	for _, m := range c.primary {
		doc.Primary = append(doc.Primary, c.d.Milestones[m].Name)
	}
	for _, w := range append([]*bout{c.asIs}, c.whatIfs...) {
		if w.never != "" {
			doc.WhatIfs = append(doc.WhatIfs, whatIfJSON{WhatIf: w.whatIf, Mean: seconds(sim.Never), Why: w.never})
			continue
		}
		doc.Orders = append(doc.Orders, c.ordersDocument(w)...)
		doc.Differences = append(doc.Differences, w.differencesDocument()...)
		if w.whatIf != "" {
			doc.WhatIfs = append(doc.WhatIfs, c.whatIfDocument(w)...)
		}
	}
	doc.CanWait = append(doc.CanWait, c.canWaitDocument()...)
	doc.Moves = append(doc.Moves, c.movesDocument()...)
	for _, caution := range cold.Cautions(c.d, nil) {
		doc.Cautions = append(doc.Cautions, cautionJSON{caution.Topic, caution.Because, caution.Text, caution.DeferTo})
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
		oj := orderJSON{Order: order, WhatIf: w.whatIfName(), FirstShare: decimals(w.odds[c.primary[0]][i].first.Value)}
		if p := w.played[i]; p.Stopped > 0 {
			oj.Stopped = &stopsJSON{p.Stopped, p.StopRun, p.Stop.Error()}
		}
		for m, milestone := range w.played[i].Drill.Milestones {
			o := w.odds[m][i]
			j := oddsJSON{
				Name: milestone.Name, Why: o.mean.Why, Never: o.never.Count, NeverShare: shareDocument(o.never),
				By: seconds(milestone.By), First: shareDocument(o.first),
			}
			j.Mean, j.MeanCI = meanDocument(o.mean)
			j.P50, j.P50CI = quantileDocument(o.quantiles[0])
			j.P80, j.P80CI = quantileDocument(o.quantiles[1])
			j.P90, j.P90CI = quantileDocument(o.quantiles[2])
			j.P95, j.P95CI = quantileDocument(o.quantiles[3])
			if o.onTime != nil {
				s := shareDocument(*o.onTime)
				j.OnTime = &s
			}
			oj.Milestones = append(oj.Milestones, j)
		}
		list = append(list, oj)
	}
	return list
}

func (w *bout) differencesDocument() []differenceJSON {
	var list []differenceJSON
	for m, pairs := range w.pairs {
		for _, p := range pairs {
			j := differenceJSON{
				Milestone: w.played[0].Drill.Milestones[m].Name, A: w.orders[p.a], B: w.orders[p.b], WhatIf: w.whatIfName(),
				Why:     p.diff.Mean.Why,
				ASooner: decimals(p.diff.ASooner.Value), ASoonerCI: shareDocument(p.diff.ASooner).CI,
				BSooner: decimals(p.diff.BSooner.Value), BSoonerCI: shareDocument(p.diff.BSooner).CI,
				Exploratory: p.exploratory,
			}
			j.Mean, j.CI = meanDocument(p.diff.Mean)
			switch p.diff.Ahead() {
			case -1:
				j.Ahead = &w.orders[p.a]
			case 1:
				j.Ahead = &w.orders[p.b]
			}
			if !p.exploratory && p.diff.Mean.OK() {
				holm := decimals(p.diff.P)
				j.P = &holm
			}
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
			j := whatIfJSON{WhatIf: w.whatIf, Order: order, Milestone: milestone.Name, Why: d.Mean.Why}
			j.Mean, j.CI = meanDocument(d.Mean)
			list = append(list, j)
		}
	}
	return list
}

func (c *comparison) canWaitDocument() []canWaitJSON {
	var list []canWaitJSON
	for i, left := range c.leftOut {
		for _, l := range left {
			base := canWaitJSON{Task: l.Task, Order: c.asIs.orders[i], Runs: l.Runs, Won: seconds(sim.Never), Why: l.Why}
			if l.Why != "" {
				list = append(list, base)
			}
			for m, win := range l.Wins {
				if win == nil {
					continue // the milestone asks for nothing but the task
				}
				j := base
				j.Milestone, j.Why = c.d.Milestones[m].Name, win.Mean.Why
				j.Won, j.CI = meanDocument(negated(win.Mean))
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
			list = append(list, j)
		}
	}
	return list
}

func moverDocument(d *sim.Drill, v compare.Mover) moverJSON {
	j := moverJSON{
		Task: d.Tasks[v.Task].Name, Critical: decimals(v.Critical.Value),
		CriticalCI: shareDocument(v.Critical).CI, WonWhy: v.PerMinute.Why,
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

// meanDocument writes a mean; null without one, and no interval for one run.
func meanDocument(m stats.Mean) (seconds, *interval[seconds]) {
	if !m.OK() {
		return seconds(sim.Never), nil
	}
	if m.Runs < 2 {
		return seconds(wholeMillis(m.Value)), nil
	}
	return seconds(wholeMillis(m.Value)), &interval[seconds]{seconds(wholeMillis(m.Low)), seconds(wholeMillis(m.High))}
}

func quantileDocument(q stats.Quantile) (seconds, interval[seconds]) {
	low := seconds(q.Low)
	if q.LowOpen {
		low = seconds(sim.Never) // null: it cannot be told
	}
	return seconds(q.Value), interval[seconds]{low, seconds(q.High)}
}

func shareDocument(s stats.Share) shareJSON {
	return shareJSON{decimals(s.Value), interval[float64]{decimals(s.Low), decimals(s.High)}}
}

// decimals keeps six, so that the last bits of a processor do not show.
func decimals(x float64) float64 { return math.Round(x*1e6) / 1e6 }

// wholeMillis rounds a mean of milliseconds, half away from zero.
func wholeMillis(ms float64) sim.Time { return sim.Time(math.Round(ms)) }
