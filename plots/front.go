package plots

import (
	"cmp"
	"math"
	"slices"
)

// FrontInput is some orders judged by several aims, of each of which less is
// better.
type FrontInput struct {
	Title, Lead string
	Aims        []Aim
	Orders      []FrontOrder
	Foot        string // seed and the command that repeats it; may be empty
}

// Aim is what an order is judged by.
type Aim struct{ Name, Unit string }

// FrontOrder is one order with a value for each aim; values that are not
// finite leave it out of the pictures of that aim and off the front.
type FrontOrder struct {
	Name   string
	Values []float64
}

// Front draws orders by pairs of aims. Full dots are the Pareto front of all aims;
// they are joined as a step, which is the front of the two aims of its own picture.
func Front(in FrontInput) *Picture {
	c := newChart(in.Title, in.Lead)
	if len(in.Aims) < 2 || len(in.Orders) == 0 {
		return c.finish("Nothing to show: a front takes two aims and an order.", in.Foot)
	}
	full := front(in.Orders, allAims(in.Aims))
	type pair struct{ x, y int }
	var pairs []pair
	for x := range in.Aims {
		for y := x + 1; y < len(in.Aims); y++ {
			pairs = append(pairs, pair{x, y})
		}
	}
	columns := min(2, len(pairs))
	high := 360.0
	if columns > 1 {
		high = 250
	}
	const apart, scaleWide = 24.0, 40.0
	wide := (right - margin - float64(apart*float64(columns-1))) / float64(columns)
	top := c.y
	for i, p := range pairs {
		x := margin + float64(float64(i%columns)*(wide+apart))
		if i > 0 && i%columns == 0 {
			top = c.y
		}
		area := rect{x + scaleWide, top + 18, x + wide, top + 18 + high}
		drawFront(c, in, p.x, p.y, area, full)
		c.y = area.y1 + 32
	}
	dots := keyDots("", "")
	dots[0].word, dots[1].word = "no other order is as good in all and better in one", "another order is"
	for i := range dots {
		ring := i == 1
		dots[i].draw = func(s *sheet, r rect) {
			s.dot(point{(r.x0 + r.x1) / 2, (r.y0 + r.y1) / 2}, 3, lineLooks[0].stroke, ring)
		}
	}
	c.key = append(c.key, dots...)
	c.key = append(c.key, lineLooks[0].key("nothing found lies below and left of the step"))
	return c.finish("Less is better on both axes.", in.Foot)
}

func allAims(aims []Aim) []int {
	out := make([]int, len(aims))
	for i := range out {
		out[i] = i
	}
	return out
}

// value returns how an order does by an aim, NaN when that is not known.
func (o *FrontOrder) value(aim int) float64 {
	if aim >= len(o.Values) || math.IsInf(o.Values[aim], 0) {
		return math.NaN()
	}
	return o.Values[aim]
}

// front marks the Pareto front of some aims: the orders that no other matches in all
// of them and beats in one.
func front(orders []FrontOrder, aims []int) []bool {
	out := make([]bool, len(orders))
	for i := range orders {
		out[i] = !slices.ContainsFunc(aims, func(a int) bool { return math.IsNaN(orders[i].value(a)) })
		for j := range orders {
			if out[i] && dominates(&orders[j], &orders[i], aims) {
				out[i] = false
			}
		}
	}
	return out
}

func dominates(a, b *FrontOrder, aims []int) bool {
	better := false
	for _, k := range aims {
		x, y := a.value(k), b.value(k)
		if !(x <= y) {
			return false
		}
		better = better || x < y
	}
	return better
}

// drawFront draws one pair of aims.
func drawFront(c *chart, in FrontInput, ax, ay int, area rect, full []bool) {
	var xs, ys []float64
	for i := range in.Orders {
		o := &in.Orders[i]
		if x, y := o.value(ax), o.value(ay); !math.IsNaN(x) && !math.IsNaN(y) {
			xs, ys = append(xs, x), append(ys, y)
		}
	}
	sx, sy := scaleOver(xs, 6, area.x0+10, area.x1-10), scaleOver(ys, 6, area.y1-8, area.y0+8)
	frontAxes(c, in, ax, ay, area, sx, sy)
	names := placer{space: rect{area.x0 + 2, area.y0, area.x1, area.y1 - 1}}
	at := func(o *FrontOrder) point { return point{sx.at(o.value(ax)), sy.at(o.value(ay))} }
	shown := func(o *FrontOrder) bool { return !math.IsNaN(o.value(ax)) && !math.IsNaN(o.value(ay)) }
	if line := frontStep(in.Orders, ax, ay, at, area); len(line) > 0 {
		lineLooks[0].draw(c.sheet, line)
		names.drawn = append(names.drawn, line)
	}
	for i := range in.Orders {
		if o := &in.Orders[i]; shown(o) {
			q := at(o)
			c.dot(q, 3.4, lineLooks[0].stroke, !full[i])
			names.boxes = append(names.boxes, rect{q.x - 3, q.y - 3, q.x + 3, q.y + 3})
		}
	}
	for i := range in.Orders {
		o := &in.Orders[i]
		if !shown(o) || clean(o.Name) == "" {
			continue
		}
		q := at(o)
		st := style{size: 7.4, bold: full[i], ink: black}
		by := []point{{q.x + 1, q.y}, {q.x, q.y - 3}, {q.x, q.y + 3}, {q.x - 1, q.y}}
		if !names.label(c.sheet, clean(o.Name), st, by) {
			c.explain(lineLook{stroke: soft, width: 0.5}, clean(o.Name)+" (no room for its name)")
		}
	}
}

// frontStep returns the step that joins the orders of the front of two aims.
func frontStep(orders []FrontOrder, ax, ay int, at func(*FrontOrder) point, area rect) []point {
	on := front(orders, []int{ax, ay})
	var corners []point
	for i := range orders {
		if on[i] {
			corners = append(corners, at(&orders[i]))
		}
	}
	slices.SortFunc(corners, func(p, q point) int { return cmp.Or(cmp.Compare(p.x, q.x), cmp.Compare(q.y, p.y)) })
	corners = slices.Compact(corners)
	var line []point
	for i, q := range corners {
		if i == 0 {
			line = append(line, point{q.x, area.y0})
		} else {
			line = append(line, point{q.x, corners[i-1].y})
		}
		line = append(line, q)
	}
	if n := len(corners); n > 0 {
		line = append(line, point{area.x1, corners[n-1].y})
	}
	return line
}

func frontAxes(c *chart, in FrontInput, ax, ay int, area rect, sx, sy scale) {
	c.line(grid, point{area.x0, area.y1}, point{area.x1, area.y1}, 0.9, black)
	c.line(grid, point{area.x0, area.y0}, point{area.x0, area.y1}, 0.9, black)
	free := math.Inf(-1)
	for _, v := range sx.ticks() {
		x, w := sx.at(v), c.width(sx.text(v), rulerStyle)
		c.line(behind, point{x, area.y0}, point{x, area.y1}, 0.3, pale)
		c.line(grid, point{x, area.y1}, point{x, area.y1 + 4}, 0.6, black)
		if x-w/2 >= free && x+w/2 <= right {
			c.text(x-w/2, area.y1+12, sx.text(v), rulerStyle)
			free = x + w/2 + 4
		}
	}
	for _, v := range sy.ticks() {
		y := sy.at(v)
		c.line(behind, point{area.x0, y}, point{area.x1, y}, 0.3, pale)
		c.line(grid, point{area.x0 - 4, y}, point{area.x0, y}, 0.6, black)
		text := sy.text(v)
		c.nameIn(rect{max(margin, area.x0-7-c.width(text, rulerStyle)), y - 4.5, area.x0 - 5, y + 4.5}, text, rulerStyle, style{size: 6, ink: black}, style{size: 4.5, ink: black})
	}
	styles := []style{{size: 8, ink: black}, {size: 7, ink: black}}
	c.nameIn(rect{area.x0 - 36, area.y0 - 16, area.x1, area.y0 - 4}, in.Aims[ay].heading(), styles...)
	c.nameIn(rect{area.x0, area.y1 + 15, area.x1, area.y1 + 27}, in.Aims[ax].heading(), styles...)
}

func (a *Aim) heading() string {
	if a.Unit == "" {
		return clean(a.Name)
	}
	return clean(a.Name) + ", " + clean(a.Unit)
}
