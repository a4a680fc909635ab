package main

import (
	"fmt"
	"math"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/heat"
	"warmby/sim/stats"
)

// seconds is a moment in seconds with three decimals; null for never.
type seconds sim.Time

func (s seconds) MarshalJSON() ([]byte, error) {
	if sim.Time(s) == sim.Never {
		return []byte("null"), nil
	}
	sign, ms := "", int64(s)
	if ms < 0 {
		sign, ms = "-", -ms
	}
	return fmt.Appendf(nil, "%s%d.%03d", sign, ms/1000, ms%1000), nil
}

type timelineJSON struct {
	SchemaVersion int             `json:"schema_version"`
	Scenario      string          `json:"scenario"`
	Order         string          `json:"order"`
	WhatIf        string          `json:"what_if,omitempty"`
	Seed          *uint64         `json:"seed"`
	Run           *int            `json:"run"`
	Weather       string          `json:"weather,omitempty"`
	Finish        seconds         `json:"finish_s"`
	Milestones    []milestoneJSON `json:"milestones"`
	Tasks         []taskJSON      `json:"tasks"`
	People        []personJSON    `json:"people"`
	Fuel          []fuelJSON      `json:"fuel"`
	Cautions      []cautionJSON   `json:"cautions"`
	Repeat        string          `json:"repeat"`
}

type milestoneJSON struct {
	Name      string   `json:"name"`
	Time      seconds  `json:"time_s"`
	By        seconds  `json:"by_s"`
	Met       *bool    `json:"met"`
	Why       string   `json:"why"`
	HeldUp    []string `json:"held_up"`
	AsQuickly *asJSON  `json:"as_quickly,omitempty"`
}

// asJSON is in what share of drawn runs a milestone came as quickly.
type asJSON struct {
	Share float64    `json:"share"`
	CI95  [2]float64 `json:"ci95"`
	Runs  int        `json:"runs"`
	Seed  uint64     `json:"seed"`
}

type taskJSON struct {
	Task     string   `json:"task"`
	Group    string   `json:"group"`
	Called   seconds  `json:"called_s"`
	Start    seconds  `json:"start_s"`
	End      seconds  `json:"end_s"`
	People   []string `json:"people"`
	Critical bool     `json:"critical"`
}

type personJSON struct {
	Name    string    `json:"name"`
	Busy    seconds   `json:"busy_s"`
	Idle    seconds   `json:"idle_s"`
	Walk    seconds   `json:"walk_s"`
	Lookout seconds   `json:"lookout_s"`
	Cold    *coldJSON `json:"cold"` // null without an account
	WhyNot  string    `json:"no_cold_why,omitempty"`
}

// coldJSON is a person's cold account in short.
type coldJSON struct {
	Peak      float64  `json:"peak_wh_m2"`
	Limit     float64  `json:"limit_wh_m2"`
	At        seconds  `json:"at_s"`
	PassedAt  seconds  `json:"passed_at_s"`
	RelieveBy seconds  `json:"relieve_by_s"`
	WindChill *float64 `json:"wind_chill"`
	Hazard    string   `json:"hazard,omitempty"`
}

type fuelJSON struct {
	Stove     string   `json:"stove"`
	Litres    *float64 `json:"litres"`
	Kilograms *float64 `json:"kilograms,omitempty"`
}

func (r *rehearsal) document() timelineJSON {
	tl, d := r.Timeline, r.Drill
	doc := timelineJSON{
		SchemaVersion: 1, Scenario: r.name, Order: d.Order, WhatIf: r.flags.whatIf,
		Finish: seconds(tl.Finish()), Fuel: []fuelJSON{}, Repeat: r.repeat(),
	}
	if r.flags.drawn {
		doc.Seed, doc.Run = &r.flags.seed, &r.flags.run
	}
	if len(d.Weather) > 1 {
		doc.Weather = d.Weather[tl.Luck.Weather].Name
	}
	for i, m := range d.Milestones {
		mj := milestoneJSON{Name: m.Name, Time: seconds(tl.Milestones[i]), By: seconds(m.By), Why: whyMilestone(tl, i), HeldUp: []string{}}
		if m.By != sim.Never {
			met := tl.Met(i)
			mj.Met = &met
		}
		for _, l := range tl.HeldUp(i) {
			mj.HeldUp = append(mj.HeldUp, d.Tasks[l.Task].Name)
		}
		if r.Evenings != nil && !r.flags.drawn {
			quickly, runs := r.Quickly(i), r.flags.runs
			low, high := stats.Wilson(int64(quickly), int64(runs), stats.Level)
			mj.AsQuickly = &asJSON{float64(quickly) / float64(runs), [2]float64{low, high}, runs, r.flags.seed}
		}
		doc.Milestones = append(doc.Milestones, mj)
	}
	critical := tl.Critical(len(tl.Milestones) - 1)
	for i, t := range tl.Tasks {
		tj := taskJSON{Task: d.Tasks[i].Name, Called: seconds(t.Called), Start: seconds(t.Start), End: seconds(t.End),
			People: []string{}, Critical: critical[i]}
		if t.Group >= 0 {
			tj.Group = d.Groups[t.Group].Name
		}
		for _, p := range t.People {
			tj.People = append(tj.People, d.People[p].Name)
		}
		doc.Tasks = append(doc.Tasks, tj)
	}
	for i, p := range d.People {
		t := totalsOf(tl.People[i])
		pj := personJSON{Name: p.Name, Busy: seconds(t.working), Idle: seconds(t.waiting), Walk: seconds(t.walking), Lookout: seconds(t.lookout)}
		pj.Cold, pj.WhyNot = coldDocument(&r.Accounts[i])
		doc.People = append(doc.People, pj)
	}
	doc.Cautions = cautionsDocument(cold.Cautions(d, r.Accounts))
	for _, u := range heat.Used(tl) {
		fj := fuelJSON{Stove: d.Stoves[u.Stove].Name}
		amount := u.Amount
		switch {
		case u.Known && u.ByMass:
			fj.Kilograms = &amount
		case u.Known:
			fj.Litres = &amount
		}
		doc.Fuel = append(doc.Fuel, fj)
	}
	return doc
}

// coldDocument returns a person's account in short, or why there is none.
func coldDocument(p *cold.Person) (*coldJSON, string) {
	if p.Why != "" {
		return nil, p.Why
	}
	c := &coldJSON{Peak: rounded(p.Peak), Limit: cold.HeatLimit, At: seconds(p.PeakAt), PassedAt: seconds(p.PassedAt), RelieveBy: seconds(p.RelieveBy)}
	if p.Chill.OK() {
		x := rounded(p.Chill.X)
		c.WindChill, c.Hazard = &x, p.Hazard.String()
	}
	return c, ""
}

// rounded keeps three decimals, so that the last bits of a processor do not
// show.
func rounded(x float64) float64 { return math.Round(x*1000) / 1000 }

// totals is how long a person was about what, up to the end of the drill.
type totals struct{ working, walking, lookout, waiting sim.Time }

func totalsOf(stretches []sim.Stretch) totals {
	var t totals
	for _, s := range stretches {
		dt := s.To - s.From
		switch s.What {
		case sim.Working:
			t.working += dt
		case sim.Walking:
			t.walking += dt
		case sim.Watching:
			t.lookout += dt
		default:
			t.waiting += dt
		}
	}
	return t
}
