package scenarios

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"
)

// rowKeys are the keys of a weather row that a sweep sets in all rows at once.
var rowKeys = []string{"air", "wind", "humidity"}

// Vary returns the scenario with one key set for a sweep, read and checked
// anew. It is [Scenario.With], and beyond it takes
//
//   - "people" with a number: so many people, the first of the roster; if there
//     are too few, copies of the last one without skills, "Person 7" and so on.
//     Those left out are taken out of groups and lookouts as well.
//   - "weather.air", "weather.wind" and "weather.humidity": the value in all
//     rows, of all weather cases; "weather.CASE.air": in all rows of one.
func (s *Scenario) Vary(key, value string) (*Scenario, error) {
	root, err := s.varied(s.doc.root, key, value)
	if err != nil {
		return nil, err
	}
	return s.rebuilt(root, key)
}

// VaryAll is Vary with several keys, one after the other. A value of "" leaves
// its key as it is.
func (s *Scenario) VaryAll(keys, values []string) (*Scenario, error) {
	root, last := s.doc.root, ""
	var err error
	for i, key := range keys {
		if values[i] == "" {
			continue
		}
		if root, err = s.varied(root, key, values[i]); err != nil {
			return nil, err
		}
		last = key
	}
	if last == "" {
		return s, nil
	}
	all, err := s.rebuilt(root, last)
	if err == nil {
		return all, nil
	}
	// Which key is to blame shows when they are set one by one.
	for i, key := range keys {
		if values[i] == "" {
			continue
		}
		if s, err = s.Vary(key, values[i]); err != nil {
			return nil, err
		}
	}
	return s, nil
}

// varied returns a tree, that of the scenario or one made of it, with a key
// set. It is not checked.
func (s *Scenario) varied(root *yaml.Node, key, value string) (*yaml.Node, error) {
	if n, err := strconv.Atoi(strings.TrimSpace(value)); key == "people" && err == nil {
		return s.withPeople(root, n)
	}
	if path, ok := strings.CutPrefix(key, "weather."); ok && valueOf(root, "weather") != nil {
		return withWeather(root, key, path, value)
	}
	return replaced(root, key, value)
}

// withPeople returns a tree with n people.
func (s *Scenario) withPeople(root *yaml.Node, n int) (*yaml.Node, error) {
	if n < 1 || n > maxPeople {
		return nil, fmt.Errorf("people: there may be 1 to %d, got %d", maxPeople, n)
	}
	list := listOf(valueOf(root, "people"))
	for _, p := range list { // another key may have put anything there
		if valueOf(p, "name") == nil {
			return nil, errors.New("people: an entry has no name")
		}
	}
	if n >= len(list) {
		return with(root, keyOf(root, "people"), morePeople(list, n)), nil
	}
	change := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
	for _, p := range list[n:] {
		change.Content = append(change.Content, valueOf(p, "name"), &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: "absent"})
	}
	m := newMerger(s.b)
	root = m.mergePeople(root, change)
	if len(m.list) > 0 {
		return nil, fmt.Errorf("people: %s", m.list[0].Message)
	}
	return root, nil
}

// morePeople returns a roster of n people: the list, and copies of its last
// entry under names of their own, without skills, and well.
func morePeople(list []*yaml.Node, n int) *yaml.Node {
	roster := &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Line: list[0].Line, Column: list[0].Column}
	roster.Content = append(roster.Content, list...)
	taken := map[string]bool{}
	for _, p := range list {
		taken[valueOf(p, "name").Value] = true
	}
	last := without(without(list[len(list)-1], "skills"), "casualty")
	for number := len(list) + 1; len(roster.Content) < n; number++ {
		name := fmt.Sprintf("Person %d", number)
		if taken[name] {
			continue
		}
		old := valueOf(last, "name")
		roster.Content = append(roster.Content, with(last, keyOf(last, "name"),
			&yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: name, Line: old.Line, Column: old.Column}))
	}
	return roster
}

// withWeather returns a tree with a value in all weather rows, or in those of
// one case, or in what else a path under weather names.
func withWeather(root *yaml.Node, key, path, value string) (*yaml.Node, error) {
	weather := valueOf(root, "weather")
	cases := weather.Kind == yaml.MappingNode && !oneRow(weather)
	known, one := rowKeys, ""
	if cases {
		for i := 0; i+1 < len(weather.Content); i += 2 {
			name := weather.Content[i].Value
			known = append(known[:len(known):len(known)], name)
			if rest, ok := step(path, name); ok {
				one, path = name, rest
			}
		}
	}
	if !isRowKey(path) {
		if one == "" && !strings.HasPrefix(path, "[") {
			return nil, errors.New(strings.TrimSpace(fmt.Sprintf("%s: there is no %q\n  hint: %s", key, key, nameHint(path, known))))
		}
		return replaced(root, key, value)
	}
	v, err := parsedValue(key, value)
	if err != nil {
		return nil, err
	}
	changed := inRows(weather, path, v)
	if cases {
		changed = weather
		for i := 0; i+1 < len(weather.Content); i += 2 {
			name, c := weather.Content[i], weather.Content[i+1]
			if rows := valueOf(c, "rows"); rows != nil && (one == "" || one == name.Value) {
				changed = with(changed, name, with(c, keyOf(c, "rows"), inRows(rows, path, v)))
			}
		}
	}
	return with(root, keyOf(root, "weather"), changed), nil
}

func isRowKey(path string) bool {
	for _, k := range rowKeys {
		if k == path {
			return true
		}
	}
	return false
}

// inRows sets a key in every weather row.
func inRows(rows *yaml.Node, key string, value *yaml.Node) *yaml.Node {
	set := func(row *yaml.Node) *yaml.Node {
		return with(row, &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: key, Line: row.Line, Column: row.Column}, value)
	}
	if rows.Kind != yaml.SequenceNode {
		return set(rows)
	}
	c := *rows
	c.Content = nil
	for _, row := range rows.Content {
		c.Content = append(c.Content, set(row))
	}
	return &c
}
