package stopwatch

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"warmby/sim"
	"warmby/sim/timed"
)

// Write returns drills of a scenario's drill as a log that [Read] reads: clock
// times where the arrival is known, else times since arrival, to the second.
// Each line of the head is put before it as a comment.
func Write(head []string, d *sim.Drill, drills []*timed.Drill) []byte {
	var b bytes.Buffer
	for _, line := range head {
		b.WriteString("# " + line + "\n")
	}
	w := &writer{d: d, csv: csv.NewWriter(&b)}
	w.csv.Write(headings[ofRows])
	for _, one := range drills {
		w.rows(one)
	}
	w.csv.Write(headings[ofConditions][:len(headings[ofConditions])-1])
	for _, one := range drills {
		w.conditions(one)
	}
	if slices.ContainsFunc(drills, func(t *timed.Drill) bool { return len(t.Felt) > 0 }) {
		w.csv.Write(headings[ofFelt][:4])
		for _, one := range drills {
			for _, x := range one.Felt {
				w.csv.Write([]string{one.Name, d.People[x.Person].Name, w.at(one, x.At), decimal(x.Sense, 1)})
			}
		}
	}
	w.csv.Flush()
	return b.Bytes()
}

type writer struct {
	d   *sim.Drill
	csv *csv.Writer
}

func (w *writer) rows(t *timed.Drill) {
	for k, j := range t.Jobs {
		called := t.CalledOff && k == len(t.Jobs)-1
		row := func(people string, from, to sim.Time, note string) {
			w.csv.Write([]string{t.Name, t.Date, t.Team, w.d.Tasks[j.Task].Name, people, w.at(t, from), w.at(t, to), note})
		}
		if len(j.Stints) == 0 {
			row("", j.Start, j.End, noteOf(&j, called))
		}
		for i, s := range j.Stints {
			note := ""
			if i == 0 {
				note = noteOf(&j, called)
			}
			row(w.names(s.People), s.From, s.To, note)
		}
	}
	for _, m := range t.Moments {
		w.csv.Write([]string{t.Name, t.Date, t.Team, w.d.Milestones[m.Milestone].Name, "", "", w.at(t, m.At), ""})
	}
}

func noteOf(j *timed.Job, called bool) string {
	var parts []string
	if j.Unfinished {
		parts = append(parts, "unfinished")
	}
	if j.Mishaps > 0 {
		note := "mishap"
		if j.Mishaps > 1 {
			note = fmt.Sprintf("%d mishaps", j.Mishaps)
		}
		if j.MishapTime != sim.Never {
			note += " " + sinceText(j.MishapTime)
		}
		parts = append(parts, note)
	}
	if called {
		parts = append(parts, "called off")
	}
	return strings.Join(parts, " | ")
}

// names lists people; several without names are their number.
func (w *writer) names(people []int) string {
	var names []string
	for _, who := range people {
		if who >= 0 {
			names = append(names, w.d.People[who].Name)
		}
	}
	if len(names) == 0 {
		return strconv.Itoa(len(people))
	}
	return strings.Join(names, " + ")
}

func (w *writer) at(t *timed.Drill, at sim.Time) string {
	switch {
	case at == sim.Never:
		return ""
	case t.Arrival == sim.Never:
		return sinceText(at)
	}
	s := int64((t.Arrival + at + sim.Second/2) / sim.Second % (24 * 3600))
	if s%60 == 0 {
		return fmt.Sprintf("%02d:%02d", s/3600, s/60%60)
	}
	return fmt.Sprintf("%02d:%02d:%02d", s/3600, s/60%60, s%60)
}

func sinceText(t sim.Time) string {
	s := int64((t + sim.Second/2) / sim.Second)
	switch {
	case s%60 == 0:
		return fmt.Sprintf("%d min", s/60)
	case s < 60:
		return fmt.Sprintf("%d s", s)
	}
	return fmt.Sprintf("%dmin%ds", s/60, s%60)
}

func (w *writer) conditions(t *timed.Drill) {
	c := t.Conditions
	row := []string{
		t.Name, t.Date, t.Team, "", t.Order, withUnit(c.Air, 0, "C"), withUnit(c.Wind, 0, "m/s"),
		answers[c.Dark], answers[c.Indoor], answers[c.Learning], "", "", "", "",
	}
	if t.Arrival != sim.Never {
		row[3] = w.at(t, 0)
	}
	if len(t.Stoves) == 0 {
		w.csv.Write(row)
	}
	for _, s := range t.Stoves {
		unit := "L"
		if w.d.Stoves[s.Stove].FuelByMass {
			unit = "kg"
		}
		full := math.Ceil(s.Fuel + 0.5)
		after := full - s.Fuel
		row[10], row[11], row[12], row[13] = w.d.Stoves[s.Stove].Name, withUnit(&full, 2, unit), withUnit(&after, 2, unit), withUnit(&s.Water, 1, "L")
		if s.Fuel == 0 {
			row[11], row[12] = "", ""
		}
		w.csv.Write(row)
	}
}

var answers = [...]string{timed.Unknown: "", timed.No: "no", timed.Yes: "yes"}

func withUnit(v *float64, digits int, unit string) string {
	if v == nil {
		return ""
	}
	return decimal(*v, digits) + " " + unit
}

func decimal(v float64, digits int) string {
	text := strconv.FormatFloat(v, 'f', digits, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}
