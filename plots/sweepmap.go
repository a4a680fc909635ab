package plots

import (
	"math"
	"slices"
	"strconv"

	"warmby/sim"
)

// shades are the fills of a map, soonest first: ever darker, so that grey will
// do, and light enough for black words.
var shades = []ink{0xffffff, 0xe6eef7, 0xcfdff0, 0xb7cfe8, 0x9fbfe0, 0x86aed6}

// maps draws a map of two keys for each order, the first across.
func (in *SweepInput) maps(c *chart) {
	across, up := &in.Keys[0], &in.Keys[1]
	low, high := math.Inf(1), math.Inf(-1)
	for _, l := range in.Lines {
		for _, e := range l.Estimates {
			if e.Value != sim.Never {
				low, high = min(low, e.Value.Minutes()), max(high, e.Value.Minutes())
			}
		}
	}
	columns := min(2, len(in.Lines))
	if across.count() > 8 {
		columns = 1
	}
	const apart = 22.0
	top, bottom := c.y, c.y
	for i := range in.Lines {
		wide := (right - margin - float64(apart*float64(columns-1))) / float64(columns)
		column := i % columns
		if column == 0 {
			top = bottom
		}
		x := margin + float64(float64(column)*(wide+apart))
		m := sweepMap{across: across, up: up, line: &in.Lines[i], low: low, high: high, head: clean(in.Milestone), missing: in.missing()}
		bottom = max(bottom, m.draw(c, rect{x0: x, x1: x + wide, y0: top})+12)
	}
	c.y = bottom
	c.key = append(c.key, in.mapKey(low, high)...)
}

// mapKey explains the fills.
func (in *SweepInput) mapKey(low, high float64) []keyItem {
	none := "crossed: never"
	if in.Partly {
		none = "crossed: none, not reached in every run"
	}
	crossed := keyItem{none, func(s *sheet, r rect) { lookNeverCell.draw(s, r) }}
	if low > high {
		return []keyItem{crossed}
	}
	fill := func(word string, k ink) keyItem {
		return keyItem{word, func(s *sheet, r rect) { s.fill(bars, r, k); s.frame(bars, r, 0.4, soft) }}
	}
	items := []keyItem{
		fill("soonest, "+whole(low)+" min since arrival", shades[0]),
		fill("latest, "+whole(high)+" min", shades[len(shades)-1]),
		{"heavy frame: soonest of a map", func(s *sheet, r rect) { s.frame(onBars, r, 1.6, black) }},
	}
	if in.anyMissing() {
		items = append(items, crossed)
	}
	return items
}

// anyMissing reports whether a cell of a map has no estimate.
func (in *SweepInput) anyMissing() bool {
	cells := in.Keys[0].count() * in.Keys[1].count()
	return slices.ContainsFunc(in.Lines, func(l SweepLine) bool {
		return len(l.Estimates) < cells || slices.ContainsFunc(l.Estimates, Estimate.missing)
	})
}

func whole(minutes float64) string { return strconv.FormatFloat(math.Round(minutes), 'f', 0, 64) }

var lookNeverCell = &look{"never", paper, 0x7b848f, crossed}

// sweepMap is the map of one order.
type sweepMap struct {
	head       string
	across, up *SweepKey
	line       *SweepLine
	low, high  float64
	missing    string // stands in a cell without an estimate
}

// at returns the estimate of a cell, never where there is none.
func (m *sweepMap) at(i, j int) Estimate {
	if k := i*m.up.count() + j; k < len(m.line.Estimates) {
		return m.line.Estimates[k]
	}
	return Estimate{Value: sim.Never, High: sim.Never}
}

func (m *sweepMap) best() sim.Time {
	best := sim.Never
	for i := range m.across.count() {
		for j := range m.up.count() {
			best = min(best, m.at(i, j).Value)
		}
	}
	return best
}

var cellStyles = []style{{size: 8.4, ink: black}, {size: 7, ink: black}, {size: 5.8, ink: black}, {size: 4.6, ink: black}}

// draw draws the map in a rectangle that is open below and returns its foot.
func (m *sweepMap) draw(c *chart, r rect) float64 {
	const cellHigh, scaleWide = 21.0, 54.0
	head := m.head
	if name := clean(m.line.Order); name != "" {
		head = name + ": " + head
	}
	y := r.y0 + c.paragraph(r.x0, r.y0, head+", minutes since arrival", nameStyles[1], r.width()) + 2
	y += c.paragraph(r.x0, y, m.up.heading()+" (upwards)", captionStyle, r.width()) + 2
	cells := rect{r.x0 + scaleWide, y, r.x1, y + float64(cellHigh*float64(m.up.count()))}
	wide := cells.width() / float64(m.across.count())
	best := m.best()
	for j := range m.up.count() {
		y1 := cells.y1 - float64(float64(j)*cellHigh)
		text := m.up.text(j)
		from := max(r.x0, cells.x0-6-c.width(text, rulerStyle))
		c.nameIn(rect{from, y1 - cellHigh, cells.x0 - 5, y1}, text, rulerStyle, style{size: 6, ink: black})
		for i := range m.across.count() {
			x := cells.x0 + float64(float64(i)*wide)
			m.cell(c.sheet, rect{x, y1 - cellHigh, x + wide, y1}, m.at(i, j), best)
		}
	}
	for i := range m.across.count() {
		x := cells.x0 + float64(float64(i)*wide)
		if l, ok := c.fit(m.across.text(i), wide-4, 20, rulerStyle, style{size: 6, ink: black}); ok {
			c.set(l, rect{x, cells.y1 + 1, x + wide, cells.y1 + 21}, 0)
		} else if m.across.text(i) != "" && c.tagWidth(len(c.notes.texts)+1) <= wide {
			c.tag(c.notes.number(m.across.text(i)), x+wide/2, cells.y1+7)
		}
	}
	y = cells.y1 + 22
	return y + c.paragraph(cells.x0, y, m.across.heading(), captionStyle, cells.width())
}

// cell fills a cell and writes its minutes in it.
func (m *sweepMap) cell(s *sheet, r rect, e Estimate, best sim.Time) {
	at := e.Value
	text, plate := m.missing, paper
	switch {
	case e.NotPlayed:
		s.frame(bars, r, 0.4, soft)
		text, plate = "not played", 0
	case at == sim.Never:
		lookNeverCell.draw(s, r)
	default:
		share := 0.0
		if m.high > m.low {
			share = (at.Minutes() - m.low) / (m.high - m.low)
		}
		k := shades[min(int(share*float64(len(shades))), len(shades)-1)]
		s.fill(bars, r, k)
		s.frame(bars, r, 0.4, soft)
		text, plate = whole(at.Minutes()), 0
	}
	if at == best && at != sim.Never {
		s.frame(onBars, r, 1.6, black)
	}
	if l, ok := s.fit(text, r.width()-3, r.height()-2, cellStyles...); ok {
		s.set(l, r, plate)
	}
}
