package main

import (
	"context"
	"fmt"
	"slices"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/doubt"
	"warmby/sim/rehearse"
	"warmby/sim/stats"
)

// ordersAsked says which orders are compared, and about what.
type ordersAsked struct {
	orders, whatIfs, primary []string // none for all, none, and those with a target
	seed                     uint64
	runs, workers            int
	untilTold                int  // runs at most; 0 when not asked for
	allMoves                 bool // what moves the milestones is asked of every order
	luck                     bool // and how luck shares in their variance, which is only told in full
}

// comparison is what was compared and what came out.
type comparison struct {
	name, arg string // of the scenario: for people, and on a command line
	asked     ordersAsked
	d         *sim.Drill // the first drill, for what all have in common
	primary   []int      // milestones
	runs      int
	until     *compare.Told // how they came to be so many; nil when that was settled before
	asIs      *bout
	whatIfs   []*bout
	leftOut   [][]compare.LeftOut // by order
	moves     []*compare.Moves    // by order, of the primary milestones; nil where not asked
	luck      [][]compare.Luck    // by order, then primary milestone; nil where not asked
	drawn     bool                // whether anything is left to luck
	doubted   *report.DoubtedBout // nil where there is nothing to doubt
}

// newComparison settles which orders, what-ifs and milestones are asked for.
func newComparison(src *ask.Source, f ordersAsked) (*comparison, error) {
	orders, err := src.Orders(f.orders)
	if err != nil {
		return nil, err
	}
	if len(orders) == 0 {
		orders = src.Scenario.Orders()
	}
	if len(orders) == 0 {
		orders = []string{""} // tasks in file order
	}
	c := &comparison{name: src.Name, arg: src.Arg, asIs: &bout{orders: orders}}
	wanted, err := src.WhatIfs(f.whatIfs)
	if err != nil {
		return nil, err
	}
	for _, name := range wanted {
		c.whatIfs = append(c.whatIfs, &bout{whatIf: name, orders: orders})
	}
	if c.d, err = src.Scenario.Drill(orders[0]); err != nil {
		return nil, err
	}
	if err := c.settlePrimary(f.primary, src.Name); err != nil {
		return nil, err
	}
	flag, most := "runs", f.runs
	if f.untilTold > 0 {
		flag, most = "until-told", f.untilTold
	}
	if moments := most * len(orders) * (1 + len(wanted)) * len(c.d.Milestones); moments > ask.MostMoments || most > ask.MostMoments {
		return nil, &mistake.Usage{What: fmt.Sprintf("--%s %d of %s would not fit into memory", flag, most, report.Counted(len(orders)*(1+len(wanted)), "drill")), Cure: "ask for fewer runs, orders or what-ifs; 10000 runs tell a mean to a few seconds"}
	}
	c.asked, c.drawn, c.runs = f, rehearse.IsDrawn(c.d), f.runs
	return c, nil
}

// settlePrimary settles the milestones that the question is about: those asked
// for, else those of [compare.Primary].
func (c *comparison) settlePrimary(names []string, where string) error {
	var there []string
	for _, m := range c.d.Milestones {
		there = append(there, m.Name)
	}
	names, err := ask.Asked(names, there, "milestone", where)
	if err != nil {
		return err
	}
	if len(names) == 0 {
		c.primary = compare.Primary(c.d)
		return nil
	}
	for i, m := range c.d.Milestones {
		if slices.Contains(names, m.Name) {
			c.primary = append(c.primary, i)
		}
	}
	return nil
}

// play plays everything that was asked for.
func (c *comparison) play(ctx context.Context, s *scenarios.Scenario) error {
	if err := c.playAsIs(ctx, s); err != nil {
		return fmt.Errorf("%s: %w", c.name, err)
	}
	b := c.batch()
	for _, w := range c.whatIfs {
		changed, err := s.WhatIf(w.whatIf)
		if err != nil {
			return err
		}
		if err := w.play(ctx, changed, b); err != nil {
			return err
		}
	}
	var err error
	if c.leftOut, err = compare.LeaveOut(ctx, c.asIs.played, b); err != nil {
		return err
	}
	for _, w := range append([]*bout{c.asIs}, c.whatIfs...) {
		w.Standing = compare.Stand(w.played, c.primary)
		w.well = compare.HowWell(w.played, w.cold)
	}
	return c.askWhatMoves(ctx, b)
}

// playAsIs plays the scenario as it is: the runs that are asked for, or until the
// orders are told apart.
func (c *comparison) playAsIs(ctx context.Context, s *scenarios.Scenario) error {
	if c.asked.untilTold == 0 {
		return c.asIs.play(ctx, s, c.batch())
	}
	drills, err := c.asIs.drills(s)
	if err != nil {
		return err
	}
	told, played, accounts, err := compare.UntilTold(ctx, drills, c.batch(), c.primary, c.asked.untilTold)
	c.runs, c.until, c.asIs.played, c.asIs.cold = told.Runs, &told, played, accounts
	return err
}

// doubt plays all orders again with their numbers doubted.
func (c *comparison) doubt(ctx context.Context, n doubt.Numbers) (err error) {
	if !c.drawn || !n.Any(c.d) {
		return nil
	}
	b := n.Batch(c.batch())
	b.Looks = stats.Looks{} // their number is settled
	w := &report.DoubtedBout{Numbers: n, Runs: b.Runs}
	var drills []*sim.Drill
	for _, p := range c.asIs.played {
		drills = append(drills, p.Drill)
	}
	played, accounts, err := compare.PlayCold(ctx, drills, b)
	if err != nil {
		return err
	}
	w.Played, w.Well = played, compare.HowWell(played, accounts)
	c.doubted = w
	return nil
}

func (c *comparison) batch() compare.Batch {
	b := compare.Batch{Seed: c.asked.seed, Runs: c.runs, Workers: c.asked.workers}
	if c.until != nil {
		b.Looks = c.until.Looks()
	}
	return b
}

// askWhatMoves asks what moves the primary milestones: under every order if that is
// asked for, else only under those that are soonest at some milestone.
func (c *comparison) askWhatMoves(ctx context.Context, b compare.Batch) error {
	var asked []int
	for i := range c.asIs.orders {
		shown := func(m int) bool { return c.asIs.Ranking(m)[0] == i }
		if c.asked.allMoves || slices.ContainsFunc(c.primary, shown) {
			asked = append(asked, i)
		}
	}
	var played []*compare.Played
	for _, i := range asked {
		played = append(played, c.asIs.played[i])
	}
	moves, err := compare.WhatMoves(ctx, played, c.primary, b)
	if err != nil {
		return err
	}
	lucks := make([][]compare.Luck, len(asked))
	if c.asked.luck {
		if lucks, err = compare.ShareLuck(ctx, played, c.primary, b); err != nil {
			return err
		}
	}
	c.moves, c.luck = make([]*compare.Moves, len(c.asIs.orders)), make([][]compare.Luck, len(c.asIs.orders))
	for k, i := range asked {
		c.moves[i], c.luck[i] = moves[k], lucks[k]
	}
	return nil
}

// told is the comparison for its report.
func (c *comparison) told() report.Comparison {
	told := report.Comparison{
		Drill: c.d, Seed: c.asked.seed, Runs: c.runs, Until: c.until, Primary: c.primary, Drawn: c.drawn, AsIs: c.asIs.told(),
		LeftOut: c.leftOut, Moves: c.moves, Luck: c.luck, Doubted: c.doubted, All: c.cautions(), Repeat: c.repeat(), Cautions: ask.CautionsCommand(c.arg),
	}
	for _, w := range c.whatIfs {
		told.WhatIfs = append(told.WhatIfs, w.told())
	}
	return told
}

// warnings returns what should keep readers from leaning on the figures.
func (c *comparison) warnings() (list []string) {
	told := c.told()
	for _, w := range append(told.Warnings(), told.Skewed()...) {
		list = append(list, w.Write(report.Full))
	}
	return list
}

// repeat returns the command that compares the same again.
func (c *comparison) repeat() string {
	line := ask.CommandOf("compare", ask.FileWord(c.arg))
	for _, f := range []struct {
		flag   string
		values []string
	}{{"order", c.asked.orders}, {"what-if", c.asked.whatIfs}, {"primary", c.asked.primary}} {
		for _, v := range f.values {
			line.With(f.flag, v)
		}
	}
	line.With("runs", c.asked.runs)
	if c.asked.untilTold > 0 {
		line.With("until-told", c.asked.untilTold)
	}
	return line.With("seed", c.asked.seed).String()
}
