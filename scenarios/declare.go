package scenarios

import (
	"fmt"

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
	b.declareTasks(root)
	b.declarePeople(root)
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
	}
}
