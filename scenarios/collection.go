package scenarios

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v4"
)

// listShape is a list of values of one shape. A list of one may be written
// without brackets.
type listShape struct {
	of   shape
	most int
	none bool // whether it may be empty
}

func (s listShape) check(r *reader, n *yaml.Node) {
	switch {
	case n.Kind == yaml.ScalarNode && n.Tag == "!!null":
		r.failGot(n, "must be a list", "such as [a, b]; an empty list is []")
		return
	case n.Kind != yaml.SequenceNode:
		s.of.check(r, n)
		return
	case len(n.Content) == 0 && !s.none:
		r.fail(n, "must not be an empty list", "write one entry at least")
		return
	case len(n.Content) > s.most:
		r.fail(n, fmt.Sprintf("has too many entries: %d", len(n.Content)), fmt.Sprintf("at most %d", s.most))
		return
	}
	for _, c := range n.Content {
		if !r.bad[c] {
			s.of.check(r, c)
		}
	}
}
func (s listShape) words() string { return "list of: " + s.of.words() }

// namedShape is a mapping from names that the file chooses to values of one
// shape.
type namedShape struct {
	what string // what a name names: "task"
	of   shape
	most int
}

func (s namedShape) check(r *reader, n *yaml.Node) {
	if n.Kind != yaml.MappingNode {
		r.failGot(n, fmt.Sprintf("must be names of %ss, each with its keys", s.what), "such as \"name: {key: value}\"")
		return
	}
	if len(n.Content)/2 > s.most {
		r.fail(n, fmt.Sprintf("has too many %ss: %d", s.what, len(n.Content)/2), fmt.Sprintf("at most %d", s.most))
		return
	}
	r.pairs(n, func(k, v *yaml.Node) {
		if why := badName(k); why != "" {
			r.fail(k, fmt.Sprintf("the name of a %s %s, got %s", s.what, why, describe(k)), "a short name on one line, such as dig or hot drink")
			return
		}
		if !r.bad[v] {
			s.of.check(r, v)
		}
	})
}

// badName says what is wrong with a name, "" when nothing is.
func badName(k *yaml.Node) string {
	switch {
	case strings.TrimSpace(k.Value) == "":
		return "must not be empty"
	case strings.TrimSpace(k.Value) != k.Value:
		return "must not begin or end with a space"
	case len(k.Value) > maxName:
		return fmt.Sprintf("is longer than %d bytes", maxName)
	case strings.ContainsAny(k.Value, "\n\t"):
		return "must be one line without tabs"
	}
	return Fault(k.Value)
}
func (s namedShape) words() string { return "for each " + s.what + ": " + s.of.words() }

// object is a mapping with keys of its own.
type object struct {
	name string // as it is called in the schema and the manual
	say  string // what it describes
	keys []key
	// inline puts it in place in the schema, instead of under a name.
	inline bool
}

// key is one key of an object: the row of the declaration from which the
// reader, the schema and the key reference are made.
type key struct {
	name string
	is   shape
	need bool
	std  string // the default, in words
	say  string // what it means
}

func (o *object) check(r *reader, n *yaml.Node) {
	r.checkOnce(o, n, o.checkKeys)
}

func (o *object) checkKeys(r *reader, n *yaml.Node) {
	if n.Kind != yaml.MappingNode {
		r.failGot(n, "must be keys with values", "known keys: "+strings.Join(o.keyNames(), ", "))
		return
	}
	r.pairs(n, func(k, v *yaml.Node) {
		one := o.key(k.Value)
		switch {
		case one == nil:
			r.failNear(k, fmt.Sprintf("unknown key %s", quote(k.Value)), o.renamed(k.Value), k.Value, o.keyNames())
			r.bad[v] = true
		case r.bad[v]:
		default:
			one.check(r, v)
		}
	})
	for _, one := range o.keys {
		if one.need && !r.has(n, one.name) {
			r.list = append(r.list, Problem{Line: n.Line, Col: n.Column, Path: r.path(n), Source: r.doc.line(n.Line),
				Message: fmt.Sprintf("the key %q is missing", one.name), Hint: one.name + ": " + one.say})
		}
	}
}

// check checks the value of a key. Mistakes that have no hint of their own, and no
// name that is near, are told what the key means.
func (k *key) check(r *reader, v *yaml.Node) {
	before := len(r.list)
	k.is.check(r, v)
	for i := before; i < len(r.list); i++ {
		if p := &r.list[i]; p.Hint == "" && len(p.known) == 0 {
			p.Hint = k.name + ": " + k.say
		}
	}
}

func (o *object) key(name string) *key {
	for i := range o.keys {
		if o.keys[i].name == name {
			return &o.keys[i]
		}
	}
	return nil
}

func (o *object) keyNames() []string {
	names := make([]string, len(o.keys))
	for i, k := range o.keys {
		names[i] = k.name
	}
	return names
}
func (o *object) words() string { return "keys of " + o.name }

// formerNames maps keys that had another name once to the one they have now.
var formerNames = map[string]string{"details": "groups"}

// renamed returns a hint for a key that has another name now, "" for others.
func (o *object) renamed(key string) string {
	now := formerNames[key]
	if now == "" || o.key(now) == nil {
		return ""
	}
	return fmt.Sprintf("%q is called %q now; rename it", key, now)
}
