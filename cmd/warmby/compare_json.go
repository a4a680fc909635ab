package main

import (
	"io"

	"warmby/cmd/warmby/internal/document"
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
	Order      string         `json:"order"`
	WhatIf     *string        `json:"what_if"` // null as it is
	Milestones []oddsJSON     `json:"milestones"`
	FirstShare float64        `json:"first_share"`
	Cold       *orderColdJSON `json:"cold"` // null without an account
	Stopped    *stopsJSON     `json:"stopped,omitempty"`
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
	NeverShare shareJSON          `json:"never_in"`
	By         seconds            `json:"by_s"`
	OnTime     *shareJSON         `json:"on_time"`
	First      shareJSON          `json:"first"`
}

// shareJSON is a share of runs in the one shape that all commands give it.
type shareJSON = document.Share

type differenceJSON struct {
	Milestone   string             `json:"milestone"`
	A           string             `json:"a"`
	B           string             `json:"b"`
	WhatIf      *string            `json:"what_if"`
	Mean        seconds            `json:"mean_s"` // of a less b: below 0 when a is sooner
	CI          *interval[seconds] `json:"ci95_s"`
	Why         string             `json:"why,omitempty"`
	ASooner     shareJSON          `json:"a_sooner"`
	BSooner     shareJSON          `json:"b_sooner"`
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
	Task     string             `json:"task"`
	Critical shareJSON          `json:"critical_in"`
	Rank     *float64           `json:"rank_correlation"`
	RankCI   *interval[float64] `json:"rank_ci95"`
	Won      *float64           `json:"won_per_minute"`
	WonCI    *interval[float64] `json:"won_ci95"`
	WonWhy   string             `json:"won_why,omitempty"`
}

func writeJSON(w io.Writer, answer any) error { return document.Write(w, answer) }
