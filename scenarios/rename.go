package scenarios

import (
	"errors"
	"fmt"
	"slices"
	"sort"
	"strings"

	"go.yaml.in/yaml/v4"
)

// Renamable are the kinds of things that [Scenario.Rename] renames.
var Renamable = []string{"task", "person", "spot", "stove", "load", "item", "tool", "shelter", "lookout", "milestone", "order", "group"}

// Renamed says what was renamed.
type Renamed struct {
	Kind   string // one of [Renamable]
	Places int    // at how many places the name stood
}

// Rename returns the text of the scenario's file with a thing called otherwise
// everywhere in it, unloadings ("unpack ITEM") and the parts of a task that each
// does ("NAME: Person") included. All else stays as it is, comments and layout
// too, and so do sentences in which the name is spoken of. Kind may be "" where
// only one kind of thing has the name. The error says when there is no such
// thing, when there are several, and when the new name is taken.
func (s *Scenario) Rename(src []byte, kind, from, to string) ([]byte, Renamed, error) {
	all := s.b.mentions()
	kind, err := kindOf(all, kind, from)
	if err != nil {
		return nil, Renamed{}, err
	}
	if why := badName(&yaml.Node{Value: to}); why != "" {
		return nil, Renamed{}, fmt.Errorf("the name of a %s %s, got %s\n  hint: a short name on one line, such as dig or hot drink", kind, why, quote(to))
	}
	for _, m := range all {
		if m.kind == kind && m.node.Value == to {
			return nil, Renamed{}, fmt.Errorf("a %s is called %q already, in line %d\n  hint: choose another name", kind, to, m.node.Line)
		}
	}
	t := &rewriter{lines: strings.SplitAfter(string(src), "\n")}
	var places []stood
	for _, m := range all {
		name, changed := s.b.renamed(m, kind, from, to)
		if !changed {
			continue
		}
		p, ok := t.find(m.node)
		if !ok {
			return nil, Renamed{}, fmt.Errorf("line %d: the name is written in a way that cannot be replaced\n  hint: write it on one line, without escapes", m.node.Line)
		}
		p.edit.Value = name
		places = append(places, p)
	}
	sort.SliceStable(places, func(i, j int) bool {
		a, b := places[i], places[j]
		return a.line > b.line || a.line == b.line && a.from > b.from
	})
	for _, p := range places {
		t.rename(p)
	}
	out := t.text()
	if err := s.stillReads(out); err != nil {
		return nil, Renamed{}, err
	}
	return out, Renamed{kind, len(places)}, nil
}

// stillReads checks that a file with other names is the same drill.
func (s *Scenario) stillReads(out []byte) error {
	again, err := Read(s.doc.file, out)
	var wrong *Problems
	switch {
	case errors.As(err, &wrong) && len(wrong.List) > 0:
		return fmt.Errorf("with that name the file would be wrong: line %d: %s\n  hint: choose another name", wrong.List[0].Line, wrong.List[0].Message)
	case err != nil:
		return err
	case len(again.drill.Tasks) != len(s.drill.Tasks) || len(again.b.mentions()) != len(s.b.mentions()):
		return errors.New("with that name the file would mean something else\n  hint: choose another name")
	}
	return nil
}

// kindOf settles what a name is the name of.
func kindOf(all []mention, kind, name string) (string, error) {
	if kind != "" && !slices.Contains(Renamable, kind) {
		return "", fmt.Errorf("there are no names of the kind %q\n  hint: one of %s", kind, strings.Join(Renamable, ", "))
	}
	var kinds, known []string
	for _, m := range all {
		if !slices.Contains(Renamable, m.kind) || kind != "" && m.kind != kind {
			continue
		}
		if m.node.Value == name && !slices.Contains(kinds, m.kind) {
			kinds = append(kinds, m.kind)
		}
		if (m.kind == "item" || m.kind == "load") && name == unpackName(m.node.Value) {
			return "", fmt.Errorf("%q is the unloading of the %s\n  hint: rename the %[2]s: %[3]q", name, m.kind, m.node.Value)
		}
		if !slices.Contains(known, m.node.Value) {
			known = append(known, m.node.Value)
		}
	}
	called := "nothing"
	if kind != "" {
		called = "no " + kind
	}
	switch {
	case len(kinds) == 0:
		return "", errors.New(strings.TrimSpace(fmt.Sprintf("%s is called %q\n  hint: %s", called, name, nameHint(name, known))))
	case len(kinds) > 1:
		return "", fmt.Errorf("%q is the name of several things: %s\n  hint: say which: --kind %s", name, strings.Join(kinds, ", "), kinds[0])
	}
	return kinds[0], nil
}

// renamed returns what stands at a mention once a thing is called otherwise, and
// whether that is something else.
func (b *builder) renamed(m mention, kind, from, to string) (string, bool) {
	name := m.node.Value
	if m.kind == kind && name == from {
		return to, true
	}
	if m.kind != "task" {
		return "", false
	}
	switch kind {
	case "item", "load":
		if name == unpackName(from) {
			return unpackName(to), true
		}
	case "task":
		if person, ok := strings.CutPrefix(name, partName(from, "")); ok && b.parts[from] != nil {
			return partName(to, person), true
		}
	case "person":
		if task, ok := strings.CutSuffix(name, partName("", from)); ok && b.parts[task] != nil {
			return partName(task, to), true
		}
	}
	return "", false
}

// rename puts a name in place of another, in quotes where the old one was or the
// new one needs them.
func (t *rewriter) rename(p stood) {
	line := t.lines[p.line]
	name := word(p.edit.Value)
	switch {
	case line[p.from] == '"':
		name = quotedJSON(p.edit.Value)
	case line[p.from] == '\'':
		name = "'" + strings.ReplaceAll(p.edit.Value, "'", "''") + "'"
	}
	t.lines[p.line] = line[:p.from] + name + line[p.to:]
}
