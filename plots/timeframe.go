package plots

import (
	"math"
	"strconv"
	"time"

	"warmby/sim"
)

// timeLine is estimates over numbers.
type timeLine struct {
	lineLook
	name      string
	x         []float64
	estimates []Estimate
}

// timeFrame is a panel with numbers across and moments upwards: minutes since
// arrival on the left, the clock on the right. What is never reached stands in
// a lane of its own on top.
type timeFrame struct {
	head    string
	missing string // what stands in that lane
	area    rect
	arrival time.Time
	lines   []timeLine

	target     sim.Time
	targetText string
	names      float64 // room for the names of the lines, right of their ends
}

func (f *timeFrame) by(target sim.Time, text string) {
	f.target, f.targetText = target, clean(text)
	if f.targetText == "" && target != sim.Never {
		f.targetText = about(target)
	}
}

// scales returns the axes, and where the lane of never stands; 0 for none.
func (f *timeFrame) scales(values []float64) (x, y scale, never float64) {
	x = scaleOver(values, 12, f.area.x0+12, f.area.x1-12-f.names)
	var minutes []float64
	for _, l := range f.lines {
		for _, e := range l.estimates {
			if e.NotPlayed {
				continue
			}
			if e.missing() {
				never = f.area.y0 + 7
				continue
			}
			minutes = append(minutes, e.Value.Minutes())
			if e.Low > 0 {
				minutes = append(minutes, e.Low.Minutes())
			}
			if e.High != sim.Never {
				minutes = append(minutes, e.High.Minutes())
			}
		}
	}
	if f.target != sim.Never {
		minutes = append(minutes, f.target.Minutes())
	}
	top := f.area.y0
	if never > 0 {
		top += 16
	}
	y = scaleOver(minutes, 8, f.area.y1, top)
	if y.low < 0 && y.high > 0 {
		y.low = 0
	}
	return x, y, never
}

// draw draws the panel below the chart's y and moves that on.
func (f *timeFrame) draw(c *chart, values []float64, key *SweepKey) {
	for _, l := range f.lines {
		f.names = max(f.names, min(c.width(l.name, l.style()), 150))
	}
	x, y, never := f.scales(values)
	f.upright(c, y, never)
	f.across(c, x, key)
	names := placer{space: rect{f.area.x0 + 2, f.area.y0 - 2, f.area.x1, f.area.y1}}
	if f.target != sim.Never {
		at := y.at(f.target.Minutes())
		line := []point{{f.area.x0, at}, {f.area.x1, at}}
		c.stroke(grid, path{lines: [][]point{line}, width: 1, dash: []float64{4, 2}}, aim)
		names.drawn = append(names.drawn, line)
		if !names.label(c.sheet, "by "+f.targetText, targetStyle, pointsBy(line, 0)) {
			c.explain(lineLook{stroke: aim, width: 1, dash: []float64{4, 2}}, "by "+f.targetText)
		}
	}
	first := len(names.drawn)
	for i := range f.lines {
		l := &f.lines[i]
		line, edges := l.draw(c.sheet, x, y, never, i)
		names.drawn, names.soft = append(names.drawn, line), append(names.soft, edges...)
	}
	for i, l := range f.lines {
		line := names.drawn[first+i]
		if len(line) == 0 || l.name == "" {
			continue
		}
		by := pointsBy(line, len(line)-1)
		by[0].x += 3 // off the dot
		if !names.label(c.sheet, l.name, l.style(), by) {
			c.explain(l.lineLook, l.name)
		}
	}
	c.y = f.area.y1 + 32
}

// upright draws the two scales of time.
func (f *timeFrame) upright(c *chart, y scale, never float64) {
	c.text(margin, f.area.y0-17, "minutes since arrival", captionStyle)
	if f.head != "" {
		from := margin + c.width("minutes since arrival", captionStyle) + 12
		to := right
		if !f.arrival.IsZero() {
			to -= c.width("on the clock", captionStyle) + 12
		}
		c.nameIn(rect{from, f.area.y0 - 27, to, f.area.y0 - 11}, f.head, nameStyles...)
	}
	c.line(grid, point{f.area.x0, f.area.y0}, point{f.area.x0, f.area.y1}, 0.9, black)
	for _, v := range y.ticks() {
		at := y.at(v)
		c.line(behind, point{f.area.x0, at}, point{f.area.x1, at}, 0.3, pale)
		c.line(grid, point{f.area.x0 - 4, at}, point{f.area.x0, at}, 0.6, black)
		text := y.text(v)
		c.text(f.area.x0-7-c.width(text, rulerStyle), at+2.5, text, rulerStyle)
	}
	if never > 0 {
		c.text(f.area.x0-7-c.width(f.missing, rulerStyle), never+2.5, f.missing, rulerStyle)
		c.line(grid, point{f.area.x0, never + 8}, point{f.area.x1, never + 8}, 0.5, pale)
	}
	if f.arrival.IsZero() {
		return
	}
	c.text(right-c.width("on the clock", captionStyle), f.area.y0-17, "on the clock", captionStyle)
	c.line(grid, point{f.area.x1, f.area.y0}, point{f.area.x1, f.area.y1}, 0.9, black)
	a := axis{x0: y.from, x1: y.to, arrival: f.arrival}
	for _, t := range clockTicks(a, y) {
		at := y.at(t.at.Minutes())
		c.line(grid, point{f.area.x1, at}, point{f.area.x1 + 4, at}, 0.6, black)
		c.text(f.area.x1+7, at+2.5, t.text, rulerStyle)
	}
}

// clockTicks returns round times of the clock on an upright scale of minutes,
// no nearer together than can be read.
func clockTicks(a axis, y scale) []tick {
	perMinute := math.Abs(y.to-y.from) / (y.high - y.low)
	step := steps[len(steps)-1]
	for _, s := range steps {
		if s.Minutes()*perMinute >= 22 {
			step = s
			break
		}
	}
	h, m, s := a.arrival.Clock()
	since := sim.Time(h)*sim.Hour + sim.Time(m)*sim.Minute + sim.Time(s)*sim.Second
	var out []tick
	low := since + sim.Time(y.low*float64(sim.Minute))
	for at := (low + step - 1) / step * step; ; at += step {
		if !y.holds((at - since).Minutes()) || len(out) > 60 {
			return out
		}
		out = append(out, tick{at - since, a.clock(at - since)})
	}
}

// across draws the axis of a key, with a tick at each of its values, or at
// round ones where those stand too close together.
func (f *timeFrame) across(c *chart, x scale, key *SweepKey) {
	edge := f.area.y1
	c.line(grid, point{f.area.x0, edge}, point{f.area.x1, edge}, 0.9, black)
	type label struct {
		at   float64
		text string
	}
	var all []label
	for i := range key.count() {
		all = append(all, label{x.at(key.place(i)), key.text(i)})
	}
	free := math.Inf(-1)
	close := false
	for _, l := range all {
		w := c.width(l.text, rulerStyle)
		close = close || l.at-w/2 < free || l.at-w/2 < margin || l.at+w/2 > right
		free = l.at + w/2 + 4
	}
	if close && len(key.Words) == 0 {
		all = all[:0]
		for _, v := range x.ticks() {
			all = append(all, label{x.at(v), x.text(v)})
		}
	}
	free = math.Inf(-1)
	for _, l := range all {
		c.line(grid, point{l.at, edge}, point{l.at, edge + 4}, 0.6, black)
		c.line(behind, point{l.at, f.area.y0}, point{l.at, edge}, 0.3, pale)
		w := c.width(l.text, rulerStyle)
		if l.text == "" {
			continue
		}
		if close && len(key.Words) > 0 {
			n := c.notes.number(l.text)
			if w = c.tagWidth(n); l.at-w/2 >= free {
				c.tag(n, l.at, edge+5)
				free = l.at + w/2 + 2
			}
			continue
		}
		if l.at-w/2 < free || l.at-w/2 < margin || l.at+w/2 > right {
			continue
		}
		c.text(l.at-w/2, edge+12, l.text, rulerStyle)
		free = l.at + w/2 + 4
	}
	c.nameIn(rect{f.area.x0, edge + 16, f.area.x1, edge + 28}, key.heading(), style{size: 8, ink: black}, style{size: 7, ink: black})
}

// draw draws a line with its band and its dots, and returns it with the edges
// of the band. Dots in the lane of never stand side by side.
func (l *timeLine) draw(s *sheet, x, y scale, never float64, which int) (all []point, edges [][]point) {
	var pieces [][]point
	for i, e := range l.estimates {
		at := point{x.at(l.x[i]), never}
		if e.NotPlayed {
			continue
		}
		if e.missing() {
			s.dot(point{at.x + float64(7*float64(which%4)), never}, 2.6, l.stroke, true)
			continue
		}
		at.y = y.at(e.Value.Minutes())
		if i > 0 && !l.estimates[i-1].NotPlayed && !l.estimates[i-1].missing() && len(all) > 0 {
			before := all[len(all)-1]
			low0, high0 := l.ends(i-1, y)
			low1, high1 := l.ends(i, y)
			low, high := through(point{before.x, low0}, point{at.x, low1}), through(point{before.x, high0}, point{at.x, high1})
			edges = append(edges, hatchBand(s, before.x, at.x, low, high, l.stroke, which)...)
			piece := &pieces[len(pieces)-1]
			*piece = append(*piece, at)
		} else {
			pieces = append(pieces, []point{at})
		}
		low, high := l.ends(i, y)
		s.line(bars, point{at.x, low}, point{at.x, high}, 0.9, l.stroke)
		l.mark(s, at, 2.6)
		all = append(all, at)
	}
	l.lineLook.draw(s, pieces...)
	return all, edges
}

// ends returns where the ends of an interval stand.
func (l *timeLine) ends(i int, y scale) (low, high float64) {
	e := l.estimates[i]
	low, high = y.at(e.Low.Minutes()), y.to
	if e.High != sim.Never {
		high = y.at(e.High.Minutes())
	}
	return low, high
}

// plainNumber writes a value of a key as short as it can be.
func plainNumber(v float64) string { return minus(strconv.FormatFloat(v, 'g', 6, 64)) }
