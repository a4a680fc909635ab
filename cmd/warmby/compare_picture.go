package main

import (
	"fmt"
	"math"
	"slices"

	"warmby/plots"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// comparePictures is what pictures of a comparison are asked for: files of the
// odds, of the differences and of what moves it.
type comparePictures struct{ odds, differences, moves []string }

func (p *comparePictures) all() []string {
	return append(append(append([]string(nil), p.odds...), p.differences...), p.moves...)
}

// writeComparison writes the pictures of a comparison.
func (e *environment) writeComparison(c *comparison) error {
	for _, p := range []struct {
		paths []string
		draw  func() *plots.Picture
	}{
		{c.flags.pictures.odds, func() *plots.Picture { return plots.Odds(c.oddsPicture()) }},
		{c.flags.pictures.differences, func() *plots.Picture { return plots.Differences(c.differencesPicture()) }},
		{c.flags.pictures.moves, func() *plots.Picture { return plots.Moves(c.movesPicture()) }},
	} {
		if len(p.paths) == 0 {
			continue
		}
		if err := e.writePicture(p.draw(), p.paths, c.flags.force); err != nil {
			return err
		}
	}
	return nil
}

// foot stands under every picture.
func (c *comparison) foot() string {
	return fmt.Sprintf("%s, seed %d. Played by: %s", counted(c.flags.runs, "run"), c.flags.seed, c.repeat())
}

// oddsPicture is what a picture of the odds shows: the primary milestones under
// every order, as the scenario is.
func (c *comparison) oddsPicture() plots.OddsInput {
	in := plots.OddsInput{
		Title: c.d.Title, Arrival: c.d.Site.Arrival, Light: c.d.Light, Many: occasions(c.d),
		Foot: c.foot(),
	}
	for _, m := range c.primary {
		milestone := c.d.Milestones[m]
		om := plots.OddsMilestone{Name: milestone.Name, By: milestone.By, ByText: milestone.ByText}
		for i, p := range c.asIs.played {
			om.Orders = append(om.Orders, plots.OddsOrder{Name: c.asIs.orders[i], Times: p.Times[m]})
		}
		in.Milestones = append(in.Milestones, om)
	}
	return in
}

// differencesPicture shows every order against every other at every milestone.
func (c *comparison) differencesPicture() plots.DifferencesInput {
	in := plots.DifferencesInput{Title: c.d.Title, Foot: c.foot()}
	for m, milestone := range c.d.Milestones {
		group := plots.DifferenceGroup{Name: milestone.Name}
		for _, p := range c.asIs.Matches[m] {
			mean := p.Diff.Mean
			if mean.Value > 0 { // the one that is sooner first
				p = p.Turned()
				mean = p.Diff.Mean
			}
			group.Rows = append(group.Rows, plots.Difference{
				A: c.asIs.orders[p.A], B: c.asIs.orders[p.B], Mean: mean.Value, Low: mean.Low, High: mean.High,
				Why: mean.Why, Exploratory: p.Exploratory,
			})
		}
		in.Groups = append(in.Groups, group)
	}
	return in
}

// drawnMovers is how many tasks of each milestone a picture shows.
const drawnMovers = 8

// movesPicture shows what moves each primary milestone under the order that is
// soonest there.
func (c *comparison) movesPicture() plots.MovesInput {
	in := plots.MovesInput{Title: c.d.Title, Foot: c.foot(),
		Lead: fmt.Sprintf("Of each milestone the %d tasks that most often hold it up, under the order that is soonest there.", drawnMovers)}
	for k, m := range c.primary {
		order := c.asIs.Ranking(m)[0]
		group := plots.MovesGroup{Name: c.d.Milestones[m].Name}
		if c.asIs.orders[order] != "" {
			group.Name += " (" + c.asIs.orders[order] + ")"
		}
		for _, v := range compare.TopMovers(c.moves[order].Milestones[k], drawnMovers) {
			group.Tasks = append(group.Tasks, plots.Mover{
				Task: c.d.Tasks[v.Task].Name, Won: wonIn(v.PerMinute), Low: v.PerMinute.Low, High: v.PerMinute.High,
				Why: v.PerMinute.Why, Critical: v.Critical.Value,
			})
		}
		in.Groups = append(in.Groups, group)
	}
	return in
}

// wonIn is what a minute less wins; NaN when that is not known.
func wonIn(r stats.Ratio) float64 {
	if !r.OK() {
		return math.NaN()
	}
	return r.Value
}

// checkPictures refuses pictures that cannot be written, before anything is
// played.
func (e *environment) checkPictures(paths []string, force bool) error {
	for i, path := range paths {
		if _, err := pictureFormat(path); err != nil {
			return err
		}
		if slices.Contains(paths[:i], path) {
			return usagef("two pictures cannot both be written to %s", path)
		}
	}
	return e.mayWrite(force, paths...)
}

// writePicture writes a picture to files, each in the format of its ending.
func (e *environment) writePicture(picture *plots.Picture, paths []string, force bool) error {
	var files []outFile
	for _, path := range paths {
		format, err := pictureFormat(path)
		if err != nil {
			return err
		}
		data, err := picture.Bytes(format)
		if err != nil {
			return fmt.Errorf("cannot draw %s: %w", path, err)
		}
		files = append(files, outFile{path, data})
	}
	if err := e.writeFiles(force, files...); err != nil {
		return err
	}
	for _, file := range files {
		e.note("wrote %s", file.path)
	}
	return nil
}
