package plots

import (
	"math"

	"warmby/sim"
)

// sample is a value at a moment.
type sample struct {
	at    sim.Time
	value float64
}

func (q sample) known() bool { return !math.IsNaN(q.value) && !math.IsInf(q.value, 0) }

// trace is one line of a panel.
type trace struct {
	lineLook
	name   string
	points []sample
}

// level is a value to hold lines against, with its words.
type level struct {
	value float64
	text  string
}

// panelLines is a panel of lines over time.
type panelLines struct {
	head, unit string // beside the scale
	traces     []trace
	levels     []level
	least      float64   // up to where the scale reaches at least
	lines      []float64 // where milestones stand: labels keep off them
	high       float64
	byHighest  bool // names stand by the highest points; else by the last

	nameless []trace // of which not even a number found room, once drawn
	placer
}

// scale returns an axis with round steps that holds all traces and levels.
func (p *panelLines) scale(from, to float64) scale {
	low, high := 0.0, p.least
	for _, t := range p.traces {
		for _, q := range t.points {
			if q.known() {
				low, high = min(low, q.value), max(high, q.value)
			}
		}
	}
	sc := scale{low: low, high: high, step: roundStep((high - low) / 6), from: from, to: to}
	sc.low, sc.high = low-sc.step/5, high+sc.step/5
	return sc
}

func (p *panelLines) draw(s *sheet, a axis, top float64) float64 {
	sc := p.scale(top+p.high-2, top+3)
	s.text(margin, top+9, p.head, nameStyles[0])
	s.text(margin, top+17.5, p.unit, captionStyle)
	for _, c := range sc.ticks() {
		y := sc.at(c)
		width := 0.3
		if c == 0 {
			width = 0.8
		}
		s.line(grid, point{a.x0, y}, point{a.right(), y}, width, pale)
		text := sc.text(c)
		s.text(a.x0-5-s.width(text, rulerStyle), y+2.5, text, rulerStyle)
	}
	s.line(grid, point{a.x0, sc.from}, point{a.x0, sc.to}, 0.6, black)
	p.space, p.uprights = rect{a.x0 + 2, top + 1, a.right(), sc.from + 2}, p.lines
	for i, t := range p.traces {
		var line []point
		for _, q := range t.points {
			if q.known() {
				line = append(line, point{a.x(q.at), sc.at(q.value)})
			}
		}
		p.drawn = append(p.drawn, line)
		if len(line) > 0 {
			t.lineLook.draw(s, line)
			if len(p.traces) > 1 {
				t.markAlong(s, line, i)
			}
		}
	}
	for _, l := range p.levels {
		line := []point{{a.x0, sc.at(l.value)}, {a.right(), sc.at(l.value)}}
		levelLook.draw(s, line)
		p.drawn = append(p.drawn, line)
		p.label(s, l.text, levelLook.style(), pointsBy(line, 0))
	}
	for i, t := range p.traces {
		line := p.drawn[i]
		if len(line) == 0 || t.name == "" {
			continue
		}
		by := pointsBy(line, len(line)-1)
		if p.byHighest {
			by = highest(line)
		}
		if !p.label(s, t.name, t.style(), by) {
			p.nameless = append(p.nameless, t)
		}
	}
	return p.high
}

// levelLook is the line of a limit.
var levelLook = lineLook{stroke: black, width: 1.2, dash: []float64{11, 2.5, 2, 2.5}}
