package scenarios

import (
	"fmt"
	"math/big"
	"strings"

	"go.yaml.in/yaml/v4"
)

// A shape is what the value of a key looks like. It checks a value, gives
// the fragment of the JSON Schema and the words of the manual: one
// declaration, so that the three cannot disagree.
type shape interface {
	// check reports what is wrong with a value and marks it.
	check(r *reader, n *yaml.Node)
	// schema returns a fragment of JSON Schema.
	schema() schema
	// words names the form of the value in the key reference.
	words() string
}

// textShape is a line of text, or several when long is set.
type textShape struct{ long bool }

func (s textShape) check(r *reader, n *yaml.Node) {
	most := maxName
	if s.long {
		most = maxLine
	}
	switch {
	case n.Kind != yaml.ScalarNode || n.Tag == "!!null":
		r.failGot(n, "must be text", "such as \"some words\"")
	case n.Tag != "!!str" && n.Tag != "!!timestamp" && n.Tag != "!":
		r.failGot(n, "must be text", fmt.Sprintf("put it in quotes: \"%s\"", clip(n.Value, 20)))
	case strings.TrimSpace(n.Value) == "":
		r.failGot(n, "must not be empty", "write something, or leave the key out")
	case len(n.Value) > most:
		r.failGot(n, "is too long", fmt.Sprintf("at most %d bytes", most))
	case !s.long && (strings.Contains(n.Value, "\n") || strings.Contains(n.Value, "\t")):
		r.failGot(n, "must be one line without tabs", "write it on one line")
	case Fault(n.Value) != "":
		r.failGot(n, Fault(n.Value), "write it anew without that character")
	}
}
func (s textShape) words() string { return "text" }

// maxName bounds the names of things, in bytes.
const maxName = 200

// nameShape is the name of something that the file defines elsewhere.
type nameShape struct{ of string }

func (s nameShape) check(r *reader, n *yaml.Node) { textShape{}.check(r, n) }
func (s nameShape) words() string                 { return "name of " + s.of }

// wholeShape is a whole number within bounds.
type wholeShape struct{ low, high int64 }

func (s wholeShape) check(r *reader, n *yaml.Node) {
	expected := fmt.Sprintf("a whole number from %d to %d", s.low, s.high)
	if s.low == s.high {
		expected = fmt.Sprint(s.low)
	}
	if n.Kind != yaml.ScalarNode || quoted(n) {
		r.failGot(n, "must be "+expected, s.hint())
		return
	}
	v, why := plainNumber(n.Value)
	switch {
	case why != "" && strings.Contains(why, "leading zero"):
		r.failGot(n, why, "expected "+expected)
	case why != "" || !v.IsInt() || strings.Contains(n.Value, "."):
		r.failGot(n, "must be "+expected, s.hint())
	case v.Cmp(new(big.Rat).SetInt64(s.low)) < 0 || v.Cmp(new(big.Rat).SetInt64(s.high)) > 0:
		r.failGot(n, "must be "+expected, s.hint())
	default:
		r.values[n] = v
	}
}
func (s wholeShape) words() string {
	if s.low == s.high {
		return fmt.Sprint(s.low)
	}
	return "whole number"
}

func (s wholeShape) hint() string {
	if s.low == s.high {
		return "the only version there is"
	}
	return ""
}
func (s numberShape) hint() string { return "" }

// quoted reports whether a scalar is text by its quotes.
func quoted(n *yaml.Node) bool {
	return n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) != 0
}

// numberShape is a plain decimal number within bounds, with a bounded number
// of decimals.
type numberShape struct {
	low, high string
	places    int
	over      bool // whether the lower bound itself is refused
}

func (s numberShape) check(r *reader, n *yaml.Node) {
	expected := fmt.Sprintf("a number from %s to %s", s.low, s.high)
	if s.over {
		expected = fmt.Sprintf("a number over %s and up to %s", s.low, s.high)
	}
	if n.Kind != yaml.ScalarNode || quoted(n) {
		r.failGot(n, "must be "+expected, s.hint())
		return
	}
	v, why := plainNumber(n.Value)
	switch {
	case why != "" && n.Tag == "!!null":
		r.failGot(n, "must be "+expected, s.hint())
	case why != "":
		r.failGot(n, why, "expected "+expected)
	case v.Cmp(rat(s.low)) < 0 || v.Cmp(rat(s.high)) > 0 || s.over && v.Cmp(rat(s.low)) == 0:
		r.failGot(n, "must be "+expected, s.hint())
	case !new(big.Rat).Mul(v, new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(s.places)), nil))).IsInt():
		r.failGot(n, fmt.Sprintf("has more than %d decimals", s.places), fmt.Sprintf("round it to %d", s.places))
	default:
		r.values[n] = v
	}
}
func (s numberShape) words() string { return "number" }

// yesShape is true or false.
type yesShape struct{}

func (yesShape) check(r *reader, n *yaml.Node) {
	if n.Kind != yaml.ScalarNode || quoted(n) || n.Value != "true" && n.Value != "false" {
		r.failGot(n, "must be true or false", "without quotes")
	}
}
func (yesShape) words() string { return "true or false" }

// wordShape is one of a few words.
type wordShape []string

func (s wordShape) check(r *reader, n *yaml.Node) {
	if n.Kind == yaml.ScalarNode {
		for _, w := range s {
			if n.Value == w {
				return
			}
		}
	}
	message := "must be " + s.words() + ", got " + describe(n)
	if n.Kind != yaml.ScalarNode {
		r.fail(n, message, "")
		return
	}
	hint := ""
	if near := nearest(n.Value, s); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	r.fail(n, message, hint)
}
func (s wordShape) words() string {
	if len(s) == 1 {
		return s[0]
	}
	return strings.Join(s[:len(s)-1], ", ") + " or " + s[len(s)-1]
}
