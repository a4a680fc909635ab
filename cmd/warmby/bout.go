package main

import (
	"context"

	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// bout is all orders of a scenario compared with each other, as the scenario is or
// as a what-if changes it.
type bout struct {
	whatIf string // "" as it is
	orders []string
	played []*compare.Played // by order
	cold   []*compare.Cold   // by order
	well   []compare.Well    // by order

	*compare.Standing
}

func (w *bout) play(ctx context.Context, s *scenarios.Scenario, b compare.Batch) error {
	drills, err := w.drills(s)
	if err != nil {
		return err
	}
	w.played, w.cold, err = compare.PlayCold(ctx, drills, b)
	return err
}

// drills are those of a scenario under all orders.
func (w *bout) drills(s *scenarios.Scenario) (drills []*sim.Drill, err error) {
	for _, order := range w.orders {
		d, err := s.Drill(order)
		if err != nil {
			return nil, err
		}
		drills = append(drills, d)
	}
	return drills, nil
}

// told is the bout for its report.
func (w *bout) told() *report.Bout {
	return &report.Bout{WhatIf: w.whatIf, Standing: w.Standing, Cold: w.cold, Well: w.well}
}

// change is what a what-if does to one milestone of one order, run by run: over
// 0 when it comes later than as it is.
func (c *comparison) change(w *bout, order, m int) stats.Difference {
	as := c.asIs.played[order]
	return as.Looks.Difference(compare.Pair(w.played[order].Times[m], as.Times[m]))
}

// changeApart is the same otherwise than on average.
func (c *comparison) changeApart(w *bout, order, m int) compare.Apart {
	changed, as := w.Moments(m)[order], c.asIs.Moments(m)[order]
	return changed.Apart(&as)
}

// cautions returns what all that was played calls for.
func (c *comparison) cautions() []cold.Caution {
	var drills []*sim.Drill
	for _, w := range append([]*bout{c.asIs}, c.whatIfs...) {
		drills = append(drills, w.played[0].Drill)
	}
	return cold.CautionsOfAll(drills)
}
