package review_test

import (
	"testing"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/review"
	"warmby/sim/timed"
)

// two has one task that two others come after, in two orders.
const two = `warmby: 1
title: two people
people: [{name: A}, {name: B}]
tasks:
  dig: {work: 20 min, crew: 1}
  pitch: {work: 30 min, crew: 1, after: dig}
  stove: {takes: 10 min, crew: 1}
  wall: {work: 40 min, crew: 1}
milestones: {tent: {when: pitch}, drink: {when: stove}}
orders:
  wall first: {sequence: [wall, dig, pitch, stove]}
  tent first: {sequence: [dig, stove, pitch, wall]}
`

func given(t *testing.T, order string, jobs ...timed.Job) review.Given {
	t.Helper()
	s, err := scenarios.Read("two.yaml", []byte(two))
	if err != nil {
		t.Fatal(err)
	}
	g := review.Given{}
	for _, name := range s.Orders() {
		d, err := s.Drill(name)
		if err != nil {
			t.Fatal(err)
		}
		if g.Orders = append(g.Orders, d); name == order {
			g.Evening = timed.Evening{Drill: d, Timed: &timed.Drill{Name: "1", Jobs: jobs}}
		}
	}
	return g
}

func end(task int, minutes sim.Time) timed.Job {
	return timed.Job{Task: task, Start: sim.Never, End: minutes * sim.Minute}
}

// TestReviewOfADrillWorkedOutByHand: with the wall first, A saws 50 min instead
// of 40, B digs 25 instead of 20 and pitches 30; A lights the stove at 50.
//
//	as timed       dig 25, wall 50, pitch 55, stove 60: tent 55, drink 60
//	as foretold    dig 20, wall 40, pitch 50, stove 50: tent 50, drink 50
//	dig as usual   tent 50, drink 60: dig cost 5 and 0
//	wall as usual  tent 55, drink 50: the wall cost 0 and 10
//	tent first     B lights the stove 0 to 10, then saws; tent 55, drink 10
func TestReviewOfADrillWorkedOutByHand(t *testing.T) {
	r := review.Of(given(t, "wall first", end(0, 25), end(3, 50), end(1, 55), end(2, 60)))
	check := func(what string, got, want sim.Time) {
		t.Helper()
		if off := got - want*sim.Minute; off > sim.Second || off < -sim.Second {
			t.Errorf("%s: %.2f min, want %d", what, got.Minutes(), want)
		}
	}
	check("tent as timed", r.Milestones[0].Came, 55)
	check("tent as played again", r.Milestones[0].Played, 55)
	check("tent foretold", r.Milestones[0].Usual, 50)
	check("drink as timed", r.Milestones[1].Came, 60)
	check("drink foretold", r.Milestones[1].Usual, 50)
	over := map[int]review.Over{}
	for _, o := range r.Over {
		over[o.Task] = o
	}
	check("dig and the tent", over[0].Milestones[0], 5)
	check("dig and the drink", over[0].Milestones[1], 0)
	check("the wall and the tent", over[3].Milestones[0], 0)
	check("the wall and the drink", over[3].Milestones[1], 10)
	check("the wall took", over[3].Took, 50)
	if r.Over[0].Task != 3 {
		t.Errorf("task %d cost most, want the wall", r.Over[0].Task)
	}
	check("tent, tent first", r.Orders[1].Milestones[0], 55)
	check("drink, tent first", r.Orders[1].Milestones[1], 10)
	check("gain of tent first", r.Orders[1].Gain, 25)
	if len(r.Changes) != 2 || r.Changes[0].Kind != review.TakeOrder || r.Changes[0].Order != "tent first" {
		t.Errorf("changes %+v", r.Changes)
	}
}

// TestTaskThatWasNotTimedTakesWhatWasForetold is the rule for other orders.
func TestTaskThatWasNotTimedTakesWhatWasForetold(t *testing.T) {
	r := review.Of(given(t, "tent first", end(0, 30), timed.Job{Task: 3, Start: sim.Never, End: 70 * sim.Minute, Unfinished: true}))
	if len(r.NotDone) != 2 || r.NotDone[0] != 1 || r.NotDone[1] != 2 {
		t.Errorf("not done: %v, want pitch and stove", r.NotDone)
	}
	if got := r.AsTimed.Tasks[3].End; got <= 70*sim.Minute {
		t.Errorf("the wall ended at %.1f min although it had not at 70", got.Minutes())
	}
	if got := r.AsTimed.Milestones[0].Minutes(); got < 59.9 || got > 60.1 {
		t.Errorf("tent at %.1f min, want 30 + 30", got)
	}
	if r.Milestones[0].Came != sim.Never {
		t.Error("a milestone came by the log of which a task is missing")
	}
}

// TestEndsThatCannotBeAreNamed: the pitch ends before the dig does.
func TestEndsThatCannotBeAreNamed(t *testing.T) {
	r := review.Of(given(t, "tent first", end(0, 30), end(1, 20)))
	if len(r.Off) != 1 || r.Off[0] != 1 {
		t.Errorf("off: %v, want the pitch", r.Off)
	}
}
