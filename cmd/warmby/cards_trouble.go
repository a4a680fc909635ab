package main

import (
	"fmt"
	"strconv"
	"time"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/ifthen"
)

// What an evening is put to. Sizes are chosen as people say them.
var (
	loadsLater  = []sim.Time{10 * sim.Minute, 20 * sim.Minute, 30 * sim.Minute, 45 * sim.Minute}
	arriveLater = []sim.Time{15 * sim.Minute, 30 * sim.Minute, 45 * sim.Minute, 60 * sim.Minute}
	winds       = []float64{8, 10, 12, 15, 20}
)

// Most of each that are tried, so that cards of a large file do not take long.
const (
	hurtAt      = 20 * sim.Minute
	mostHurt    = 12
	mostLoads   = 4
	mostStoves  = 4
	mostWhatIfs = 8
)

// troubles lays what may go wrong over a scenario, under all of its orders.
type troubles struct {
	*scenarios.Scenario
	d       *sim.Drill
	orders  []string
	ladders []ifthen.Ladder
}

// questionOf asks what to do in trouble, with the order of a drill chosen.
func questionOf(s *scenarios.Scenario, d *sim.Drill) ifthen.Question {
	t := &troubles{Scenario: s, d: d, orders: s.Orders()}
	if len(t.orders) == 0 {
		t.orders = []string{""}
	}
	q := ifthen.Question{Drills: t.drills(s, nil)}
	for i, name := range t.orders {
		if name == d.Order {
			q.Chosen = i
		}
	}
	t.loads()
	t.stoves()
	t.people()
	t.wind()
	t.later()
	t.whatIfs()
	q.Ladders = t.ladders
	return q
}

// drills returns the drills of all orders of a changed scenario, none where it
// cannot be so.
func (t *troubles) drills(s *scenarios.Scenario, err error) []*sim.Drill {
	list := make([]*sim.Drill, len(t.orders))
	if err != nil {
		return list
	}
	for i, name := range t.orders {
		if d, err := s.Drill(name); err == nil {
			list[i] = d
		}
	}
	return list
}

func (t *troubles) add(l ifthen.Ladder) {
	if len(l.Rungs) > 0 {
		t.ladders = append(t.ladders, l)
	}
}

// loads come later than they usually do.
func (t *troubles) loads() {
	for i := range t.d.Loads[:min(mostLoads, len(t.d.Loads))] {
		l := ifthen.Ladder{Kind: ifthen.LateLoad, Name: t.d.Loads[i].Name}
		usual := sim.Time(0)
		if a := t.d.Loads[i].Arrives; a != nil {
			usual = sim.Milliseconds(a.Usual())
		}
		for _, by := range loadsLater {
			at := (usual + by + 5*sim.Minute - 1) / (5 * sim.Minute) * (5 * sim.Minute)
			l.Rungs = append(l.Rungs, ifthen.Rung{Size: at, Drills: t.drills(t.With("loads."+l.Name+".arrives", minutesText(at)))})
		}
		t.add(l)
	}
}

// stoves are dead, one of each kind.
func (t *troubles) stoves() {
	for i := range t.d.Stoves[:min(mostStoves, len(t.d.Stoves))] {
		stove := &t.d.Stoves[i]
		if stove.Count == 0 {
			continue
		}
		s, err := t.With("stoves."+stove.Name+".count", strconv.Itoa(stove.Count-1))
		t.add(ifthen.Ladder{Kind: ifthen.DeadStove, Name: stove.Name, Rungs: []ifthen.Rung{{Drills: t.drills(s, err)}}})
	}
}

// people are hurt, one at a time, and one of the others stays with them.
func (t *troubles) people() {
	const name = "one down"
	tried, skills := 0, map[sim.SkillSet]bool{}
	for i := range t.d.People {
		p := &t.d.People[i]
		if p.Casualty || p.Hurt != nil || len(t.d.People) > mostHurt && skills[p.Skills] || tried == mostHurt {
			continue
		}
		tried++
		skills[p.Skills] = true
		s, err := t.With("what if", fmt.Sprintf("{%q: {people: {%q: {hurt: %s}}}}", name, p.Name, minutesText(hurtAt)))
		if err == nil {
			s, err = s.WhatIf(name)
		}
		t.add(ifthen.Ladder{Kind: ifthen.Down, Name: p.Name, Rungs: []ifthen.Rung{{Size: hurtAt, Drills: t.drills(s, err)}}})
	}
}

// wind blows all the time, more than it does in any weather of the file.
func (t *troubles) wind() {
	strongest := 0.0
	for _, c := range t.d.Weather {
		for _, r := range c.Rows {
			strongest = max(strongest, r.Wind)
		}
	}
	l := ifthen.Ladder{Kind: ifthen.Windy}
	for _, wind := range winds {
		if len(t.d.Weather) > 0 && wind > strongest {
			s, err := t.Vary("weather.wind", strconv.FormatFloat(wind, 'f', -1, 64)+" m/s")
			l.Rungs = append(l.Rungs, ifthen.Rung{Wind: wind, Drills: t.drills(s, err)})
		}
	}
	t.add(l)
}

// later arrives the team.
func (t *troubles) later() {
	arrival := t.d.Site.Arrival
	if arrival.IsZero() {
		return
	}
	l := ifthen.Ladder{Kind: ifthen.Later}
	for _, by := range arriveLater {
		r := ifthen.Rung{Size: by, Drills: make([]*sim.Drill, len(t.orders))}
		for i, name := range t.orders {
			if d, err := t.Arriving(name, arrival.Add(time.Duration(by)*time.Millisecond)); err == nil {
				r.Drills[i] = d
			}
		}
		l.Rungs = append(l.Rungs, r)
	}
	t.add(l)
}

// whatIfs are those of the file.
func (t *troubles) whatIfs() {
	names := t.WhatIfs()
	for _, name := range names[:min(mostWhatIfs, len(names))] {
		t.add(ifthen.Ladder{Kind: ifthen.WhatIf, Name: name, Rungs: []ifthen.Rung{{Drills: t.drills(t.WhatIf(name))}}})
	}
}

func minutesText(at sim.Time) string { return strconv.FormatInt(int64(at/sim.Minute), 10) + " min" }
