package scenarios

import (
	"fmt"
	"math/big"
	"strings"
)

// parseQuantity reads a number with a unit and returns it in the dimension's
// first unit, exactly. Why and hint say what is wrong.
func parseQuantity(text string, d *dimension) (value *big.Rat, why, hint string) {
	s := strings.TrimSpace(text)
	number, rest, why := leadingNumber(s)
	switch {
	case why == "does not begin with a number":
		return nil, "must be " + d.is, fmt.Sprintf("such as %q", d.example)
	case why != "":
		return nil, why, fmt.Sprintf("expected %s such as %q", d.is, d.example)
	case rest == "":
		return nil, "the unit is missing", "write " + unitList(d) + ", such as " + fmt.Sprintf("%q", s+d.example[strings.LastIndex(d.example, " "):])
	case d == inTime:
		return timeParts(number, rest)
	}
	for _, u := range d.units {
		if rest == u.name {
			return u.convert(number), "", ""
		}
	}
	return nil, fmt.Sprintf("unknown unit %s for %s", quote(rest), d.is), "write " + unitList(d)
}

func (u unit) convert(number *big.Rat) *big.Rat {
	v := new(big.Rat).Set(number)
	if u.shift != nil {
		v.Add(v, u.shift)
	}
	return v.Mul(v, u.factor)
}

// timeParts reads the rest of a length of time such as "1h20min": further
// parts have smaller and smaller units and no sign.
func timeParts(number *big.Rat, rest string) (value *big.Rat, why, hint string) {
	value, negative := new(big.Rat), number.Sign() < 0
	for last := len(inTime.units); ; {
		name := rest
		if end := strings.IndexAny(rest, "0123456789+-. "); end >= 0 {
			name = rest[:end]
		}
		at := -1
		for i, u := range inTime.units {
			if i > 0 && u.name == name {
				at = i
			}
		}
		switch {
		case at < 0:
			return nil, fmt.Sprintf("unknown unit %s for %s", quote(rest), inTime.is), "write " + unitList(inTime) + ", such as \"20 min\" or \"1h20min\""
		case at >= last:
			return nil, "the parts of a length of time must go from hours to seconds", "such as \"1h20min\""
		}
		value.Add(value, inTime.units[at].convert(number))
		last = at
		rest = strings.TrimLeft(rest[len(name):], " ")
		if rest == "" {
			return value, "", ""
		}
		var wrong string
		number, rest, wrong = leadingNumber(rest)
		if wrong != "" || negative || number.Sign() < 0 || rest == "" {
			return nil, "must be a length of time", "such as \"20 min\" or \"1h20min\""
		}
	}
}

// unitList names the units of a dimension for a hint.
func unitList(d *dimension) string {
	names := d.names()
	if len(names) == 1 {
		return names[0]
	}
	return strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
}
