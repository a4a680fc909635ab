package document

// Review is one timed drill beside what was foretold of it.
type Review struct {
	Head
	Drill      string              `json:"drill"`
	Order      string              `json:"order"`
	Milestones []ReviewedMilestone `json:"milestones"`
	Tasks      []ReviewedTask      `json:"tasks"`
	Orders     []ReviewedOrder     `json:"orders"`
	Changes    []ReviewedChange    `json:"changes"`
	Repeat     string              `json:"repeat"`
}

// ReviewedMilestone is when a milestone came, and when it comes as a rule.
type ReviewedMilestone struct {
	Name  string  `json:"name"`
	Came  Seconds `json:"came_s"`
	Usual Seconds `json:"foretold_s"`
	Low   Seconds `json:"low80_s"`
	High  Seconds `json:"high80_s"`
}

// ReviewedTask is a task that took longer than usual.
type ReviewedTask struct {
	Name  string  `json:"name"`
	Took  Seconds `json:"took_s"`
	Usual Seconds `json:"foretold_s"`
	Cost  Seconds `json:"milestones_later_s"`
}

// ReviewedOrder is the same drill under another order.
type ReviewedOrder struct {
	Name       string             `json:"name"`
	Drilled    bool               `json:"as_drilled"`
	Milestones map[string]Seconds `json:"milestones_s"`
	Gain       Seconds            `json:"gain_s"`
}

// ReviewedChange is one thing to change.
type ReviewedChange struct {
	Kind string  `json:"kind"`
	What string  `json:"what"`
	Gain Seconds `json:"gain_s"`
}

// Season is all timed drills, one after the other.
type Season struct {
	Head
	Drills []SeasonDrill `json:"drills"`
	Teams  []SeasonTeam  `json:"teams"`
	Repeat string        `json:"repeat"`
}

// SeasonDrill is one of them.
type SeasonDrill struct {
	Name       string              `json:"name"`
	Date       string              `json:"date"`
	Team       string              `json:"team"`
	CalledOff  bool                `json:"called_off"`
	Foretold   bool                `json:"foretold"`
	Day        FactorRange         `json:"day_factor"`
	Milestones []ReviewedMilestone `json:"milestones"`
}

// SeasonTeam is one team, with conditions evened out.
type SeasonTeam struct {
	Name   string      `json:"name"`
	Drills int         `json:"drills"`
	Known  bool        `json:"known"`
	Factor FactorRange `json:"work_factor"`
}
