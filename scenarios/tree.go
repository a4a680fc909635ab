package scenarios

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v4"
)

// checkTree adds everything in a tree that a scenario may not have, and
// reports whether the rest can be read.
func (d *document) checkTree(root *yaml.Node) bool {
	count := 0
	stop := false
	var walk func(n *yaml.Node, depth int)
	walk = func(n *yaml.Node, depth int) {
		count++
		switch {
		case stop:
			return
		case len(d.list) >= maxProblems:
			stop = true
			return
		case depth > maxDepth:
			d.add(n.Line, n.Column, "nested too deeply", "nothing in a scenario lies that deep")
			stop = true
			return
		case count > maxValues:
			d.add(n.Line, n.Column, "too many values", fmt.Sprintf("at most %d are read", maxValues))
			stop = true
			return
		}
		d.plainNode(n)
		if n.Kind == yaml.MappingNode {
			d.plainKeys(n)
		}
		for _, c := range n.Content {
			walk(c, depth+1)
		}
	}
	walk(root, 0)
	return !stop
}

// plainNode refuses anchors, aliases, tags and hidden characters.
func (d *document) plainNode(n *yaml.Node) {
	switch {
	case n.Kind == yaml.AliasNode:
		d.refused[n] = true
		d.add(n.Line, n.Column, "an alias is not allowed, got "+quote("*"+n.Value), "write the value out here")
	case n.Anchor != "":
		d.add(n.Line, n.Column, "an anchor is not allowed, got "+quote("&"+n.Anchor), "remove it and write each value out")
	case n.Style&yaml.TaggedStyle != 0 || n.Tag != "" && !strings.HasPrefix(n.Tag, "!!"):
		d.add(n.Line, n.Column, "a tag is not allowed, got "+quote(n.Tag), "remove it: the key says what kind of value it has")
	case n.Kind == yaml.ScalarNode && strings.ContainsFunc(n.Value, func(r rune) bool { return steers(r) && r != '\n' && r != '\t' }):
		d.add(n.Line, n.Column, "a control character is not allowed in a value, got "+quote(n.Value), "remove it")
	}
}

// plainKeys refuses keys that are not text and those named twice.
func (d *document) plainKeys(n *yaml.Node) {
	seen := map[string]*yaml.Node{}
	for i := 0; i+1 < len(n.Content) && len(d.list) < maxProblems; i += 2 {
		key := n.Content[i]
		if key.Kind != yaml.ScalarNode {
			d.refused[key] = true
			if key.Kind != yaml.AliasNode {
				d.add(key.Line, key.Column, "a key must be text", "write \"key: value\"")
			}
			continue
		}
		if key.Tag == "!!merge" {
			d.refused[key] = true
			d.add(key.Line, key.Column, "a merge key is not allowed, got \"<<\"", "write the keys out here")
			continue
		}
		if first := seen[key.Value]; first != nil {
			d.refused[key] = true
			d.add(key.Line, key.Column, fmt.Sprintf("the key %s stands twice, first in line %d", quote(key.Value), first.Line), "keep one of them")
			continue
		}
		seen[key.Value] = key
	}
}
