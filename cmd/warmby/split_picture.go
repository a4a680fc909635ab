package main

import (
	"warmby/plots"
	"warmby/sim"
	"warmby/sim/split"
)

// picture draws the milestone against the size of the team, a line for each
// kind of split.
func (s *splitting) picture() *plots.Picture {
	m := s.milestone()
	in := plots.SweepInput{
		Title: sentenceCase(m.Name) + ": how much sooner with more people?", Lead: s.d.Title, Milestone: m.Name,
		By: m.By, ByText: m.ByText, Arrival: s.d.Site.Arrival, Measure: s.measure(), Interval: "95 % interval of the mean",
		Foot: sentenceCase(s.flags.withRuns("of each")) + ". Played by: " + s.repeat(),
	}
	if s.flags.usual() {
		in.Interval = ""
	} else {
		in.Partly = true // there is no mean where some run never comes
	}
	people := plots.SweepKey{Name: "people"}
	for _, size := range s.sizes {
		people.Values = append(people.Values, float64(size.People))
	}
	in.Keys = []plots.SweepKey{people}
	for _, form := range split.Forms(s.sizes) {
		line := plots.SweepLine{Order: formWords(form)}
		for _, size := range s.sizes {
			e := plots.Estimate{Value: sim.Never, High: sim.Never, NotPlayed: true}
			if one := size.Of(form); one != nil {
				e.NotPlayed = false
				if mean := one.Mean(s.game.Milestone); mean.OK() {
					e.Value = wholeMillis(mean.Value)
					e.Low, e.High = e.Value, e.Value
					if mean.Runs > 1 {
						e.Low, e.High = wholeMillis(mean.Low), wholeMillis(mean.High)
					}
				}
			}
			line.Estimates = append(line.Estimates, e)
		}
		in.Lines = append(in.Lines, line)
	}
	return plots.Sweep(in)
}
