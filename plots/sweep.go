package plots

import (
	"math"
	"slices"
	"strings"
	"time"

	"warmby/sim"
)

// SweepInput is when a milestone is reached while one or two keys of a
// scenario are varied.
type SweepInput struct {
	Title, Lead string
	Milestone   string
	By          sim.Time    // the target; sim.Never for none
	ByText      string      // the target in words; written as a time when empty
	Arrival     time.Time   // time 0 on the clock; zero when unknown
	Measure     string      // what an estimate is: "mean", "9 of 10 evenings by"
	Interval    string      // what its ends are: "95 % interval of the mean"
	Partly      bool        // an estimate is missing where the milestone is reached in part of the runs, too
	Keys        []SweepKey  // one or two
	Lines       []SweepLine // one for each order
	Foot        string      // seed and the command that repeats it; may be empty
}

// SweepKey is a key that was varied.
type SweepKey struct {
	Name, Unit string    // Unit may be empty
	Values     []float64 // finite, rising
	Words      []string  // stand for the values, evenly apart, when there are any
}

// SweepLine is what came out under one order: an estimate for each value of
// the key; of two keys for each value of the first, and within it for each of
// the second.
type SweepLine struct {
	Order     string
	Estimates []Estimate
}

// Estimate is a moment with its interval. Value is sim.Never where there is
// none; Low is 0 and High sim.Never where that end cannot be told.
type Estimate struct {
	Value, Low, High sim.Time
	NotPlayed        bool // no run was played here; the rest does not count
}

// missing reports whether runs were played and there is no estimate all the same.
func (e Estimate) missing() bool { return !e.NotPlayed && e.Value == sim.Never }

// Sweep draws a milestone over the values of a varied key, as lines with their
// bands, one for each order; over two varied keys, as one map for each order
// with the minutes written in its cells.
func Sweep(in SweepInput) *Picture {
	c := newChart(in.Title, in.Lead)
	switch {
	case len(in.Keys) == 0 || in.Keys[0].count() == 0 || len(in.Keys) > 1 && in.Keys[1].count() == 0:
		return c.finish("Nothing to show: no key was varied.", in.Foot)
	case len(in.Keys) > 1:
		in.maps(c)
	default:
		in.lines(c)
	}
	return c.finish(in.explained(), in.Foot)
}

// explained says what is drawn.
func (in *SweepInput) explained() string {
	text := ""
	if m := clean(in.Measure); m != "" {
		text = "Drawn: " + m + "."
	}
	if i := clean(in.Interval); i != "" && len(in.Keys) == 1 {
		text += " Hatched: " + i + "."
	}
	what := " Never reached "
	if in.Partly {
		what = " None, since the milestone is not reached in every run, "
	}
	if where := in.where(Estimate.missing); where != "" {
		text += what + where + " (rings)."
	}
	if where := in.where(func(e Estimate) bool { return e.NotPlayed }); where != "" {
		text += " Not played " + where + "."
	}
	return strings.TrimSpace(text)
}

// marked returns a name in quotation marks, which it may have already.
func marked(name string) string {
	if strings.HasPrefix(name, `"`) {
		return name
	}
	return "“" + name + "”"
}

// where says, of a single key, under which orders and at which values estimates
// are of a kind; "" for nowhere.
func (in *SweepInput) where(is func(Estimate) bool) string {
	if len(in.Keys) > 1 {
		return ""
	}
	var where []string
	for i := range in.Lines {
		l := &in.Lines[i]
		var values []string
		for k := range min(len(l.Estimates), in.Keys[0].count()) {
			if is(l.Estimates[k]) {
				values = append(values, in.Keys[0].text(k))
			}
		}
		if len(values) == 0 {
			continue
		}
		under := "at "
		if name := clean(l.Order); name != "" {
			under = "with " + marked(name) + " at "
		}
		where = append(where, under+strings.Join(values, ", "))
	}
	return strings.Join(where, "; ")
}

// missing is what stands where there is no estimate.
func (in *SweepInput) missing() string {
	if in.Partly {
		return "none"
	}
	return "never"
}

func (k *SweepKey) count() int {
	if len(k.Words) > 0 {
		return len(k.Words)
	}
	return len(k.Values)
}

// text writes the value of a rank.
func (k *SweepKey) text(i int) string {
	if len(k.Words) > 0 {
		return clean(k.Words[i])
	}
	return plainNumber(k.Values[i])
}

// heading is the name of a key with its unit.
func (k *SweepKey) heading() string {
	if k.Unit == "" {
		return clean(k.Name)
	}
	return clean(k.Name) + ", " + clean(k.Unit)
}

const sweepHigh = 330.0

// lines draws the sweep of one key.
func (in *SweepInput) lines(c *chart) {
	key := &in.Keys[0]
	f := &timeFrame{area: rect{margin + 46, c.y + 24, right - 46, c.y + 24 + sweepHigh}, arrival: in.Arrival}
	f.by(in.By, in.ByText)
	var values []float64
	for i := range key.count() {
		values = append(values, key.place(i))
	}
	if slices.ContainsFunc(values, func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) }) {
		panic("plots: a value of " + key.Name + " is not finite")
	}
	for i := range in.Lines {
		l := &in.Lines[i]
		n := min(len(values), len(l.Estimates))
		f.lines = append(f.lines, timeLine{lineLooks[i%len(lineLooks)], clean(l.Order), values[:n], l.Estimates[:n]})
	}
	f.head, f.missing = clean(in.Milestone), in.missing()
	f.draw(c, values, key)
}

// place is where the value of a rank stands on the axis of a key.
func (k *SweepKey) place(i int) float64 {
	if len(k.Words) > 0 {
		return float64(i)
	}
	return k.Values[i]
}

// TimeByTeamInput is when a milestone is reached by teams of different sizes.
type TimeByTeamInput struct {
	Title, Lead       string
	Milestone         string
	By                sim.Time // the target; sim.Never for none
	ByText            string   // the target in words; written as a time when empty
	Arrival           time.Time
	Measure, Interval string // as in SweepInput
	People            []int  // the sizes, rising
	Lines             []SweepLine
	Foot              string
}

// TimeByTeam draws when a milestone is reached against the number of people,
// as lines with their bands, one for each order.
func TimeByTeam(in TimeByTeamInput) *Picture {
	key := SweepKey{Name: "people in the team"}
	for _, n := range in.People {
		key.Values = append(key.Values, float64(n))
	}
	return Sweep(SweepInput{Title: in.Title, Lead: in.Lead, Milestone: in.Milestone, By: in.By, ByText: in.ByText, Arrival: in.Arrival,
		Measure: in.Measure, Interval: in.Interval, Keys: []SweepKey{key}, Lines: slices.Clone(in.Lines), Foot: in.Foot})
}
