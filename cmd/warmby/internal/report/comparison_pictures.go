package report

import (
	"fmt"
	"math"

	"warmby/plots"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// foot stands under every picture.
func (c Comparison) foot() string {
	return fmt.Sprintf("%s, seed %d. Played by: %s", Count{c.Runs, "run"}.Write(Full), c.Seed, c.Repeat)
}

// OddsDrawing draws the odds of the milestones that it is about under every
// order, as the scenario stands.
func (c Comparison) OddsDrawing() *plots.Picture {
	in := plots.OddsInput{
		Title: "When, with which order?", Lead: c.Drill.Title, Arrival: c.Drill.Site.Arrival, Light: c.Drill.Light, Many: c.site().Many, Foot: c.foot(),
	}
	for _, m := range c.Primary {
		milestone := c.Drill.Milestones[m]
		om := plots.OddsMilestone{Name: milestone.Name, By: milestone.By, ByText: milestone.ByText}
		for _, p := range c.AsIs.Played {
			om.Orders = append(om.Orders, plots.OddsOrder{Name: p.Drill.Order, Times: p.Times[m]})
		}
		in.Milestones = append(in.Milestones, om)
	}
	return plots.Odds(in)
}

// DifferencesDrawing draws every order against every other at every milestone.
func (c Comparison) DifferencesDrawing() *plots.Picture {
	in := plots.DifferencesInput{Title: "Which order is ahead, and by how much?", Lead: c.Drill.Title, Foot: c.foot()}
	for m, milestone := range c.Drill.Milestones {
		group := plots.DifferenceGroup{Name: milestone.Name}
		for _, p := range c.AsIs.Matches[m] {
			if p.Diff.Mean.Value > 0 { // the one that is sooner first
				p = p.Turned()
			}
			mean := p.Diff.Mean
			group.Rows = append(group.Rows, plots.Difference{
				A: c.AsIs.Played[p.A].Drill.Order, B: c.AsIs.Played[p.B].Drill.Order, Mean: mean.Value, Low: mean.Low, High: mean.High,
				Why: mean.Why, Exploratory: p.Exploratory,
			})
		}
		in.Groups = append(in.Groups, group)
	}
	return plots.Differences(in)
}

// drawnMovers is how many tasks of each milestone a picture shows.
const drawnMovers = 8

// MovesDrawing draws what moves each milestone that it is about, under the order
// that is soonest there.
func (c Comparison) MovesDrawing() *plots.Picture {
	in := plots.MovesInput{Title: "What to shorten first?", Foot: c.foot(),
		Lead: c.Drill.Title + ". " + fmt.Sprintf("Of each milestone the %d tasks that most often hold it up, with the order that is soonest there.", drawnMovers)}
	for k, m := range c.Primary {
		order := c.AsIs.Ranking(m)[0]
		group := plots.MovesGroup{Name: c.Drill.Milestones[m].Name}
		if c.AsIs.Played[order].Drill.Order != "" {
			group.Name += " (" + c.AsIs.order(order) + ")"
		}
		for _, v := range compare.TopMovers(c.Moves[order].Milestones[k], drawnMovers) {
			group.Tasks = append(group.Tasks, plots.Mover{
				Task: c.Drill.Tasks[v.Task].Name, Won: wonIn(v.PerMinute), Low: v.PerMinute.Low, High: v.PerMinute.High,
				Why: v.PerMinute.Why, Critical: v.Critical.Value,
			})
		}
		in.Groups = append(in.Groups, group)
	}
	return plots.Moves(in)
}

// wonIn is what a minute less wins; NaN when that is not known.
func wonIn(r stats.Ratio) float64 {
	if !r.OK() {
		return math.NaN()
	}
	return r.Value
}
