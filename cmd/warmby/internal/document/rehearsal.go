package document

import (
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/heat"
	"warmby/sim/rehearse"
	"warmby/sim/stats"
)

// Rehearsal is one drill as played.
type Rehearsal struct {
	Head
	Order      string        `json:"order"`
	WhatIf     string        `json:"what_if,omitempty"`
	Seed       *uint64       `json:"seed"`
	Run        *int          `json:"run"`
	Weather    string        `json:"weather,omitempty"`
	Finish     Seconds       `json:"finish_s"`
	Stops      []Stop        `json:"stops"`
	Milestones []Milestone   `json:"milestones"`
	Doubt      *DoubtedDrill `json:"numbers_doubted"` // null where there is nothing to doubt
	Shorten    *Shorten      `json:"shorten_first"`
	Tasks      []Task        `json:"tasks"`
	People     []Person      `json:"people"`
	Fuel       []Fuel        `json:"fuel"`
	Alone      []Alone       `json:"stoves_alone"`
	Shelters   []Room        `json:"shelters"`
	WarmUps    []WarmUp      `json:"warm_ups"`
	Cautions   []Caution     `json:"cautions"`
	Repeat     string        `json:"repeat"`
}

// Stop is a task that can never start or end, and what helps.
type Stop struct {
	Task string `json:"task"`
	Why  string `json:"why"`
	Hint string `json:"hint"`
}

// Milestone is when a milestone was reached, and how often it is so.
type Milestone struct {
	Name      string     `json:"name"`
	Time      Seconds    `json:"time_s"`
	By        Seconds    `json:"by_s"`
	Met       *bool      `json:"met"`
	Why       string     `json:"why"`
	HeldUp    []string   `json:"held_up"`
	AsQuickly *AsQuickly `json:"as_quickly,omitempty"`
	OnTime    *Share     `json:"on_time,omitempty"`
	P50       *Seconds   `json:"p50_s,omitempty"`
	P50CI     *Interval  `json:"p50_ci95_s,omitempty"`
	P90       *Seconds   `json:"p90_s,omitempty"`
	P90CI     *Interval  `json:"p90_ci95_s,omitempty"`
}

// AsQuickly is in what share of drawn runs a milestone came as quickly.
type AsQuickly struct {
	Share
	Seed uint64 `json:"seed"`
}

// Shorten is the task that is best made shorter.
type Shorten struct {
	Task      string  `json:"task"`
	Less      Seconds `json:"less_s"`
	Milestone string  `json:"milestone"`
	Sooner    Seconds `json:"sooner_s"`
}

// Task is who did what from when to when.
type Task struct {
	Task     string   `json:"task"`
	Group    string   `json:"group"`
	Called   Seconds  `json:"called_s"`
	Start    Seconds  `json:"start_s"`
	End      Seconds  `json:"end_s"`
	People   []string `json:"people"`
	Critical bool     `json:"critical"`
}

// Person is what somebody did, and how cold it was.
type Person struct {
	Name      string    `json:"name"`
	Busy      Seconds   `json:"busy_s"`
	Idle      Seconds   `json:"idle_s"`
	Walk      Seconds   `json:"walk_s"`
	Lookout   Seconds   `json:"lookout_s"`
	Stretches []Stretch `json:"stretches"`
	Cold      *Cold     `json:"cold"` // null without an account
	WhyNot    string    `json:"no_cold_why,omitempty"`
	OverLimit *Share    `json:"over_limit,omitempty"`
}

// Stretch is a time in which somebody is about one thing, at one place.
type Stretch struct {
	Activity string  `json:"activity"`
	Task     string  `json:"task,omitempty"`
	Lookout  string  `json:"lookout,omitempty"`
	Spot     string  `json:"spot"`
	From     Seconds `json:"from_s"`
	To       Seconds `json:"to_s"`
}

// Cold is a person's account of cold.
type Cold struct {
	Peak      float64  `json:"peak_wh_m2"`
	Limit     float64  `json:"limit_wh_m2"`
	Least     float64  `json:"least_wh_m2"`
	Most      float64  `json:"most_wh_m2"`
	Verdict   string   `json:"verdict"`
	At        Seconds  `json:"at_s"`
	PassedAt  Seconds  `json:"passed_at_s"`
	RelieveBy Seconds  `json:"relieve_by_s"`
	WindChill *float64 `json:"wind_chill"`
	Hazard    string   `json:"hazard,omitempty"`
	Sweat     float64  `json:"sweat_g"`
	Sweats    []Sweat  `json:"sweats"`
	Account   []Entry  `json:"account"`
}

// Entry is a line of an account: a time in which nothing changes.
type Entry struct {
	Activity string  `json:"activity"`
	Spot     string  `json:"spot"`
	From     Seconds `json:"from_s"`
	To       Seconds `json:"to_s"`
	Indoors  bool    `json:"indoors"`
	Rate     float64 `json:"rate_w_m2"`
	Clo      float64 `json:"clothing_clo"`
	Air      float64 `json:"air_c"`
	Wind     float64 `json:"air_movement_m_s"`
	Humidity float64 `json:"humidity"`
	Stored   float64 `json:"stored_w_m2"`
	Debt     float64 `json:"debt_wh_m2"`
}

// Fuel is what a kind of stove burned; no amount where the heat of the fuel is
// not known.
type Fuel struct {
	Stove     string   `json:"stove"`
	Litres    *float64 `json:"litres"`
	Kilograms *float64 `json:"kilograms,omitempty"`
}

// About is what a document says of how a rehearsal came about.
type About struct {
	Scenario, WhatIf string
	Seed             uint64 // of the drawn runs
	Run              *int   // nil for usual values
	Repeat           string
	// Why says why a milestone was reached when it was.
	Why func(milestone int) string
}

// OfRehearsal returns the document of a rehearsal.
func OfRehearsal(r *rehearse.Rehearsal, about About) Rehearsal {
	d := r.Drill
	doc := Rehearsal{
		Head: Head{1, about.Scenario}, Order: d.Order, WhatIf: about.WhatIf, Run: about.Run,
		Finish: Seconds(r.Finish()), Stops: []Stop{}, Fuel: fuel(r.Timeline),
		Alone: alone(r), Shelters: rooms(r), WarmUps: warmUps(r), Cautions: Cautions(cold.Cautions(d, r.Accounts)), Repeat: about.Repeat,
	}
	if about.Run != nil {
		doc.Seed = &about.Seed
	}
	if len(d.Weather) > 1 {
		doc.Weather = d.Weather[r.Luck.Weather].Name
	}
	for _, c := range r.Stops {
		doc.Stops = append(doc.Stops, Stop{c.Task, c.Why, c.Hint})
	}
	if s := r.Shorten; s != nil {
		doc.Shorten = &Shorten{d.Tasks[s.Task].Name, Seconds(s.By), d.Milestones[s.Milestone].Name, Seconds(s.Sooner)}
	}
	for m := range d.Milestones {
		doc.Milestones = append(doc.Milestones, milestone(r, m, about))
	}
	critical := r.Critical(len(r.Milestones) - 1)
	for i := range r.Tasks {
		doc.Tasks = append(doc.Tasks, task(r.Timeline, i, critical[i]))
	}
	for i := range d.People {
		doc.People = append(doc.People, person(r, i))
	}
	return doc
}

func milestone(r *rehearse.Rehearsal, m int, about About) Milestone {
	d := r.Drill
	mj := Milestone{Name: d.Milestones[m].Name, Time: Seconds(r.Milestones[m]), By: Seconds(d.Milestones[m].By), Why: about.Why(m), HeldUp: []string{}}
	if d.Milestones[m].By != sim.Never {
		met := r.Met(m)
		mj.Met = &met
	}
	for _, l := range r.HeldUp(m) {
		mj.HeldUp = append(mj.HeldUp, d.Tasks[l.Task].Name)
	}
	if r.Evenings == nil {
		return mj
	}
	runs := int64(len(r.Evenings.Times[m]))
	if about.Run == nil {
		mj.AsQuickly = &AsQuickly{ShareOf(stats.ShareOf(int64(r.Quickly(m)), runs)), about.Seed}
	}
	if mj.Met != nil {
		s := ShareOf(stats.ShareOf(int64(r.InTime(m)), runs))
		mj.OnTime = &s
	}
	times := stats.SortedOf(r.Evenings.Times[m])
	p50, p50CI := Quantile(stats.QuantileOf(times, 0.5))
	p90, p90CI := Quantile(stats.QuantileOf(times, 0.9))
	mj.P50, mj.P50CI, mj.P90, mj.P90CI = &p50, &p50CI, &p90, &p90CI
	return mj
}

func task(tl *sim.Timeline, i int, critical bool) Task {
	t := tl.Tasks[i]
	tj := Task{Task: tl.Drill.Tasks[i].Name, Called: Seconds(t.Called), Start: Seconds(t.Start), End: Seconds(t.End),
		People: []string{}, Critical: critical}
	if t.Group >= 0 {
		tj.Group = tl.Drill.Groups[t.Group].Name
	}
	for _, p := range t.People {
		tj.People = append(tj.People, tl.Drill.People[p].Name)
	}
	return tj
}

func person(r *rehearse.Rehearsal, i int) Person {
	d := r.Drill
	p := Person{Name: d.People[i].Name, Stretches: []Stretch{}}
	for _, s := range r.People[i] {
		sj := Stretch{Activity: activity(s.What), Spot: d.Spots[s.Spot].Name, From: Seconds(s.From), To: Seconds(s.To)}
		length := Seconds(s.To - s.From)
		switch s.What {
		case sim.Working:
			sj.Task, p.Busy = d.Tasks[s.Task].Name, p.Busy+length
		case sim.Walking:
			p.Walk += length
		case sim.Watching:
			sj.Lookout, p.Lookout = d.Lookouts[s.Lookout].Name, p.Lookout+length
		default:
			p.Idle += length
		}
		p.Stretches = append(p.Stretches, sj)
	}
	p.Cold, p.WhyNot = account(d, &r.Accounts[i])
	if r.Cold != nil {
		s := ShareOf(stats.ShareOf(int64(r.Cold.OverBy[i]), int64(len(r.Cold.Peaks))))
		p.OverLimit = &s
	}
	return p
}

func activity(a sim.Activity) string {
	switch a {
	case sim.Working:
		return "working"
	case sim.Walking:
		return "walking"
	case sim.Watching:
		return "lookout"
	}
	return "waiting"
}

// account returns a person's account, or why there is none.
func account(d *sim.Drill, p *cold.Person) (*Cold, string) {
	if p.Why != "" {
		return nil, p.Why
	}
	c := &Cold{Peak: Decimals(p.Peak), Limit: cold.HeatLimit, Least: Decimals(p.Least), Most: Decimals(p.Most),
		Verdict: verdict(p.Verdict), Sweat: Decimals(p.Sweat), Sweats: sweats(d, p), At: Seconds(p.PeakAt), PassedAt: Seconds(p.PassedAt), RelieveBy: Seconds(p.RelieveBy), Account: []Entry{}}
	if p.Chill.OK() {
		x := Decimals(p.Chill.X)
		c.WindChill, c.Hazard = &x, p.Hazard.String()
	}
	for _, e := range p.Ledger {
		c.Account = append(c.Account, Entry{
			Activity: activity(e.What), Spot: d.Spots[e.Spot].Name, From: Seconds(e.From), To: Seconds(e.To), Indoors: e.Indoors,
			Rate: Decimals(e.M), Clo: Decimals(e.Clo), Air: Decimals(e.Air), Wind: Decimals(e.Wind), Humidity: Decimals(e.Humidity),
			Stored: Decimals(e.S), Debt: Decimals(e.Debt),
		})
	}
	return c, ""
}

func fuel(tl *sim.Timeline) []Fuel {
	list := []Fuel{}
	for _, u := range heat.Used(tl) {
		f := Fuel{Stove: tl.Drill.Stoves[u.Stove].Name}
		amount := Decimals(u.Amount)
		switch {
		case u.Known && u.ByMass:
			f.Kilograms = &amount
		case u.Known:
			f.Litres = &amount
		}
		list = append(list, f)
	}
	return list
}
