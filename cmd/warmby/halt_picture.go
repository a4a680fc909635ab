package main

import (
	"time"

	"warmby/plots"
	"warmby/sim"
)

// pictureInput is a picture of the odds of every milestone with a target
// against the arrival.
func (h *halting) pictureInput() plots.HaltOddsInput {
	in := plots.HaltOddsInput{
		Title: h.d.Title, Lead: h.sentences()[0], Odds: h.Odds, Arrivals: h.arrivals, Many: occasions(h.d), Dark: h.dark(),
		Foot: sentenceCase(h.runsWords()) + ". Played by: " + h.repeat(),
	}
	if h.runs == 0 {
		in.Odds, in.Usual = 0, true // not a matter of odds: no line for them
	}
	if i := h.Latest(); i >= 0 {
		in.Latest = h.arrivals[i]
	}
	for m, milestone := range h.d.Milestones {
		if milestone.ByText == "" {
			continue
		}
		line := h.oddsLine(m)
		line.Name, line.Asked = milestone.Name+" "+targetWords(milestone), m == h.Milestone
		in.Milestones = append(in.Milestones, line)
	}
	return in
}

// oddsLine returns the odds of a milestone at every arrival.
func (h *halting) oddsLine(m int) plots.HaltMilestone {
	var line plots.HaltMilestone
	for _, p := range h.Points {
		s := *p.OnTime[m]
		if h.runs == 0 { // in time or not, without an interval
			s.Low, s.High = s.Value, s.Value
		}
		line.Odds = append(line.Odds, plots.Odd{Share: s.Value, Low: s.Low, High: s.High})
	}
	return line
}

// dark returns when it is dark between the first arrival and the last.
func (h *halting) dark() []plots.ClockSpan {
	first, last := h.Points[0].Drill, h.arrivals[len(h.arrivals)-1]
	at := func(t sim.Time) time.Time { return first.Site.Arrival.Add(milliseconds(t)) }
	var spans []plots.ClockSpan
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
