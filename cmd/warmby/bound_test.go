package main

import (
	"io"
	"testing"

	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
)

// drills calls a function with every drill of every shipped scenario that
// usual values can play.
func drills(t *testing.T, do func(name string, tl *sim.Timeline)) {
	t.Helper()
	e := environment{stderr: io.Discard}
	played := 0
	for _, name := range library.Names() {
		s, err := e.load(name)
		if err != nil {
			t.Fatal(err)
		}
		variants := []*scenarios.Scenario{s.scenario}
		for _, w := range s.scenario.WhatIfs() {
			v, err := s.scenario.WhatIf(w)
			if err != nil {
				t.Fatal(err)
			}
			variants = append(variants, v)
		}
		for _, v := range variants {
			for _, order := range v.Orders() {
				d, err := v.Drill(order)
				if err != nil {
					t.Fatal(err)
				}
				if tl, err := playUsual(d); err == nil {
					do(name+", "+order, tl)
					played++
				}
			}
		}
	}
	if played < 20 {
		t.Errorf("only %d drills could be played", played)
	}
}

func TestSoonestComesBeforeWhatIsPlayed(t *testing.T) {
	drills(t, func(name string, tl *sim.Timeline) {
		best := soonest(tl.Drill)
		for i, task := range tl.Tasks {
			if best[i] > task.End {
				t.Errorf("%s: %q ended after %s, which soonest thinks impossible before %s",
					name, tl.Drill.Tasks[i].Name, sim.Clock(task.End), sim.Clock(best[i]))
			}
		}
	})
}

// Sums that can be done on paper: fixed lengths, one after the other.
func TestSoonestAddsUpWhatComesAfter(t *testing.T) {
	s, err := scenarios.Read("paper.yaml", []byte(`warmby: 1
title: Paper
people: [{name: Aila}, {name: Berend, pace: 2}]
loads:
  pulk:
    arrives: 6 min
    pack:
      - {item: top, weight: 1 kg, takes: 1 min}
      - {item: below, weight: 1 kg, takes: 2 min}
teamwork: 1
tasks:
  wait: {takes: 20 min, crew: 0, needs: [below]}
  dig: {work: 30 min, crew: 1-2, after: [{task: wait, lag: 5 min}]}
  look: {takes: 1 min, after: [{task: dig, from: start, lag: 2 min}]}
`))
	if err != nil {
		t.Fatal(err)
	}
	d, err := s.Drill("")
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]sim.Time{
		"unpack top":   7 * sim.Minute,
		"unpack below": 9 * sim.Minute,
		"wait":         29 * sim.Minute,
		"dig":          44 * sim.Minute, // 34 min + 30 min of work by paces 1 and 2
		"look":         37 * sim.Minute, // 34 min + 2 min + 1 min
	}
	for i, got := range soonest(d) {
		if name := d.Tasks[i].Name; got != want[name] {
			t.Errorf("soonest end of %q is %s, want %s", name, sim.Clock(got), sim.Clock(want[name]))
		}
	}
}
