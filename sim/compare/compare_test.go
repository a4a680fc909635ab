package compare_test

import (
	"context"
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/internal/drills"
)

// camp is two people with tasks that take a uniform length from 0 to twice the
// minutes given, all under one order: dig, then pitch; boil beside them; a
// wall, which can wait, before pitch in the sequence and after dig.
func camp(sequence ...int) *sim.Drill {
	d := &sim.Drill{
		Spots:  []sim.Spot{{Name: "centre", In: -1}},
		People: []sim.Person{{Name: "Aila", Pace: 1000}},
	}
	task := func(name string, length float64, after ...sim.After) *sim.Task {
		d.Tasks = append(d.Tasks, sim.Task{Name: name, Kind: sim.Takes, Amount: drills.Even(length * 60000),
			Crew: sim.Crew{Min: 1, Max: 1}, Item: -1, After: after})
		return &d.Tasks[len(d.Tasks)-1]
	}
	task("dig", 20)
	task("wall", 15).CanWait = true
	task("pitch", 30, sim.After{Task: 0})
	boil := task("boil", 1)
	boil.Crew = sim.Crew{}
	d.Milestones = []sim.Milestone{
		{Name: "walled", When: []int{1}, By: sim.Never},
		{Name: "shelter up", When: []int{2}, By: sim.Never},
		{Name: sim.FinishName, When: []int{0, 1, 2, 3}, By: sim.Never},
	}
	return d.Under(sim.Order{Groups: []sim.Group{{Sequence: sequence}}})
}

// orders are the wall before the tent, and after it.
func orders() []*sim.Drill {
	return []*sim.Drill{camp(0, 1, 2, 3), camp(0, 2, 1, 3)}
}

var ctx = context.Background()

func TestOrdersMeetTheSameLuck(t *testing.T) {
	b := compare.Batch{Seed: 5, Runs: 700, Workers: 2}
	played, err := compare.Play(ctx, orders(), b)
	if err != nil {
		t.Fatal(err)
	}
	for run := range b.Runs {
		luck := draw.Run(played[0].Drill, b.Seed, run)
		dig, wall, pitch := luck.Amount[0], luck.Amount[1], luck.Amount[2]
		if got, want := played[0].Times[1][run], dig+wall+pitch; got != want {
			t.Fatalf("run %d, wall first: shelter up at %d ms, want %d", run, got, want)
		}
		if got, want := played[1].Times[1][run], dig+pitch; got != want {
			t.Fatalf("run %d, tent first: shelter up at %d ms, want %d", run, got, want)
		}
	}
	d := compare.Pair(played[1].Times[1], played[0].Times[1]).Difference()
	if d.Mean.High > 0 || d.ASooner.Count != int64(b.Runs) {
		t.Errorf("tent first against wall first: %+v, want sooner in every run", d)
	}
}

func TestResultsAreTheSameOnAnyNumberOfWorkers(t *testing.T) {
	type all struct {
		Played []*compare.Played
		Left   [][]compare.LeftOut
		Moves  []*compare.Moves
		Luck   [][]compare.Luck
	}
	play := func(workers int) all {
		b := compare.Batch{Seed: 9, Runs: 900, Workers: workers}
		played, err := compare.Play(ctx, orders(), b)
		if err != nil {
			t.Fatal(err)
		}
		left, err := compare.LeaveOut(ctx, played, b)
		if err != nil {
			t.Fatal(err)
		}
		moves, err := compare.WhatMoves(ctx, played, []int{1, 2}, b)
		if err != nil {
			t.Fatal(err)
		}
		luck, err := compare.ShareLuck(ctx, played, []int{1, 2}, b)
		if err != nil {
			t.Fatal(err)
		}
		return all{played, left, moves, luck}
	}
	want := play(1)
	for _, workers := range []int{2, 7} {
		if diff := cmp.Diff(want, play(workers), cmpopts.EquateNaNs()); diff != "" {
			t.Errorf("%d workers differ from one:\n%s", workers, diff)
		}
	}
}

func TestLeavingOutWinsTheLengthOfTheTask(t *testing.T) {
	b := compare.Batch{Seed: 1, Runs: 500, Workers: 2}
	played, err := compare.Play(ctx, orders(), b)
	if err != nil {
		t.Fatal(err)
	}
	left, err := compare.LeaveOut(ctx, played, b)
	if err != nil {
		t.Fatal(err)
	}
	mean := 0.0
	for run := range b.Runs {
		mean += float64(draw.Run(played[0].Drill, b.Seed, run).Amount[1]) / float64(b.Runs)
	}
	wall := left[0][0]
	if len(left[0]) != 1 || wall.Task != "wall" || wall.Wins[0] != nil {
		t.Fatalf("left out %+v, want the wall, and nothing said of its own milestone", left[0])
	}
	for _, m := range []int{1, 2} {
		if got := wall.Wins[m].Mean.Value; got-(-mean) > 0.01 || got-(-mean) < -0.01 {
			t.Errorf("milestone %d: mean change %.2f ms, want %.2f: all of the wall", m, got, -mean)
		}
	}
	if got := left[1][0].Wins[1].Mean.Value; got != 0 {
		t.Errorf("tent first: leaving out the wall wins %.2f ms for the shelter, want 0", -got)
	}
}

func TestWhatMovesAChain(t *testing.T) {
	b := compare.Batch{Seed: 1, Runs: 500, Workers: 2}
	played, err := compare.Play(ctx, []*sim.Drill{camp(0, 2, 1, 3)}, b)
	if err != nil {
		t.Fatal(err)
	}
	moves, err := compare.WhatMoves(ctx, played, []int{1}, b)
	if err != nil {
		t.Fatal(err)
	}
	m := moves[0].Milestones[0]
	dig, wall, pitch := m[0], m[1], m[2]
	for _, v := range []compare.Mover{dig, pitch} {
		if v.Critical.Value != 1 {
			t.Errorf("task %d: critical in %.2f of runs, want all", v.Task, v.Critical.Value)
		}
		// A minute less, or all of a length under a minute, is won in full.
		if v.PerMinute.Value != 1 || v.PerMinute.Low != 1 || v.PerMinute.High != 1 {
			t.Errorf("task %d: %+v won per minute, want 1 in every run", v.Task, v.PerMinute)
		}
	}
	if wall.Critical.Value != 0 || wall.PerMinute.OK() {
		t.Errorf("wall: %+v, want it to have nothing to do with the shelter", wall)
	}
	// Of a sum of uniforms 40 and 60 minutes wide the longer decides more:
	// linear correlations 40 and 60 over sqrt(40^2 + 60^2) = 0.555 and 0.832.
	if r := dig.Rank; r.Low > 0.57 || r.High < 0.52 {
		t.Errorf("rank correlation of dig %+v, want about 0.54", r)
	}
	if r := pitch.Rank; r.Value < 0.78 || r.Value > 0.88 {
		t.Errorf("rank correlation of pitch %+v, want about 0.83", r)
	}
	if r := wall.Rank; r.Low > 0 || r.High < 0 {
		t.Errorf("rank correlation of the wall %+v, want one that may be 0", r)
	}
}

// x comes after y, which stands in turn behind z, which comes after x.
func TestADrillThatComesToAStopCountsAsNever(t *testing.T) {
	d := camp(0, 1, 2, 3)
	d.People = append(d.People, sim.Person{Name: "Berend", Pace: 1000})
	d.Groups = []sim.Group{
		{Name: "one", People: []int{0}, Sequence: []int{3, 0}, InTurn: true},
		{Name: "two", People: []int{1}, Sequence: []int{2, 1}, InTurn: true},
	}
	d.Tasks[0].After = []sim.After{{Task: 1}}
	b := compare.Batch{Seed: 1, Runs: 300, Workers: 2}
	played, err := compare.Play(ctx, []*sim.Drill{d}, b)
	if err != nil {
		t.Fatal(err)
	}
	p := played[0]
	if p.Stopped != b.Runs || p.StopRun != 0 || p.Stop == nil {
		t.Errorf("stopped in %d runs, first in run %d at %v; want all 300, from run 0", p.Stopped, p.StopRun, p.Stop)
	}
	for m := range p.Times {
		if p.Times[m][0] != sim.Never {
			t.Errorf("milestone %d at %v, want never", m, p.Times[m][0])
		}
	}
}

// What can start is done, and told; the rest is never.
func TestADrillThatCanNeverFinishIsTold(t *testing.T) {
	d := camp(0, 1, 2, 3)
	d.Tasks[0].Crew = sim.Crew{Min: 5, Max: 5}
	played, err := compare.Play(ctx, []*sim.Drill{d}, compare.Batch{Seed: 1, Runs: 3, Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	var never *sim.NeverError
	if p := played[0]; p.Stopped != 3 || !errors.As(p.Stop, &never) {
		t.Errorf("five people asked of one: %d of 3 runs stopped, at %v", p.Stopped, p.Stop)
	}
}

func TestAnInterruptEndsABatch(t *testing.T) {
	gone, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := compare.Play(gone, orders(), compare.Batch{Seed: 1, Runs: 1_000_000, Workers: 2}); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want that of the context", err)
	}
}

// Every run is that of a single worker.
func TestPlayGivesWhatTheEngineGives(t *testing.T) {
	d := camp(0, 1, 2, 3)
	played, err := compare.Play(ctx, []*sim.Drill{d}, compare.Batch{Seed: 3, Runs: 600, Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	program := fast.Compile(d)
	w := program.Worker()
	var r fast.Result
	for run := range 600 {
		w.Run(3, run, &r)
		for m, at := range r.Milestones {
			if got := played[0].Times[m][run]; got != at {
				t.Fatalf("run %d, milestone %d: %v, want %v", run, m, got, at)
			}
		}
	}
}
