package main

import (
	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
	"warmby/sim/fit"
)

type fitJSON struct {
	document.Head
	Invented   bool            `json:"invented"`
	Drills     []fitDrillJSON  `json:"drills"`
	Work       rangeJSON       `json:"all_work_factor"`
	Day        float64         `json:"day"`
	Tasks      []fitTaskJSON   `json:"tasks"`
	Mishaps    []fitMishapJSON `json:"mishaps"`
	Stoves     []fitStoveJSON  `json:"stoves"`
	Milestones []fitMomentJSON `json:"milestones"`
	Left       []coverJSON     `json:"left_out"`
	Remarks    []string        `json:"remarks"`
	Repeat     string          `json:"repeat"`
}

type fitDrillJSON struct {
	Name      string   `json:"name"`
	Team      string   `json:"team"`
	Date      string   `json:"date"`
	Order     string   `json:"order"`
	CalledOff bool     `json:"called_off"`
	Unused    []string `json:"unused_tasks"`
}

// rangeJSON is a middle value and what it lies between with 8 in 10.
type rangeJSON struct {
	Middle float64 `json:"middle"`
	Low    float64 `json:"low80"`
	High   float64 `json:"high80"`
}

type fitTaskJSON struct {
	Name   string  `json:"name"`
	Rows   int     `json:"rows"`
	Log    seconds `json:"log_s"`
	File   seconds `json:"file_s"`
	Plan   seconds `json:"plan_s"`
	Low    seconds `json:"low80_s"`
	High   seconds `json:"high80_s"`
	Worth  float64 `json:"file_worth_drills"`
	Median seconds `json:"law_median_s"`
	Spread float64 `json:"law_spread"`
}

type fitMishapJSON struct {
	Task     string  `json:"task"`
	Happened int     `json:"happened"`
	Drills   int     `json:"drills"`
	File     float64 `json:"file"`
	Plan     float64 `json:"plan"`
	Low      float64 `json:"low80"`
	High     float64 `json:"high80"`
	Adds     seconds `json:"adds_s"`
}

type fitStoveJSON struct {
	Stove  string  `json:"stove"`
	File   float64 `json:"file"`
	ByTime float64 `json:"by_time"`
	Melts  int     `json:"melts"`
	ByFuel float64 `json:"by_fuel"`
	Fuels  int     `json:"fuel_drills"`
	Plan   float64 `json:"plan"`
	Low    float64 `json:"low80"`
	High   float64 `json:"high80"`
}

type fitMomentJSON struct {
	Name       string  `json:"name"`
	FileMiddle seconds `json:"file_median_s"`
	FileLate   seconds `json:"file_p90_s"`
	Middle     seconds `json:"median_s"`
	Late       seconds `json:"p90_s"`
}

type coverJSON struct {
	Of     string  `json:"of"`
	Level  float64 `json:"level"`
	Held   float64 `json:"held"`
	Low    float64 `json:"low95"`
	High   float64 `json:"high95"`
	Count  int     `json:"count"`
	Drills int     `json:"drills"`
}

func fitDocument(name string, r *report.Fitted) any {
	out := fitJSON{Head: document.Head{SchemaVersion: 1, Scenario: name}, Invented: r.Invented, Day: r.Day(), Remarks: notNil(r.Remarks), Repeat: r.Repeat}
	out.Work.Middle, out.Work.Low, out.Work.High = r.Shift()
	for i, e := range r.Evenings {
		d := fitDrillJSON{e.Timed.Name, e.Timed.Team, e.Timed.Date, e.Drill.Order, e.Timed.CalledOff, []string{}}
		for _, k := range r.Unused(i) {
			d.Unused = append(d.Unused, r.Drill.Tasks[e.Timed.Jobs[k].Task].Name)
		}
		out.Drills = append(out.Drills, d)
	}
	for _, p := range r.Plans {
		log := seconds(sim.Never)
		if p.Log > 0 {
			log = seconds(p.Log)
		}
		out.Tasks = append(out.Tasks, fitTaskJSON{r.Drill.Tasks[p.Task].Name, p.Rows, log, seconds(p.File), seconds(p.Plan), seconds(p.Low), seconds(p.High), p.Worth, seconds(p.Median), p.Spread})
	}
	for _, c := range r.Chances {
		out.Mishaps = append(out.Mishaps, fitMishapJSON{r.Drill.Tasks[c.Task].Name, c.Happened, c.Drills, c.File, c.Mean(), c.Quantile(0.1), c.Quantile(0.9), seconds(c.Adds)})
	}
	for _, s := range r.Stoves {
		out.Stoves = append(out.Stoves, fitStoveJSON{r.Drill.Stoves[s.Stove].Name, s.File, s.ByTime, s.Melts, s.ByFuel, s.Fuels, s.Plan, s.Low, s.High})
	}
	for m, one := range r.Drill.Milestones {
		at := func(f *fit.Foretold, q int64) seconds {
			n := int64(len(f.Milestones[m]))
			return seconds(f.Milestones[m].At(max(1, n*q/10)))
		}
		out.Milestones = append(out.Milestones, fitMomentJSON{one.Name, at(r.Before, 5), at(r.Before, 9), at(r.After, 5), at(r.After, 9)})
	}
	for _, level := range fit.Levels {
		for what, scores := range []([]fit.Score){r.Left.Tasks, r.Left.Milestones} {
			c := fit.CoverOf(scores, level)
			out.Left = append(out.Left, coverJSON{[]string{"lengths", "milestones"}[what], level, c.Value, c.Low, c.High, c.Count, c.Drills})
		}
	}
	return out
}

func notNil(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}
