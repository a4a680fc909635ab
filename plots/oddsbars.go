package plots

import (
	"cmp"
	"slices"

	"warmby/sim"
)

// The two moments that people ask for: the usual one, and the one by which nine
// evenings of ten are there.
const usually, nineOfTen = 0.5, 0.9

const (
	barHeight = 11.0
	barWidth  = 4.6
)

var barStyle = style{size: 7.2, ink: black}

// barred reports whether the panel has bars: where orders are side by side.
func (p *panelOdds) barred() bool { return len(p.curves) > 1 }

// bars draws a bar for each order, the soonest first, from when it is usually
// there to when it is in nine of ten, with both moments in words, and returns
// how high they are together.
func (p *panelOdds) bars(s *sheet, a axis, top float64) float64 {
	if !p.barred() {
		return 0
	}
	order := slices.Clone(p.curves)
	slices.SortStableFunc(order, func(x, y curve) int { return cmp.Compare(x.moment(nineOfTen), y.moment(nineOfTen)) })
	high := barHeight * float64(len(order))
	s.nameIn(rect{margin, top, a.x0 - 34, top + high}, clean(p.milestone.Name), nameStyles...)
	for i := range order {
		order[i].bar(s, a, top+float64(barHeight*float64(i))+barHeight/2, p.many)
	}
	if p.left > 0 {
		s.text(a.x0+4, top+high+barHeight-3, andMore(p.left)+", later than these", barStyle)
		high += barHeight
	}
	return high + 2
}

// bar draws one bar, with its words on the side that has room.
func (c *curve) bar(s *sheet, a axis, y float64, many string) {
	mid, most := c.moment(usually), c.moment(nineOfTen)
	text := c.barText(a, mid, most, many)
	x0, x1 := a.x0, a.x0
	if mid != sim.Never {
		x0, x1 = a.x(min(mid, a.length)), a.right()
		if most != sim.Never {
			x1 = a.x(min(most, a.length))
		}
		s.line(bars, point{x0, y}, point{x1, y}, barWidth, c.stroke)
		c.mark(s, point{x0, y}, 3.2)
		if most != sim.Never {
			c.mark(s, point{x1, y}, 3.2)
		}
	}
	s.beside(text, rect{x0 - 9, y - barHeight/2, x1 + 9, y + barHeight/2}, a.x0+2, a.right())
}

// beside writes a text right of a rectangle, or left of it where there is no
// room, or a number for it on the wider side.
func (s *sheet) beside(text string, r rect, left, right float64) {
	w, y := s.width(text, barStyle), (r.y0+r.y1)/2+2.6
	switch {
	case r.x1+w <= right:
		s.text(r.x1, y, text, barStyle)
	case r.x0-w >= left:
		s.text(r.x0-w, y, text, barStyle)
	case right-r.x1 >= r.x0-left:
		s.nameIn(rect{r.x1, r.y0, right, r.y1}, text, barStyle)
	default:
		s.nameIn(rect{left, r.y0, r.x0, r.y1}, text, barStyle)
	}
}

// barText is the order and its two moments.
func (c *curve) barText(a axis, mid, most sim.Time, many string) string {
	switch {
	case c.runs == 0:
		return joined(c.name, "nothing played")
	case len(c.times) == 0:
		return joined(c.name, "never")
	case mid == sim.Never:
		return joined(c.name, "in "+ofHundred(len(c.times), c.runs)+" "+many)
	case most == sim.Never:
		return joined(c.name, "usually "+a.short(mid)+", in only "+ofHundred(len(c.times), c.runs)+" "+many+" at all")
	}
	return joined(c.name, "usually "+a.short(mid)+", 9 of 10 by "+a.short(most))
}

// short writes a moment in a word: the clock where that is known, in the minute
// after it.
func (a axis) short(t sim.Time) string {
	whole := sim.ByMinute(t)
	if a.arrival.IsZero() {
		return about(whole)
	}
	return a.clock(whole)
}

// marks marks the two moments on a curve.
func (p *panelOdds) marks(s *sheet, c *curve, a axis, sc scale) {
	if !p.barred() {
		return
	}
	for _, share := range []float64{usually, nineOfTen} {
		if at := c.moment(share); at != sim.Never && at <= a.length {
			c.mark(s, point{a.x(at), sc.at(100 * share)}, 2.4)
		}
	}
}
