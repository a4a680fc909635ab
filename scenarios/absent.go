package scenarios

import (
	"fmt"
	"slices"

	"go.yaml.in/yaml/v4"
)

// hurtKeys declares what a change may say about somebody who gets hurt,
// beside the keys of a person.
var hurtKeys = []key{
	{"hurt", lagTime, false, "not hurt", "from then on the person is out"},
	{"helpers", helpersShape{}, false, "1", "how many of the others stay with a person who is hurt, those with the fewest skills; or who"},
	{"spot", nameOf("a spot"), false, "the centre of camp", "where a person who is hurt lies, with the helpers"},
}

// withoutHurt leaves the values of a person.
func withoutHurt(v *yaml.Node) *yaml.Node {
	for _, k := range hurtKeys {
		v = without(v, k.name)
	}
	return v
}

// mergePeople merges changes of people, by name: absent, hurt, or other
// values.
func (m *merger) mergePeople(root, change *yaml.Node) *yaml.Node {
	if change.Kind != yaml.MappingNode {
		m.failGot(change, "must be names of people with what is different", "such as {Berend: absent}")
		return root
	}
	gone, hurt := map[string]bool{}, []*yaml.Node{}
	people := m.get(root, "people")
	m.pairs(change, func(k, v *yaml.Node) {
		if _, ok := m.find(m.people, k); !ok {
			return
		}
		switch {
		case v.Kind == yaml.ScalarNode && v.Value == "absent":
			gone[k.Value] = true
			people = m.eachPerson(people, func(name string, _ *yaml.Node) (*yaml.Node, bool) { return nil, name != k.Value })
		case v.Kind == yaml.MappingNode:
			if keyOf(v, "hurt") != nil {
				hurt = append(hurt, k, v)
			} else if h := keyOf(v, "helpers"); h != nil {
				m.fail(h, "helpers stay with somebody who is hurt", "add \"hurt: 20 min\"")
			} else if s := keyOf(v, "spot"); s != nil {
				m.fail(s, "a spot is where somebody who is hurt lies", "add \"hurt: 20 min\"")
			}
			values := withoutHurt(v)
			people = m.eachPerson(people, func(name string, p *yaml.Node) (*yaml.Node, bool) {
				if name == k.Value {
					return over(p, values, ""), true
				}
				return nil, true
			})
		default:
			m.failGot(v, "must be absent, {hurt: time, helpers: number or names, spot: name}, or values of a person", "such as \"Berend: absent\" or \"Berend: {pace: 0.7}\"")
		}
	})
	if len(gone) > 0 && people != nil && len(people.Content) == 0 {
		m.fail(change, "nobody is left", "leave one at least who is not absent")
		return root
	}
	if people != nil {
		root = with(root, keyOf(root, "people"), people)
	}
	for _, name := range m.people.list {
		if gone[name] {
			m.gone = append(m.gone, name)
		}
	}
	root = m.forget(root, gone)
	for i := 0; i+1 < len(hurt); i += 2 {
		root = m.lieHurt(root, hurt[i], hurt[i+1], gone, hurt)
	}
	return root
}

// eachPerson maps the list of people; f returns a person's new values, nil to
// keep them, and whether the person stays.
func (m *merger) eachPerson(people *yaml.Node, f func(name string, p *yaml.Node) (*yaml.Node, bool)) *yaml.Node {
	if people == nil {
		return nil
	}
	list := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Line: people.Line, Column: people.Column}
	for _, p := range listOf(people) {
		name := ""
		if n := valueOf(p, "name"); n != nil {
			name = n.Value
		}
		changed, stays := f(name, p)
		switch {
		case !stays:
		case changed != nil:
			list.Content = append(list.Content, changed)
		default:
			list.Content = append(list.Content, p)
		}
	}
	return list
}

// listOf returns the entries of a list, or the one value that stands for one.
func listOf(n *yaml.Node) []*yaml.Node {
	if n.Kind == yaml.SequenceNode {
		return n.Content
	}
	return []*yaml.Node{n}
}

// forget takes those who are absent out of groups, lookouts and the who of
// tasks; a lookout of whom nobody is left is not stood.
func (m *merger) forget(root *yaml.Node, gone map[string]bool) *yaml.Node {
	if len(gone) == 0 {
		return root
	}
	if lookouts := m.get(root, "lookouts"); lookouts != nil {
		root = with(root, keyOf(root, "lookouts"), mapValues(lookouts, func(l *yaml.Node) *yaml.Node {
			who := valueOf(l, "who")
			if who == nil {
				return l
			}
			left := withoutNames(who, gone)
			if len(left.Content) == 0 {
				return nil
			}
			return with(l, keyOf(l, "who"), left)
		}))
	}
	if tasks := m.get(root, "tasks"); tasks != nil {
		root = with(root, keyOf(root, "tasks"), mapValues(tasks, func(t *yaml.Node) *yaml.Node {
			if who := valueOf(t, "who"); who != nil {
				return with(t, keyOf(t, "who"), withoutNames(who, gone))
			}
			return t
		}))
	}
	if orders := m.get(root, "orders"); orders != nil {
		root = with(root, keyOf(root, "orders"), mapValues(orders, func(o *yaml.Node) *yaml.Node {
			groups := valueOf(o, "groups")
			if groups == nil {
				return o
			}
			return with(o, keyOf(o, "groups"), mapValues(groups, func(d *yaml.Node) *yaml.Node {
				if people := valueOf(d, "people"); people != nil {
					return with(d, keyOf(d, "people"), withoutNames(people, gone))
				}
				return d
			}))
		}))
	}
	return root
}

// mapValues returns a mapping with other values; a key whose value becomes nil
// is dropped.
func mapValues(n *yaml.Node, f func(*yaml.Node) *yaml.Node) *yaml.Node {
	if n.Kind != yaml.MappingNode {
		return n
	}
	c := *n
	c.Content = nil
	for i := 0; i+1 < len(n.Content); i += 2 {
		if v := f(n.Content[i+1]); v != nil {
			c.Content = append(c.Content, n.Content[i], v)
		}
	}
	return &c
}

func withoutNames(list *yaml.Node, gone map[string]bool) *yaml.Node {
	left := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Line: list.Line, Column: list.Column}
	for _, n := range listOf(list) {
		if !gone[n.Value] {
			left.Content = append(left.Content, n)
		}
	}
	return left
}

// lieHurt lets somebody be out from a moment on: two lookouts without
// relief at one spot, one of the person alone, which comes before all else, and
// one of those who stay there, after the file's lookouts.
func (m *merger) lieHurt(root, name, v *yaml.Node, gone map[string]bool, hurt []*yaml.Node) *yaml.Node {
	from, helpers, spot := valueOf(v, "hurt"), valueOf(v, "helpers"), valueOf(v, "spot")
	lagTime.check(m.reader, from)
	if helpers != nil {
		hurtKeys[1].check(m.reader, helpers)
	}
	if spot != nil {
		hurtKeys[2].check(m.reader, spot)
		if m.ok(spot) {
			m.find(m.spots, spot)
		}
	}
	for _, n := range []*yaml.Node{from, helpers, spot} {
		if n != nil && !m.ok(n) {
			return root
		}
	}
	d := standing{name, from, spot}
	key := d.word(hurtName + name.Value)
	m.hurt = append(m.hurt, key)
	root = m.stand(root, key, d.of([]string{name.Value}, "resting"))
	if who := m.helpers(name, helpers, gone, hurt); len(who) > 0 {
		root = m.stand(root, d.word("with "+name.Value), d.of(who, "low"))
		m.with = append(m.with, who...)
	}
	return root
}

// helpers returns who stays with somebody who is hurt: those named, or so many
// of the others, those with the fewest skills first.
func (m *merger) helpers(name, helpers *yaml.Node, gone map[string]bool, hurt []*yaml.Node) []string {
	out := func(p string) string {
		i, known := m.people.index[p]
		switch {
		case gone[p]:
			return "is absent"
		case known && m.d.People[i].Casualty:
			return "is a casualty"
		}
		for i := 0; i < len(hurt); i += 2 {
			if hurt[i].Value == p {
				return "is hurt too"
			}
		}
		return ""
	}
	n := 1
	switch {
	case helpers == nil:
	case m.values[helpers] != nil:
		n = m.number(helpers)
	default:
		var who []string
		for _, one := range listOf(helpers) {
			if _, ok := m.find(m.people, one); !ok {
				continue
			}
			if why := out(one.Value); why != "" {
				m.failGot(one, "a helper who "+why, "name somebody else")
				continue
			}
			who = append(who, one.Value)
		}
		return who
	}
	others := slices.DeleteFunc(slices.Clone(m.people.list), func(p string) bool { return out(p) != "" })
	if n > len(others) {
		at := name
		if helpers != nil {
			at = helpers
		}
		m.fail(at, fmt.Sprintf("%d helpers, and %d others are left", n, len(others)), fmt.Sprintf("ask for %d or fewer, or name them", len(others)))
		return nil
	}
	skills := func(p string) int { return m.d.People[m.people.index[p]].Skills.Count() }
	slices.SortStableFunc(others, func(a, b string) int { return skills(a) - skills(b) })
	return others[:n]
}

// standing makes lookouts without relief of people who are out, or stay with them,
// from a moment on.
type standing struct{ name, from, spot *yaml.Node }

// word returns a text that stands where the name of who is hurt does.
func (d standing) word(s string) *yaml.Node { return d.scalar(s, "!!str") }

func (d standing) scalar(s, tag string) *yaml.Node {
	return &yaml.Node{Kind: yaml.ScalarNode, Tag: tag, Value: s, Line: d.name.Line, Column: d.name.Column}
}

// of returns the lookout of some people, as in a file.
func (d standing) of(who []string, effort string) *yaml.Node {
	list := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Line: d.name.Line, Column: d.name.Column}
	for _, w := range who {
		list.Content = append(list.Content, d.word(w))
	}
	l := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Line: d.name.Line, Column: d.name.Column, Content: []*yaml.Node{
		d.word("people"), d.scalar(fmt.Sprint(len(who)), "!!int"), d.word("from"), d.from,
		d.word("who"), list, d.word("if nobody is free"), d.word("pull"),
		d.word("effort"), d.word(effort),
	}}
	if d.spot != nil {
		l.Content = append(l.Content, d.word("spot"), d.spot)
	}
	return l
}

// stand adds a lookout to a tree.
func (m *merger) stand(root, called, l *yaml.Node) *yaml.Node {
	lookouts := m.get(root, "lookouts")
	if keyOf(lookouts, called.Value) != nil {
		m.fail(called, fmt.Sprintf("a lookout is called %s already", quote(called.Value)), "rename the lookout")
		return root
	}
	section := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: "lookouts", Line: called.Line, Column: called.Column}
	return with(root, section, with(lookouts, called, l))
}
