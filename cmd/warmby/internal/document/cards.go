package document

// Cards is what the cards of one drill say.
type Cards struct {
	Head
	Title    string       `json:"title"`
	Order    string       `json:"order"`
	WhatIf   string       `json:"what_if,omitempty"`
	Language string       `json:"language"`
	Dark     []Seconds    `json:"dark_s"`
	People   []CardPerson `json:"people"`
	IfThen   []Advice     `json:"if_then"`
	Loads    []CardLoad   `json:"loads"`
	Brief    []string     `json:"brief"`
	Spots    []CardSpot   `json:"spots"`
	WindFrom *float64     `json:"wind_from_degrees"`
	CallOuts []CallOut    `json:"call_outs"`
	Cards    int          `json:"cards"`
	Pages    int          `json:"pages"`
	Cautions []Caution    `json:"cautions"`
	Repeat   string       `json:"repeat"`
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

// Advice is a line of the leader's if-then card.
type Advice struct {
	Trouble   string   `json:"trouble"` // late load, dead stove, down, wind, later, what if, not yet, dark
	Names     []string `json:"names"`
	At        *Seconds `json:"trouble_at_s"`
	Wind      float64  `json:"wind_m_s,omitempty"`
	Take      string   `json:"take_order,omitempty"`
	Until     *Seconds `json:"decide_by_s,omitempty"`
	Leave     []string `json:"leave"`
	Milestone string   `json:"milestone"`
	Never     bool     `json:"cannot_be_finished"`
	With      *Share   `json:"in_time_then,omitempty"`
	Without   *Share   `json:"in_time_else,omitempty"`
	Usual     *Seconds `json:"usual_then_s,omitempty"`
	Else      *Seconds `json:"usual_else_s,omitempty"`
}

// CardLoad is the pack list of one load.
type CardLoad struct {
	Name   string     `json:"name"`
	Items  []CardItem `json:"items"`
	Limit  float64    `json:"limit_kg"`
	Weight float64    `json:"weight_kg"`
	Wins   []CardWin  `json:"wins_on_top"`
}

// CardItem is a thing on a load.
type CardItem struct {
	Name   string  `json:"name"`
	Weight float64 `json:"weight_kg"`
}

// CardWin is what one item on top wins.
type CardWin struct {
	Item      string  `json:"item"`
	Milestone string  `json:"milestone"`
	Sooner    Seconds `json:"sooner_s"`
}

// CardSpot is a place of the camp.
type CardSpot struct {
	Names    []string `json:"names"`
	Bearing  float64  `json:"bearing_degrees"`
	Walk     Seconds  `json:"walk_s"`
	Downwind bool     `json:"downwind"`
}
