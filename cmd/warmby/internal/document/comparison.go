package document

// Comparison is all orders under the same luck.
type Comparison struct {
	Head
	Seed        uint64          `json:"seed"`
	Runs        int             `json:"runs"`
	Until       *Until          `json:"until_told"` // null when the number of runs was settled before
	Primary     []string        `json:"primary"`
	FirstAt     string          `json:"first_share_milestone"` // what first_share of an order is about
	Orders      []ComparedOrder `json:"orders"`
	Differences []Match         `json:"differences"`
	Best        []BestRow       `json:"near_best"`
	WhatIfs     []WhatIfChange  `json:"what_ifs"`
	CanWait     []CanWait       `json:"can_wait"`
	Moves       []Moves         `json:"what_moves_it"`
	Doubt       *DoubtedOrders  `json:"numbers_doubted"` // null where there is nothing to doubt
	Warnings    []string        `json:"warnings"`
	Cautions    []Caution       `json:"cautions"`
	Repeat      string          `json:"repeat"`
}

// Until is how runs were added until orders were told apart.
type Until struct {
	First int  `json:"first_look_runs"`
	Most  int  `json:"most_runs"`
	All   bool `json:"all_told"`
}

// ComparedOrder is what one order gives.
type ComparedOrder struct {
	Order      string     `json:"order"`
	WhatIf     *string    `json:"what_if"` // null as it is
	Milestones []Odds     `json:"milestones"`
	FirstShare float64    `json:"first_share"`
	Cold       *OrderCold `json:"cold"` // null without an account
	Stopped    *Stops     `json:"stopped,omitempty"`
}

// WhatIfChange is what a what-if does to one milestone of one order.
type WhatIfChange struct {
	WhatIf     string     `json:"what_if"`
	Order      string     `json:"order,omitempty"`
	Milestone  string     `json:"milestone,omitempty"`
	Difference Difference `json:"difference"` // against the scenario as it stands
	Apart
}

// CanWait is what leaving out one task wins at one milestone of one order.
type CanWait struct {
	Task       string     `json:"task"`
	Order      string     `json:"order"`
	Milestone  string     `json:"milestone,omitempty"`
	Runs       int        `json:"runs"`
	Difference Difference `json:"difference"` // without the task against with it
}

// Moves is what moves one milestone of one order.
type Moves struct {
	Order      string  `json:"order"`
	Milestone  string  `json:"milestone"`
	ToldRuns   int     `json:"critical_runs"`
	AgainRuns  int     `json:"won_runs"`
	RankedRuns int     `json:"rank_runs"`
	Tasks      []Mover `json:"tasks"`

	SharesRuns  int         `json:"variance_runs"`
	RedrawnRuns int         `json:"redrawn_runs"`
	Explained   *float64    `json:"explained"` // null without shares; VarianceWhy says why
	ExplainedCI *[2]float64 `json:"explained_ci95"`
	VarianceWhy string      `json:"variance_why,omitempty"`
	Chances     []Chance    `json:"luck"`
	// Together are those of luck without a total effect of their own.
	Together []Together `json:"luck_together,omitempty"`
}

// Together is some things left to luck that were drawn anew at the same time: the
// total effect of each of them is at most theirs.
type Together struct {
	Of      []Drawn     `json:"drawn_together"`
	Total   *float64    `json:"total_effect"`
	TotalCI *[2]float64 `json:"total_effect_ci95"`
}

// Drawn names one thing that is left to luck.
type Drawn struct {
	Name    string `json:"name"` // of the task, person or load; "" for day and weather
	Purpose string `json:"purpose"`
}

// Chance is one thing that is left to luck.
type Chance struct {
	Drawn
	First   *float64    `json:"first_order"`
	FirstCI *[2]float64 `json:"first_order_ci95"`
	Total   *float64    `json:"total_effect"`
	TotalCI *[2]float64 `json:"total_effect_ci95"`
}

// Mover is one task, and how much it moves the milestone.
type Mover struct {
	Task     string      `json:"task"`
	Critical Share       `json:"critical_in"`
	Rank     *float64    `json:"rank_correlation"`
	RankCI   *[2]float64 `json:"rank_ci95"`
	Won      *float64    `json:"won_per_minute"`
	WonCI    *[2]float64 `json:"won_ci95"`
	WonWhy   string      `json:"won_why,omitempty"`
}
