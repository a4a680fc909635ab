package plots

import (
	"cmp"
	"slices"
	"strings"

	"warmby/sim"
)

// label is a text over the rows with a line down from it.
type label struct {
	text   string
	x      float64 // of its line
	line   bool    // whether there is one
	target bool    // a target; else a milestone reached
	number int     // on a tag instead of the text; 0 for none

	left bool    // the text stands left of the line
	wide float64 // of the text
	lane int     // 0 is next to the rows
}

const (
	laneHeight = 10
	labelGap   = 2.5 // between a line and its text
)

var (
	reachedStyle = style{size: 7.4, bold: true, ink: reached}
	targetStyle  = style{size: 7.4, ink: aim}
)

func (l *label) style() style {
	if l.target {
		return targetStyle
	}
	return reachedStyle
}

// span returns where the text stands.
func (l *label) span() (from, to float64) {
	if l.left {
		return l.x - labelGap - l.wide, l.x - labelGap
	}
	return l.x + labelGap, l.x + labelGap + l.wide
}

// covers reports whether a line at x would run through the text or touch it.
func (l *label) covers(x float64) bool {
	from, to := l.span()
	if l.left {
		return from-labelGap < x && x < to+1
	}
	return from-1 < x && x < to+labelGap
}

// about writes a length of time to the minute, or to the second under one.
func about(t sim.Time) string {
	if t == sim.Never || t < sim.Minute {
		return sim.Clock(t)
	}
	return sim.Clock((t + sim.Minute/2) / sim.Minute * sim.Minute)
}

// labels returns what is to be said of milestones and targets. Milestones of
// one moment share a label, and so do targets.
func (a axis) labels(tl *sim.Timeline) []label {
	out := a.targets(tl.Drill.Milestones)
	var never []string
	shared := map[sim.Time]int{}
	for i, m := range tl.Drill.Milestones {
		at, name := tl.Milestones[i], clean(m.Name)
		missed := ""
		if m.By != sim.Never && at != sim.Never && at > m.By {
			missed = ", late by " + about(at-m.By)
		}
		if at == sim.Never {
			never = append(never, name)
			continue
		}
		if j, ok := shared[at]; ok {
			out[j].text += ", " + name + missed
			continue
		}
		shared[at] = len(out)
		out = append(out, label{text: about(at) + " " + name + missed, x: a.x(at), line: true})
	}
	if len(never) > 0 {
		out = append(out, label{text: "never: " + strings.Join(never, ", "), x: a.right()})
	}
	return out
}

// targets returns a label for each moment by which milestones are wanted.
func (a axis) targets(milestones []sim.Milestone) []label {
	var out []label
	done := map[sim.Time]bool{sim.Never: true}
	for i, m := range milestones {
		if done[m.By] {
			continue
		}
		done[m.By] = true
		var names []string
		for _, o := range milestones[i:] {
			if o.By == m.By {
				names = append(names, clean(o.Name))
			}
		}
		by := clean(m.ByText)
		if by == "" {
			by = about(m.By)
		}
		l := label{text: strings.Join(names, ", ") + " by " + by, target: true, x: a.x(m.By), line: m.By <= a.length}
		if !l.line {
			l.x, l.text = a.right(), l.text+" (later than this)"
		}
		out = append(out, l)
	}
	return out
}

// arrange gives each label a side and a lane so that no text lies on another
// and no line runs through one, and returns the number of lanes. A text wider
// than two fifths of the ruler becomes a number.
func (a axis) arrange(s *sheet, labels []label) int {
	for i := range labels {
		l := &labels[i]
		l.wide = s.width(l.text, l.style())
		if l.wide > 0.4*(a.x1-a.x0) {
			l.shorten(s)
		}
	}
	order := make([]*label, len(labels))
	for i := range labels {
		order[i] = &labels[i]
	}
	slices.SortStableFunc(order, func(p, q *label) int { return cmp.Compare(p.x, q.x) })
	a.chooseSides(s, order)
	// Those that reach right are placed from the right, then those that reach
	// left from the left: what a text covers is then always placed before it.
	var placed []*label
	lanes := 0
	place := func(l *label) {
		l.lane = l.lowest(placed)
		lanes = max(lanes, l.lane+1)
		placed = append(placed, l)
	}
	for _, l := range slices.Backward(order) {
		if !l.left {
			place(l)
		}
	}
	for _, l := range order {
		if l.left {
			place(l)
		}
	}
	return lanes
}

// chooseSides turns texts to the left of their line where they would stick
// out on the right, and where they would cover the line of one so turned.
func (a axis) chooseSides(s *sheet, order []*label) {
	bound := a.right() + labelGap
	for _, l := range slices.Backward(order) {
		if _, to := l.span(); to+labelGap <= bound {
			continue
		}
		l.left = true
		if from, _ := l.span(); from < a.x0-12 {
			l.shorten(s)
		}
		bound = min(bound, l.x)
	}
}

// shorten puts a number in place of the text.
func (l *label) shorten(s *sheet) {
	if l.number == 0 {
		l.number = s.notes.number(l.text)
		l.wide = s.tagWidth(l.number)
	}
}

// lowest returns the lowest lane in which a label is clear of those placed.
func (l *label) lowest(placed []*label) int {
	lane := 0
	for _, o := range placed { // above all lines that the text covers
		if l.covers(o.x) {
			lane = max(lane, o.lane+1)
		}
	}
	for l.clashes(placed, lane) {
		lane++
	}
	return lane
}

func (l *label) clashes(placed []*label, lane int) bool {
	from, to := l.span()
	for _, o := range placed {
		f, t := o.span()
		if o.lane == lane && from-3 < t && f-3 < to {
			return true
		}
	}
	return false
}

// drawLabels draws the texts; rows begin at foot, lines end at bottom.
func (a axis) drawLabels(s *sheet, labels []label, foot, bottom float64) {
	for i := range labels {
		l := &labels[i]
		y := foot - float64(float64(l.lane+1)*laneHeight)
		from, to := l.span()
		if l.number > 0 {
			s.tag(l.number, (from+to)/2, y+1)
		} else {
			s.text(from, y+laneHeight-2.6, l.text, l.style())
		}
		if !l.line {
			continue
		}
		if l.target {
			s.line(grid, point{l.x, y + 1}, point{l.x, bottom}, 1, aim, 4, 2)
		} else {
			s.line(grid, point{l.x, y + 1}, point{l.x, bottom}, 1.1, reached)
		}
	}
}
