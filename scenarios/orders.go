package scenarios

import (
	"fmt"
	"sort"
	"strings"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
)

func (b *builder) readOrders(n *yaml.Node) {
	b.pairs(n, func(k, v *yaml.Node) {
		if !b.ok(v) {
			return
		}
		o := sim.Order{Name: k.Value}
		inTurn := b.text(v, "rule") == "in turn"
		unloading := b.unloadings(v)
		switch {
		case b.has(v, "sequence") && b.has(v, "groups"):
			b.fail(keyOf(v, "groups"), "an order has a sequence or groups, not both", "put the sequence into a group")
		case b.get(v, "groups") != nil:
			o.Groups = b.readGroups(b.get(v, "groups"), inTurn, unloading)
		default:
			o.Groups = []sim.Group{{Name: sim.Everyone, Sequence: b.sequence(b.get(v, "sequence"), unloading, nil), InTurn: inTurn}}
		}
		b.pairs(b.get(v, "crews"), func(task, crew *yaml.Node) { b.readCrewChoice(&o, task, crew) })
		b.orders = append(b.orders, o)
	})
}

func (b *builder) readGroups(n *yaml.Node, inTurn bool, unloading map[string]string) []sim.Group {
	if len(n.Content) == 0 {
		b.fail(n, "must not be empty", "an order has one group at least")
		return nil
	}
	groups := namesFor("group")
	b.pairs(n, func(k, _ *yaml.Node) {
		if k.Value == "all" {
			b.fail(k, "a group must not be called \"all\"", "\"then: all\" means all groups in turn")
			return
		}
		groups.add(k.Value)
	})
	belongs := map[int]string{}
	var list []sim.Group
	b.pairs(n, func(k, v *yaml.Node) {
		d := sim.Group{Name: k.Value, InTurn: inTurn}
		if rule := b.text(v, "rule"); rule != "" {
			d.InTurn = rule == "in turn"
		}
		for _, p := range b.each(b.get(v, "people")) {
			i, ok := b.find(b.people, p)
			if !ok {
				continue
			}
			if other, there := belongs[i]; there {
				b.failGot(p, fmt.Sprintf("belongs to the group %s already", quote(other)), "nobody belongs to two groups; \"then\" lends people")
				continue
			}
			belongs[i] = k.Value
			d.People = append(d.People, i)
		}
		sort.Ints(d.People)
		list = append(list, d)
	})
	k := 0
	b.pairs(n, func(_, v *yaml.Node) {
		d := &list[k]
		own := func(person int) bool { return belongs[person] == d.Name || k == 0 && belongs[person] == "" }
		d.Sequence = b.sequence(b.get(v, "sequence"), unloading, own)
		d.Then = b.then(b.get(v, "then"), groups, d.Name)
		k++
	})
	return list
}

// then returns the groups to which one lends its people.
func (b *builder) then(n *yaml.Node, groups *names, self string) []int {
	switch {
	case n == nil:
		return nil
	case n.Value == "all":
		var all []int
		for i, name := range groups.list {
			if name != self {
				all = append(all, i)
			}
		}
		return all
	case n.Value == self:
		b.failGot(n, "a group cannot lend its people to itself", "name another group, \"all\" for all others, or leave it out")
		return nil
	}
	if i, ok := b.find(groups, n); ok {
		return []int{i}
	}
	return nil
}

// sequence returns the tasks of a sequence, whole loads opened up. A task that
// each person does for himself stands for those of the group's own people; nil
// for everybody.
func (b *builder) sequence(n *yaml.Node, unloading map[string]string, own func(person int) bool) []int {
	var seq []int
	seen, whole := map[int]bool{}, map[string]bool{}
	for _, one := range b.each(n) {
		if load, ok := b.wholeLoad(one.Value); ok {
			items := b.itemsOf(load)
			if len(items) > 0 && seen[items[0]] {
				b.failGot(one, "stands twice in the sequence", "name it once")
				continue
			}
			for _, t := range items {
				seen[t] = true
			}
			seq = append(seq, items...)
			continue
		}
		if parts, ok := b.parts[one.Value]; ok {
			if whole[one.Value] {
				b.failGot(one, "stands twice in the sequence", "name it once")
			}
			whole[one.Value] = true
			for _, i := range parts {
				if !seen[i] && (own == nil || own(b.d.Tasks[i].Who[0])) {
					seen[i] = true
					seq = append(seq, i)
				}
			}
			continue
		}
		if b.partOfUnfit(one.Value) {
			continue
		}
		i, ok := b.find(b.tasks, one)
		switch {
		case !ok:
		case unloading[one.Value] != "":
			b.failGot(one, fmt.Sprintf("is part of %s, which the order names too", quote(unpackName(unloading[one.Value]))),
				"name the whole load or its items, not both")
		case seen[i]:
			b.failGot(one, "stands twice in the sequence", "name it once")
		default:
			seen[i] = true
			seq = append(seq, i)
		}
	}
	return seq
}

// wholeLoad reports whether "unpack LOAD" is meant, and which load.
func (b *builder) wholeLoad(name string) (string, bool) {
	load, ok := strings.CutPrefix(name, "unpack ")
	return load, ok && b.loads.has(load) && !b.tasks.has(name)
}

// itemsOf returns the unloadings of a load, top first.
func (b *builder) itemsOf(load string) []int {
	var list []int
	for i := range b.d.Items {
		if b.d.Items[i].Name != "" && b.d.Items[i].Load == b.loads.index[load] {
			list = append(list, i)
		}
	}
	return list
}

// unloadings returns, for an order, the name of each unloading that a whole
// load named in it covers, with that load.
func (b *builder) unloadings(order *yaml.Node) map[string]string {
	covered := map[string]string{}
	note := func(seq *yaml.Node) {
		for _, one := range b.each(seq) {
			if load, ok := b.wholeLoad(one.Value); ok {
				for _, t := range b.itemsOf(load) {
					covered[b.tasks.list[t]] = load
				}
			}
		}
	}
	note(b.get(order, "sequence"))
	b.pairs(b.get(order, "groups"), func(_, v *yaml.Node) { note(b.get(v, "sequence")) })
	return covered
}

// readCrewChoice reads how an order narrows the crew of a task.
func (b *builder) readCrewChoice(o *sim.Order, task, crew *yaml.Node) {
	if b.ok(task) && (b.parts[task.Value] != nil || b.partOfUnfit(task.Value)) {
		b.failGot(task, "each person does this for himself: it has no crew to narrow", "leave it out")
		return
	}
	i, ok := b.findTask(task)
	if !ok || !b.ok(crew) {
		return
	}
	own, t := b.d.Tasks[i].Crew, &b.d.Tasks[i]
	c, _ := parseCrew(crew.Value)
	switch {
	case t.Everybody:
		b.failGot(crew, "the crew of the task is everybody: an order cannot narrow it", "leave it out, or give the task a range of people")
	case c.Min < own.Min || c.Max > own.Max:
		b.failGot(crew, fmt.Sprintf("must lie within the task's own crew of %s", crewText(own)), "an order may narrow a crew, not widen it")
	case c.Max < t.RoleCount():
		b.failGot(crew, fmt.Sprintf("is smaller than the %d people whose skills the task asks for", t.RoleCount()), fmt.Sprintf("such as %d, or leave it out", t.RoleCount()))
	default:
		o.Crews = append(o.Crews, sim.CrewChoice{Task: i, Crew: c})
	}
}

func crewText(c sim.Crew) string {
	if c.Min == c.Max {
		return fmt.Sprint(c.Min)
	}
	return fmt.Sprintf("%d-%d", c.Min, c.Max)
}
