package main

import (
	"errors"
	"fmt"
	"slices"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/reference"
)

// tryOut plays a scenario with usual values under every order, as it stands
// and with every what if, and returns what it finds and how many tasks there
// are. An error that is a *[sim.NeverError] names all causes that any of the
// drills met.
func tryOut(s *source) (found []finding, tasks int, err error) {
	orders := s.scenario.Orders()
	if len(orders) == 0 {
		orders = []string{""}
	}
	causes := causeLog{where: map[sim.Cause][]string{}}
	for i, order := range orders {
		d, err := s.scenario.Drill(order)
		if err != nil {
			return found, tasks, err
		}
		if i == 0 {
			found, tasks = inspect(d), countTasks(d)
		}
		tl, err := playUsual(d)
		if !causes.takes(err, orderText(order)) && err != nil {
			return found, tasks, err
		}
		if tl != nil {
			found = append(found, late(tl)...)
		}
	}
	causes.dropOrders(len(orders))
	for _, name := range s.scenario.WhatIfs() {
		variant, err := s.scenario.WhatIf(name)
		if err != nil {
			return found, tasks, err
		}
		for _, order := range orders {
			d, err := variant.Drill(order)
			if err == nil {
				_, err = playUsual(d)
			}
			if !causes.takes(err, fmt.Sprintf("%s, what if %q", orderText(order), name)) && err != nil {
				return found, tasks, err
			}
		}
	}
	if never := causes.never(); never != nil {
		return found, tasks, fmt.Errorf("%s: %w", s.name, never)
	}
	return found, tasks, nil
}

func playUsual(d *sim.Drill) (*sim.Timeline, error) {
	return reference.Play(d, draw.Usual(d))
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

// quickChance is the chance with which each quantity of a drill at its
// quickest falls below what it is taken for.
const quickChance = 0.001

// quickest is the usual luck with every length and arrival so short that only
// one in a thousand is shorter.
func quickest(d *sim.Drill) *sim.Luck {
	luck := draw.Usual(d)
	quick := func(at []sim.Time, i int, law sim.Distribution) {
		if law != nil {
			at[i] = sim.Milliseconds(law.Quantile(quickChance))
		}
	}
	for i := range d.Tasks {
		quick(luck.Amount, i, d.Tasks[i].Amount)
	}
	for i := range d.People {
		quick(luck.Person, i, d.People[i].Arrives)
	}
	for i := range d.Loads {
		quick(luck.Load, i, d.Loads[i].Arrives)
	}
	return luck
}

// late finds the milestones of a drill played with usual values that are
// never reached, or too late, and says of the late ones whether they could be
// met at all.
func late(tl *sim.Timeline) []finding {
	var found []finding
	var fast *sim.Timeline // played when first asked for
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
		f := warnf("%s: milestone %q is late with usual values: after %s, asked for by %s",
			orderText(d.Order), m.Name, sim.Clock(at), sim.Clock(m.By))
		if fast == nil {
			fast, _ = reference.Play(d, quickest(d))
		}
		if fast != nil && !fast.Met(i) {
			f.Message += fmt.Sprintf("; even with everything at its quickest it takes %s", sim.Clock(fast.Milestones[i]))
			f.Hint = "no luck mends this: another order, more people or a later target"
		}
		found = append(found, f)
	}
	return found
}

// causeLog gathers why drills of one scenario can never finish, each cause
// once, with the orders and what ifs under which it was met.
type causeLog struct {
	causes []sim.Cause
	where  map[sim.Cause][]string
	base   int // how many causes the scenario as it stands has
}

// takes records the causes of a *sim.NeverError and reports whether err is
// one. What ifs add nothing to a cause that is there without them.
func (l *causeLog) takes(err error, where string) bool {
	var never *sim.NeverError
	if !errors.As(err, &never) {
		return false
	}
	for _, c := range never.Causes {
		at := slices.Index(l.causes, c)
		if at < 0 {
			l.causes = append(l.causes, c)
		}
		if at < 0 || at >= l.base {
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
