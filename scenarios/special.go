package scenarios

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
)

// maxPeople bounds the team.
const maxPeople = 100

// crewShape is a number of people or a range of them, "1-3"; and "all" where
// that may stand.
type crewShape struct{ all bool }

func (s crewShape) check(r *reader, n *yaml.Node) {
	if s.all && n.Kind == yaml.ScalarNode && n.Value == wholeGroup {
		return
	}
	if n.Kind != yaml.ScalarNode {
		r.failGot(n, "must be a number of people or a range", "such as 2 or 1-3")
		return
	}
	if _, why := parseCrew(n.Value); why != "" {
		r.failGot(n, why, "such as 2 or 1-3; 0 for a task that needs nobody")
	}
}
func (s crewShape) words() string {
	if s.all {
		return "number of people, range or all"
	}
	return "number of people or range"
}

// wholeGroup is the crew of everybody.
const wholeGroup = "all"

// parseCrew reads "2" or "1-3"; 0 stands alone.
func parseCrew(s string) (sim.Crew, string) {
	low, high, isRange := strings.Cut(s, "-")
	low, high = strings.TrimSpace(low), strings.TrimSpace(high)
	if !isRange {
		high = low
	}
	a, errA := people(low)
	b, errB := people(high)
	switch {
	case errA != "":
		return sim.Crew{}, errA
	case errB != "":
		return sim.Crew{}, errB
	case isRange && a == 0:
		return sim.Crew{}, "a range of people begins at 1"
	case a > b:
		return sim.Crew{}, "the range of people must rise"
	}
	return sim.Crew{Min: a, Max: b}, ""
}

func people(s string) (int, string) {
	n, err := strconv.Atoi(s)
	switch {
	case err != nil || s[0] == '+' || s[0] == '-':
		return 0, "must be a number of people or a range"
	case len(s) > 1 && s[0] == '0':
		return 0, "a number has no leading zero"
	case n > maxPeople:
		return 0, fmt.Sprintf("at most %d people", maxPeople)
	}
	return n, ""
}

// conditionShape is something outside that slows work.
type conditionShape struct{}

var conditionForms = []string{"dark", "dark with lights", "air below -25 C", "wind over 8 m/s", "snow deeper than 60 cm"}

func (conditionShape) check(r *reader, n *yaml.Node) {
	if n.Kind != yaml.ScalarNode {
		r.failGot(n, "must be one condition", "one of: "+strings.Join(conditionForms, ", "))
		return
	}
	if _, why, hint := parseCondition(n.Value); why != "" {
		r.failGot(n, why, hint)
	}
}
func (conditionShape) words() string {
	return "dark, dark with lights, air below Q, wind over Q or snow deeper than Q"
}

func parseCondition(s string) (c sim.Condition, why, hint string) {
	switch s {
	case "dark":
		return sim.Condition{Kind: sim.Dark}, "", ""
	case "dark with lights":
		return sim.Condition{Kind: sim.DarkWithLights}, "", ""
	}
	for _, k := range []struct {
		words string
		kind  sim.ConditionKind
		shape quantityShape
	}{{"air below ", sim.AirBelow, quantityShape{d: inTemperature, low: airLow, high: airHigh}},
		{"wind over ", sim.WindOver, quantityShape{d: inSpeed, low: "0 m/s", high: windHigh}},
		{"snow deeper than ", sim.SnowDeeper, quantityShape{d: inLength, low: "0 m", high: "20 m"}}} {
		rest, ok := strings.CutPrefix(s, k.words)
		if !ok {
			continue
		}
		v, why, hint := parseQuantity(rest, k.shape.d)
		low, high := bound(k.shape.low, k.shape.d), bound(k.shape.high, k.shape.d)
		switch {
		case why != "":
			return c, k.words + "...: " + why, hint
		case v.Cmp(low) < 0 || v.Cmp(high) > 0:
			return c, fmt.Sprintf("%s...: must be from %s to %s", k.words, k.shape.low, k.shape.high), ""
		}
		return sim.Condition{Kind: k.kind, Value: float(v)}, "", ""
	}
	return c, "unknown condition", "one of: " + strings.Join(conditionForms, ", ")
}

// markShape is when a lookout begins or ends: a time since arrival, or tasks.
type markShape struct{}

func (markShape) check(r *reader, n *yaml.Node) {
	if n.Kind == yaml.ScalarNode && isTime(r, n) {
		lagTime.check(r, n)
		return
	}
	namesOf("a task", 500).check(r, n)
}
func (markShape) words() string { return "a length of time, or list of: name of a task" }

// isTime reports whether a scalar stands for a time and not for a task: it
// begins with a digit or a sign, and no task is called so.
func isTime(r *reader, n *yaml.Node) bool {
	return strings.IndexAny(n.Value, "0123456789+-") == 0 && !r.has(r.get(r.doc.root, "tasks"), n.Value)
}

// helpersShape is how many people stay with somebody who is hurt, or who.
type helpersShape struct{}

func (helpersShape) check(r *reader, n *yaml.Node) {
	if _, why := plainNumber(n.Value); n.Kind == yaml.ScalarNode && why == "" {
		wholeShape{0, maxPeople}.check(r, n)
		return
	}
	namesOf("a person", maxPeople).check(r, n)
}
func (helpersShape) words() string { return "whole number, or list of: name of a person" }

// momentShape is a date and time of day with its offset from UTC.
type momentShape struct{}

func (momentShape) check(r *reader, n *yaml.Node) {
	if n.Kind != yaml.ScalarNode {
		r.failGot(n, "must be a date and time with an offset", momentHint)
		return
	}
	t, err := parseMoment(n.Value)
	switch {
	case err != nil:
		if lacksOffset(n.Value) {
			r.failGot(n, "the offset from UTC is missing", momentHint)
			return
		}
		r.failGot(n, "must be a date and time with an offset", momentHint)
	case t.Year() < 1900 || t.Year() > 2100:
		r.failGot(n, "the year must be from 1900 to 2100", "write the date of the evening, such as 2027-01-16 13:40 +02:00")
	case t.Nanosecond() != 0:
		r.failGot(n, "must be in whole seconds", momentHint)
	}
}
func (momentShape) words() string { return "date and time with offset" }

// targetShape is when a milestone is wanted: a time since arrival, a clock
// time or dark.
type targetShape struct{}

func (targetShape) check(r *reader, n *yaml.Node) {
	if n.Kind == yaml.ScalarNode {
		if n.Value == "dark" {
			return
		}
		if _, ok := parseClock(n.Value); ok {
			return
		}
		if strings.Contains(n.Value, ":") {
			r.failGot(n, "not a clock time", "such as 15:00 (00:00 to 23:59), 100 min since arrival, or dark")
			return
		}
	}
	quantityShape{d: inTime, low: "0 s", high: lagHigh, word: "dark"}.check(r, n)
}
func (targetShape) words() string { return "time since arrival, clock time or dark" }

// parseClock reads a time of day, 15:00 or 15:00:30, as time since midnight.
func parseClock(s string) (time.Duration, bool) {
	parts := strings.Split(s, ":")
	if len(parts) < 2 || len(parts) > 3 || len(parts[0]) < 1 {
		return 0, false
	}
	var total time.Duration
	for i, p := range parts {
		v, err := strconv.Atoi(p)
		if err != nil || len(p) > 2 || i > 0 && len(p) != 2 || v < 0 || v > []int{23, 59, 59}[i] || p[0] == '+' || p[0] == '-' {
			return 0, false
		}
		total += time.Duration(v) * []time.Duration{time.Hour, time.Minute, time.Second}[i]
	}
	return total, true
}

// countShape is a whole number from 1, or a word instead of it.
type countShape struct {
	most int64
	word string
}

func (s countShape) check(r *reader, n *yaml.Node) {
	if n.Kind == yaml.ScalarNode && n.Value == s.word {
		return
	}
	if _, why := plainNumber(n.Value); n.Kind == yaml.ScalarNode && why != "" && !strings.Contains(why, "leading zero") {
		r.failGot(n, fmt.Sprintf("must be a whole number or %q", s.word), fmt.Sprintf("such as 1, or %s", s.word))
		return
	}
	wholeShape{1, s.most}.check(r, n)
}
func (s countShape) words() string { return "whole number or " + s.word }
