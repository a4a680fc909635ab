package scenarios

import (
	"strings"

	"go.yaml.in/yaml/v4"
)

// mention is a place of a file at which a name stands: where it is defined, or
// where something refers to it.
type mention struct {
	kind string // task, person, spot, stove, load, item, tool, shelter, lookout, milestone, order, group, ..
	node *yaml.Node
}

// mentions lists the places of all names of a file. The declarations of the keys
// say what is a name, and of what.
func (b *builder) mentions() []mention {
	m := &mentioning{builder: b}
	m.walk(fileKeys(), b.doc.root)
	return m.list
}

type mentioning struct {
	*builder
	list []mention
}

func (m *mentioning) add(kind string, n *yaml.Node) {
	if n.Kind != yaml.ScalarNode {
		return
	}
	switch kind {
	case "group, or all":
		if kind = "group"; n.Value == "all" {
			return
		}
	case "tool or stove":
		if kind = "tool"; m.stoves.has(n.Value) {
			kind = "stove"
		}
	}
	m.list = append(m.list, mention{kind, n})
}

// walk goes through a value and its shape side by side.
func (m *mentioning) walk(s shape, n *yaml.Node) {
	if n == nil {
		return
	}
	switch s := s.(type) {
	case nameShape:
		m.add(strings.TrimPrefix(strings.TrimPrefix(s.of, "an "), "a "), n)
	case namedShape:
		m.pairs(n, func(k, v *yaml.Node) {
			m.add(s.what, k)
			m.walk(s.of, v)
		})
	case listShape:
		for _, one := range listOf(n) {
			m.walk(s.of, one)
		}
	case anyOf:
		m.walk(map[yaml.Kind]shape{yaml.ScalarNode: s.scalar, yaml.SequenceNode: s.list, yaml.MappingNode: s.mapping}[n.Kind], n)
	case markShape:
		if n.Kind != yaml.ScalarNode || !isTime(m.reader, n) {
			m.walk(namesOf("a task", maxTasks), n)
		}
	case helpersShape:
		if _, why := plainNumber(n.Value); n.Kind != yaml.ScalarNode || why != "" {
			m.walk(namesOf("a person", maxPeople), n)
		}
	case *object:
		m.keys(s, n)
	}
}

// keys goes through the keys of an object. Those of people and items carry their
// names as a value; a what-if has the sections of the file.
func (m *mentioning) keys(o *object, n *yaml.Node) {
	m.pairs(n, func(k, v *yaml.Node) {
		is := o.key(k.Value)
		switch {
		case is == nil:
		case o == changeKeys && k.Value == "people":
			m.pairs(v, func(name, change *yaml.Node) {
				m.add("person", name)
				m.keys(&object{keys: hurtKeys}, change)
				m.keys(personKeys, change)
			})
		case o == changeKeys:
			m.walk(fileKeys().key(k.Value).is, v)
		case o.name == "person" && k.Value == "name", o.name == "item" && k.Value == "item":
			m.add(o.name, v)
		default:
			m.walk(is.is, v)
		}
	})
}
