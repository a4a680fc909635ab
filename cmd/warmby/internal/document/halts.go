package document

import "time"

// Halt is by when to halt.
type Halt struct {
	Head
	Order      string         `json:"order"`
	WhatIf     string         `json:"what_if,omitempty"`
	Seed       uint64         `json:"seed"`
	Runs       int            `json:"runs"`
	Milestone  string         `json:"milestone"` // or all well
	Odds       float64        `json:"odds"`
	ColdOdds   *float64       `json:"cold_odds,omitempty"`
	Latest     *string        `json:"latest"` // on the clock; null when no arrival tried meets the odds
	LatestAt   *time.Time     `json:"latest_at"`
	LatestSure *string        `json:"latest_sure"` // the lower end of the interval counts
	Played     int            `json:"evaluations"` // drills played, of all cases and orders
	LatestWell *string        `json:"latest_all_well"`
	Points     []HaltPoint    `json:"points"`
	Doubt      *HaltDoubt     `json:"numbers_doubted"`     // null where there is nothing to doubt
	Cases      []HaltCase     `json:"cases,omitempty"`     // with several cases or orders
	AllCases   []HaltAllCases `json:"all_cases,omitempty"` // by order, the one that halts latest first
	Improved   *HaltBetter    `json:"improve,omitempty"`
	Warnings   []string       `json:"warnings"`
	Cautions   []Caution      `json:"cautions"`
	Repeat     string         `json:"repeat"`
}

// HaltPoint is one arrival that was tried.
type HaltPoint struct {
	Arrival    string          `json:"arrival"` // on the clock
	ArrivalAt  time.Time       `json:"arrival_at"`
	Milestones []HaltMilestone `json:"milestones"`
	AllWell    *Share          `json:"all_well_in"`    // null where nothing is asked for
	NobodyCold *Share          `json:"nobody_cold_in"` // null without an account of cold
	Cold       []HaltCold      `json:"too_cold"`       // who passes the cold limit; never null
}

// HaltMilestone is how often one milestone is in time.
type HaltMilestone struct {
	Name   string  `json:"name"`
	By     Seconds `json:"by_s"`    // below 0 when it has passed on arrival
	OnTime *Share  `json:"on_time"` // null without a target
}

// HaltCold is somebody who passes the cold limit in some run.
type HaltCold struct {
	Name string `json:"name"`
	Over Share  `json:"over_limit"`
}

// HaltDoubt is by when to halt with the numbers doubted; null as in Halt.
type HaltDoubt struct {
	Doubt
	Latest     *string `json:"latest"`
	LatestSure *string `json:"latest_sure"`
}

// HaltCase is one case under one order.
type HaltCase struct {
	WhatIf     string      `json:"what_if"` // "" as it stands
	Order      string      `json:"order"`
	Latest     *string     `json:"latest"`
	LatestAt   *time.Time  `json:"latest_at"`
	LatestSure *string     `json:"latest_sure"`
	Points     []HaltPoint `json:"points"`
	Doubt      *HaltDoubt  `json:"numbers_doubted"`
}

// HaltAllCases is the latest arrival that keeps the odds in all cases.
type HaltAllCases struct {
	Order    string     `json:"order"`
	Latest   *string    `json:"latest"`
	LatestAt *time.Time `json:"latest_at"`
}

// HaltBetter is the order that was looked for; its odds stand under cases.
type HaltBetter struct {
	Order      *HaltOrder `json:"better"` // null when none lets one halt later
	Later      *Seconds   `json:"later_s"`
	SearchedAt []string   `json:"searched_at"` // arrivals on the clock
}

// HaltOrder is an order to halt with, written out.
type HaltOrder struct {
	Name  string `json:"name"`
	Order any    `json:"order"`
}
