package plots

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
)

// DifferencesInput is how far some orders are ahead of others under the same
// luck.
type DifferencesInput struct {
	Title, Lead string
	Groups      []DifferenceGroup
	Foot        string // seed and the command that repeats it; may be empty
}

// DifferenceGroup is the differences at one milestone.
type DifferenceGroup struct {
	Name string
	Rows []Difference
}

// Difference is one order held against another, run by run.
type Difference struct {
	A, B string // or what else is held against what; B may be empty
	// Milliseconds: A less B, below 0 when A is sooner, with the interval, whose
	// ends may be infinite. NaN when there is no mean; Why says why not then.
	Mean, Low, High float64
	Why             string
	Exploratory     bool // not among those that hold together: a hollow dot
}

// Differences draws paired differences as dots with their intervals about 0,
// in minutes, the soonest of each milestone first.
func Differences(in DifferencesInput) *Picture {
	c := newChart(in.Title, in.Lead)
	p := &dotPlot{unit: "minutes", below: "sooner", over: "later"}
	full, hollow := false, false
	for _, g := range in.Groups {
		rows := slices.Clone(g.Rows)
		slices.SortStableFunc(rows, func(a, b Difference) int { return cmp.Compare(last(a.Mean), last(b.Mean)) })
		group := dotGroup{name: clean(g.Name)}
		for _, r := range rows {
			full, hollow = full || !r.Exploratory, hollow || r.Exploratory
			group.rows = append(group.rows, r.row())
		}
		p.groups = append(p.groups, group)
	}
	p.draw(c)
	if full || hollow {
		items := keyDots("mean and interval; those of full dots hold together with 95 %", "exploratory: each interval holds alone with 95 %")
		switch {
		case !hollow:
			items = items[:1]
		case !full:
			items = items[1:]
		}
		c.key = append(c.key, items...)
	}
	return c.finish("Both orders of a row meet the same luck in every run. An interval that holds 0 leaves open which is sooner.", in.Foot)
}

// last puts what is not known behind everything else.
func last(v float64) float64 {
	if math.IsNaN(v) {
		return math.Inf(1)
	}
	return v
}

const milliseconds = 60000.0 // in a minute

func (d *Difference) row() dotRow {
	name := clean(d.A)
	if d.B != "" {
		name += " instead of " + clean(d.B)
	}
	r := dotRow{name: name, mid: d.Mean / milliseconds, low: d.Low / milliseconds, high: d.High / milliseconds, hollow: d.Exploratory}
	if math.IsNaN(d.Mean) || math.IsInf(d.Mean, 0) {
		r.mid = math.NaN()
		r.said = clean(d.Why)
		return r
	}
	r.said = sooner(r.mid) + " (" + between(r.low, r.high) + ")"
	return r
}

// sooner writes a difference in minutes.
func sooner(minutes float64) string {
	switch text := tenths(math.Abs(minutes)); {
	case text == "0":
		return "no difference"
	case minutes < 0:
		return text + " min sooner"
	default:
		return text + " min later"
	}
}

// between writes an interval in minutes.
func between(low, high float64) string {
	side := func(v float64) string {
		if v < 0 {
			return tenths(-v) + " sooner"
		}
		return tenths(v) + " later"
	}
	switch {
	case math.IsInf(low, 0) || math.IsInf(high, 0) || math.IsNaN(low) || math.IsNaN(high):
		return "too few runs to bound it"
	case high <= 0:
		return fmt.Sprintf("%s to %s", tenths(-high), tenths(-low))
	case low >= 0:
		return fmt.Sprintf("%s to %s", tenths(low), tenths(high))
	}
	return side(low) + " to " + side(high)
}

// tenths writes a number of minutes, with a decimal under 100.
func tenths(v float64) string {
	if math.Abs(v) >= 100 {
		return minus(strconv.FormatFloat(v, 'f', 0, 64))
	}
	return number(v)
}
