package stopwatch

import (
	"fmt"
	"slices"
	"strconv"
	"time"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/timed"
)

// conditions reads a row of what it was like. Values of a drill that stand twice
// must be the same.
func (r *reader) conditions(f *file, d *drill) {
	if m, ok := f.moment("arrival"); ok && m.set {
		switch {
		case !m.clock:
			f.wrongCell("arrival", "must be a clock time, got "+quote(f.cell("arrival")), "such as 14:55")
		case d.arrival.set && d.arrival != m:
			f.wrongCell("arrival", fmt.Sprintf("drill %s has two arrivals", quote(d.Name)), "")
		default:
			d.arrival = m
		}
	}
	r.order(f, d)
	c := &d.Conditions
	f.number(&c.Air, "air", scenarios.Temperature, -90, 50)
	f.number(&c.Wind, "wind", scenarios.Speed, 0, 100)
	f.answer(&c.Dark, "dark")
	f.answer(&c.Indoor, "indoor")
	f.answer(&c.Learning, "learning")
	r.stove(f, d)
	if n, ok := f.note(); ok && n.calledOff {
		d.CalledOff = true
	}
}

func (r *reader) order(f *file, d *drill) {
	text := f.cell("order")
	if text == "" {
		return
	}
	names := r.s.Orders()
	at := slices.IndexFunc(names, func(o string) bool { return fold(o) == fold(text) })
	if at < 0 {
		f.wrongCell("order", "the scenario has no order "+quote(text), scenarios.NameHint(text, names))
		return
	}
	d.Order = names[at]
}

// number reads a quantity into a condition that may be known already.
func (f *file) number(into **float64, column string, m scenarios.Measure, low, high float64) {
	v := f.measure(column, m)
	switch {
	case v == nil:
	case *v < low || *v > high:
		f.wrongCell(column, fmt.Sprintf("must lie from %g to %g, got %s", low, high, quote(f.cell(column))), "")
	case *into != nil && **into != *v:
		f.wrongCell(column, "the drill has two values of "+column, "")
	default:
		*into = v
	}
}

func (f *file) answer(into *timed.Answer, column string) {
	var a timed.Answer
	switch fold(f.cell(column)) {
	case "":
		return
	case "yes", "y", "1", "true":
		a = timed.Yes
	case "no", "n", "0", "false":
		a = timed.No
	default:
		f.wrongCell(column, "must be yes or no, got "+quote(f.cell(column)), "")
		return
	}
	if *into != timed.Unknown && *into != a {
		f.wrongCell(column, "the drill has two values of "+column, "")
	}
	*into = a
}

// stove reads what a stove burnt and melted.
func (r *reader) stove(f *file, d *drill) {
	name := f.cell("stove")
	fuelled := f.cell("fuel before") != "" || f.cell("fuel after") != "" || f.cell("water melted") != ""
	if name == "" {
		if fuelled && len(r.d.Stoves) != 1 {
			f.wrongCell("fuel before", "which stove is not said", "add a column stove")
			return
		} else if !fuelled {
			return
		}
		name = r.d.Stoves[0].Name
	}
	var names []string
	at := -1
	for i, s := range r.d.Stoves {
		if names = append(names, s.Name); fold(s.Name) == fold(name) {
			at = i
		}
	}
	if at < 0 {
		f.wrongCell("stove", "the scenario has no stove "+quote(name), scenarios.NameHint(name, names))
		return
	}
	if d.stoves[at] {
		f.wrongCell("stove", "the stove "+quote(name)+" stands twice in drill "+quote(d.Name), "")
		return
	}
	d.stoves[at] = true
	r.fuel(f, d, at)
}

func (r *reader) fuel(f *file, d *drill, stove int) {
	u := timed.StoveUse{Stove: stove}
	unit := scenarios.Volume
	if r.d.Stoves[stove].FuelByMass {
		unit = scenarios.Weight
	}
	before, after := f.measure("fuel before", unit), f.measure("fuel after", unit)
	switch {
	case before != nil && after != nil && *after > *before:
		f.wrongCell("fuel after", "there is more fuel after than before", "")
		return
	case before != nil && after != nil:
		u.Fuel = *before - *after
	case before != nil || after != nil:
		f.remark("fuel before", "fuel needs a value before and one after; left out")
	}
	if w := f.measure("water melted", scenarios.Volume); w != nil {
		if *w < 0 {
			f.wrongCell("water melted", "must not be negative, got "+quote(f.cell("water melted")), "")
			return
		}
		u.Water = *w
	}
	if u.Fuel > 0 || u.Water > 0 {
		d.Stoves = append(d.Stoves, u)
	}
}

// senses are the words of the scale of cold.
var senses = map[string]float64{"neutral": 0, "slightly cool": -1, "cool": -2, "cold": -3, "very cold": -4}

// felt reads a row of how cold somebody felt.
func (r *reader) felt(f *file, d *drill) {
	w := r.crew(f)
	if len(w) != 1 || w[0] < 0 {
		f.wrongCell("person", "must be one person of the scenario, got "+quote(f.cell("person")), "")
		return
	}
	m, ok := f.moment("at")
	if !ok || !m.set {
		if ok {
			f.wrongCell("at", "is missing", "")
		}
		return
	}
	sense, known := senses[fold(f.cell("felt"))]
	if !known {
		v, err := strconv.ParseFloat(f.decimal(f.cell("felt")), 64)
		if err != nil || !(v >= -4 && v <= 4) {
			f.wrongCell("felt", "must be 0 (neutral) to -4 (very cold), got "+quote(f.cell("felt")), "")
			return
		}
		sense = v
	}
	_, col := f.csv.FieldPos(f.columns["at"])
	d.felt = append(d.felt, feltRow{w[0], m, sense, f, f.line, col})
}

// evening lays a drill beside that of the scenario. Drills under the same order
// and conditions share it.
func (r *reader) evening(d *drill) (timed.Evening, error) {
	key := asPlayed{d.Order, d.Date, d.arrival, d.Conditions.Dark, d.Conditions.Indoor, number(d.Conditions.Air), number(d.Conditions.Wind)}
	of, ok := r.played[key]
	if !ok {
		plain, err := r.arriving(d)
		if err != nil {
			return timed.Evening{}, err
		}
		of = d.Conditions.Over(plain)
		r.played[key] = of
	}
	return timed.Evening{Timed: &d.Drill, Drill: of}, nil
}

// asPlayed is what decides what is played of a drill.
type asPlayed struct {
	order, date  string
	arrival      moment
	dark, indoor timed.Answer
	air, wind    float64
}

// number returns a value that may be unknown, as one that no air or wind has.
func number(v *float64) float64 {
	if v == nil {
		return -1e9
	}
	return *v
}

func (r *reader) arriving(d *drill) (*sim.Drill, error) {
	at := r.d.Site.Arrival
	if !d.arrival.set || at.IsZero() {
		return r.s.Drill(d.Order)
	}
	day := at.Format(time.DateOnly)
	if d.Date != "" {
		day = d.Date
	}
	when, err := time.ParseInLocation(time.DateOnly, day, at.Location())
	if err != nil {
		return nil, err
	}
	return r.s.Arriving(d.Order, when.Add(time.Duration(d.arrival.at)*time.Millisecond))
}
