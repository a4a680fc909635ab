package draft

import (
	"slices"
	"strings"
)

// order is an order as the template writes it: one sequence, or groups.
type order struct {
	Name, Sequence string
	Groups         []group
}

type group struct{ Name, People, Sequence string }

// orders plans the orders: every one names every task.
func (e *evening) orders() {
	begin, shelter, water := e.beginning(), e.shelterTasks(e.Tents...), e.waterTasks()
	e.Orders = []order{
		{Name: "shelter first", Sequence: sequence(8, begin, shelter, water, e.evenings())},
		{Name: "drink first", Sequence: sequence(8, begin, water, shelter, e.evenings())},
	}
	if e.answers.People >= 4 && e.answers.StovePeople >= 2 {
		e.Orders = append(e.Orders, e.twoGroups())
	}
	if e.Several && e.allHeated() && e.answers.StovePeople >= e.answers.Tents && e.answers.People >= 3*e.answers.Tents {
		e.Orders = append(e.Orders, e.byTents())
	}
}

// twoGroups sends a third of the people to the water, one of them able to light
// it; the leader pitches.
func (e *evening) twoGroups() order {
	wanted := max(2, e.answers.People/3)
	var tents, water []member
	for i, m := range e.Team {
		if i == 1 || i >= len(e.Team)-(wanted-1) {
			water = append(water, m)
		} else {
			tents = append(tents, m)
		}
	}
	shelter := append(e.beginning(), e.shelterTasks(e.Tents...)...)
	return order{Name: "two groups", Groups: []group{
		{"tents", names(tents), sequence(10, shelter, e.evenings())},
		{"water", names(water), sequence(10, []string{"jacket and a drink"}, e.waterTasks(), e.personal())},
	}}
}

// byTents gives each tent to those who sleep in it; those of the last melt first.
func (e *evening) byTents() order {
	o := order{Name: "a group to a tent"}
	for i, t := range e.Tents {
		lists := [][]string{{"jacket and a drink"}, e.shelterTasks(t), e.personal()}
		switch i {
		case 0:
			lists = [][]string{e.beginning(), e.shelterTasks(t), e.evenings()}
		case len(e.Tents) - 1:
			lists = [][]string{{"jacket and a drink"}, e.waterTasks(), e.shelterTasks(t), e.personal()}
		}
		o.Groups = append(o.Groups, group{t.Name, names(e.inTent(i)), sequence(10, lists...)})
	}
	return o
}

func (e *evening) beginning() []string {
	return []string{"jacket and a drink", "choose the place", "look at faces", "look at faces again"}
}

// shelterTasks leads from trodden snow to a warm tent.
func (e *evening) shelterTasks(tents ...*tent) (list []string) {
	for _, of := range []func(*tent) []string{
		func(t *tent) []string { return []string{t.Tramp, t.Set} },
		func(t *tent) []string { return []string{t.Pitch} },
		func(t *tent) []string {
			if !t.Heated {
				return nil
			}
			return []string{t.Vents, t.Light, t.WarmUp}
		},
	} {
		for _, t := range tents {
			list = append(list, of(t)...)
		}
	}
	return list
}

// waterTasks leads from the pit to the night bottles.
func (e *evening) waterTasks() []string {
	list := []string{"dig the kitchen", "gather snow", "light the burners"}
	list = append(list, tasksOf(e.Drinks)...)
	list = append(list, "serve a drink")
	list = append(list, tasksOf(e.Suppers)...)
	list = append(list, tasksOf(e.Bottles)...)
	return append(list, "put out the burners")
}

// personal is what everybody does for himself.
func (e *evening) personal() (list []string) {
	for _, t := range e.Tables {
		list = append(list, t.Eat, t.Socks, t.Bottle)
	}
	return list
}

// evenings is the rest: beds, supper, and what can wait.
func (e *evening) evenings() []string {
	list := e.each((*tent).bedsIfAny)
	list = append(list, "dig the latrine")
	list = append(list, e.personal()...)
	list = append(list, e.each(func(t *tent) string { return t.Bank })...)
	list = append(list, "mark the paths", "evening check")
	return append(list, e.heated(func(t *tent) string { return t.PutOut })...)
}

// sequence joins lists of tasks, over several lines.
func sequence(indent int, lists ...[]string) string {
	const width = 120
	var b strings.Builder
	at := 0
	for i, task := range slices.Concat(lists...) {
		if i > 0 {
			b.WriteString(",")
			if at+len(task) > width {
				b.WriteString("\n" + strings.Repeat(" ", indent-1))
				at = 0
			}
			b.WriteString(" ")
		}
		b.WriteString(task)
		at += len(task) + 2
	}
	return b.String()
}
