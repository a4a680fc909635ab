package main

import (
	"context"
	"fmt"
	"runtime"
	"slices"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/inside"
	"warmby/sim/oddity"
	"warmby/sim/reference"
)

// tryOut plays a scenario with usual values under every order, as it stands
// and with every what if, and in some drawn evenings, and returns what it finds and
// how many tasks there are. An error that is a *[sim.NeverError] says why it comes
// to a stop under an order, or why a what if does under every order.
func (e *environment) tryOut(ctx context.Context, s *ask.Source) (found []report.Finding, tasks int, err error) {
	orders := s.Scenario.Orders()
	if len(orders) == 0 {
		orders = []string{""}
	}
	causes := causeLog{where: map[sim.Cause][]string{}, base: -1}
	var drills []*sim.Drill
	err = e.playCases(ctx, s, orders, func(at int, plays []usualPlay) error {
		var f []report.Finding
		var err error
		if at == 0 {
			if d := plays[0].drill; d != nil {
				found, tasks = tellAll(oddity.Of(d), nil), countTasks(d)
			}
			f, err = lookAtOrders(orders, plays, &causes)
			drills = drillsPlayed(plays)
		} else {
			whatIf := s.Scenario.WhatIfs()[at-1]
			f, err = lookAtWhatIf(whatIf, orders, plays, &causes)
			f = append(f, aloneIn(whatIf, orders, plays)...)
		}
		found = append(found, f...)
		return err
	})
	if err != nil {
		return found, tasks, err
	}
	if never := causes.never(); never != nil {
		return append(found, unnamed(s)...), tasks, fmt.Errorf("%s: %w", s.Name, never)
	}
	seldom, err := lookAtEvenings(ctx, drills)
	return append(append(found, seldom...), unnamed(s)...), tasks, err
}

// checkedEvenings is in how many drawn evenings each order is played: enough to
// tell a share from a half that is not near it.
const checkedEvenings = 200

// lookAtEvenings plays the orders in drawn evenings where they have targets.
func lookAtEvenings(ctx context.Context, drills []*sim.Drill) ([]report.Finding, error) {
	if len(drills) == 0 || !slices.ContainsFunc(drills[0].Milestones, report.HasTarget) {
		return nil, nil
	}
	played, err := compare.Play(ctx, drills, compare.Batch{Seed: 1, Runs: checkedEvenings, Workers: runtime.GOMAXPROCS(0)})
	if err != nil {
		return nil, err
	}
	return tellAll(oddity.Seldom(played), nil), nil
}

func drillsPlayed(plays []usualPlay) (list []*sim.Drill) {
	for _, play := range plays {
		if play.err == nil {
			list = append(list, play.drill)
		}
	}
	return list
}

// tellAll tells remarks; tl is the evening that they are about, nil without one.
func tellAll(remarks []oddity.Remark, tl *sim.Timeline) (list []report.Finding) {
	for _, r := range remarks {
		if r.Kind == oddity.NeverReached {
			list = append(list, report.NeverReached(tl, r.Index))
			continue
		}
		list = append(list, report.FindingOf(r))
	}
	return list
}

// lookAtOrders looks at the scenario as it stands, played under every order.
func lookAtOrders(orders []string, plays []usualPlay, causes *causeLog) (found []report.Finding, err error) {
	told := map[string]bool{}
	for i, play := range plays {
		if play.err != nil {
			return found, play.err
		}
		if play.stuck != nil {
			play.timeline = reference.Play(play.drill, play.timeline.Luck)
		}
		causes.asIs = append(causes.asIs, asIs{play.drill, play.stuck, play.timeline.Stops})
		causes.takes(play.timeline.Stops, orderText(orders[i]))
		if play.stuck != nil {
			found = append(found, report.Stopped(play.timeline))
		}
		for _, f := range tellAll(oddity.Played(play.timeline), play.timeline) {
			if text := f.Says.Write(report.Full); !told[text] { // some are the same under every order
				told[text] = true
				found = append(found, f)
			}
		}
	}
	causes.dropOrders(len(orders))
	return found, nil
}

// lookAtWhatIf looks at a what if, played under every order. Orders under which
// it comes to a stop get a warning, for that is an answer to the question that
// it asks; when there is no other order its causes are those of the file.
func lookAtWhatIf(name string, orders []string, plays []usualPlay, causes *causeLog) (found []report.Finding, err error) {
	stops := make([][]sim.Cause, len(plays))
	for i, play := range plays {
		switch {
		case play.err != nil:
			return nil, play.err
		case play.stuck != nil:
			stops[i] = causes.of(i, play)
			first := stops[i][0]
			found = append(found, report.Finding{Kind: report.WorthALook, Hint: first.Hint,
				Says: report.Say("what if {}: {} can never finish: {}", fmt.Sprintf("%q", name), orderText(orders[i]), causeLine(first))})
		}
	}
	if len(found) < len(orders) {
		return found, nil
	}
	for i := range plays {
		causes.takes(stops[i], fmt.Sprintf("%s, what if %q", orderText(orders[i]), name))
	}
	return nil, nil
}

// countTasks counts the tasks of the file: unloading comes with the loads.
func countTasks(d *sim.Drill) int {
	n := 0
	for i := range d.Tasks {
		if !d.Tasks[i].Unloads() {
			n++
		}
	}
	return n
}

func orderText(order string) string {
	if order == "" {
		return "tasks in file order"
	}
	return fmt.Sprintf("order %q", order)
}

// aloneIn remarks under which order a lit stove is left alone longest in a what-if,
// for it says what else would have to change.
func aloneIn(whatIf string, orders []string, plays []usualPlay) []report.Finding {
	var longest inside.Left
	var under int
	for i, play := range plays {
		for _, l := range play.alone {
			if l.To-l.From > longest.To-longest.From {
				longest, under = l, i
			}
		}
	}
	if longest.To == 0 {
		return nil
	}
	return []report.Finding{report.AloneIn(whatIf, orderText(orders[under]), plays[under].drill, longest)}
}

// causeLog gathers why drills of one scenario can never finish, each cause
// once, with the orders and what ifs under which it was met.
type causeLog struct {
	causes []sim.Cause
	where  map[sim.Cause][]string
	base   int // how many causes the scenario as it stands has; -1 while that is not known
	asIs   []asIs
}

// asIs is what the scenario as it stands comes to a stop at under one order, by
// task and with the causes.
type asIs struct {
	drill *sim.Drill
	stuck []string
	stops []sim.Cause
}

// of returns why a what if comes to a stop under an order. Where the same tasks
// are stuck as without it, for want of the same things, the causes are the same
// too: asking the engine that knows takes long.
func (l *causeLog) of(order int, play usualPlay) []sim.Cause {
	if was := l.asIs[order]; slices.Equal(was.stuck, play.stuck) && slices.Equal(sim.Impossible(was.drill), sim.Impossible(play.drill)) {
		return was.stops
	}
	return playUsual(play.drill).Stops
}

// takes records what a drill comes to a stop at. What ifs add nothing to a
// cause that is there without them, and of the rest only the first: the others
// mostly follow from it.
func (l *causeLog) takes(list []sim.Cause, where string) {
	if l.base >= 0 && len(list) > 1 {
		list = list[:1]
	}
	for _, c := range list {
		at := slices.Index(l.causes, c)
		if at < 0 {
			l.causes = append(l.causes, c)
		}
		if at < 0 || l.base < 0 || at >= l.base {
			l.where[c] = append(l.where[c], where)
		}
	}
}

// dropOrders ends the scenario as it stands: what was met under all of its
// orders has nothing to do with any of them.
func (l *causeLog) dropOrders(orders int) {
	l.base = len(l.causes)
	for _, c := range l.causes {
		if len(l.where[c]) == orders {
			l.where[c] = nil
		}
	}
}

// never returns all causes, or nil when there is none.
func (l *causeLog) never() *sim.NeverError {
	if len(l.causes) == 0 {
		return nil
	}
	e := &sim.NeverError{}
	for _, c := range l.causes {
		where := l.where[c]
		if len(where) > 0 {
			c.Why += " (" + where[0]
			if len(where) > 1 {
				c.Why += fmt.Sprintf(" and %d more", len(where)-1)
			}
			c.Why += ")"
		}
		e.Causes = append(e.Causes, c)
	}
	return e
}
