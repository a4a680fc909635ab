package draft

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"warmby/scenarios"
)

// Quantity is a number with a unit, as it stands in a file.
type Quantity struct {
	Text  string
	Value float64 // in the unit that Answers names
}

func (q Quantity) within(unit string, low, high float64) error {
	if !(q.Value >= low && q.Value <= high) {
		return fmt.Errorf("must be from %g to %g %s", low, high, unit)
	}
	return nil
}

func within(n, low, high int) error {
	switch {
	case n < low:
		return fmt.Errorf("%d is too few: from %d to %d", n, low, high)
	case n > high:
		return fmt.Errorf("%d are too many: from %d to %d", n, low, high)
	}
	return nil
}

var someOf = regexp.MustCompile(`^(\d{1,6})\s*(?:of us|people|persons?|tents?|p|of them)?$`)

// ReadNumber reads how many there are: "9", "9 people", "2 tents".
func ReadNumber(text string, low, high int) (int, error) {
	m := someOf.FindStringSubmatch(plain(text))
	if m == nil {
		return 0, errors.New("that is no whole number")
	}
	n, err := strconv.Atoi(m[1])
	if err != nil {
		return 0, err
	}
	return n, within(n, low, high)
}

// ReadPeople reads how many halt, or who: "9 people", or "Tove, Ole and Ida", the
// leader first. Names is nil for a number.
func ReadPeople(text string) (people int, names []string, err error) {
	if !strings.ContainsAny(text, ",;") && !strings.Contains(text, " and ") {
		people, err = ReadNumber(text, 2, MostPeople)
		return people, nil, err
	}
	text = strings.ReplaceAll(strings.ReplaceAll(text, ";", ","), " and ", ",")
	for name := range strings.SplitSeq(text, ",") {
		if name = strings.Join(strings.Fields(name), " "); name != "" {
			names = append(names, name)
		}
	}
	if err := within(len(names), 2, MostPeople); err != nil {
		return 0, nil, err
	}
	return len(names), names, checkNames(names)
}

// longestName is how many bytes a name may have.
const longestName = 60

func checkNames(names []string) error {
	for i, name := range names {
		switch {
		case slices.Contains(names[:i], name):
			return fmt.Errorf("two are called %q: tell them apart", name)
		case len(name) > longestName:
			return fmt.Errorf("%.20q.. is longer than %d bytes", name, longestName)
		case CheckTitle(name) != nil || name == "":
			return fmt.Errorf("%q is no name", name)
		}
	}
	return nil
}

// ReadYes reads a yes or a no.
func ReadYes(text string) (bool, error) {
	switch plain(text) {
	case "yes", "y", "true":
		return true, nil
	case "no", "n", "none", "false":
		return false, nil
	}
	return false, errors.New("that is neither")
}

// plain is a text in small letters, with single spaces and the signs of a
// keyboard.
func plain(text string) string {
	text = strings.NewReplacer("\u2212", "-", "\u2013", "-", "\u00a0", " ", "\u00ba", "\u00b0").Replace(text)
	return strings.ToLower(strings.Join(strings.Fields(text), " "))
}

var (
	bareNumber = regexp.MustCompile(`^[+-]?\d+(\.\d+)?$`)
	anyNumber  = regexp.MustCompile(`^[+-]?\d+([.,]\d+)?`)
)

// typed reads a number with a unit, or without one where unit says which is
// meant. Units may be written small, and decimals with a comma.
func typed(text, unit string, units ...string) string {
	text = plain(text)
	number := anyNumber.FindString(text)
	if number == "" {
		return text
	}
	rest := strings.TrimSpace(text[len(number):])
	number = strings.TrimPrefix(strings.Replace(number, ",", ".", 1), "+")
	if rest == "" {
		return number + " " + unit
	}
	for _, u := range units {
		if strings.EqualFold(rest, u) {
			return number + " " + u
		}
	}
	return number + " " + rest
}

// ReadAir reads a temperature: "-15", "-15 C", "5 F", "15 below".
func ReadAir(text string) (Quantity, error) {
	t := plain(text)
	if below, cut := strings.CutSuffix(t, " below"); cut && bareNumber.MatchString(below) {
		t = "-" + below
	}
	t = strings.NewReplacer("degrees", "", "celsius", "C", "minus ", "-", "\u00b0", "").Replace(t)
	t = typed(t, "C", "C", "F", "K")
	celsius, why, hint := scenarios.ReadMeasure(t, scenarios.Temperature)
	switch {
	case why != "":
		return Quantity{}, sayWhy(why, hint)
	case celsius > 0:
		return Quantity{}, fmt.Errorf("%s is above freezing; the frost is written with a minus, such as -%s", t, strings.TrimPrefix(t, "-"))
	}
	q := Quantity{t, celsius}
	return q, q.within("C", -60, 0)
}

// windWords are words for wind at 10 m, with a speed within the bounds that the
// Beaufort scale gives them (from memory).
var windWords = map[string]float64{"none": 0, "no wind": 0, "calm": 0, "light": 3, "light breeze": 3, "gentle": 4, "breeze": 5,
	"moderate": 7, "fresh": 9, "strong": 12, "near gale": 15, "gale": 19, "storm": 26}

// ReadWind reads a speed: "8 m/s", "8", "15 kt", "calm", "strong".
func ReadWind(text string) (Quantity, error) {
	if speed, known := windWords[plain(text)]; known {
		return Quantity{fmt.Sprintf("%g m/s", speed), speed}, nil
	}
	t := typed(text, "m/s", "m/s", "km/h", "mph", "kt")
	speed, why, hint := scenarios.ReadMeasure(t, scenarios.Speed)
	if why != "" {
		return Quantity{}, sayWhy(why, hint)
	}
	q := Quantity{t, speed}
	return q, q.within("m/s", 0, 30)
}

// snowWords are how deep people sink in, in cm (rough, for somebody of 1.75 m).
var snowWords = map[string]float64{"none": 0, "no snow": 0, "ankle": 15, "shin": 30, "knee": 50, "thigh": 75, "hip": 95, "waist": 105, "chest": 130, "shoulder": 145}

// ReadSnow reads a depth: "70 cm", "70", "3 ft", "knee deep".
func ReadSnow(text string) (Quantity, error) {
	word := strings.TrimSuffix(strings.ReplaceAll(plain(text), "-", " "), " deep")
	if depth, known := snowWords[word]; known {
		return Quantity{fmt.Sprintf("%g cm", depth), depth / 100}, nil
	}
	if n, err := strconv.ParseFloat(word, 64); err == nil && n > 0 && n < 10 {
		return Quantity{}, errors.New("say of what: cm, m, in or ft")
	}
	t := typed(text, "cm", "m", "mm", "cm", "in", "ft", "yd")
	depth, why, hint := scenarios.ReadMeasure(t, scenarios.Distance)
	if why != "" {
		return Quantity{}, sayWhy(why, hint)
	}
	q := Quantity{t, depth}
	return q, q.within("m", 0, 10)
}

func sayWhy(why, hint string) error { return fmt.Errorf("%s (%s)", why, hint) }
