package main

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"warmby/cmd/warmby/internal/ask"
	"warmby/sim"
	"warmby/sim/bound"
	"warmby/sim/inside"
)

// tryOut plays a scenario with usual values under every order, as it stands
// and with every what if, and returns what it finds and how many tasks there
// are. An error that is a *[sim.NeverError] says why an order cannot be
// played, or why a what if cannot be played under any order.
func (e *environment) tryOut(ctx context.Context, s *ask.Source) (found []finding, tasks int, err error) {
	orders := s.Scenario.Orders()
	if len(orders) == 0 {
		orders = []string{""}
	}
	causes := causeLog{where: map[sim.Cause][]string{}, base: -1}
	err = e.playCases(ctx, s, orders, func(at int, plays []usualPlay) error {
		var f []finding
		var err error
		if at == 0 {
			if d := plays[0].drill; d != nil {
				found, tasks = inspect(d), countTasks(d)
			}
			f, err = lookAtOrders(orders, plays, &causes)
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
	found = append(found, unnamed(s)...)
	if never := causes.never(); never != nil {
		return found, tasks, fmt.Errorf("%s: %w", s.Name, never)
	}
	return found, tasks, nil
}

// lookAtOrders looks at the scenario as it stands, played under every order.
func lookAtOrders(orders []string, plays []usualPlay, causes *causeLog) (found []finding, err error) {
	notes := map[string]bool{}
	for i, play := range plays {
		if !causes.takes(play.err, orderText(orders[i])) && play.err != nil {
			return found, play.err
		}
		if play.err != nil {
			continue
		}
		for _, f := range append(late(play.timeline), leftAlone(play)...) {
			if !notes[f.Message] { // a note is the same under every order
				found = append(found, f)
			}
			notes[f.Message] = f.Kind == note
		}
	}
	causes.dropOrders(len(orders))
	return found, nil
}

// lookAtWhatIf looks at a what if, played under every order. Orders under which
// it cannot be played get a warning, for that is an answer to the question that
// it asks; when there is no other order its causes are those of the file.
func lookAtWhatIf(name string, orders []string, plays []usualPlay, causes *causeLog) (found []finding, err error) {
	var nevers []*sim.NeverError
	for i, play := range plays {
		var never *sim.NeverError
		switch {
		case errors.As(play.err, &never):
			nevers = append(nevers, never)
			first := never.Causes[0]
			f := warnf("what if %q: %s can never finish: %s", name, orderText(orders[i]), causeLine(first))
			f.Hint = first.Hint
			found = append(found, f)
		case play.err != nil:
			return nil, play.err
		}
	}
	if len(nevers) < len(orders) {
		return found, nil
	}
	for i, never := range nevers {
		causes.takes(never, fmt.Sprintf("%s, what if %q", orderText(orders[i]), name))
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

// late finds the milestones of a drill played with usual values that are
// never reached, or too late, and says of the late ones when they could be
// met at the very best.
func late(tl *sim.Timeline) []finding {
	var found []finding
	var best []sim.Time
	d := tl.Drill
	for i, m := range d.Milestones {
		at := tl.Milestones[i]
		switch {
		case at == sim.Never:
			found = append(found, warnf("%s: milestone %q is never reached: %s", orderText(d.Order), m.Name, whyMilestone(tl, i)))
			continue
		case m.By == sim.Never && m.ByText != "":
			found = append(found, finding{Kind: note, Message: fmt.Sprintf("milestone %q is asked for by %s, which does not come", m.Name, m.ByText)})
			continue
		case m.By == sim.Never || at <= m.By:
			continue
		}
		f := warnf("%s: milestone %q comes after %s, %s later than asked for",
			orderText(d.Order), m.Name, sim.Clock(at), sim.Clock(at-m.By))
		if best == nil {
			best = bound.Soonest(d)
		}
		if least := best[i]; least > m.By {
			f.Message += fmt.Sprintf("; no order can make it come before %s", sim.Clock(least))
			f.Hint = "set a later target, or make what it waits for shorter"
		}
		found = append(found, f)
	}
	return found
}

// leftAlone finds the times in which a lit stove burns in a shelter with nobody
// there.
func leftAlone(play usualPlay) []finding {
	var found []finding
	d := play.drill
	for _, l := range play.alone {
		f := warnf("%s: %q burns in %q with nobody there for %s, from %s on (%q)", orderText(d.Order), d.Stoves[l.Stove].Name,
			d.Shelters[l.Shelter].Name, sim.Clock(l.To-l.From), sim.Clock(l.From), d.Tasks[l.Task].Name)
		f.Hint = "give it a lookout from its lighting on with \"unless somebody works there\", or put it out"
		found = append(found, f)
	}
	return found
}

// aloneIn remarks under which order a lit stove is left alone longest in a what-if,
// for it says what else would have to change.
func aloneIn(whatIf string, orders []string, plays []usualPlay) []finding {
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
	d := plays[under].drill
	return []finding{{Kind: note, Message: fmt.Sprintf("what if %q: %q burns in %q with nobody there for %s, from %s on (%s)", whatIf, d.Stoves[longest.Stove].Name,
		d.Shelters[longest.Shelter].Name, sim.Clock(longest.To-longest.From), sim.Clock(longest.From), orderText(orders[under]))}}
}

// causeLog gathers why drills of one scenario can never finish, each cause
// once, with the orders and what ifs under which it was met.
type causeLog struct {
	causes []sim.Cause
	where  map[sim.Cause][]string
	base   int // how many causes the scenario as it stands has; -1 while that is not known
}

// takes records the causes of a *sim.NeverError and reports whether err is
// one. What ifs add nothing to a cause that is there without them, and of the
// rest only the first: the others mostly follow from it.
func (l *causeLog) takes(err error, where string) bool {
	var never *sim.NeverError
	if !errors.As(err, &never) {
		return false
	}
	list := never.Causes
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
	return true
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
