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
	boxes  []rect    // of the labels, once drawn
	ties   [][]point // from far labels to their traces
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
		if len(drawn[i]) > 0 && t.name != "" {
			p.label(s, t, drawn, i, space)
		}
	}
	return p.high
}

// label writes a trace's name beside it, or a number when there is no room,
// and ties it to the trace by a thin line when it stands further off.
func (p *panelTemperature) label(s *sheet, t trace, drawn [][]point, i int, space rect) {
	st := style{size: 7.4, bold: true, ink: t.stroke}
	high := (ascent + descent) * st.size
	r, foot, ok := p.place(s.width(t.name, st), high, drawn, i, space)
	if ok {
		s.text(r.x0, r.y1-descent*st.size, t.name, st)
	} else {
		n := s.notes.number(t.name)
		if r, foot, ok = p.place(s.tagWidth(n), high, drawn, i, space); !ok {
			return
		}
		s.tag(n, (r.x0+r.x1)/2, r.y0)
	}
	p.boxes = append(p.boxes, r)
	if tie := tieOf(r, foot); tie != nil {
		p.ties = append(p.ties, tie)
		s.stroke(bars, path{lines: [][]point{tie}, width: 0.5}, t.stroke)
	}
}

// tieOf returns the line that ties a label to its trace, nil when it stands
// close by.
func tieOf(r rect, foot point) []point {
	near := point{min(max(foot.x, r.x0), r.x1), min(max(foot.y, r.y0), r.y1)}
	if math.Hypot(near.x-foot.x, near.y-foot.y) <= 7 {
		return nil
	}
	return []point{near, foot}
}

// place looks for a rectangle of some size near a trace, and returns it with
// the point of the trace that it is near to. It is clear of the labels that
// stand; best it is also clear of all traces and milestones.
func (p *panelTemperature) place(wide, high float64, drawn [][]point, i int, space rect) (r rect, foot point, ok bool) {
	type candidate struct {
		r    rect
		foot point
	}
	at := func(q point, dx, dy float64) candidate {
		x, y := q.x+dx, q.y+dy-high/2
		return candidate{rect{x, y, x + wide, y + high}, q}
	}
	line := drawn[i]
	end := line[len(line)-1]
	near := []candidate{at(end, 4, 0), at(end, 4, -5), at(end, 4, 5)}
	for _, share := range []float64{0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2, 0.9, 0.1, 1, 0} {
		q := along(line, share)
		for _, dy := range []float64{-3, 3, -8, 8} {
			near = append(near, at(q, -wide-5, dy), at(q, 5, dy), at(q, -wide/2, dy))
		}
	}
	var far []candidate
	for d := 12.0; d < space.height(); d += high {
		for _, share := range []float64{1, 0.5, 0} {
			q := along(line, share)
			far = append(far, at(q, d, -d), at(q, d, d), at(q, -wide-d, -d), at(q, -wide-d, d))
		}
	}
	search := func(from []candidate, offLines, offTraces bool) bool {
		for _, c := range from {
			if c.r.within(space) && !p.taken(c.r, tieOf(c.r, c.foot)) && !(offLines && p.onLine(c.r)) && !(offTraces && crosses(drawn, c.r)) {
				r, foot = c.r, c.foot
				return true
			}
		}
		return false
	}
	ok = search(near, true, true) || search(far[:min(len(far), 36)], true, true) || search(near, false, true) ||
		search(far, false, true) || search(near, false, false) || search(far, false, false)
	return r, foot, ok
}

// along returns the point at a share of the way along a line, by length.
func along(line []point, share float64) point {
	total := 0.0
	for k := 1; k < len(line); k++ {
		total += math.Hypot(line[k].x-line[k-1].x, line[k].y-line[k-1].y)
	}
	left := share * total
	for k := 1; k < len(line); k++ {
		d := math.Hypot(line[k].x-line[k-1].x, line[k].y-line[k-1].y)
		if d >= left && d > 0 {
			f := left / d
			return point{line[k-1].x + f*(line[k].x-line[k-1].x), line[k-1].y + f*(line[k].y-line[k-1].y)}
		}
		left -= d
	}
	return line[len(line)-1]
}

// taken reports whether another label, or its tie, is in the way of a label
// or of its tie.
func (p *panelTemperature) taken(r rect, tie []point) bool {
	for _, o := range p.boxes {
		if r.grow(1).meets(o) || crosses([][]point{tie}, o) {
			return true
		}
	}
	return crosses(p.ties, r)
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
