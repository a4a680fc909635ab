package plots

import (
	"math"
	"time"

	"warmby/sim"
)

// HaltOddsInput is in what share of evenings some milestones are in time,
// arriving at different times of the clock.
type HaltOddsInput struct {
	Title, Lead string
	Odds        float64     // asked for, 0 to 1
	Arrivals    []time.Time // rising
	Milestones  []HaltMilestone
	Latest      time.Time   // the latest arrival that meets the odds; zero for none
	Dark        []ClockSpan // when it is dark
	Usual       bool        // played once with usual values: in time or not, without intervals
	Many        string      // what to call many runs; "evenings" when empty
	Foot        string      // seed and the command that repeats it; may be empty
}

// HaltMilestone is one milestone with its odds at each arrival.
type HaltMilestone struct {
	Name  string
	Asked bool // whether the odds are asked of it
	Odds  []Odd
}

// Odd is a share of runs with its interval, all 0 to 1.
type Odd struct{ Share, Low, High float64 }

// ClockSpan is a span of time on the clock.
type ClockSpan struct{ From, To time.Time }

// HaltOdds draws the odds of each milestone in time against the arrival, with
// the odds asked for as a line, the latest arrival that meets them, and dark
// as a band.
func HaltOdds(in HaltOddsInput) *Picture {
	many := clean(in.Many)
	if many == "" {
		many = "evenings"
	}
	c := newChart(in.Title, in.Lead)
	if len(in.Arrivals) == 0 {
		return c.finish("Nothing to show: no arrival was tried.", in.Foot)
	}
	first, last := in.Arrivals[0], in.Arrivals[len(in.Arrivals)-1]
	a := axis{x0: margin + 46, x1: right - 20, arrival: first, length: max(sim.Minute, sinceOn(first, last))}
	area := rect{a.x0, c.y + 22, a.x1, c.y + 22 + 320}
	heading := "in time, of all " + many
	if in.Usual {
		heading = "in time with usual values"
	}
	c.text(margin, area.y0-12, heading, captionStyle)
	sc := percentScale(c.sheet, area)
	for _, d := range in.Dark {
		from, to := sinceOn(first, d.From), sinceOn(first, d.To)
		if to > 0 && from < a.length {
			c.fill(behind, rect{a.x(from), area.y0, a.x(to), area.y1}, night)
		}
	}
	if len(in.Dark) > 0 {
		c.key = append(c.key, keyDark)
	}
	c.line(grid, point{area.x0, area.y1}, point{area.x1, area.y1}, 0.9, black)
	for _, k := range a.onTheClock() {
		a.tick(c.sheet, k, area.y1, 1)
		if k.text != "" {
			c.line(behind, point{a.x(k.at), area.y0}, point{a.x(k.at), area.y1}, 0.3, pale)
		}
	}
	c.text(area.x0, area.y1+24, "arrival on the clock", captionStyle)
	names := placer{space: rect{area.x0 + 2, area.y0 - 8, area.x1 + 18, area.y1}}
	in.lines(c, a, sc, &names)
	lines := names.drawn
	in.asked(c, a, area, sc, &names)
	in.names(c, lines, &names)
	c.y = area.y1 + 30
	explained := "The hatching about a line is the interval of each share, which holds with 95 % for one arrival at a time."
	if in.Usual {
		explained = "With usual values a milestone is in time (100 %) or not (0 %): there are no odds and no interval."
	}
	return c.finish(explained, in.Foot)
}

// sinceOn returns the time from one moment of the clock to another.
func sinceOn(from, to time.Time) sim.Time { return sim.Time(to.Sub(from).Milliseconds()) }

// asked draws the odds asked for and the latest arrival.
func (in *HaltOddsInput) asked(c *chart, a axis, area rect, sc scale, names *placer) {
	if in.Odds > 0 && in.Odds <= 1 {
		line := []point{{area.x0, sc.at(100 * in.Odds)}, {area.x1, sc.at(100 * in.Odds)}}
		levelLook.draw(c.sheet, line)
		names.drawn = append(names.drawn, line)
		text := "asked for: " + number(100*in.Odds) + " %"
		if !names.label(c.sheet, text, levelLook.style(), pointsBy(line, 0)) {
			c.explain(levelLook, text)
		}
	}
	if in.Latest.IsZero() {
		return
	}
	at := sinceOn(in.Arrivals[0], in.Latest)
	if at < 0 || at > a.length {
		return
	}
	line := []point{{a.x(at), area.y0 - 6}, {a.x(at), area.y1}}
	c.line(grid, line[0], line[1], 1, aim, 4, 2)
	names.drawn = append(names.drawn, line)
	text := "latest arrival " + in.Latest.Format("15:04")
	if !names.label(c.sheet, text, targetStyle, pointsBy(line, 1)) {
		c.explain(lineLook{stroke: aim, width: 1, dash: []float64{4, 2}}, text)
	}
}

// lines draws a line with its band for each milestone.
func (in *HaltOddsInput) lines(c *chart, a axis, sc scale, names *placer) {
	for i := range in.Milestones {
		m := &in.Milestones[i]
		k := m.look(i)
		var line []point
		for j, o := range m.Odds[:min(len(m.Odds), len(in.Arrivals))] {
			if math.IsNaN(o.Share) {
				continue
			}
			x := a.x(sinceOn(in.Arrivals[0], in.Arrivals[j]))
			q := point{x, sc.at(100 * o.Share)}
			c.line(bars, point{x, sc.at(100 * o.Low)}, point{x, sc.at(100 * o.High)}, 0.6, k.stroke)
			if n := len(line); n > 0 && !math.IsNaN(m.Odds[j-1].Share) {
				was, before := line[n-1].x, m.Odds[j-1]
				low := through(point{was, sc.at(100 * before.Low)}, point{x, sc.at(100 * o.Low)})
				high := through(point{was, sc.at(100 * before.High)}, point{x, sc.at(100 * o.High)})
				names.soft = append(names.soft, hatchBand(c.sheet, was, x, low, high, k.stroke, i)...)
			}
			line = append(line, q)
			k.mark(c.sheet, q, 2.4)
		}
		if len(line) > 0 {
			k.draw(c.sheet, line)
		}
		names.drawn = append(names.drawn, line)
	}
}

// names writes the names of the milestones beside their lines.
func (in *HaltOddsInput) names(c *chart, lines [][]point, names *placer) {
	for i := range in.Milestones {
		m := &in.Milestones[i]
		line := lines[i]
		if name := clean(m.Name); len(line) > 0 && name != "" {
			if !names.label(c.sheet, name, m.look(i).style(), halfway(line)) {
				c.explain(m.look(i), name)
			}
		}
	}
}

// look returns the look of a milestone; that of the one asked about is heavier.
func (m *HaltMilestone) look(i int) lineLook {
	k := lineLooks[i%len(lineLooks)]
	if m.Asked {
		k.width += 1
	}
	return k
}
