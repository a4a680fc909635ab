package cards

import (
	"warmby/sim"
	"warmby/sim/ifthen"
	"warmby/sim/stats"
)

// Advice is a line of the leader's if-then card.
type Advice struct {
	Kind  ifthen.Kind
	Names []string // of loads, stoves, people, a what-if or a milestone
	// At is the moment of the trouble; of ifthen.Later the new arrival. Never
	// where it has none.
	At    sim.Time
	Wind  float64 // m/s, of ifthen.Windy
	Take  string  // the order to take; "" to keep the one there is
	Until sim.Time
	Leave []string // tasks
	// Milestone is what With and Without are about; "" for all targets together.
	Milestone     string
	Never         bool // the plan cannot be finished
	With, Without *stats.Share
	Usual, Else   sim.Time
}

// AdviceOf returns the advice of some lines that were worked out for a drill; the
// names of orders stand in the sequence of the question.
func AdviceOf(d *sim.Drill, lines []ifthen.Line, orders []string) (list []Advice) {
	for _, l := range lines {
		a := Advice{
			Kind: l.Kind, Names: l.Names, At: l.Size, Wind: l.Wind, Never: l.Never,
			With: l.With, Without: l.Without, Usual: l.Usual, Else: l.Else,
		}
		if l.Kind == ifthen.DeadStove || l.Kind == ifthen.Windy || l.Kind == ifthen.WhatIf {
			a.At = sim.Never
		}
		if orders[l.Take] != d.Order {
			a.Take, a.Until = orders[l.Take], l.Alike
		}
		seen := map[string]bool{}
		for _, t := range l.Leave {
			if name := d.Tasks[t].OwnName(); !seen[name] {
				seen[name] = true
				a.Leave = append(a.Leave, name)
			}
		}
		if !l.Never && l.Milestone >= 0 {
			a.Milestone = d.Milestones[l.Milestone].Name
		}
		list = append(list, a)
	}
	return list
}
