package main

import (
	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
	"warmby/sim/fit"
)

func fitDocument(name string, r *report.Fitted) any {
	out := document.Fitted{Head: document.Head{SchemaVersion: 1, Scenario: name}, Invented: r.Invented, Day: r.Day(), Remarks: notNil(r.Remarks), Warnings: notNil(r.Warnings()), Off: []document.Off{}, Repeat: r.Repeat}
	out.Work.Middle, out.Work.Low, out.Work.High = r.Shift()
	for i, e := range r.Evenings {
		d := document.FittedDrill{Name: e.Timed.Name, Team: e.Timed.Team, Date: e.Timed.Date, Order: e.Drill.Order, CalledOff: e.Timed.CalledOff, Unused: []string{}}
		for _, k := range r.Unused(i) {
			d.Unused = append(d.Unused, r.Drill.Tasks[e.Timed.Jobs[k].Task].Name)
		}
		out.Drills = append(out.Drills, d)
	}
	for _, p := range r.Plans {
		log := document.Seconds(sim.Never)
		if p.Log > 0 {
			log = document.Seconds(p.Log)
		}
		out.Tasks = append(out.Tasks, document.FittedTask{Name: r.Drill.Tasks[p.Task].Name, Rows: p.Rows, Log: log, File: document.Seconds(p.File), Plan: document.Seconds(p.Plan), Low: document.Seconds(p.Low), High: document.Seconds(p.High), Worth: p.Worth, Median: document.Seconds(p.Median), Spread: p.Spread})
	}
	for _, c := range r.Chances {
		when := ""
		if c.Then {
			when = r.Drill.Tasks[c.Task].Mishap.When.String()
		}
		out.Mishaps = append(out.Mishaps, document.FittedMishap{Task: r.Drill.Tasks[c.Task].Name, When: when, Happened: c.Happened, Drills: c.Drills, File: c.File, Plan: c.Mean(), Low: c.Quantile(0.1), High: c.Quantile(0.9), Adds: document.Seconds(c.Adds)})
	}
	for _, s := range r.Stoves {
		out.Stoves = append(out.Stoves, document.FittedStove{Stove: r.Drill.Stoves[s.Stove].Name, File: s.File, ByTime: s.ByTime, Melts: s.Melts, ByFuel: s.ByFuel, Fuels: s.Fuels, Plan: s.Plan, Low: s.Low, High: s.High})
	}
	for m, one := range r.Drill.Milestones {
		at := func(f *fit.Foretold, q int64) document.Seconds {
			n := int64(len(f.Milestones[m]))
			return document.Seconds(f.Milestones[m].At(max(1, n*q/10)))
		}
		out.Milestones = append(out.Milestones, document.FittedMoment{Name: one.Name, FileMiddle: at(r.Before, 5), FileLate: at(r.Before, 9), Middle: at(r.After, 5), Late: at(r.After, 9)})
	}
	for _, level := range fit.Levels {
		for what, scores := range []([]fit.Score){r.Left.Tasks, r.Left.Milestones} {
			c := fit.CoverOf(scores, level)
			out.Left = append(out.Left, document.Cover{Of: []string{"lengths", "milestones"}[what], Level: level, Held: c.Value, Low: c.Low, High: c.High, Count: c.Count, Drills: c.Drills})
		}
	}
	for what, scores := range []([]fit.Score){r.Left.Tasks, r.Left.Milestones} {
		if len(scores) > 0 {
			log, file := fit.MeanCRPS(scores)
			out.Off = append(out.Off, document.Off{Of: []string{"lengths", "milestones"}[what], Log: ofMinutes(log), File: ofMinutes(file)})
		}
	}
	return out
}

func ofMinutes(m float64) document.Seconds { return document.Seconds(m * float64(sim.Minute)) }

func notNil(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}
