package scenarios

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"
)

// With returns the scenario with one value replaced, read and checked anew.
// Key is a path as messages name it: keys, names and list entries counted
// from 1, such as "people[2].pace", "weather[1].wind" or
// "site.arrival"; people may be named as well: "people.Aila.pace". Value is
// written as in a file. A key that the file leaves at its default may be
// given; a name that it does not define may not.
func (s *Scenario) With(key, value string) (*Scenario, error) {
	root, err := replaced(s.doc.root, key, value)
	if err != nil {
		return nil, err
	}
	return s.rebuilt(root, key)
}

// replaced returns a tree with one value replaced, not checked.
func replaced(root *yaml.Node, key, value string) (*yaml.Node, error) {
	v, err := parsedValue(key, value)
	if err != nil {
		return nil, err
	}
	changed, err := set(root, key, "", v)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", key, err)
	}
	return changed, nil
}

func parsedValue(key, value string) (*yaml.Node, error) {
	parsed := parse(key, []byte(value))
	if parsed.root == nil || len(parsed.list) > 0 {
		return nil, fmt.Errorf("%s: cannot read the value %q", key, clip(value, 60))
	}
	return parsed.root, nil
}

// rebuilt returns the scenario with another tree, read and checked anew; the
// error says what is wrong with the key that made it another.
func (s *Scenario) rebuilt(root *yaml.Node, key string) (*Scenario, error) {
	doc := *s.doc
	doc.root = root
	b, list := build(&doc)
	if len(list) > 0 {
		p := Problems{File: key, List: list}
		p.finish()
		one := p.List[0]
		text := one.Message
		if one.Path != key && one.Path != "" {
			text = one.Path + ": " + text
		}
		if one.Hint != "" {
			text += "\n  hint: " + one.Hint
		}
		return nil, fmt.Errorf("%s: %s", key, text)
	}
	return b.scenario(), nil
}

// set returns a tree with a value in the place that a path names, below the
// place that done names.
func set(n *yaml.Node, path, done string, value *yaml.Node) (*yaml.Node, error) {
	if path == "" {
		return value, nil
	}
	switch n.Kind {
	case yaml.MappingNode:
		return setKey(n, path, done, value)
	case yaml.SequenceNode:
		return setEntry(n, path, done, value)
	}
	return nil, fmt.Errorf("%q has no keys", done)
}

// setKey follows the longest key of a mapping with which a path begins.
func setKey(n *yaml.Node, path, done string, value *yaml.Node) (*yaml.Node, error) {
	key, rest, known := "", "", []string{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k := n.Content[i].Value
		known = append(known, k)
		if after, ok := step(path, k); ok && len(k) > len(key) {
			key, rest = k, after
		}
	}
	if key != "" {
		v, err := set(valueOf(n, key), rest, join(done, key), value)
		if err != nil {
			return nil, err
		}
		return with(n, keyOf(n, key), v), nil
	}
	if mayAdd(done) && !strings.ContainsAny(path, ".[") {
		return with(n, &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: path, Line: n.Line, Column: n.Column}, value), nil
	}
	name, _, _ := strings.Cut(path, ".")
	return nil, errors.New(strings.TrimSpace(fmt.Sprintf("there is no %q\n  hint: %s", join(done, name), nameHint(name, known))))
}

// mayAdd reports whether what lies at a path has keys of its own, rather than
// names that the file chooses.
func mayAdd(done string) bool {
	switch {
	case done == "", strings.HasPrefix(done, "site"), strings.ContainsAny(done, "["):
		return true
	}
	return strings.Contains(done, ".")
}

// setEntry follows an entry of a list: [2], or the name of a person.
func setEntry(n *yaml.Node, path, done string, value *yaml.Node) (*yaml.Node, error) {
	at, rest := -1, ""
	if number, after, ok := strings.Cut(strings.TrimPrefix(path, "["), "]"); ok && strings.HasPrefix(path, "[") {
		if i, err := strconv.Atoi(number); err == nil && i >= 1 && i <= len(n.Content) {
			at, rest = i-1, strings.TrimPrefix(after, ".")
		}
	} else {
		for i, c := range n.Content {
			if name := valueOf(c, "name"); name != nil {
				if after, ok := step(path, name.Value); ok {
					at, rest = i, after
				}
			}
		}
	}
	if at < 0 {
		return nil, fmt.Errorf("%q has no entry %q; entries count from [1] to [%d]", done, path, len(n.Content))
	}
	v, err := set(n.Content[at], rest, fmt.Sprintf("%s[%d]", done, at+1), value)
	if err != nil {
		return nil, err
	}
	c := *n
	c.Content = slices.Clone(n.Content)
	c.Content[at] = v
	return &c, nil
}

// step takes a key off the front of a path.
func step(path, key string) (rest string, ok bool) {
	after, ok := strings.CutPrefix(path, key)
	switch {
	case !ok:
		return "", false
	case after == "" || after[0] == '[':
		return after, true
	case after[0] == '.':
		return after[1:], true
	}
	return "", false
}

func join(done, key string) string {
	if done == "" {
		return key
	}
	return done + "." + key
}
