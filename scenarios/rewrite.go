package scenarios

import (
	"bytes"
	"fmt"
	"sort"
	"strings"

	"go.yaml.in/yaml/v4"
)

// Edit is a value of a scenario file to be replaced.
type Edit struct {
	Path    []string // keys and names from the top: "tasks", "pitch the tent", "work"
	Value   string   // as it stands in a file
	Comment string   // added at the end of the line
}

// Rewrite returns a scenario file with values replaced, each with what stood
// there before in a comment: all else stays as it is, comments too. A key that is
// not there is added where its parent is the file itself. Left lists the edits
// that could not be made: no such key, or a value that stands over several lines
// without brackets. The result is checked as any file is; the error is that of
// [Read].
func Rewrite(name string, src []byte, edits []Edit) (out []byte, left []Edit, err error) {
	var root yaml.Node
	if err := yaml.Unmarshal(src, &root); err != nil || len(root.Content) == 0 {
		_, err := Read(name, src)
		return nil, nil, err
	}
	t := &rewriter{lines: strings.SplitAfter(string(src), "\n")}
	var places []stood
	for _, e := range edits {
		node := descend(root.Content[0], e.Path)
		switch {
		case node == nil && len(e.Path) == 1:
			t.added = append(t.added, e)
		case node == nil:
			left = append(left, e)
		default:
			p, ok := t.find(node)
			if !ok {
				left = append(left, e)
				continue
			}
			p.edit = e
			places = append(places, p)
		}
	}
	sort.SliceStable(places, func(i, j int) bool {
		a, b := places[i], places[j]
		return a.line > b.line || a.line == b.line && a.from > b.from
	})
	for _, p := range places {
		t.replace(p)
	}
	out = t.text()
	if _, err := Read(name, out); err != nil {
		return nil, left, fmt.Errorf("what was written would not be read: %w", err)
	}
	return out, left, nil
}

// descend finds a node by keys.
func descend(n *yaml.Node, path []string) *yaml.Node {
	for _, key := range path {
		if n == nil || n.Kind != yaml.MappingNode {
			return nil
		}
		var next *yaml.Node
		for i := 0; i+1 < len(n.Content); i += 2 {
			if n.Content[i].Value == key {
				next = n.Content[i+1]
			}
		}
		n = next
	}
	return n
}

// rewriter replaces values in the lines of a file.
type rewriter struct {
	lines []string
	added []Edit
}

// stood is where a value stands: on one line, from and to in bytes.
type stood struct {
	line, from, to int
	edit           Edit
}

// find returns where a value stands. Values without brackets are one line long;
// those in brackets may be too.
func (t *rewriter) find(n *yaml.Node) (stood, bool) {
	p := stood{line: n.Line - 1}
	if p.line < 0 || p.line >= len(t.lines) {
		return p, false
	}
	line := t.lines[p.line]
	p.from = byteOf(line, n.Column-1)
	if p.from >= len(line) {
		return p, false
	}
	switch {
	case line[p.from] == '[' || line[p.from] == '{':
		p.to = closing(line, p.from)
	case n.Kind == yaml.ScalarNode && strings.HasPrefix(line[p.from:], n.Value):
		p.to = p.from + len(n.Value)
	case n.Kind == yaml.ScalarNode && (line[p.from] == '"' || line[p.from] == '\'') && strings.HasPrefix(line[p.from+1:], n.Value):
		p.to = p.from + len(n.Value) + 2
	}
	return p, p.to > p.from
}

// byteOf returns where a character of a line begins.
func byteOf(line string, character int) int {
	for i := range line {
		if character == 0 {
			return i
		}
		character--
	}
	return len(line)
}

// closing returns what follows the bracket that closes the one at from; 0 when
// that is on another line.
func closing(line string, from int) int {
	depth, quote := 0, byte(0)
	for i := from; i < len(line); i++ {
		switch c := line[i]; {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '[' || c == '{':
			depth++
		case c == ']' || c == '}':
			if depth--; depth == 0 {
				return i + 1
			}
		}
	}
	return 0
}

// replace puts a value in place and says in a comment what stood there.
func (t *rewriter) replace(p stood) {
	line := strings.TrimRight(t.lines[p.line], "\r\n")
	end := t.lines[p.line][len(line):]
	comment := p.edit.Comment + ", was " + line[p.from:p.to]
	rest := line[p.to:]
	if strings.Contains(rest, " #") {
		rest += "; " + comment
	} else {
		rest = strings.TrimRight(rest, " ") + "   # " + comment
	}
	t.lines[p.line] = line[:p.from] + p.edit.Value + rest + end
}

func (t *rewriter) text() []byte {
	var b bytes.Buffer
	for _, l := range t.lines {
		b.WriteString(l)
	}
	for _, e := range t.added {
		if text := b.Bytes(); len(text) > 0 && text[len(text)-1] != '\n' {
			b.WriteByte('\n')
		}
		fmt.Fprintf(&b, "%s: %s   # %s\n", e.Path[0], e.Value, e.Comment)
	}
	return b.Bytes()
}
