package plots

import (
	"slices"
	"strings"

	"warmby/sim"
)

// bar is one stretch of time on a row.
type bar struct {
	look     *look
	from, to sim.Time
	name     string // what is to be read on it; "" for nothing
	critical bool   // held it up
	never    bool   // had not ended when the timeline does

	area    rect
	written lettering // the name, when it fits
	number  int       // of the note that has it, when it does not
}

// tag is a number over or on one bar or several short ones in a row.
type tag struct {
	number int
	area   rect
}

// rowSize is how high the parts of a row are.
type rowSize struct{ tag, bar, edge, gap float64 }

func (z rowSize) height() float64 { return z.tag + z.bar + z.edge + z.gap }

// rowSizes are the sizes that rows may have, from ample to one line a bar.
var rowSizes = []rowSize{
	{tagHeight + 1, 19.5, 2.8, 1.8},
	{tagHeight + 1, 17.8, 2.8, 1.6},
	{tagHeight + 0.8, 15.6, 2.6, 1.4},
	{tagHeight + 0.6, 11.5, 2.4, 1.2},
}

// narrowest is how wide a bar is drawn at least.
const narrowest = 1.6

var barStyles = []style{{size: 7.5, ink: black}, {size: 6.5, ink: black}}

// layRow places the bars of a row whose top is given, writes on each what
// fits, and gives the rest numbers. Neighbours too short for a number of
// their own share one.
func (a axis) layRow(s *sheet, row []bar, size rowSize, top float64) []tag {
	y0 := top + size.tag
	for i := range row {
		b := &row[i]
		b.area = rect{a.x(b.from), y0, a.x(b.to), y0 + size.bar}
		if b.area.width() < narrowest {
			b.area.x0 = min(b.area.x0, a.x1-narrowest)
			b.area.x1 = b.area.x0 + narrowest
		}
		b.written, _ = s.fit(b.name, b.area.width()-3.4, size.bar-0.6, barStyles...)
	}
	return a.number(s, row, top)
}

// number gives tags to the bars of a row whose names did not fit.
func (a axis) number(s *sheet, row []bar, top float64) []tag {
	wide := s.tagWidth(99) // room enough for any number met in practice
	if len(row) > 99 {
		wide = s.tagWidth(999)
	}
	type group struct {
		first, last int // bars of the row
		from, to    float64
		inside      bool
	}
	var groups []group
	centre := func(first, last int) (from, to float64) {
		mid := (row[first].area.x0 + row[last].area.x1) / 2
		mid = min(max(mid, a.x0+wide/2), a.right()-wide/2)
		return mid - wide/2, mid + wide/2
	}
	short := func(i int) bool { return row[i].name != "" && row[i].written.lines == nil }
	for i := range row {
		if !short(i) {
			continue
		}
		g := group{first: i, last: i, inside: row[i].area.width() >= wide+1.5}
		g.from, g.to = centre(i, i)
		for n := len(groups); !g.inside && n > 0; n-- {
			p := groups[n-1]
			if p.inside {
				continue
			}
			if p.to+0.5 <= g.from {
				break
			}
			g.first = p.first
			g.from, g.to = centre(g.first, g.last)
			groups = slices.Delete(groups, n-1, n)
		}
		groups = append(groups, g)
	}
	var tags []tag
	for _, g := range groups {
		var names []string
		for i := g.first; i <= g.last; i++ {
			if short(i) && (g.first == g.last || row[i].area.width() < wide+1.5) && !slices.Contains(names, row[i].name) {
				names = append(names, row[i].name)
			}
		}
		n := s.notes.number(strings.Join(names, ", "))
		for i := g.first; i <= g.last; i++ {
			if short(i) && (g.first == g.last || row[i].area.width() < wide+1.5) {
				row[i].number = n
			}
		}
		mid, half, y := (g.from+g.to)/2, s.tagWidth(n)/2, top
		if g.inside {
			y = (row[g.first].area.y0 + row[g.first].area.y1 - tagHeight) / 2
		}
		tags = append(tags, tag{n, rect{mid - half, y, mid + half, y + tagHeight}})
	}
	return tags
}

// drawRow draws the bars and tags of a row.
func (a axis) drawRow(s *sheet, row []bar, tags []tag, size rowSize) {
	for i := range row {
		b := &row[i]
		b.look.draw(s, b.area)
		edge := rect{b.area.x0, b.area.y1, b.area.x1, b.area.y1 + size.edge}
		if b.critical {
			s.fill(onBars, edge, black)
		}
		if b.never {
			a.fade(s, b, edge)
		}
		plate := b.look.fill
		if b.look.hatch == plain {
			plate = 0
		}
		if b.written.lines != nil {
			s.set(b.written, b.area, plate)
		}
	}
	for _, t := range tags {
		s.tag(t.number, (t.area.x0+t.area.x1)/2, t.area.y0)
	}
}

var neverStyle = style{size: 7.2, bold: true, ink: black}

// fade lets a bar thin out beyond the end of the ruler, for it has no end,
// and says so.
func (a axis) fade(s *sheet, b *bar, edge rect) {
	x := a.x1 + 0.8
	for wide := 4.5; wide > 0.5; wide -= 1.1 {
		r := rect{x, b.area.y0, x + wide, b.area.y1}
		b.look.draw(s, r)
		if b.critical {
			s.fill(onBars, rect{r.x0, edge.y0, r.x1, edge.y1}, black)
		}
		x = r.x1 + 5.6 - wide
	}
	s.text(a.right()-s.width("never", neverStyle), (b.area.y0+b.area.y1)/2+2.6, "never", neverStyle)
}

// neverRoom is how much room right of the ruler a fading bar needs.
func neverRoom(s *sheet) float64 { return 23 + s.width("never", neverStyle) }
