package scenarios

import (
	"fmt"
	"slices"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
)

// declare gives every name of the file its index, before anything refers to
// it. What is wrong is said here once; a name stays known even when what it
// names is wrong, so that one mistake is not reported twice.
func (b *builder) declare(root *yaml.Node) {
	b.spots, b.skills, b.people = namesFor("spot"), namesFor("skill"), namesFor("person")
	b.tools, b.loads, b.items = namesFor("tool"), namesFor("load"), namesFor("item")
	b.stoves, b.shelters, b.tasks = namesFor("stove"), namesFor("shelter"), namesFor("task")
	b.spots.add("") // the centre of camp
	b.names(b.spots, root, "spots")
	b.names(b.tools, root, "tools")
	b.names(b.stoves, root, "stoves")
	b.names(b.shelters, root, "shelters")
	b.names(b.loads, root, "loads")
	b.pairs(b.get(root, "tools"), func(k, _ *yaml.Node) {
		if b.stoves.has(k.Value) {
			b.fail(k, fmt.Sprintf("%s is a tool and a stove", quote(k.Value)), "rename one of them")
		}
	})
	b.declareItems(root)
	b.declarePeople(root)
	b.declareTasks(root)
}

func (b *builder) names(ns *names, root *yaml.Node, section string) {
	b.pairs(b.get(root, section), func(k, _ *yaml.Node) { ns.add(k.Value) })
}

// declareItems declares items, what they bring, and their unloadings.
func (b *builder) declareItems(root *yaml.Node) {
	b.pairs(b.get(root, "loads"), func(_, load *yaml.Node) {
		if !b.ok(load) {
			return
		}
		for _, item := range b.each(b.get(load, "pack")) {
			n := b.get(item, "item")
			if n == nil {
				continue
			}
			switch {
			case b.items.has(n.Value):
				b.fail(n, fmt.Sprintf("two items are called %s", quote(n.Value)), "give each item a name of its own")
				continue
			case b.loads.has(n.Value):
				b.fail(n, fmt.Sprintf("an item and a load are both called %s", quote(n.Value)), "rename one of them")
				continue
			}
			b.items.add(n.Value)
			b.tasks.add(unpackName(n.Value))
			b.pairs(b.get(item, "brings"), func(k, _ *yaml.Node) {
				if !b.stoves.has(k.Value) {
					b.tools.add(k.Value)
				}
			})
		}
	})
}

// unpackName is the name of the task that takes an item off its load.
func unpackName(item string) string { return "unpack " + item }

func (b *builder) declareTasks(root *yaml.Node) {
	b.pairs(b.get(root, "tasks"), func(k, _ *yaml.Node) {
		if b.tasks.has(k.Value) {
			b.fail(k, fmt.Sprintf("%s is the name of an unloading", quote(k.Value)), "unloading is a task already: rename this one")
			return
		}
		for _, load := range b.loads.list {
			if k.Value == unpackName(load) {
				b.fail(k, fmt.Sprintf("%s is the name for unloading a whole load", quote(k.Value)), "rename the task")
				return
			}
		}
		if k.Value == sim.FinishName {
			b.fail(k, "a task must not be called \"finish\"", "finish is the milestone when every task has ended")
			return
		}
		b.tasks.add(k.Value)
	})
	b.declareEach(root)
}

// declareEach puts the tasks that each person does for himself in the place of
// the one that the file has.
func (b *builder) declareEach(root *yaml.Node) {
	own := b.tasks.list[len(b.items.list):]
	b.tasks = namesFor("task")
	for _, item := range b.items.list {
		b.tasks.add(unpackName(item))
	}
	b.tasks.shown = slices.Concat(b.tasks.list, own)
	section := b.get(root, "tasks")
	for _, name := range own {
		v := b.get(section, name)
		if !b.yes(v, "each", false) {
			b.tasks.add(name)
			continue
		}
		b.parts[name] = []int{}
		for _, person := range b.eachOf(v) {
			part := partName(name, b.people.list[person])
			if slices.Contains(own, part) {
				b.fail(keyOf(section, part), fmt.Sprintf("%s is the part of a person of the task %s", quote(part), quote(name)), "rename this one")
				continue
			}
			b.parts[name] = append(b.parts[name], b.tasks.add(part))
		}
	}
	if n := len(b.tasks.list) - len(b.items.list); n > maxTasks && len(own) <= maxTasks {
		b.fail(section, fmt.Sprintf("has too many tasks: %d, of which each stands for one a person", n), fmt.Sprintf("at most %d", maxTasks))
	}
}

// maxTasks bounds the tasks of a file's own.
const maxTasks = 500

// partName is the name of one person's part of a task that each does.
func partName(task, person string) string { return task + ": " + person }

// eachOf returns who does a task that each person does for himself.
func (b *builder) eachOf(task *yaml.Node) []int {
	named := map[string]bool{}
	for _, n := range b.each(b.get(task, "who")) {
		named[n.Value] = true
	}
	var list []int
	for i, name := range b.people.list {
		if !b.unfit[name] && (b.absent(task, "who") || named[name]) {
			list = append(list, i)
		}
	}
	return list
}

func (b *builder) declarePeople(root *yaml.Node) {
	for _, p := range b.each(b.get(root, "people")) {
		n := b.get(p, "name")
		if n == nil {
			continue
		}
		if b.people.has(n.Value) {
			b.fail(n, fmt.Sprintf("two people are called %s", quote(n.Value)), "give each a name of their own")
			continue
		}
		b.people.add(n.Value)
		if b.yes(p, "casualty", false) {
			b.unfit[n.Value] = true
		}
	}
	for _, name := range b.doc.unfitNames() {
		b.unfit[name] = true
	}
}
