package main

import (
	"testing"

	"warmby/scenarios"
	"warmby/sim"
)

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
