package plots

import (
	"math"

	"warmby/sim"
	"warmby/sim/heat"
)

// trace is one line of a temperature panel.
type trace struct {
	name   string
	points []heat.Point
	stroke ink
	width  float64
	dash   []float64
}

// traceLooks tell lines apart, by dash as well as by colour.
var traceLooks = []struct {
	stroke ink
	width  float64
	dash   []float64
}{
	{0x0b5d94, 1.6, nil},
	{0xb04a00, 1.6, []float64{5, 1.6}},
	{0x1f6b4b, 1.6, []float64{1.6, 1.4}},
	{0x86396b, 1.6, []float64{7, 1.5, 1.5, 1.5}},
	{0x6b5d00, 1.6, []float64{3, 3}},
}

// panelTemperature is the panel of shelters and pots over time.
type panelTemperature struct {
	traces []trace
	lines  []float64 // where milestones stand: labels keep off them
	high   float64
	boxes  []rect // of the labels, once drawn
}

// temperatures returns the panel for some curves, with the air outside.
func temperatures(curves []heat.Curve, steps []sim.Step, end sim.Time) *panelTemperature {
	p := &panelTemperature{high: 118}
	for _, c := range curves {
		if len(c.Points) == 0 {
			continue
		}
		l := traceLooks[len(p.traces)%len(traceLooks)]
		p.traces = append(p.traces, trace{clean(c.Name), c.Points, l.stroke, l.width, l.dash})
	}
	outside := trace{name: "outside", stroke: soft, width: 0.9}
	for i, st := range steps {
		if !st.Weather || st.At >= end {
			continue
		}
		to := end
		if i+1 < len(steps) {
			to = min(end, steps[i+1].At)
		}
		outside.points = append(outside.points, heat.Point{At: st.At, C: st.Air}, heat.Point{At: to, C: st.Air})
	}
	if len(outside.points) > 0 {
		p.traces = append(p.traces, outside)
	}
	return p
}

// scale is an axis of temperature.
type scale struct {
	low, high, step float64 // degrees C
	y0, y1          float64 // where low and high stand; y0 is below
}

func (c scale) y(celsius float64) float64 {
	return c.y0 + (c.y1-c.y0)*(celsius-c.low)/(c.high-c.low)
}

// scale returns an axis with round steps that holds all traces.
func (p *panelTemperature) scale(y0, y1 float64) scale {
	low, high := 0.0, 10.0
	for _, t := range p.traces {
		for _, q := range t.points {
			if !math.IsNaN(q.C) && !math.IsInf(q.C, 0) {
				low, high = min(low, q.C), max(high, q.C)
			}
		}
	}
	step := 10.0
	for _, st := range []float64{5, 10, 20, 25, 50, 100, 200, 500, 1000} {
		step = st
		if (high-low)/st <= 6 {
			break
		}
	}
	margin := step / 5
	return scale{low - margin, high + margin, step, y0, y1}
}

func (p *panelTemperature) draw(s *sheet, a axis, top float64) float64 {
	sc := p.scale(top+p.high-2, top+3)
	s.text(margin, top+9, "°C", nameStyles[0])
	for c := math.Ceil(sc.low/sc.step) * sc.step; c <= sc.high; c += sc.step {
		y := sc.y(c)
		width := 0.3
		if c == 0 {
			width = 0.8
		}
		s.line(grid, point{a.x0, y}, point{a.right(), y}, width, pale)
		text := number(c)
		s.text(a.x0-5-s.width(text, rulerStyle), y+2.5, text, rulerStyle)
	}
	s.line(grid, point{a.x0, sc.y0}, point{a.x0, sc.y1}, 0.6, black)
	drawn := make([][]point, len(p.traces))
	for i, t := range p.traces {
		for _, q := range t.points {
			if !math.IsNaN(q.C) && !math.IsInf(q.C, 0) {
				drawn[i] = append(drawn[i], point{a.x(q.At), sc.y(q.C)})
			}
		}
		if len(drawn[i]) > 0 {
			s.stroke(bars, path{lines: [][]point{drawn[i]}, width: t.width, dash: t.dash}, t.stroke)
		}
	}
	space := rect{a.x0 + 2, top + 1, a.right(), sc.y0 + 2}
	for i, t := range p.traces {
		if len(drawn[i]) > 0 {
			p.label(s, t, drawn, i, space)
		}
	}
	return p.high
}

// label writes a trace's name beside it: at its end if there is room, else
// near a point along it, else a number.
func (p *panelTemperature) label(s *sheet, t trace, drawn [][]point, i int, space rect) {
	st := style{size: 7.4, bold: true, ink: t.stroke}
	if r, ok := p.place(s.width(t.name, st), st, drawn, i, space); ok {
		s.text(r.x0, r.y1-descent*st.size, t.name, st)
		p.boxes = append(p.boxes, r)
		return
	}
	n := s.notes.number(t.name)
	if r, ok := p.place(s.tagWidth(n), st, drawn, i, space); ok {
		s.tag(n, (r.x0+r.x1)/2, r.y0)
		p.boxes = append(p.boxes, r)
	}
}

// place looks for a rectangle of some width near a trace, clear of the labels
// that stand and, if it can be had, of all traces and milestones.
func (p *panelTemperature) place(wide float64, st style, drawn [][]point, i int, space rect) (rect, bool) {
	high := (ascent + descent) * st.size
	at := func(q point, dx, dy float64) rect {
		x, y := q.x+dx, q.y+dy-high/2
		return rect{x, y, x + wide, y + high}
	}
	line := drawn[i]
	end, start := line[len(line)-1], line[0]
	candidates := []rect{at(end, 4, 0), at(end, 4, -5), at(end, 4, 5)}
	for _, share := range []float64{0.5, 0.7, 0.3, 0.85, 0.15} {
		q := line[int(share*float64(len(line)-1))]
		candidates = append(candidates, at(q, -wide-5, -3), at(q, 5, 4), at(q, -wide/2, -8), at(q, -wide/2, 8), at(q, -wide-5, -12), at(q, 5, 12))
	}
	candidates = append(candidates, at(start, -wide-4, 0), at(end, -wide, -9), at(end, -wide, 9))
	for dy := 14.0; dy < space.height(); dy += high {
		candidates = append(candidates, at(end, 4, -dy), at(end, 4, dy), at(end, -wide-4, -dy), at(end, -wide-4, dy))
	}
	for clear := range 3 { // ask less each time
		for _, r := range candidates {
			if r.within(space) && !p.taken(r) && (clear > 0 || !p.onLine(r)) && (clear > 1 || !crosses(drawn, r)) {
				return r, true
			}
		}
	}
	return rect{}, false
}

func (p *panelTemperature) taken(r rect) bool {
	for _, o := range p.boxes {
		if r.grow(1).meets(o) {
			return true
		}
	}
	return false
}

func (p *panelTemperature) onLine(r rect) bool {
	for _, x := range p.lines {
		if r.x0-1 < x && x < r.x1+1 {
			return true
		}
	}
	return false
}

// crosses reports whether a line runs through a rectangle; it looks along
// each piece at steps of two points.
func crosses(lines [][]point, r rect) bool {
	r = r.grow(0.8)
	for _, line := range lines {
		for k := 1; k < len(line); k++ {
			p, q := line[k-1], line[k]
			if max(p.x, q.x) < r.x0 || min(p.x, q.x) > r.x1 || max(p.y, q.y) < r.y0 || min(p.y, q.y) > r.y1 {
				continue
			}
			n := int(math.Hypot(q.x-p.x, q.y-p.y)/2) + 1
			for j := 0; j <= n; j++ {
				f := float64(j) / float64(n)
				x, y := p.x+f*(q.x-p.x), p.y+f*(q.y-p.y)
				if x > r.x0 && x < r.x1 && y > r.y0 && y < r.y1 {
					return true
				}
			}
		}
	}
	return false
}
