package scenarios

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"
	"time"
)

// MaxValues is how many values a list for a sweep may have.
const MaxValues = 10_000

// Values reads the values that a sweep gives a key: values and ranges, with
// commas between. A range has two ends and a step, all in the same unit; it
// ends at the last step that is not past its end. Whole numbers need no step;
// the step between two moments is a length of time:
//
//	4..10
//	-40 C..-10 C step 5 C
//	5 kW, 7 kW, [2 min, 3 min, 5 min]
//	2027-01-16T12:00:00+02:00..2027-01-16T15:00:00+02:00 step 30 min
func Values(text string) ([]string, error) {
	var list []string
	for _, part := range atCommas(text) {
		part = strings.TrimSpace(part)
		if part == "" {
			return nil, fmt.Errorf("a value is missing in %s", quote(text))
		}
		values := []string{part}
		if from, to, ok := strings.Cut(part, ".."); ok && !strings.ContainsAny(part, "[{") {
			var err error
			if values, err = valueRange(part, strings.TrimSpace(from), strings.TrimSpace(to)); err != nil {
				return nil, err
			}
		}
		if list = append(list, values...); len(list) > MaxValues {
			return nil, fmt.Errorf("more than %d values in %s", MaxValues, quote(text))
		}
	}
	return list, nil
}

// atCommas splits at commas that stand outside brackets.
func atCommas(text string) []string {
	var parts []string
	depth, start := 0, 0
	for i, c := range text {
		switch c {
		case '[', '{':
			depth++
		case ']', '}':
			depth--
		case ',':
			if depth == 0 {
				parts, start = append(parts, text[start:i]), i+1
			}
		}
	}
	return append(parts, text[start:])
}

func valueRange(text, from, to string) ([]string, error) {
	to, by, stepped := strings.Cut(to, " step ")
	to, by = strings.TrimSpace(to), strings.TrimSpace(by)
	if a, err := parseMoment(from); err == nil {
		return momentRange(text, a, to, by)
	}
	a, unit, whyA := leadingNumber(from)
	b, unitB, whyB := leadingNumber(to)
	if whyA != "" || whyB != "" {
		return nil, fmt.Errorf("a range goes from one number to another, got %s\n  hint: such as \"4..10\" or \"-40 C..-10 C step 5 C\"", quote(text))
	}
	step, unitS := big.NewRat(1, 1), unit
	switch {
	case stepped:
		var why string
		if step, unitS, why = leadingNumber(by); why != "" {
			return nil, fmt.Errorf("the step of %s %s", quote(text), why)
		}
	case unit != "" || !a.IsInt() || !b.IsInt():
		return nil, fmt.Errorf("the range %s needs a step\n  hint: such as \"-40 C..-10 C step 5 C\"", quote(text))
	}
	if unit != unitB || unit != unitS {
		return nil, fmt.Errorf("both ends of a range and its step need the same unit, got %s", quote(text))
	}
	if step.Sign() <= 0 {
		return nil, fmt.Errorf("the step of %s must be over 0", quote(text))
	}
	return steps(text, a, b, step, unit)
}

// steps lists numbers from a to b, rising or falling.
func steps(text string, a, b, step *big.Rat, unit string) ([]string, error) {
	n := new(big.Rat).Quo(new(big.Rat).Sub(b, a), step)
	if n.Abs(n).Cmp(big.NewRat(MaxValues, 1)) >= 0 {
		return nil, fmt.Errorf("more than %d values in %s", MaxValues, quote(text))
	}
	if a.Cmp(b) > 0 {
		step = new(big.Rat).Neg(step)
	}
	if unit != "" {
		unit = " " + unit
	}
	count := new(big.Int).Quo(n.Num(), n.Denom()).Int64()
	var list []string
	for i := range count + 1 {
		v := new(big.Rat).Mul(step, big.NewRat(i, 1))
		list = append(list, everyDecimal(v.Add(v, a))+unit)
	}
	return list, nil
}

func momentRange(text string, a time.Time, to, by string) ([]string, error) {
	b, err := parseMoment(to)
	if err != nil {
		return nil, fmt.Errorf("a range of moments ends with a moment, got %s\n  hint: such as \"2027-01-16 15:00 +02:00\"", quote(to))
	}
	ms, why, hint := parseQuantity(by, inTime)
	if why == "" && ms.Sign() <= 0 {
		why = "must be over 0"
	}
	if why != "" {
		return nil, fmt.Errorf("the step of %s: %s\n  hint: %s", quote(text), why, hint)
	}
	step := time.Duration(round(ms).Int64()) * time.Millisecond
	if step <= 0 || b.Sub(a).Abs()/step >= MaxValues {
		return nil, fmt.Errorf("more than %d values in %s", MaxValues, quote(text))
	}
	if b.Before(a) {
		step = -step
	}
	var list []string
	for i := range b.Sub(a)/step + 1 {
		list = append(list, a.Add(i*step).Format(time.RFC3339))
	}
	return list, nil
}

// everyDecimal writes a number that has finitely many decimals without needless
// zeros.
func everyDecimal(r *big.Rat) string {
	s := r.FloatString(maxDigits)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// measures names base units as they may stand in the heading of a column.
var measures = []struct {
	d    *dimension
	unit string
}{
	{inTemperature, "C"}, {inSpeed, "m_per_s"}, {inLength, "m"}, {inMass, "kg"}, {inVolume, "L"}, {inPower, "W"},
	{inDensity, "kg_per_m3"}, {inLoss, "W_per_m2K"}, {inHeat, "kJ_per_K"}, {inChanges, "per_h"}, {inClothing, "clo"},
	{inShare, "share"}, {inRoom, "m3"}, {inArea, "m2"},
}

// Quantity returns the number of a quantity in its base unit, and the name of
// that unit for the heading of a column: "-40 C" is -40 in "C", "1h20min" is
// 4800 in "s", "7 kW" is 7000 in "W", "15 %" is 0.15 in "share". Unit is "" for
// a bare number. It is not ok for anything else.
func Quantity(text string) (number, unit string, ok bool) {
	if v, why := plainNumber(strings.TrimSpace(text)); why == "" {
		return plain(v), "", true
	}
	if v, why, _ := parseQuantity(text, inTime); why == "" {
		return plain(v.Quo(v, big.NewRat(1000, 1))), "s", true
	}
	for _, m := range measures {
		if v, why, _ := parseQuantity(text, m.d); why == "" {
			return plain(v), m.unit, true
		}
	}
	return "", "", false
}

func plain(r *big.Rat) string { return strconv.FormatFloat(float(r), 'f', -1, 64) }
