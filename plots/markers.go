package plots

import "math"

// shape is the figure that marks points on a line, so that lines are told apart
// in grey where their dashes cannot be.
type shape int

// The shapes. Those of lines are full or hollow.
const (
	disc shape = iota
	square
	triangle
	diamond
	pennant // a triangle on its point
	bowtie
)

// corners returns the figure about a point, of about the area of a disc of that
// radius.
func (f shape) corners(at point, radius float64) []point {
	var turns []float64 // of the corners, in eighths of a circle from the right
	by := 1.25
	switch f {
	case square:
		turns = []float64{1, 3, 5, 7}
	case triangle:
		turns, by = []float64{6, 6 + 8.0/3, 6 + 16.0/3}, 1.45
	case diamond:
		turns, by = []float64{0, 2, 4, 6}, 1.4
	case pennant:
		turns, by = []float64{2, 2 + 8.0/3, 2 + 16.0/3}, 1.45
	case bowtie:
		turns, by = []float64{1, 7, 3, 5}, 1.45
	default:
		return circle(at, radius)
	}
	var out []point
	for _, t := range turns {
		sin, cos := math.Sincos(t * math.Pi / 4)
		out = append(out, point{at.x + float64(by*radius*cos), at.y + float64(by*radius*sin)})
	}
	return out
}

// mark draws a point of a line.
func (k lineLook) mark(s *sheet, at point, radius float64) {
	figure := func(r float64, c ink) {
		s.marks = append(s.marks, mark{layer: onBars, ink: c, shape: k.shape.corners(at, r)})
	}
	figure(radius, k.stroke)
	if k.hollow {
		figure(radius-1.1, paper)
	}
}

// markEvery is how far apart the marks on a long line stand.
const markEvery = 84.0

// markAlong marks a line at even steps across, each line of several at steps of
// its own, so that marks of lines that lie close do not fall together.
func (k lineLook) markAlong(s *sheet, line []point, which int) {
	if len(line) < 2 {
		return
	}
	next := line[0].x + float64(markEvery*float64(1+which%5)/6)
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		for ; next <= b.x && b.x > a.x; next += markEvery {
			k.mark(s, point{next, a.y + float64((b.y-a.y)*(next-a.x)/(b.x-a.x))}, 2.1)
		}
	}
}
