package main

import (
	"context"
	"fmt"

	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// bout is all orders of a scenario held against each other, as it is or as a
// what-if changes it.
type bout struct {
	whatIf string // "" as it is
	orders []string
	played []*compare.Played // by order
	never  string            // why a what-if cannot be played; "" when it can
	cold   []*compare.Cold   // by order
	well   []compare.Well    // by order

	*compare.Standing // when it was played
}

func (w *bout) play(ctx context.Context, s *scenarios.Scenario, b compare.Batch) error {
	var drills []*sim.Drill
	for _, order := range w.orders {
		d, err := s.Drill(order)
		if err != nil {
			return err
		}
		drills = append(drills, d)
	}
	var err error
	w.played, err = compare.Play(ctx, drills, b)
	return err
}

// told is the bout for its report.
func (w *bout) told() *report.Bout {
	return &report.Bout{WhatIf: w.whatIf, Never: w.never, Standing: w.Standing, Cold: w.cold, Well: w.well}
}

// change is what a what-if does to one milestone of one order, run by run: over
// 0 when it comes later than as it is.
func (c *comparison) change(w *bout, order, m int) stats.Difference {
	return compare.Pair(w.played[order].Times[m], c.asIs.played[order].Times[m]).Difference()
}

// stopped returns an error when an order comes to a stop in every run.
func (w *bout) stopped() error {
	for i, p := range w.played {
		if p.Stopped > 0 && p.Stopped == len(p.Times[0]) {
			if w.orders[i] == "" {
				return p.Stop
			}
			return fmt.Errorf("order %q comes to a stop in every run: %w", w.orders[i], p.Stop)
		}
	}
	return nil
}

// cautions returns what all that was played calls for.
func (c *comparison) cautions() []cold.Caution {
	var drills []*sim.Drill
	for _, w := range append([]*bout{c.asIs}, c.whatIfs...) {
		if w.never == "" {
			drills = append(drills, w.played[0].Drill)
		}
	}
	return cautionsOfDrills(drills)
}
