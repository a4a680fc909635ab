// Package ifthen works out what a leader should do when the evening does not go as
// planned: a load comes late, a stove is dead, somebody is down, the wind gets up, a
// milestone is not reached by a moment.
//
// The caller lays each of these over the scenario, under every order: a [Ladder] of
// drills for something that may be more or less so. [Of] plays them under the same
// luck and keeps a [Line] where the runs tell one: another order is clearly better
// than the one chosen, and more so than without the trouble; or something is lost
// that is else reached. Where the runs cannot tell there is no line.
//
// What a line says holds for the drills it was made from: another order is taken
// from the arrival on. [Line.Alike] says up to when the two orders do the same with
// that trouble, so that to change until then is just what was played.
package ifthen

import (
	"context"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// Kind is a kind of trouble.
type Kind int

// The kinds of trouble.
const (
	LateLoad Kind = iota // a load is not there at a moment
	DeadStove
	Down    // somebody is hurt on the way through the evening
	Windy   // the wind blows all the time as given, or more
	Later   // the team arrives later
	WhatIf  // a what-if of the file
	NotYet  // a milestone is not reached by a moment
	NotDark // a milestone is not reached when it grows dark
)

// Ladder is one trouble of rising size.
type Ladder struct {
	Kind  Kind
	Name  string // of the load, stove, person, what-if
	Rungs []Rung
}

// Rung is a trouble of one size.
type Rung struct {
	// Size is when a load comes, somebody is hurt, or how much later the team
	// arrives; in milliseconds. Wind in m/s.
	Size sim.Time
	Wind float64
	// Drills are by order, those of the scenario; nil where one cannot be played.
	Drills []*sim.Drill
}

// Question is what is asked.
type Question struct {
	Drills  []*sim.Drill // by order, without trouble; nil where one cannot be played
	Chosen  int          // the order of the cards
	Ladders []Ladder
}

// Line is what to do in a trouble.
type Line struct {
	Kind  Kind
	Names []string // of loads, stoves, people, what-ifs or a milestone
	Size  sim.Time // as in [Rung]; of NotYet and NotDark the moment
	Wind  float64
	// Take is the order to take; the chosen one where none is better.
	Take int
	// Alike is until when the order to take does in that trouble just what the
	// chosen one does, with usual values; 0 unless another is taken.
	Alike sim.Time
	Leave []int // tasks to leave, of the chosen drill
	// Milestone is what With and Without are about: how often its target is met
	// when the line is followed, and when not; -1 for all targets together.
	// Where the chosen order is kept and nothing is left, With is in the trouble
	// and Without without it.
	Milestone int
	// Never says that no order can be finished in that trouble, or that each comes
	// to a stop in all runs that were looked at.
	Never         bool
	With, Without *stats.Share // nil for a line about Usual
	// Usual is when the milestone usually comes in the trouble, Else without it;
	// where no target is lost and none is won.
	Usual, Else sim.Time
}

// Of works out the lines. Of each ladder there is one at most.
func Of(ctx context.Context, q Question, b compare.Batch) ([]Line, error) {
	w := &work{Question: q, batch: b, left: map[string]*compare.Played{}}
	if q.Drills[q.Chosen] == nil {
		return nil, nil
	}
	if err := w.play(ctx); err != nil {
		return nil, err
	}
	var lines []Line
	for i, l := range q.Ladders {
		line, ok, err := w.ladder(ctx, l, w.rungs[i])
		if err != nil {
			return nil, err
		}
		if ok {
			lines = append(lines, line)
		}
	}
	late, err := w.notYet(ctx)
	if err != nil {
		return nil, err
	}
	return append(merged(lines), late...), nil
}

// work is a question being worked out.
type work struct {
	Question
	batch compare.Batch
	base  []*compare.Played     // by order; nil where one cannot be played
	rungs [][][]*compare.Played // by ladder, rung and order
	left  map[string]*compare.Played
}

// screen is how many runs each trouble is first looked at in. What looks like a
// line is played in all runs of the batch before it is one. A drill that comes to a
// stop in each of the first few runs is given up: it takes long to come to no end.
const (
	screen   = 64
	firstFew = 8
	halted   = 128 // runs of a drill that mostly comes to a stop
)

// play plays the drills without trouble in all runs, and the others in a few.
func (w *work) play(ctx context.Context) (err error) {
	var rungs []Rung
	for _, l := range w.Ladders {
		rungs = append(rungs, l.Rungs...)
	}
	if w.base, err = playable(ctx, w.Drills, w.batch); err != nil {
		return err
	}
	var drills []*sim.Drill
	for _, r := range rungs {
		drills = append(drills, r.Drills...)
	}
	few := w.batch
	few.Runs = min(few.Runs, firstFew)
	played, err := playable(ctx, drills, few)
	if err != nil {
		return err
	}
	for i, p := range played {
		if p == nil || hopeless(p) {
			drills[i] = nil
		}
	}
	few.Runs = min(w.batch.Runs, screen)
	again, err := playable(ctx, drills, few)
	if err != nil {
		return err
	}
	for i, p := range again {
		if p != nil {
			played[i] = p
		}
	}
	for _, l := range w.Ladders {
		var list [][]*compare.Played
		for _, r := range l.Rungs {
			list, played = append(list, played[:len(r.Drills)]), played[len(r.Drills):]
		}
		w.rungs = append(w.rungs, list)
	}
	return nil
}

// playable plays those of some drills that can be finished; nil for the others.
func playable(ctx context.Context, list []*sim.Drill, b compare.Batch) ([]*compare.Played, error) {
	out := make([]*compare.Played, len(list))
	var drills []*sim.Drill
	var places []int
	for i, d := range list {
		if d != nil && sim.Possible(d) == nil {
			drills, places = append(drills, d), append(places, i)
		}
	}
	played, err := compare.Play(ctx, drills, b)
	if err != nil {
		return nil, err
	}
	for i, p := range played {
		out[places[i]] = p
	}
	return out, nil
}

// hopeless reports whether a drill came to a stop in every run.
func hopeless(p *compare.Played) bool { return p.Stopped == len(p.Times[0]) }

// fully plays some orders of a rung in all runs, those that are not yet.
func (w *work) fully(ctx context.Context, rung []*compare.Played, orders ...int) error {
	for _, o := range orders {
		if rung[o] == nil {
			continue
		}
		b := w.batch
		if runs := len(rung[o].Times[0]); rung[o].Stopped*2 > runs {
			b.Runs = min(b.Runs, halted)
		}
		if len(rung[o].Times[0]) == b.Runs {
			continue
		}
		played, err := compare.Play(ctx, []*sim.Drill{rung[o].Drill}, b)
		if err != nil {
			return err
		}
		rung[o] = played[0]
	}
	return nil
}
