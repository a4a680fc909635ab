package plots

import (
	"cmp"
	"math"
	"slices"
)

// placer finds room for the names of lines beside them.
type placer struct {
	space    rect      // in which names stand
	drawn    [][]point // the lines; names keep off them when they can
	soft     [][]point // edges of bands, which names keep off first of all
	uprights []float64 // upright lines, which names keep off too

	boxes []rect    // of the names that stand
	ties  [][]point // from far names to their lines
}

// label writes a name by one of some points of a line, the first of them if it
// can, or a number when there is no room, and ties it to the point by a thin
// stroke when it stands further off. It reports false when there was no room
// even for a number.
func (p *placer) label(s *sheet, name string, st style, by []point) bool {
	high := float64((ascent + descent) * st.size)
	r, foot, ok := p.place(s.width(name, st), high, by)
	if ok {
		s.text(r.x0, r.y1-float64(descent*st.size), name, st)
	} else {
		// A number is taken from the list only once there is room for it.
		if r, foot, ok = p.place(s.tagWidth(len(s.notes.texts)+1), high, by); !ok {
			return false
		}
		s.tag(s.notes.number(name), (r.x0+r.x1)/2, r.y0)
	}
	p.boxes = append(p.boxes, r)
	if tie := tieOf(r, foot); tie != nil {
		p.ties = append(p.ties, tie)
		s.stroke(bars, path{lines: [][]point{tie}, width: 0.5}, st.ink)
	}
	return true
}

// tieOf returns the stroke that ties a name to its line, nil when it stands
// close by.
func tieOf(r rect, foot point) []point {
	near := nearestIn(r, foot)
	if math.Hypot(near.x-foot.x, near.y-foot.y) <= 7 {
		return nil
	}
	return []point{near, foot}
}

// spotBeside is where a name might stand and the point that it is near to.
type spotBeside struct {
	r    rect
	foot point
}

// place looks for a rectangle of some size near one of some points, and
// returns it with that point. It is clear of the names that stand; best it is
// also clear of all lines.
func (p *placer) place(wide, high float64, by []point) (r rect, foot point, ok bool) {
	at := func(q point, dx, dy float64) spotBeside {
		x, y := q.x+dx, q.y+dy-high/2
		return spotBeside{rect{x, y, x + wide, y + high}, q}
	}
	var near, far []spotBeside
	for i, q := range by {
		if i == 0 {
			near = append(near, at(q, 4, 0), at(q, 4, -5), at(q, 4, 5), at(q, -wide/2, -6.5), at(q, -wide-4, 0), at(q, -wide-4, -5))
		}
		for _, dy := range []float64{-3, 3, -8, 8} {
			near = append(near, at(q, -wide-5, dy), at(q, 5, dy), at(q, -wide/2, dy))
			if len(p.soft) > 0 { // beyond a band
				near = append(near, at(q, -wide-14, dy), at(q, 14, dy))
			}
		}
	}
	for d := 12.0; d < p.space.height(); d += high {
		for _, q := range by[:min(len(by), 3)] {
			far = append(far, at(q, d, -d), at(q, d, d), at(q, -wide-d, -d), at(q, -wide-d, d))
		}
	}
	// keepOff is what a name should keep off, the least important first.
	const (
		soft    = 1 << iota // bands, and other lines between the name and its own
		upright             // milestones and targets
		lines
	)
	search := func(from []spotBeside, keepOff int) bool {
		for _, c := range from {
			if !c.r.within(p.space) || p.taken(c.r, tieOf(c.r, c.foot)) || keepOff&upright != 0 && p.onUpright(c.r) ||
				keepOff&soft != 0 && (crosses(p.soft, c.r) || p.behindAnother(c)) || keepOff&lines != 0 && crosses(p.drawn, c.r) {
				continue
			}
			r, foot = c.r, c.foot
			return true
		}
		return false
	}
	some := far[:min(len(far), 36)]
	for _, keepOff := range []int{soft | upright | lines, upright | lines, lines, 0} {
		if search(near, keepOff) || keepOff&upright != 0 && search(some, keepOff) || keepOff&upright == 0 && search(far, keepOff) {
			return r, foot, true
		}
	}
	return r, foot, false
}

// behindAnother reports whether a line runs between a name and the point that
// it is near to.
func (p *placer) behindAnother(c spotBeside) bool {
	from := nearestIn(c.r, c.foot)
	// The line itself runs through the foot.
	to := point{c.foot.x + float64((from.x-c.foot.x)*0.25), c.foot.y + float64((from.y-c.foot.y)*0.25)}
	for _, line := range p.drawn {
		for k := 1; k < len(line); k++ {
			if meet(from, to, line[k-1], line[k]) {
				return true
			}
		}
	}
	return false
}

// meet reports whether two straight strokes cross.
func meet(a, b, c, d point) bool {
	side := func(p, q, r point) float64 { return float64((q.x-p.x)*(r.y-p.y)) - float64((q.y-p.y)*(r.x-p.x)) }
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

// nearestIn returns the point of a rectangle nearest to another.
func nearestIn(r rect, q point) point {
	return point{min(max(q.x, r.x0), r.x1), min(max(q.y, r.y0), r.y1)}
}

// pointsBy are the points of a line by which its name may stand: one of its
// corners, then others from the middle outwards.
func pointsBy(line []point, corner int) []point {
	by := []point{line[corner]}
	for _, share := range []float64{0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2, 0.9, 0.1, 1, 0} {
		by = append(by, along(line, share))
	}
	return by
}

// highest are the points of a line by which its name may stand where the
// highest tell it best from others: those first, and none low down.
func highest(line []point) []point {
	all := slices.Clone(line)
	for share := 0.025; share < 1; share += 0.025 {
		all = append(all, along(line, share))
	}
	slices.SortStableFunc(all, func(p, q point) int { return cmp.Compare(p.y, q.y) })
	top, foot := all[0].y, all[len(all)-1].y
	low := slices.IndexFunc(all, func(q point) bool { return q.y > top+float64(0.6*(foot-top)) })
	if low < 0 {
		low = len(all)
	}
	return thinned(all[:low])
}

// halfway are the points of a line by which its name may stand where it is
// told best from others halfway up: those halfway first, none near its ends.
func halfway(line []point) []point {
	top, foot := line[0].y, line[0].y
	for _, q := range line {
		top, foot = min(top, q.y), max(foot, q.y)
	}
	off := func(q point) float64 { return math.Abs(q.y - (top+foot)/2) }
	var by []point
	for k := 1; k < len(line); k++ {
		for share := 0.0; share <= 1; share += 0.25 {
			if q := along(line[k-1:k+1], share); off(q) <= 0.35*(foot-top) {
				by = append(by, q)
			}
		}
	}
	if len(by) == 0 {
		return pointsBy(line, len(line)/2)
	}
	slices.SortStableFunc(by, func(p, q point) int { return cmp.Compare(off(p), off(q)) })
	return thinned(by)
}

// thinned keeps no more points than are worth trying, evenly.
func thinned(by []point) []point {
	const most = 60
	if len(by) <= most {
		return by
	}
	out := make([]point, most)
	for i := range out {
		out[i] = by[i*len(by)/most]
	}
	return out
}

// along returns the point at a share of the way along a line, by length.
func along(line []point, share float64) point {
	total := 0.0
	for k := 1; k < len(line); k++ {
		total += math.Hypot(line[k].x-line[k-1].x, line[k].y-line[k-1].y)
	}
	left := float64(share * total)
	for k := 1; k < len(line); k++ {
		d := math.Hypot(line[k].x-line[k-1].x, line[k].y-line[k-1].y)
		if d >= left && d > 0 {
			f := left / d
			return point{line[k-1].x + float64(f*(line[k].x-line[k-1].x)), line[k-1].y + float64(f*(line[k].y-line[k-1].y))}
		}
		left -= d
	}
	return line[len(line)-1]
}

// taken reports whether another name, or its tie, is in the way of a name or
// of its tie.
func (p *placer) taken(r rect, tie []point) bool {
	for _, o := range p.boxes {
		if r.grow(1).meets(o) || crosses([][]point{tie}, o) {
			return true
		}
	}
	return crosses(p.ties, r)
}

func (p *placer) onUpright(r rect) bool {
	for _, x := range p.uprights {
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
				x, y := p.x+float64(f*(q.x-p.x)), p.y+float64(f*(q.y-p.y))
				if x > r.x0 && x < r.x1 && y > r.y0 && y < r.y1 {
					return true
				}
			}
		}
	}
	return false
}
