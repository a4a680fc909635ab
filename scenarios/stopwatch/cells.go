package stopwatch

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"warmby/scenarios"
	"warmby/sim"
)

// moment is a time as it is written: on the clock, or since arrival.
type moment struct {
	at    sim.Time // since midnight, or since arrival
	clock bool
	set   bool
}

var clockTime = regexp.MustCompile(`^(\d{1,2}):(\d{2})(?::(\d{2}))?$`)

// readMoment reads a clock time or a length of time.
func (f *file) readMoment(text string) (m moment, why, hint string) {
	const expected = "a clock time such as 15:02, or a time since arrival such as 62 min"
	if parts := clockTime.FindStringSubmatch(text); parts != nil {
		h, _ := strconv.Atoi(parts[1])
		min, _ := strconv.Atoi(parts[2])
		s, _ := strconv.Atoi(parts[3])
		if h > 23 || min > 59 || s > 59 {
			return m, "there is no such time on the clock, got " + quote(text), expected
		}
		return moment{sim.Time(h)*sim.Hour + sim.Time(min)*sim.Minute + sim.Time(s)*sim.Second, true, true}, "", ""
	}
	v, why, hint := scenarios.ReadMeasure(f.decimal(text), scenarios.Length)
	switch {
	case why != "":
		return m, "must be " + expected + ", got " + quote(text), hint
	case v < 0 || v > float64(sim.Horizon):
		return m, "must lie from 0 to seven days after arrival, got " + quote(text), ""
	}
	return moment{sim.Milliseconds(v), false, true}, "", ""
}

// decimal turns a decimal comma into a point, where commas do not part columns.
func (f *file) decimal(s string) string {
	if f.commas && strings.Count(s, ",") == 1 && !strings.Contains(s, ".") {
		return strings.Replace(s, ",", ".", 1)
	}
	return s
}

// moment reads a cell that holds a time.
func (f *file) moment(column string) (m moment, ok bool) {
	text := f.cell(column)
	if text == "" {
		return m, true
	}
	if m, ok = f.moments[text]; ok {
		return m, true
	}
	m, why, hint := f.readMoment(text)
	if why != "" {
		f.wrongCell(column, why, hint)
		return m, false
	}
	if len(f.moments) < 100_000 { // the same times come again and again in a long log
		f.moments[text] = m
	}
	return m, true
}

// measure reads a cell that holds a number with a unit; nil where there is none.
func (f *file) measure(column string, m scenarios.Measure) *float64 {
	text := f.cell(column)
	if text == "" {
		return nil
	}
	v, why, hint := scenarios.ReadMeasure(f.decimal(text), m)
	if why != "" {
		f.wrongCell(column, why+", got "+quote(text), hint)
		return nil
	}
	return &v
}

var (
	isoDate   = regexp.MustCompile(`^\d{4}-\d{2}-\d{2}$`)
	dotDate   = regexp.MustCompile(`^(\d{1,2})\.(\d{1,2})\.(\d{4})$`)
	otherDate = regexp.MustCompile(`^\d{1,4}[-/. ]\d{1,2}[-/. ]\d{1,4}$`)
)

// date reads the cell of the date.
func (f *file) date() (day string, ok bool) {
	text := f.cell("date")
	if p := dotDate.FindStringSubmatch(text); p != nil {
		text = fmt.Sprintf("%s-%02s-%02s", p[3], p[2], p[1])
	}
	if text == "" || isoDate.MatchString(text) && realDay(text) {
		return text, true
	}
	hint := "write it as 2027-01-16"
	if otherDate.MatchString(text) {
		hint += ": day and month could be taken for each other"
	}
	f.wrongCell("date", "must be a date, got "+quote(text), hint)
	return "", false
}

var mishapNote = regexp.MustCompile(`^(?:(\d{1,2}) )?mishaps?\b[:,]?\s*(.*)$`)

// remarksOf is what the note of a row says.
type noted struct {
	mishaps               int
	adds                  sim.Time // Never when not known
	unfinished, calledOff bool
}

// note reads the words of a note that mean something; others are left.
func (f *file) note() (n noted, ok bool) {
	ok, n.adds = true, sim.Never
	for _, part := range notePieces(f.cell("note")) {
		switch part = fold(part); {
		case part == "unfinished" || strings.HasPrefix(part, "unfinished "):
			n.unfinished = true
		case part == "called off" || strings.HasPrefix(part, "called off "):
			n.calledOff = true
		default:
			p := mishapNote.FindStringSubmatch(part)
			if p == nil {
				continue
			}
			if n.mishaps = 1; p[1] != "" {
				n.mishaps, _ = strconv.Atoi(p[1])
			}
			if p[2] == "" || !startsWithDigit(p[2]) {
				continue
			}
			v, why, hint := scenarios.ReadMeasure(f.decimal(p[2]), scenarios.Length)
			if why != "" || v < 0 {
				f.wrongCell("note", "a mishap is noted with what it added, such as \"mishap 9 min\", got "+quote(part), hint)
				ok = false
				continue
			}
			n.adds = sim.Milliseconds(v)
		}
	}
	return n, ok
}

func notePieces(s string) []string {
	return strings.FieldsFunc(strings.ReplaceAll(s, ". ", "|"), func(c rune) bool { return c == '|' || c == ';' })
}

func startsWithDigit(s string) bool { return s[0] >= '0' && s[0] <= '9' }

// quote returns text in quotes for a message, shortened when it is long.
func quote(s string) string {
	if r := []rune(s); len(r) > 50 {
		s = string(r[:50]) + "..."
	}
	return strconv.Quote(s)
}
