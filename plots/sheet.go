package plots

import (
	"cmp"
	"slices"
)

// All lengths are points of 1/72 inch; x grows to the right, y downwards.

// point is a place on the sheet.
type point struct{ x, y float64 }

// rect is a rectangle with x0 <= x1 and y0 <= y1.
type rect struct{ x0, y0, x1, y1 float64 }

func (r rect) width() float64  { return r.x1 - r.x0 }
func (r rect) height() float64 { return r.y1 - r.y0 }

// grow returns the rectangle with a margin around it (inside, when negative).
func (r rect) grow(by float64) rect { return rect{r.x0 - by, r.y0 - by, r.x1 + by, r.y1 + by} }

// meets reports whether two rectangles share more than an edge.
func (r rect) meets(o rect) bool {
	return r.x0 < o.x1 && o.x0 < r.x1 && r.y0 < o.y1 && o.y0 < r.y1
}

// within reports whether r lies in o, give or take a rounding error.
func (r rect) within(o rect) bool {
	const e = 1e-6
	return r.x0 >= o.x0-e && r.x1 <= o.x1+e && r.y0 >= o.y0-e && r.y1 <= o.y1+e
}

// layer says what lies on what: a mark of a higher layer hides one below it.
type layer int

const (
	behind layer = iota // dark, wind
	grid                // ticks, milestones
	bars
	onBars // hatching, heavy edges
	over   // words and their plates
)

// mark is one thing on a sheet: exactly one of area, shape, path and words.
type mark struct {
	layer layer
	ink   ink
	area  *rect
	shape []point // corners of a figure to be filled
	path  *path
	words *words
}

// path is lines to be stroked; dash holds lengths of strokes and gaps.
type path struct {
	lines [][]point
	width float64
	dash  []float64
}

// words is a text set on one line, from x on, with its foot on y.
type words struct {
	at   point
	text string
	set  style
	wide float64
}

// box returns the rectangle that the text fills.
func (w *words) box() rect {
	return rect{w.at.x, w.at.y - ascent*w.set.size, w.at.x + w.wide, w.at.y + descent*w.set.size}
}

// sheet is a picture in the making.
type sheet struct {
	marks []mark
	*measure
	notes notes
}

func (s *sheet) fill(l layer, r rect, c ink) {
	s.marks = append(s.marks, mark{layer: l, ink: c, area: &r})
}

func (s *sheet) stroke(l layer, p path, c ink) {
	if len(p.lines) > 0 {
		s.marks = append(s.marks, mark{layer: l, ink: c, path: &p})
	}
}

// line strokes a straight line.
func (s *sheet) line(l layer, a, b point, width float64, c ink, dash ...float64) {
	s.stroke(l, path{lines: [][]point{{a, b}}, width: width, dash: dash}, c)
}

// frame strokes the outline of a rectangle, inside of it.
func (s *sheet) frame(l layer, r rect, width float64, c ink) {
	r = r.grow(-width / 2)
	s.stroke(l, path{lines: [][]point{{
		{r.x0, r.y0}, {r.x1, r.y0}, {r.x1, r.y1}, {r.x0, r.y1}, {r.x0, r.y0}}}, width: width}, c)
}

// text sets a text from x on with its foot on y and returns its box.
func (s *sheet) text(x, y float64, text string, st style) rect {
	w := &words{at: point{x, y}, text: text, set: st, wide: s.width(text, st)}
	if text != "" {
		s.marks = append(s.marks, mark{layer: over, ink: st.ink, words: w})
	}
	return w.box()
}

// paragraph sets a text in lines no wider than wide and returns the height.
func (s *sheet) paragraph(x, top float64, text string, st style, wide float64) float64 {
	lines := s.wrap(text, st, wide)
	for i, line := range lines {
		s.text(x, top+float64(ascent*st.size)+float64(float64(i)*leading*st.size), line, st)
	}
	return float64(float64(len(lines)) * leading * st.size)
}

// ordered returns the marks bottom layer first, each layer as it was made.
func (s *sheet) ordered() []mark {
	slices.SortStableFunc(s.marks, func(a, b mark) int { return cmp.Compare(a.layer, b.layer) })
	return s.marks
}
