package plots

import (
	"math"
	"strconv"
)

// dotRow is a value with its interval, and words beside it.
type dotRow struct {
	name           string
	mid, low, high float64 // an end may be infinite; mid is NaN when there is no value
	hollow         bool
	said           string // right of the scale
}

// dotGroup is some rows under a heading, which may be empty.
type dotGroup struct {
	name string
	rows []dotRow
}

// dotPlot is dots with intervals on one scale.
type dotPlot struct {
	groups      []dotGroup
	unit        string // of the scale
	below, over string // words on both sides of 0; "" for none
}

const dotRowHeight = 14.0

// mostRows is how many rows of one kind a picture shows.
const mostRows = 12

func andMore(n int) string { return "and " + strconv.Itoa(n) + " more" }

var (
	rowStyles  = []style{{size: 7.8, ink: black}, {size: 6.8, ink: black}, {size: 5.6, ink: black}}
	saidStyles = []style{{size: 7.4, ink: black}, {size: 6.6, ink: black}, {size: 5.6, ink: black}}
	sideStyle  = style{size: 8, bold: true, ink: soft}
)

// draw fills the chart with the plot.
func (p *dotPlot) draw(c *chart) {
	names, said := c.width(p.unit, captionStyle)+26, 40.0
	values := []float64{0}
	for _, g := range p.groups {
		names = max(names, c.width(g.name, nameStyles[0])+8)
		for _, r := range g.rows {
			names = max(names, c.width(r.name, rowStyles[0])+14)
			said = max(said, c.width(r.said, saidStyles[0])+10)
			values = append(values, r.mid, r.low, r.high)
		}
	}
	names, said = min(names, 230), min(said, 250)
	area := rect{x0: margin + names, x1: right - said}
	sc := scaleOver(values, 8, area.x0+8, area.x1-8)
	if sc.low > 0 {
		sc.low = 0
	}
	sc.high = max(sc.high, 0)
	area.y0 = c.y
	if p.below != "" {
		area.y0 = p.sides(c, area, sc)
	}
	edge := p.ruler(c, area, sc, area.y0)
	c.y = edge + 4
	for _, g := range p.groups {
		p.group(c, g, area, sc)
	}
	area.y0, area.y1 = edge, c.y+2
	for _, v := range sc.ticks() {
		c.line(behind, point{sc.at(v), area.y0}, point{sc.at(v), area.y1}, 0.3, pale)
	}
	zero := sc.at(0)
	c.line(grid, point{zero, area.y0}, point{zero, area.y1}, 1.1, black)
	c.y = area.y1
}

// sides writes what lies on both sides of nought and returns where the ruler
// begins.
func (p *dotPlot) sides(c *chart, area rect, sc scale) float64 {
	zero := sc.at(0)
	left, over := c.width(p.below, sideStyle), c.width(p.over, sideStyle)
	x := max(zero-8-left, margin)
	c.text(x, c.y+8, p.below, sideStyle)
	c.text(max(min(zero+8, right-over), x+left+6), c.y+8, p.over, sideStyle)
	return c.y + 12
}

// ruler draws the scale with its unit and returns where its edge stands.
func (p *dotPlot) ruler(c *chart, area rect, sc scale, top float64) float64 {
	edge := top + 14
	c.line(grid, point{area.x0, edge}, point{area.x1, edge}, 0.9, black)
	free := math.Inf(-1) // from where on there is room
	first := 0.0
	for i, v := range sc.ticks() {
		text := sc.text(v)
		w := c.width(text, rulerStyle)
		x := sc.at(v)
		if i == 0 {
			first = x - w/2
		}
		c.line(grid, point{x, edge}, point{x, edge - 4}, 0.6, black)
		if x-w/2 < free {
			continue
		}
		c.text(x-w/2, edge-6, text, rulerStyle)
		free = x + w/2 + 4
	}
	unit := c.width(p.unit, captionStyle)
	c.text(max(margin, min(area.x0-6, first-4)-unit), edge-6, p.unit, captionStyle)
	return edge
}

// group draws the rows of a group.
func (p *dotPlot) group(c *chart, g dotGroup, area rect, sc scale) {
	if g.name != "" {
		c.y += c.paragraph(margin, c.y+2, g.name, nameStyles[0], area.x0-margin-8) + 3
	}
	rows, left := g.rows, len(g.rows)-mostRows
	if left > 1 { // else the line would take the room of the row
		rows = rows[:mostRows]
	}
	for _, r := range rows {
		y := c.y + dotRowHeight/2
		c.nameIn(rect{margin + 6, c.y, area.x0 - 8, c.y + dotRowHeight}, r.name, rowStyles...)
		c.nameIn(rect{area.x1 + 6, c.y, right, c.y + dotRowHeight}, r.said, saidStyles...)
		if !math.IsNaN(r.mid) {
			p.interval(c, r, sc, y)
		}
		c.y += dotRowHeight
	}
	if left > 1 {
		c.text(margin+6, c.y+dotRowHeight-4, andMore(left), rowStyles[0])
		c.y += dotRowHeight
	}
	c.line(behind, point{margin, c.y + 1}, point{right, c.y + 1}, 0.4, pale)
	c.y += 2
}

// interval draws the dot of a row and its interval; an end that cannot be told
// is left open.
func (p *dotPlot) interval(c *chart, r dotRow, sc scale, y float64) {
	k := lineLooks[0]
	low, high := sc.at(r.low), sc.at(r.high)
	c.line(bars, point{low, y}, point{high, y}, 1.5, k.stroke)
	for _, end := range []struct{ x, v float64 }{{low, r.low}, {high, r.high}} {
		if !math.IsInf(end.v, 0) {
			c.line(bars, point{end.x, y - 3}, point{end.x, y + 3}, 1.1, k.stroke)
		}
	}
	c.dot(point{sc.at(r.mid), y}, 3, k.stroke, r.hollow)
}

// keyDots explain full and hollow dots.
func keyDots(full, hollow string) []keyItem {
	item := func(word string, ring bool) keyItem {
		return keyItem{word, func(s *sheet, r rect) {
			y := (r.y0 + r.y1) / 2
			s.line(bars, point{r.x0, y}, point{r.x1, y}, 1.5, lineLooks[0].stroke)
			s.dot(point{(r.x0 + r.x1) / 2, y}, 3, lineLooks[0].stroke, ring)
		}}
	}
	return []keyItem{item(full, false), item(hollow, true)}
}
