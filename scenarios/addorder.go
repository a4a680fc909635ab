package scenarios

import (
	"errors"
	"fmt"
	"strings"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
)

// ErrNoPlaceForOrder says that a file is written in a way in which no order can
// be added without writing it anew: everything in one pair of braces.
var ErrNoPlaceForOrder = errors.New("the whole file stands in one pair of braces: there is no line for an order")

// WithOrders returns the text of a scenario file with orders added to it, in
// the sequence given, behind those that it has. All else, comments too, stays
// as it is. The orders must be ones of the scenario, with names that it does
// not have.
func (s *Scenario) WithOrders(src []byte, orders ...sim.Order) ([]byte, error) {
	root := s.doc.root
	if root.Style&yaml.FlowStyle != 0 {
		return nil, ErrNoPlaceForOrder
	}
	text, ending := string(src), "\n"
	if strings.Contains(text, "\r\n") {
		ending = "\r\n"
	}
	list := s.b.get(root, "orders")
	switch {
	case list != nil && list.Style&yaml.FlowStyle != 0:
		text = s.intoBraces(text, list, orders)
	default:
		text = s.intoBlock(text, list, orders, ending)
	}
	again, err := Read(s.doc.file, []byte(text))
	if err != nil {
		return nil, fmt.Errorf("the order as written is not read again: %w", err)
	}
	if len(again.orders) != len(s.orders)+len(orders) {
		return nil, fmt.Errorf("%d orders are read again, want %d", len(again.orders), len(s.orders)+len(orders))
	}
	return []byte(text), nil
}

// intoBlock adds orders as lines of their own behind the last that belongs to
// "orders", or behind the last of the file, under a new key.
func (s *Scenario) intoBlock(text string, list *yaml.Node, orders []sim.Order, ending string) string {
	lines := strings.SplitAfter(text, "\n")
	last, indent := len(lines), 2
	head := "orders:\n"
	if list != nil {
		head = ""
		if len(list.Content) > 0 {
			indent = list.Content[0].Column - 1
		}
		if next := s.keyBehind("orders"); next > 0 {
			last = next - 1
		}
	}
	if list == nil || last == len(lines) {
		for k, line := range lines {
			if strings.HasPrefix(line, "...") { // end of the document
				last = k
			}
		}
	}
	for last > 0 && idle(lines[last-1]) {
		last--
	}
	var b strings.Builder
	for _, line := range lines[:last] {
		b.WriteString(line)
	}
	if last > 0 && !strings.HasSuffix(lines[last-1], "\n") {
		b.WriteString(ending)
	}
	block := head
	if list == nil && last > 0 {
		block = "\n" + head
	}
	for k, o := range orders {
		if k > 0 || list != nil {
			block += "\n"
		}
		block += OrderYAML(s.drill, o, o.Name, indent)
	}
	b.WriteString(strings.ReplaceAll(block, "\n", ending))
	for _, line := range lines[last:] {
		b.WriteString(line)
	}
	return b.String()
}

// idle reports whether a line is empty or a comment that belongs to what
// follows.
func idle(line string) bool {
	return strings.TrimSpace(line) == "" || strings.HasPrefix(line, "#")
}

// keyBehind returns the line of the key that follows a key of the file, 0 when
// it is the last.
func (s *Scenario) keyBehind(name string) int {
	content := s.doc.root.Content
	for k := 0; k+2 < len(content); k += 2 {
		if content[k].Value == name {
			return content[k+2].Line
		}
	}
	return 0
}

// intoBraces adds orders behind the opening brace of "orders".
func (s *Scenario) intoBraces(text string, list *yaml.Node, orders []sim.Order) string {
	lines := strings.SplitAfter(text, "\n")
	line := []rune(lines[list.Line-1])
	at := list.Column
	if list.Line == 1 && strings.HasPrefix(text, "\uFEFF") {
		at++
	}
	var parts []string
	for _, o := range orders {
		parts = append(parts, word(o.Name)+": "+orderTree(s.drill, o).flow())
	}
	added := strings.Join(parts, ", ")
	if len(list.Content) > 0 {
		added += ", "
	}
	lines[list.Line-1] = string(line[:at]) + added + string(line[at:])
	return strings.Join(lines, "")
}
