package scenarios

import (
	"fmt"
	"math/big"
	"sync"

	"go.yaml.in/yaml/v4"
)

// quantityShape is a number with a unit, within bounds given the same way;
// an empty bound is none. Word is a word that may stand instead.
type quantityShape struct {
	d         *dimension
	low, high string
	over      bool // whether the lower bound itself is refused
	word      string
}

func (s quantityShape) check(r *reader, n *yaml.Node) {
	if s.word != "" && n.Kind == yaml.ScalarNode && n.Value == s.word {
		return
	}
	or := ""
	if s.word != "" {
		or = fmt.Sprintf(" or %q", s.word)
	}
	if n.Kind != yaml.ScalarNode || n.Tag == "!!null" {
		r.failGot(n, "must be "+s.d.is+or, fmt.Sprintf("such as %q", s.d.example))
		return
	}
	v, why, hint := parseQuantity(n.Value, s.d)
	if why != "" {
		r.failGot(n, why+orIf(why == "must be "+s.d.is, or), hint)
		return
	}
	low, high := bound(s.low, s.d), bound(s.high, s.d)
	switch {
	case low != nil && s.over && v.Cmp(low) <= 0:
		r.failGot(n, "must be over "+s.low, s.hint())
	case low != nil && v.Cmp(low) < 0:
		if low.Sign() == 0 && s.d.units[0].shift == nil && s.d != inTemperature {
			r.failGot(n, "must not be negative", s.hint())
		} else {
			r.failGot(n, "must be at least "+s.low, s.hint())
		}
	case high != nil && v.Cmp(high) > 0:
		r.failGot(n, "must be at most "+s.high, s.hint())
	default:
		r.values[n] = v
	}
}

// hint says what may stand there.
func (s quantityShape) hint() string {
	switch {
	case s.low != "" && s.high != "" && s.over:
		return fmt.Sprintf("write %s over %s and up to %s", s.d.is, s.low, s.high)
	case s.low != "" && s.high != "":
		return fmt.Sprintf("write %s from %s to %s", s.d.is, s.low, s.high)
	case s.over:
		return fmt.Sprintf("write %s over %s", s.d.is, s.low)
	case s.low != "":
		return fmt.Sprintf("write %s, %s or more", s.d.is, s.low)
	}
	return fmt.Sprintf("write %s, %s at most", s.d.is, s.high)
}

// bounds remembers the bounds of shapes, which are few and never change.
var bounds sync.Map // of boundKey to *big.Rat

type boundKey struct {
	d    *dimension
	text string
}

// bound returns a bound of a shape; nil when it is empty.
func bound(text string, d *dimension) *big.Rat {
	if text == "" {
		return nil
	}
	if v, ok := bounds.Load(boundKey{d, text}); ok {
		return v.(*big.Rat)
	}
	v, why, _ := parseQuantity(text, d)
	if why != "" {
		panic("scenarios: bound " + text + ": " + why)
	}
	bounds.Store(boundKey{d, text}, v)
	return v
}

func orIf(yes bool, s string) string {
	if yes {
		return s
	}
	return ""
}

func (s quantityShape) words() string {
	w := s.d.is
	if s.word != "" {
		w += " or " + s.word
	}
	return w
}

// anyOf says that a scalar, a list and a mapping have different shapes. A nil
// shape is refused.
type anyOf struct {
	is                    string // in a message: "a list of rows, or named cases"
	scalar, list, mapping shape
}

func (s anyOf) check(r *reader, n *yaml.Node) {
	var one shape
	switch {
	case n.Kind == yaml.ScalarNode:
		one = s.scalar
	case n.Kind == yaml.SequenceNode:
		one = s.list
	case n.Kind == yaml.MappingNode:
		one = s.mapping
	}
	if one == nil {
		r.failGot(n, "must be "+s.is, "")
		return
	}
	one.check(r, n)
}
func (s anyOf) words() string { return s.is }
