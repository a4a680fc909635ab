package plots

import "math"

// hatchBand fills the band between two edges with fine upright strokes, from x0
// to x1, and returns the edges. Strokes are tied to the sheet; those of up to
// three bands that lie on each other stand side by side.
func hatchBand(s *sheet, x0, x1 float64, low, high func(x float64) float64, c ink, which int) [][]point {
	const apart = 3.6
	var strokes [][]point
	edges := make([][]point, 2)
	shift := float64(which%3) * apart / 3
	for x := float64(math.Ceil((x0-shift)/apart)*apart) + shift; x <= x1; x += apart {
		p, q := point{x, low(x)}, point{x, high(x)}
		strokes = append(strokes, []point{p, q})
		edges[0], edges[1] = append(edges[0], p), append(edges[1], q)
	}
	s.stroke(bars, path{lines: strokes, width: 0.35}, c)
	return edges
}

// through returns the straight line through two points, as a function.
func through(p, q point) func(x float64) float64 {
	return func(x float64) float64 {
		if q.x == p.x {
			return p.y
		}
		return p.y + float64((x-p.x)/(q.x-p.x)*(q.y-p.y))
	}
}
