package document

// Cards is what the cards of one drill say.
type Cards struct {
	SchemaVersion int          `json:"schema_version"`
	Scenario      string       `json:"scenario"`
	Title         string       `json:"title"`
	Order         string       `json:"order"`
	WhatIf        string       `json:"what_if,omitempty"`
	Language      string       `json:"language"`
	Dark          []Seconds    `json:"dark_s"`
	People        []CardPerson `json:"people"`
	CallOuts      []CallOut    `json:"call_outs"`
	Cards         int          `json:"cards"`
	Pages         int          `json:"pages"`
	Cautions      []Caution    `json:"cautions"`
	Repeat        string       `json:"repeat"`
}

// CardPerson is what one person's card says.
type CardPerson struct {
	Name     string     `json:"name"`
	Steps    []CardStep `json:"steps"`
	Leave    []string   `json:"leave_when_late"`
	Cautions []string   `json:"own_cautions"`
}

// CardStep is one thing to do, or a time at a lookout.
type CardStep struct {
	From     Seconds    `json:"from_s"`
	To       Seconds    `json:"to_s"`
	Tasks    []string   `json:"own_tasks"`
	Lookout  string     `json:"lookout,omitempty"`
	With     []string   `json:"with"`
	Tools    []CardTool `json:"take"`
	Spot     string     `json:"spot"`
	Before   string     `json:"relieves,omitempty"`
	After    string     `json:"hands_over_to,omitempty"`
	CallsOut bool       `json:"calls_out"`
}

// CardTool is a number of something to take along.
type CardTool struct {
	Name  string `json:"name"`
	Count int    `json:"pieces"`
}

// CallOut is a task whose end is called out, and when that usually is.
type CallOut struct {
	Task string  `json:"task"`
	End  Seconds `json:"end_s"`
}
