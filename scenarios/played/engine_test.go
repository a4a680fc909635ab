package played

import (
	"context"
	"crypto/sha256"
	"fmt"
	"os"
	"testing"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/batch"
)

// pinned is what this engine number makes of testdata/pinned.yaml.
var pinned = struct {
	engine int
	sum    string
}{4, "fa60c0e561a15d8a"}

// Shards of two builds are told apart by sim.Engine alone where a build knows
// no version. So whoever changes a result must raise it: this test pins the
// results of one scenario, to the last bit, to the number.
func TestResultsArePinnedToTheEngineNumber(t *testing.T) {
	got := sumOfRuns(t, "pinned.yaml")
	switch {
	case sim.Engine != pinned.engine:
		t.Errorf("sim.Engine is %d: write {%d, %q} here", sim.Engine, sim.Engine, got)
	case got != pinned.sum:
		t.Errorf("the results have changed (sum %s) and sim.Engine is still %d.\n"+
			"If they were meant to, raise it, and write {%d, %q} here", got, sim.Engine, sim.Engine+1, got)
	}
}

// sumOfRuns is a checksum of all that a batch of 400 runs of every order, with
// and without every what-if, keeps of a scenario.
func sumOfRuns(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	s, err := scenarios.Read(name, data)
	if err != nil {
		t.Fatal(err)
	}
	cases := []*scenarios.Scenario{s}
	for _, name := range s.WhatIfs() {
		v, err := s.WhatIf(name)
		if err != nil {
			t.Fatal(err)
		}
		cases = append(cases, v)
	}
	plan := &batch.Plan{Seed: 7, Runs: 400, Points: len(cases), Tasks: true, Cold: true, Drills: func(point int) (list []*sim.Drill, err error) {
		for _, order := range s.Orders() {
			d, err := cases[point].Drill(order)
			if err != nil {
				return nil, err
			}
			list = append(list, d)
		}
		return list, nil
	}}
	h := sha256.New()
	err = batch.Play(context.Background(), plan.Course(), 2, func(ready []*batch.Chunk) error {
		for _, c := range ready {
			for _, o := range c.Orders {
				if len(o.Start) == 0 || len(o.Cold) == 0 {
					t.Error("tasks or cold are not kept, and nothing is pinned of them")
				}
				fmt.Fprintln(h, c.Point, c.From, c.To, o.Milestones, o.Start, o.End, o.Cold)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return fmt.Sprintf("%x", h.Sum(nil)[:8])
}
