package main

import (
	"context"
	"errors"
	"fmt"
	"runtime"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/inside"
	"warmby/sim/reference"
)

// usualPlay is a drill played with usual values.
type usualPlay struct {
	drill    *sim.Drill    // nil when it could not even be built
	timeline *sim.Timeline // nil with an error, and of what-ifs
	alone    []inside.Left // when lit stoves are left alone
	stuck    []string      // tasks that never start or end where it comes to a stop
	err      error
}

// playUsual plays a drill with usual values. Why a drill comes to a stop is
// told by the reference engine: the fast one only knows that.
func playUsual(d *sim.Drill) *sim.Timeline {
	luck := draw.Usual(d)
	if tl := fast.Compile(d).Worker().Timeline(luck); tl.Stops == nil {
		return tl
	}
	return reference.Play(d, luck)
}

// playCases plays a scenario as it stands (case 0) and with every what-if, all
// under every order, on all processors, and hands the plays of each case over in
// file order, by order. When it is interrupted it says what was not tried.
func (e *environment) playCases(ctx context.Context, s *ask.Source, orders []string, take func(at int, plays []usualPlay) error) error {
	e.tidies.Store(true) // an interrupt is answered below
	defer e.tidies.Store(false)
	p := e.progress("trying out " + s.Name)
	defer p.end()
	whatIfs := s.Scenario.WhatIfs()
	cases, done := 1+len(whatIfs), 0
	err := batch.InOrder(ctx, runtime.GOMAXPROCS(0), cases,
		func() func(int) ([]usualPlay, error) {
			return func(at int) ([]usualPlay, error) {
				if at == 0 {
					return playOrders(ctx, s, "", orders)
				}
				return playOrders(ctx, s, whatIfs[at-1], orders)
			}
		},
		func(ready [][]usualPlay) error {
			for _, plays := range ready {
				if err := take(done, plays); err != nil {
					return err
				}
				done++
			}
			p.update(int64(done*len(orders)), int64((cases-done)*len(orders)))
			return nil
		})
	if errors.Is(err, context.Canceled) {
		p.end()
		e.note("%s: not tried: %s", s.Name, untried(whatIfs, done))
	}
	return err
}

// playOrders plays one case under every order.
func playOrders(ctx context.Context, s *ask.Source, whatIf string, orders []string) ([]usualPlay, error) {
	scenario := s.Scenario
	if whatIf != "" {
		var err error
		if scenario, err = scenario.WhatIf(whatIf); err != nil {
			return nil, err
		}
	}
	var plays []usualPlay
	for _, order := range orders {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		var play usualPlay
		if play.drill, play.err = scenario.Drill(order); play.err == nil {
			play.timeline = fast.Compile(play.drill).Worker().Timeline(draw.Usual(play.drill))
			for _, c := range play.timeline.Stops {
				play.stuck = append(play.stuck, c.Task)
			}
		}
		if play.err == nil {
			play.alone = inside.Alone(play.timeline)
		}
		if whatIf != "" {
			play.timeline = nil // nobody looks at it, and there may be hundreds
		}
		plays = append(plays, play)
	}
	return plays, nil
}

// untried names the cases that are left after so many.
func untried(whatIfs []string, done int) string {
	if done == 0 {
		return "anything"
	}
	var left []string
	for _, name := range whatIfs[done-1:] {
		left = append(left, fmt.Sprintf("%q", name))
	}
	if more := len(left) - shownUnnamed; more > 0 {
		left = append(left[:shownUnnamed], fmt.Sprintf("%d more", more))
	}
	return "what if " + report.Named(left)
}
