package document

import (
	"bytes"
	"encoding/json"
	"math"

	"warmby/sim"
)

// Improvement is what a search for better orders found.
type Improvement struct {
	Head
	WhatIf      string          `json:"what_if,omitempty"`
	Seed        uint64          `json:"seed"`
	Runs        int             `json:"runs"` // fresh ones; 0 with usual values only
	Aim         string          `json:"aim"`  // the first
	Aims        []string        `json:"aims"`
	Evaluations int             `json:"evaluations"`
	Interrupted bool            `json:"interrupted"`
	Before      ImprovedOrder   `json:"before"` // the order to beat
	Orders      []ImprovedOrder `json:"orders"`
	WinsOn      string          `json:"wins_on,omitempty"` // which order of the file they begin from
	Wins        []Win           `json:"wins"`
	Bound       Seconds         `json:"bound_s"`         // of the first aim
	Bounds      []Seconds       `json:"bounds_s"`        // by aim
	BoundCI     *Interval       `json:"bound_ci95_s"`    // null when there are no runs
	BoundsCI    []*Interval     `json:"bounds_ci95_s"`   // by aim
	Cases       []ImprovedCase  `json:"cases,omitempty"` // when there are several
	UsualBound  Moments         `json:"usual_bound"`
	Unmet       []Unmet         `json:"unmet"`
	Warnings    []string        `json:"warnings"`
	Cautions    []Caution       `json:"cautions"`
	Repeat      string          `json:"repeat"`
}

// ImprovedOrder is one order, and how it does.
type ImprovedOrder struct {
	Name    string          `json:"name"`
	Known   bool            `json:"known"` // an order of the file
	Order   json.RawMessage `json:"order"` // as in the file
	Usual   Moments         `json:"usual"`
	Values  []Seconds       `json:"values_s"` // by aim
	Gain    *Gain           `json:"gain"`     // in the first aim, against the order to beat
	Gains   []*Gain         `json:"gains"`    // by aim
	Behind  []*Gain         `json:"behind"`   // against the best, by aim
	Changes []Change        `json:"changes"`

	Evenings  Evenings      `json:"evenings"`
	MoreOften *MoreOften    `json:"more_often"` // than under the order to beat; null for a first aim that is a moment
	People    []PersonTasks `json:"by_person"`
	Turned    []Turned      `json:"turned"`
}

// PersonTasks is the sequence of a person with usual values.
type PersonTasks struct {
	Name  string   `json:"name"`
	Tasks []string `json:"tasks"`
}

// Turned is a pair of tasks that all orders of the file have the other way
// round.
type Turned struct {
	Task   string `json:"task"`
	Before string `json:"now_before"`
}

// Win is one change, or several that only win together, on top of those
// before it.
type Win struct {
	Edits     []Edit     `json:"edits"`
	Gain      *Gain      `json:"gain"`       // null for an aim that is a share of evenings
	MoreOften *MoreOften `json:"more_often"` // null for one that is a moment
}

// Edit is one change to an order.
type Edit struct {
	Task    string `json:"task,omitempty"`
	Before  string `json:"now_before,omitempty"`
	After   string `json:"now_after,omitempty"`
	Crew    string `json:"crew,omitempty"`
	Regroup bool   `json:"regrouped,omitempty"`
}

// MoreOften is in what share of evenings more a goal is met.
type MoreOften struct {
	Share float64     `json:"share"`
	CI    *[2]float64 `json:"ci95"` // null with usual values only
	Told  bool        `json:"told"`
}

// Gain is a difference; without an interval when there are no runs.
type Gain struct {
	Difference
	Told bool `json:"told"` // more than luck explains
}

// Change is a task that comes elsewhere than in the order to beat.
type Change struct {
	Task   string  `json:"task"`
	Later  Seconds `json:"later_s"`
	Before string  `json:"now_before,omitempty"`
	After  string  `json:"now_after,omitempty"`
}

// Unmet is a limit that the best order does not keep to.
type Unmet struct {
	Milestone string   `json:"milestone,omitempty"`
	Goal      string   `json:"goal,omitempty"` // all well, all targets, nobody cold
	By        *Seconds `json:"by_s,omitempty"`
	At        *Seconds `json:"at_s,omitempty"`
	Least     *Seconds `json:"no_order_before_s,omitempty"`
	Share     *float64 `json:"share,omitempty"`
	Person    string   `json:"person,omitempty"` // over the cold limit
	Peak      *float64 `json:"peak_wh_m2,omitempty"`
}

// Evenings says in what share of evenings an order goes as it should, in the
// worst case.
type Evenings struct {
	AllWell    float64 `json:"all_well"`
	AllTargets float64 `json:"all_targets"`
	NobodyCold float64 `json:"nobody_cold"`
}

// ImprovedCase is what can be said of a case; lists are by aim.
type ImprovedCase struct {
	WhatIf *string   `json:"what_if"` // null for the scenario as it stands
	Why    string    `json:"left_out_why,omitempty"`
	Bounds []Seconds `json:"bounds_s"`
	Before []Seconds `json:"before_s"`
	Best   []Seconds `json:"best_s"` // of the first order
	Gains  []*Gain   `json:"gains"`
}

// Moments are milestones with when they are reached, in file order.
type Moments struct {
	Drill *sim.Drill
	At    []sim.Time
}

// MarshalJSON writes an object, a field for each milestone.
func (m Moments) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, at := range m.At {
		if i > 0 {
			b.WriteByte(',')
		}
		name, err := json.Marshal(m.Drill.Milestones[i].Name)
		if err != nil {
			return nil, err
		}
		value, err := Seconds(at).MarshalJSON()
		if err != nil {
			return nil, err
		}
		b.Write(name)
		b.WriteByte(':')
		b.Write(value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// SecondsOf writes milliseconds; what is infinite never comes.
func SecondsOf(ms float64) Seconds {
	if math.IsInf(ms, 1) {
		return Seconds(sim.Never)
	}
	return Seconds(WholeMillis(ms))
}
