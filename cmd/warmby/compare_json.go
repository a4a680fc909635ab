package main

import (
	"io"

	"warmby/cmd/warmby/internal/document"
)

type compareJSON struct {
	document.Head
	Seed        uint64                  `json:"seed"`
	Runs        int                     `json:"runs"`
	Primary     []string                `json:"primary"`
	FirstAt     string                  `json:"first_share_milestone"` // what first_share of an order is about
	Orders      []orderJSON             `json:"orders"`
	Differences []document.Match        `json:"differences"`
	Best        []document.BestRow      `json:"near_best"`
	WhatIfs     []whatIfJSON            `json:"what_ifs"`
	CanWait     []canWaitJSON           `json:"can_wait"`
	Moves       []movesJSON             `json:"what_moves_it"`
	Doubt       *document.DoubtedOrders `json:"numbers_doubted"` // null where there is nothing to doubt
	Warnings    []string                `json:"warnings"`
	Cautions    []cautionJSON           `json:"cautions"`
	Repeat      string                  `json:"repeat"`
}

// interval is the two ends of a 95 % interval; an end that cannot be told, or
// that never comes, is null.
type interval[T any] [2]T

type orderJSON struct {
	Order      string              `json:"order"`
	WhatIf     *string             `json:"what_if"` // null as it is
	Milestones []document.Odds     `json:"milestones"`
	FirstShare float64             `json:"first_share"`
	Cold       *document.OrderCold `json:"cold"` // null without an account
	Stopped    *document.Stops     `json:"stopped,omitempty"`
}

// shareJSON is a share of runs in the one shape that all commands give it.
type shareJSON = document.Share

// whatIfJSON is what a what-if does to one milestone of one order.
type whatIfJSON struct {
	WhatIf     string              `json:"what_if"`
	Order      string              `json:"order,omitempty"`
	Milestone  string              `json:"milestone,omitempty"`
	Difference document.Difference `json:"difference"` // against the scenario as it stands
	document.Apart
}

// canWaitJSON is what leaving out one task wins at one milestone of one order.
type canWaitJSON struct {
	Task       string              `json:"task"`
	Order      string              `json:"order"`
	Milestone  string              `json:"milestone,omitempty"`
	Runs       int                 `json:"runs"`
	Difference document.Difference `json:"difference"` // without the task against with it
}

type movesJSON struct {
	Order      string      `json:"order"`
	Milestone  string      `json:"milestone"`
	ToldRuns   int         `json:"critical_runs"`
	AgainRuns  int         `json:"won_runs"`
	RankedRuns int         `json:"rank_runs"`
	Tasks      []moverJSON `json:"tasks"`

	SharesRuns  int          `json:"variance_runs"`
	RedrawnRuns int          `json:"redrawn_runs"`
	Explained   *float64     `json:"explained"` // null without shares; VarianceWhy says why
	ExplainedCI *[2]float64  `json:"explained_ci95"`
	VarianceWhy string       `json:"variance_why,omitempty"`
	Chances     []chanceJSON `json:"luck"`
}

// chanceJSON is one thing that is left to luck.
type chanceJSON struct {
	Name    string      `json:"name"` // of the task, person or load; "" for day and weather
	Purpose string      `json:"purpose"`
	First   *float64    `json:"first_order"`
	FirstCI *[2]float64 `json:"first_order_ci95"`
	Total   *float64    `json:"total_effect"`
	TotalCI *[2]float64 `json:"total_effect_ci95"`
}

type moverJSON struct {
	Task     string             `json:"task"`
	Critical shareJSON          `json:"critical_in"`
	Rank     *float64           `json:"rank_correlation"`
	RankCI   *interval[float64] `json:"rank_ci95"`
	Won      *float64           `json:"won_per_minute"`
	WonCI    *interval[float64] `json:"won_ci95"`
	WonWhy   string             `json:"won_why,omitempty"`
}

func writeJSON(w io.Writer, answer any) error { return document.Write(w, answer) }
