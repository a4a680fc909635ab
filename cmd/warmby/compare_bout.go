package main

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

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

	odds  [][]odds // by milestone, then order
	pairs [][]pair // by milestone
}

// odds is when one order reaches one milestone.
type odds struct {
	mean      stats.Mean
	quantiles []stats.Quantile // as shownQuantiles
	never     stats.Share
	onTime    *stats.Share // nil without a target
	first     stats.Share  // runs in which no other order is sooner
}

// shownQuantiles are the quantiles that are shown.
var shownQuantiles = []float64{0.5, 0.8, 0.9, 0.95}

// nineOfTen is the place of 0.9 in shownQuantiles.
const nineOfTen = 2

// pair is two orders, by index, held against each other at one milestone: the
// difference is a less b.
type pair struct {
	a, b        int
	diff        stats.Difference
	exploratory bool // not among those that hold together
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

// judge works out the figures. Differences at primary milestones make one
// family whose intervals hold together; the others are exploratory.
func (w *bout) judge(primary []int) {
	milestones := w.played[0].Drill.Milestones
	w.odds, w.pairs = make([][]odds, len(milestones)), make([][]pair, len(milestones))
	var family []*stats.Paired
	var members []*pair
	for m := range milestones {
		for i := range w.played {
			w.odds[m] = append(w.odds[m], w.oddsOf(m, i))
		}
		for i := range w.played {
			for j := i + 1; j < len(w.played); j++ {
				paired := compare.Pair(w.played[i].Times[m], w.played[j].Times[m])
				w.pairs[m] = append(w.pairs[m], pair{a: i, b: j, diff: paired.Difference(), exploratory: !slices.Contains(primary, m)})
				if slices.Contains(primary, m) {
					family = append(family, paired)
				}
			}
		}
	}
	for m := range w.pairs {
		for i := range w.pairs[m] {
			if !w.pairs[m][i].exploratory {
				members = append(members, &w.pairs[m][i])
			}
		}
	}
	for i, d := range stats.Simultaneous(family) {
		members[i].diff = d
	}
}

func (w *bout) oddsOf(m, order int) odds {
	p := w.played[order]
	times, by := p.Times[m], p.Drill.Milestones[m].By
	var tally stats.Tally
	var met, first int64
	for run, at := range times {
		tally.Add(at)
		if at != sim.Never && at <= by {
			met++
		}
		if at != sim.Never && !w.sooner(m, run, at) {
			first++
		}
	}
	runs := int64(len(times))
	o := odds{mean: tally.Mean(), never: stats.ShareOf(tally.Never, runs), first: stats.ShareOf(first, runs)}
	if by != sim.Never {
		share := stats.ShareOf(met, runs)
		o.onTime = &share
	}
	sorted := stats.SortedOf(times)
	for _, q := range shownQuantiles {
		o.quantiles = append(o.quantiles, stats.QuantileOf(sorted, q))
	}
	return o
}

// sooner reports whether any order reaches a milestone before a moment in a run.
func (w *bout) sooner(m, run int, than sim.Time) bool {
	for _, p := range w.played {
		if p.Times[m][run] < than {
			return true
		}
	}
	return false
}

// ranking returns the orders of a milestone, the one with the soonest mean
// first. Orders without a mean follow, by the moment of 9 in 10 and then by how
// seldom they never get there.
func (w *bout) ranking(m int) []int {
	order := make([]int, len(w.orders))
	for i := range order {
		order[i] = i
	}
	key := func(i int) float64 {
		if o := w.odds[m][i]; o.mean.OK() {
			return o.mean.Value
		}
		return math.Inf(1)
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(key(a), key(b)),
			cmp.Compare(w.odds[m][a].quantiles[nineOfTen].Value, w.odds[m][b].quantiles[nineOfTen].Value),
			cmp.Compare(w.odds[m][a].never.Count, w.odds[m][b].never.Count))
	})
	return order
}

// between returns the pair of two orders at a milestone, turned so that a is
// the first of them.
func (w *bout) between(m, a, b int) pair {
	for _, p := range w.pairs[m] {
		switch {
		case p.a == a && p.b == b:
			return p
		case p.a == b && p.b == a:
			return p.turned()
		}
	}
	panic("warmby: no such pair of orders")
}

// turned returns the pair the other way round.
func (p pair) turned() pair {
	p.a, p.b = p.b, p.a
	p.diff.ASooner, p.diff.BSooner = p.diff.BSooner, p.diff.ASooner
	p.diff.Mean = negated(p.diff.Mean)
	return p
}

func negated(m stats.Mean) stats.Mean {
	m.Value, m.Low, m.High = -m.Value, -m.High, -m.Low
	return m
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
