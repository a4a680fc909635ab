package scenarios

import (
	"slices"

	"go.yaml.in/yaml/v4"
)

// CanWait returns the tasks marked "can wait: true", in file order.
func (s *Scenario) CanWait() []string {
	var list []string
	for _, t := range s.drill.Tasks {
		name := t.Name
		if t.Each != "" {
			name = t.Each
		}
		if t.CanWait && !slices.Contains(list, name) {
			list = append(list, name)
		}
	}
	return list
}

// Without returns the scenario without one of its tasks, read and checked
// anew. What came after the task comes after what the task itself came after;
// a milestone of which no task is left is gone; a lookout from it begins with what
// it came after, and one until it stands to the end. Unloadings cannot be left
// out. The error says which task is nearest to an unknown one.
func (s *Scenario) Without(task string) (*Scenario, error) {
	tasks := valueOf(s.doc.root, "tasks")
	gone := valueOf(tasks, task)
	if gone == nil {
		return nil, unknown(s.doc.file, "task", task, namesUnder(tasks, "task").list)
	}
	root := s.doc.root
	edit := func(section string, f func(*yaml.Node) *yaml.Node) {
		if n := valueOf(root, section); n != nil {
			root = with(root, keyOf(root, section), f(n))
		}
	}
	for _, name := range s.namesOf(task) {
		edit("tasks", func(n *yaml.Node) *yaml.Node {
			return mapValues(without(n, name), func(t *yaml.Node) *yaml.Node { return afterWithout(t, name, gone) })
		})
		edit("milestones", func(n *yaml.Node) *yaml.Node {
			return mapValues(n, func(m *yaml.Node) *yaml.Node { return listWithout(m, "when", name, true) })
		})
		edit("orders", func(n *yaml.Node) *yaml.Node {
			return mapValues(n, func(o *yaml.Node) *yaml.Node { return orderWithout(o, name) })
		})
		edit("lookouts", func(n *yaml.Node) *yaml.Node {
			return mapValues(n, func(l *yaml.Node) *yaml.Node { return lookoutWithout(l, name, gone) })
		})
	}
	doc := *s.doc
	doc.root = root
	b, list := build(&doc)
	if len(list) > 0 {
		p := &Problems{File: s.doc.file, List: list}
		p.finish()
		return nil, p
	}
	return b.scenario(), nil
}

// namesOf returns the names that stand for a task of the file: its own, and those
// of its parts where each person does it for himself.
func (s *Scenario) namesOf(task string) []string {
	names := []string{task}
	for _, person := range s.b.people.list {
		if s.b.parts[task] != nil {
			names = append(names, partName(task, person))
		}
	}
	return names
}

// afterWithout returns a task that comes no more after another, but after
// what that one came after.
func afterWithout(t *yaml.Node, task string, gone *yaml.Node) *yaml.Node {
	after := valueOf(t, "after")
	if after == nil {
		return t
	}
	var left []*yaml.Node
	there := map[string]bool{}
	for _, a := range listOf(after) {
		if name := afterName(a); name != task {
			left = append(left, a)
			there[name] = true
		}
	}
	if len(left) == len(listOf(after)) {
		return t
	}
	if before := valueOf(gone, "after"); before != nil {
		for _, a := range listOf(before) {
			if !there[afterName(a)] {
				left = append(left, a)
			}
		}
	}
	list := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Line: after.Line, Column: after.Column, Content: left}
	return with(t, keyOf(t, "after"), list)
}

// afterName is the task that an entry of after names.
func afterName(a *yaml.Node) string {
	if n := valueOf(a, "task"); n != nil {
		return n.Value
	}
	return a.Value
}

// listWithout returns a mapping whose list no longer names a task; nil when
// nothing is left of it and dropped is set.
func listWithout(n *yaml.Node, key, task string, dropped bool) *yaml.Node {
	list := valueOf(n, key)
	if list == nil || !slices.ContainsFunc(listOf(list), func(one *yaml.Node) bool { return one.Value == task }) {
		return n
	}
	left := withoutNames(list, map[string]bool{task: true})
	if dropped && len(left.Content) == 0 {
		return nil
	}
	return with(n, keyOf(n, key), left)
}

// lookoutWithout returns a lookout that begins and ends without a task.
func lookoutWithout(l *yaml.Node, task string, gone *yaml.Node) *yaml.Node {
	if until := valueOf(l, "until"); until != nil && named(until, task) {
		if l = listWithout(l, "until", task, false); len(valueOf(l, "until").Content) == 0 {
			l = without(l, "until")
		}
	}
	from := valueOf(l, "from")
	if from == nil || !named(from, task) {
		return l
	}
	left := withoutNames(from, map[string]bool{task: true})
	if before := valueOf(gone, "after"); before != nil {
		for _, a := range listOf(before) {
			name := a
			if n := valueOf(a, "task"); n != nil {
				name = n
			}
			if !named(left, name.Value) {
				left.Content = append(left.Content, name)
			}
		}
	}
	if len(left.Content) == 0 {
		return without(l, "from")
	}
	return with(l, keyOf(l, "from"), left)
}

// named reports whether a list, or the one value that stands for one, has a
// name.
func named(list *yaml.Node, name string) bool {
	return slices.ContainsFunc(listOf(list), func(n *yaml.Node) bool { return n.Value == name })
}

// orderWithout returns an order that no longer names a task.
func orderWithout(o *yaml.Node, task string) *yaml.Node {
	o = listWithout(o, "sequence", task, false)
	if crews := valueOf(o, "crews"); crews != nil {
		o = with(o, keyOf(o, "crews"), without(crews, task))
	}
	if groups := valueOf(o, "groups"); groups != nil {
		o = with(o, keyOf(o, "groups"), mapValues(groups, func(d *yaml.Node) *yaml.Node {
			return listWithout(d, "sequence", task, false)
		}))
	}
	return o
}
