package report

import (
	"fmt"

	"warmby/plots"
	"warmby/sim"
	"warmby/sim/split"
	"warmby/sim/stats"
)

// Drawing draws the milestone against the size of the team, a line for each kind
// of split.
func (s Splits) Drawing() *plots.Picture {
	m := s.milestone()
	in := plots.SweepInput{
		Title: capital(m.Name) + ": how much sooner with more people?", Lead: s.Drill.Title, Milestone: m.Name,
		By: m.By, ByText: m.ByText, Arrival: s.Drill.Site.Arrival, Measure: s.drawnMeasure(), Interval: "95 % interval of the mean", Foot: s.foot(),
	}
	if s.usual() {
		in.Interval = ""
	} else {
		in.Partly = true // there is no mean where some run never comes
	}
	people := plots.SweepKey{Name: "people"}
	for _, size := range s.Sizes {
		people.Values = append(people.Values, float64(size.People))
	}
	in.Keys = []plots.SweepKey{people}
	for _, form := range split.Forms(s.Sizes) {
		line := plots.SweepLine{Order: s.form(form)}
		for _, size := range s.Sizes {
			line.Estimates = append(line.Estimates, s.estimate(size.Of(form)))
		}
		in.Lines = append(in.Lines, line)
	}
	return plots.Sweep(in)
}

func (s Splits) drawnMeasure() string {
	if s.usual() {
		return "usual time"
	}
	return "mean"
}

// estimate is the mean of a split; nil is one that cannot be played.
func (s Splits) estimate(one *split.Split) plots.Estimate {
	e := plots.Estimate{Value: sim.Never, High: sim.Never, NotPlayed: one == nil}
	if one == nil {
		return e
	}
	if mean := one.Mean(s.Game.Milestone); mean.OK() {
		e.Value = millis(mean.Value)
		e.Low, e.High = ends(mean)
	}
	return e
}

// ends are the ends of an interval; a single run has none.
func ends(m stats.Mean) (low, high sim.Time) {
	if m.Runs > 1 {
		return millis(m.Low), millis(m.High)
	}
	return millis(m.Value), millis(m.Value)
}

func (s Splits) foot() string {
	luck := "Usual values only, no drawn runs"
	if !s.usual() {
		luck = fmt.Sprintf("%s of each, seed %d", Count{s.Game.Runs, "run"}.Write(Full), s.Game.Seed)
	}
	return luck + ". Played by: " + s.Repeat
}
