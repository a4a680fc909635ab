package scenarios

import (
	"fmt"
	"maps"
	"math/big"
	"strings"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
)

// reader turns a tree of values into a drill. First every value is checked
// against its shape (what the keys of keys.go declare); what is wrong is
// reported once and marked, so that the parts that build the drill pass over
// it in silence.
type reader struct {
	doc     *document
	parents map[*yaml.Node]place // nil until a path is asked for
	bad     map[*yaml.Node]bool
	values  map[*yaml.Node]*big.Rat         // of numbers and quantities
	laws    map[*yaml.Node]sim.Distribution // of what may be drawn
	checked map[*yaml.Node]shape            // in which nothing is wrong, with the shape that they have
	list    []Problem
}

// place is where a value hangs in the tree.
type place struct {
	parent *yaml.Node
	label  string
}

func newReader(doc *document) *reader {
	r := &reader{
		doc:     doc,
		bad:     map[*yaml.Node]bool{},
		values:  map[*yaml.Node]*big.Rat{},
		laws:    map[*yaml.Node]sim.Distribution{},
		checked: map[*yaml.Node]shape{},
	}
	if known := doc.known; known != nil {
		r.values, r.laws, r.checked = maps.Clone(known.values), maps.Clone(known.laws), maps.Clone(known.checked)
	}
	for n := range doc.refused {
		r.bad[n] = true
	}
	return r
}

// link notes where each value hangs.
func (r *reader) link(n *yaml.Node) {
	switch n.Kind {
	case yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			p := place{n, "." + label(n.Content[i].Value)}
			r.parents[n.Content[i]], r.parents[n.Content[i+1]] = p, p
			r.link(n.Content[i+1])
		}
	case yaml.SequenceNode:
		for i, c := range n.Content {
			r.parents[c] = place{n, fmt.Sprintf("[%d]", i+1)}
			r.link(c)
		}
	}
}

// label is a key as a path shows it: short, and without what steers a
// terminal.
func label(key string) string {
	return strings.Map(func(r rune) rune {
		if steers(r) {
			return ' '
		}
		return r
	}, clip(key, 60))
}

// path names a value by the keys that lead to it; list entries count from 1.
func (r *reader) path(n *yaml.Node) string {
	if r.parents == nil {
		r.parents = map[*yaml.Node]place{}
		r.link(r.doc.root)
	}
	var labels []string
	for p, ok := r.parents[n]; ok; p, ok = r.parents[p.parent] {
		labels = append(labels, p.label)
	}
	var b strings.Builder
	for i := len(labels) - 1; i >= 0; i-- {
		b.WriteString(labels[i])
	}
	return strings.TrimPrefix(b.String(), ".")
}

// fail reports a mistake at a value and marks the value.
func (r *reader) fail(n *yaml.Node, message, hint string) {
	r.failNear(n, message, hint, "", nil)
}

// failGot is fail with the text of the value in the message.
func (r *reader) failGot(n *yaml.Node, message, hint string) {
	r.fail(n, message+", got "+describe(n), hint)
}

func (r *reader) failNear(n *yaml.Node, message, hint, wrong string, known []string) {
	r.bad[n] = true
	r.list = append(r.list, Problem{
		Line: n.Line, Col: n.Column, Path: r.path(n), Message: message, Hint: hint,
		Source: r.doc.line(n.Line), wrong: wrong, known: known,
	})
}

// describe says what a value is, for a message.
func describe(n *yaml.Node) string {
	switch {
	case n.Kind == yaml.MappingNode:
		return "keys with values"
	case n.Kind == yaml.SequenceNode:
		return "a list"
	case n.Tag == "!!null" && n.Value == "":
		return "nothing"
	}
	return quote(n.Value)
}

// ok reports whether a value is there and nothing is wrong with it.
func (r *reader) ok(n *yaml.Node) bool { return n != nil && !r.wrong(n) }

// wrong reports whether something is wrong with a value or a key; mostly nothing
// is with any.
func (r *reader) wrong(n *yaml.Node) bool { return len(r.bad) > 0 && r.bad[n] }

// pairs calls f for each key that can be read, with its value.
func (r *reader) pairs(n *yaml.Node, f func(key, value *yaml.Node)) {
	if !r.ok(n) || n.Kind != yaml.MappingNode {
		return
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if k := n.Content[i]; !r.wrong(k) {
			f(k, n.Content[i+1])
		}
	}
}

// get returns the value of a key, nil when it is not there or is wrong.
func (r *reader) get(n *yaml.Node, key string) *yaml.Node {
	if !r.ok(n) || n.Kind != yaml.MappingNode {
		return nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if k, v := n.Content[i], n.Content[i+1]; k.Value == key && !r.wrong(k) && !r.wrong(v) {
			return v
		}
	}
	return nil
}

// has reports whether a key is there, right or wrong.
func (r *reader) has(n *yaml.Node, key string) bool { return keyOf(n, key) != nil }

// keyOf returns the node of a key itself.
func keyOf(n *yaml.Node, key string) *yaml.Node {
	if n == nil || n.Kind != yaml.MappingNode {
		return nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i]
		}
	}
	return nil
}

// each returns the entries of a list that can be read; a value that is no
// list is a list of one.
func (r *reader) each(n *yaml.Node) []*yaml.Node {
	if !r.ok(n) {
		return nil
	}
	if n.Kind != yaml.SequenceNode {
		return []*yaml.Node{n}
	}
	var good []*yaml.Node
	for _, c := range n.Content {
		if r.ok(c) {
			good = append(good, c)
		}
	}
	return good
}
