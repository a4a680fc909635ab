package scenarios

import (
	"fmt"
	"math/big"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
)

// builder makes a drill of a checked tree: names become indices, everything
// refers to everything else.
type builder struct {
	*reader
	d      *sim.Drill
	orders []sim.Order

	spots, skills, people, tools, loads, items, stoves, shelters, tasks *names

	parts map[string][]int // of each task that everybody does for himself, those that stand for it
	unfit map[string]bool  // people who do none of them: casualties, those hurt, and who stays with them
}

// names are the names of one kind of thing, in file order.
type names struct {
	what  string // "task"
	list  []string
	index map[string]int
	shown []string // what hints list, where that is not the list
}

func namesFor(what string) *names { return &names{what: what, index: map[string]int{}} }

// add gives a name the next index; a name that is there already keeps its own.
func (ns *names) add(name string) int {
	if i, ok := ns.index[name]; ok {
		return i
	}
	ns.index[name] = len(ns.list)
	ns.list = append(ns.list, name)
	return len(ns.list) - 1
}

func (ns *names) has(name string) bool { _, ok := ns.index[name]; return ok }

// find looks up the name that a value or key gives; one that nothing defines
// is a mistake.
func (b *builder) find(ns *names, n *yaml.Node) (int, bool) {
	if !b.ok(n) {
		return 0, false
	}
	if i, ok := ns.index[n.Value]; ok {
		return i, true
	}
	b.failNear(n, fmt.Sprintf("no %s is called %s", ns.what, quote(n.Value)), ifNone(ns), n.Value, ns.known())
	return 0, false
}

// known lists the names for a hint; the centre of camp has none.
func (ns *names) known() []string {
	if ns.shown != nil {
		return ns.shown
	}
	if len(ns.list) > 0 && ns.list[0] == "" {
		return ns.list[1:]
	}
	return ns.list
}

func ifNone(ns *names) string {
	if len(ns.known()) == 0 {
		return fmt.Sprintf("the file defines no %s", ns.what)
	}
	return ""
}

// The values of keys. A key that is not there, or is wrong, has its default.

func (b *builder) value(n *yaml.Node, key string) *big.Rat {
	if v := b.get(n, key); v != nil {
		return b.values[v]
	}
	return nil
}

func (b *builder) float(n *yaml.Node, key string, otherwise float64) float64 {
	if v := b.value(n, key); v != nil {
		return float(v)
	}
	return otherwise
}

func (b *builder) whole(n *yaml.Node, key string, otherwise int) int {
	if v := b.value(n, key); v != nil && v.IsInt() {
		return int(v.Num().Int64())
	}
	return otherwise
}

func (b *builder) ms(n *yaml.Node, key string) sim.Time {
	if v := b.value(n, key); v != nil {
		return ms(v)
	}
	return 0
}

func (b *builder) text(n *yaml.Node, key string) string {
	if v := b.get(n, key); v != nil && v.Kind == yaml.ScalarNode {
		return v.Value
	}
	return ""
}

func (b *builder) yes(n *yaml.Node, key string, otherwise bool) bool {
	switch b.text(n, key) {
	case "true":
		return true
	case "false":
		return false
	}
	return otherwise
}

func (b *builder) law(n *yaml.Node, key string) sim.Distribution {
	if v := b.get(n, key); v != nil {
		return b.laws[v]
	}
	return nil
}

// missing reports that an object lacks a key that it needs for a reason.
func (b *builder) missing(n *yaml.Node, key, why, hint string) {
	b.list = append(b.list, Problem{Line: n.Line, Col: n.Column, Path: b.path(n), Source: b.doc.line(n.Line),
		Message: fmt.Sprintf("the key %q is missing%s", key, why), Hint: hint})
}

// absent reports whether a key stands nowhere in an object, not even wrong.
func (b *builder) absent(n *yaml.Node, key string) bool { return !b.has(n, key) }
