package report

import (
	"cmp"
	"fmt"
	"math"
	"time"

	"warmby/plots"
	"warmby/sim"
	"warmby/sim/halt"
	"warmby/sim/stats"
)

// Drawing draws the odds against the arrival: of every milestone; of several
// cases or orders, of the one asked about, a line for each case under the first
// order, or for each order.
func (h Halts) Drawing() *plots.Picture {
	in := plots.HaltOddsInput{
		Title: h.question() + " " + h.title(), Lead: h.drawnLead(), Odds: h.first().Odds, Many: h.site().Many, Dark: h.dark(), Foot: h.foot(),
	}
	for i := range h.Arrivals {
		in.Arrivals = append(in.Arrivals, h.clock(i))
	}
	if h.Runs == 0 {
		in.Odds, in.Usual = 0, true // not a matter of odds: no line for them
	}
	latest := h.latestOfAll(0)
	byOrder := len(h.Cases) == 1 && len(h.Cases[0].Orders) > 1 // each has its own latest
	if latest >= 0 && !byOrder {
		in.Latest = in.Arrivals[latest]
	}
	in.Milestones = h.curves()
	return plots.HaltOdds(in)
}

func (h Halts) latestOfAll(order int) int { return halt.LatestOfAll(h.under(order)) }

// clock is an arrival tried.
func (h Halts) clock(i int) time.Time {
	return h.Drill.Site.Arrival.Add(time.Duration(h.Arrivals[i]) * time.Millisecond)
}

func (h Halts) foot() string {
	luck := "Usual values only, no drawn runs"
	if h.Runs > 0 {
		luck = fmt.Sprintf("%s of each, seed %d", Count{h.Runs, "run"}.Write(Full), h.Seed)
	}
	return luck + ". Played by: " + h.Repeat
}

// drawnLead says what the picture shows.
func (h Halts) drawnLead() string {
	wanted := "All well"
	if !h.first().AllWell {
		wanted = capital(h.asked().Name) + " " + targetWords(h.asked())
	}
	switch {
	case len(h.Cases) > 1:
		return wanted + ", by case, " + orderName(h.Drill.Order) + "; the arrival marked is the latest for all"
	case h.several():
		return wanted + ", by order"
	}
	return h.answer().Write(People)
}

// curves are the lines of the picture.
func (h Halts) curves() (list []plots.HaltMilestone) {
	switch {
	case len(h.Cases) > 1:
		for i, c := range h.Cases {
			list = append(list, plots.HaltMilestone{Name: c.Name, Asked: i == 0, Odds: h.curve(c.Orders[0], c.Orders[0].ShareOf)})
		}
	case h.several():
		for i, o := range h.Cases[0].Orders {
			list = append(list, plots.HaltMilestone{Name: cmp.Or(o.Order, "file order"), Asked: i == 0, Odds: h.curve(o, o.ShareOf)})
		}
	default:
		if h.first().AllWell {
			list = append(list, plots.HaltMilestone{Name: "all well", Asked: true, Odds: h.curve(h.first(), h.first().ShareOf)})
		}
		for _, m := range h.timedInOrder() {
			milestone := h.Drill.Milestones[m]
			inTime := func(p halt.Point) *stats.Share { return p.OnTime[m] }
			list = append(list, plots.HaltMilestone{Name: milestone.Name + " " + targetWords(milestone), Asked: !h.first().AllWell && m == h.first().Milestone, Odds: h.curve(h.first(), inTime)})
		}
	}
	return list
}

// timedInOrder lists the milestones with a target in the sequence of the file.
func (h Halts) timedInOrder() (list []int) {
	for m, milestone := range h.Drill.Milestones {
		if HasTarget(milestone) {
			list = append(list, m)
		}
	}
	return list
}

// curve is the odds of something at every arrival; not a number where there is no
// target.
func (h Halts) curve(o Halting, share func(p halt.Point) *stats.Share) (list []plots.Odd) {
	for _, p := range o.Points {
		s := share(p)
		switch {
		case s == nil:
			list = append(list, plots.Odd{Share: math.NaN(), Low: math.NaN(), High: math.NaN()})
		case h.Runs == 0: // in time or not, without an interval
			list = append(list, plots.Odd{Share: s.Value, Low: s.Value, High: s.Value})
		default:
			list = append(list, plots.Odd{Share: s.Value, Low: s.Low, High: s.High})
		}
	}
	return list
}

// dark returns when it is dark between the first arrival and the last.
func (h Halts) dark() (spans []plots.ClockSpan) {
	first, last := h.first().Points[0].Drill, h.clock(len(h.Arrivals)-1)
	at := func(t sim.Time) time.Time { return first.Site.Arrival.Add(time.Duration(t) * time.Millisecond) }
	for i, l := range first.Light {
		if !l.Dark || at(l.At).After(last) {
			continue
		}
		to := last
		if i+1 < len(first.Light) && at(first.Light[i+1].At).Before(last) {
			to = at(first.Light[i+1].At)
		}
		spans = append(spans, plots.ClockSpan{From: at(l.At), To: to})
	}
	return spans
}
