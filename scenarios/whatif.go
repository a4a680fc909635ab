package scenarios

import (
	"fmt"
	"maps"
	"math/big"
	"slices"

	"go.yaml.in/yaml/v4"
)

// WhatIfs returns the names of the changes that the file asks about, in file
// order; nil when there are none.
func (s *Scenario) WhatIfs() []string { return slices.Clone(s.whatIfs) }

// WhatIf returns the scenario with the changes of a name merged in, read and
// checked anew. The error says which name is nearest to an unknown one, or is
// a *[Problems].
func (s *Scenario) WhatIf(name string) (*Scenario, error) {
	change := s.b.get(s.b.get(s.doc.root, "what if"), name)
	if change == nil {
		return nil, unknown(s.doc.file, "what if", name, s.whatIfs)
	}
	b, list := s.b.changed(name, change)
	if len(list) > 0 {
		p := &Problems{File: s.doc.file, List: list}
		p.finish()
		return nil, p
	}
	return b.scenario(), nil
}

// checkWhatIfs returns what is wrong with the changes of a file, beyond what
// is wrong with the file without them.
func (b *builder) checkWhatIfs() []Problem {
	var list []Problem
	b.pairs(b.get(b.doc.root, "what if"), func(k, v *yaml.Node) {
		if b.ok(v) && v.Kind == yaml.MappingNode {
			_, more := b.changed(k.Value, v)
			list = append(list, more...)
		}
	})
	return list
}

// changed reads the scenario with a change merged in. What is wrong with the
// scenario as it is is not said again.
func (b *builder) changed(name string, change *yaml.Node) (*builder, []Problem) {
	m := newMerger(b)
	doc := *b.doc
	doc.root = m.merge(change)
	doc.hurt = append(slices.Clip(doc.hurt), m.hurt...)
	doc.gone = append(slices.Clip(doc.gone), m.gone...)
	doc.with = append(slices.Clip(doc.with), m.with...)
	if len(m.list) > 0 {
		return nil, m.list
	}
	after, list := build(&doc)
	type at struct {
		line, col int
		message   string
	}
	known := map[at]bool{}
	for _, p := range b.list {
		known[at{p.Line, p.Col, p.Message}] = true
	}
	list = slices.DeleteFunc(list, func(p Problem) bool { return known[at{p.Line, p.Col, p.Message}] })
	for i := range list {
		list[i].Path = fmt.Sprintf("what if.%s.%s", name, list[i].Path)
	}
	return after, list
}

// merger merges a change over a file. It shares the parts of the tree that
// stay and makes new mappings only on the way to what is different.
type merger struct {
	*builder
	hurt []*yaml.Node // keys of the lookouts made for people who are hurt
	gone []string     // people who are absent
	with []string     // people who stay with somebody hurt
}

// newMerger returns a merger that reports to itself, so that a scenario once
// read is never changed.
func newMerger(b *builder) *merger {
	r, own := *b.reader, *b
	r.bad, r.values, r.list = maps.Clone(b.bad), map[*yaml.Node]*big.Rat{}, nil
	own.reader = &r
	return &merger{builder: &own}
}

// merge returns the file's tree with a change in it and without its what-ifs.
func (m *merger) merge(change *yaml.Node) *yaml.Node {
	root := without(m.doc.root, "what if")
	m.pairs(change, func(k, v *yaml.Node) {
		var merged *yaml.Node
		old := m.get(root, k.Value)
		switch k.Value {
		case "people":
			root = m.mergePeople(root, v)
			return
		case "site":
			merged = over(old, v, k.Value)
		case "teamwork", "day":
			merged = v
		case "weather":
			merged = v
			if v.Kind == yaml.MappingNode && old != nil && old.Kind == yaml.MappingNode && !oneRow(v) && !oneRow(old) {
				merged = m.mergeNamed(old, v, namesUnder(old, "weather case"))
			}
		case "tools":
			merged = m.mergeNamed(old, v, m.tools)
		case "spots":
			merged = m.mergeNamed(old, v, m.spots)
		case "tasks":
			merged = m.mergeNamed(old, v, namesUnder(old, "task"))
		default:
			merged = m.mergeNamed(old, v, namesUnder(old, k.Value[:max(0, len(k.Value)-1)]))
		}
		root = with(root, k, merged)
	})
	return root
}

// namesUnder lists the keys of a mapping as names.
func namesUnder(n *yaml.Node, what string) *names {
	ns := namesFor(what)
	if n != nil && n.Kind == yaml.MappingNode {
		for i := 0; i+1 < len(n.Content); i += 2 {
			ns.add(n.Content[i].Value)
		}
	}
	return ns
}

// mergeNamed merges changes of things by name. A change adds nothing: a name
// that the file does not define is a mistake.
func (m *merger) mergeNamed(old, change *yaml.Node, known *names) *yaml.Node {
	if change.Kind != yaml.MappingNode {
		m.failGot(change, fmt.Sprintf("must be names of %ss with what is different", known.what), "such as {NAME: {KEY: VALUE}}")
		return old
	}
	merged := old
	if merged == nil {
		merged = &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Line: change.Line, Column: change.Column}
	}
	m.pairs(change, func(k, v *yaml.Node) {
		if _, ok := m.find(known, k); ok {
			merged = with(merged, k, over(valueOf(old, k.Value), v, ""))
		}
	})
	return merged
}

// over lays a change over an old value: mappings are merged key by key,
// everything else is replaced, and so is what may be drawn. The key of a task
// that says what kind of task it is replaces the one that was there.
func over(old, change *yaml.Node, key string) *yaml.Node {
	switch key {
	case "work", "takes", "minutes", "adds", "arrives":
		return change
	}
	if old == nil || old.Kind != yaml.MappingNode || change.Kind != yaml.MappingNode {
		return change
	}
	merged := old
	for i := 0; i+1 < len(change.Content); i += 2 {
		k, v := change.Content[i], change.Content[i+1]
		if slices.Contains(kinds, k.Value) && countKinds(old) == 1 {
			for _, other := range kinds {
				if other != k.Value {
					merged = without(merged, other)
				}
			}
		}
		merged = with(merged, k, over(valueOf(old, k.Value), v, k.Value))
	}
	return merged
}

// valueOf returns the value of a key, nil when it is not there.
func valueOf(n *yaml.Node, key string) *yaml.Node {
	if n == nil || n.Kind != yaml.MappingNode {
		return nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1]
		}
	}
	return nil
}

// with returns a mapping in which a key has a value, in place of its own or
// at the end.
func with(n, key, value *yaml.Node) *yaml.Node {
	if n == nil {
		n = &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Line: key.Line, Column: key.Column}
	}
	c := *n
	c.Content = slices.Clone(n.Content)
	for i := 0; i+1 < len(c.Content); i += 2 {
		if c.Content[i].Value == key.Value {
			c.Content[i+1] = value
			return &c
		}
	}
	c.Content = append(c.Content, key, value)
	return &c
}

// without returns a mapping without a key.
func without(n *yaml.Node, key string) *yaml.Node {
	if keyOf(n, key) == nil {
		return n
	}
	c := *n
	c.Content = nil
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value != key {
			c.Content = append(c.Content, n.Content[i], n.Content[i+1])
		}
	}
	return &c
}
