package plots

import (
	"image/color"
	"math"
)

// ink is a colour, 0xRRGGBB.
type ink uint32

func (c ink) color() color.Color {
	return color.RGBA{uint8(c >> 16), uint8(c >> 8), uint8(c), 255}
}

const (
	black   ink = 0x1b1f24
	soft    ink = 0x414952 // words of second rank
	pale    ink = 0xc3cad3 // ticks and rules
	paper   ink = 0xffffff
	night   ink = 0xe4e9f2 // the dark
	breath  ink = 0xa7b3c2 // wind
	aim     ink = 0x7f2f00 // targets
	reached ink = 0x1b1f24 // milestones
)

// hatch is a pattern of strokes.
type hatch int

const (
	plain     hatch = iota
	rising          // ///
	falling         // \\\, wide apart
	upright         // |||
	dotted          // : :
	crossed         // xxx
	centreRow       // one dotted line, no area
)

// look is how a stretch of time is filled: by colour and hatching, so that a
// grey print and any eyes tell them apart.
type look struct {
	word         string
	fill, stroke ink
	hatch        hatch
}

var (
	lookWork  = &look{"work", 0xabd4f0, 0x2b5f86, plain}
	lookWalk  = &look{"walking", 0xf4c67c, 0x8f5200, rising}
	lookWatch = &look{"lookout", 0xe3bdd4, 0x86396b, upright}
	lookReady = &look{"ready: waits for the crew", 0xfaf3b8, 0x7a6a00, dotted}
	lookFree  = &look{"free", paper, 0x7b848f, centreRow}
	lookAlone = &look{"by itself", 0xbfe5d2, 0x1f6b4b, falling}
	lookLate  = &look{"mishap", 0xabd4f0, 0x2b5f86, crossed}
)

// draw fills a rectangle with a look. Free time is a dotted line only, so
// that dark and wind show.
func (k *look) draw(s *sheet, r rect) {
	if k.hatch == centreRow {
		y := (r.y0 + r.y1) / 2
		s.line(bars, point{r.x0, y}, point{r.x1, y}, 0.9, k.stroke, 1, 2.6)
		return
	}
	s.fill(bars, r, k.fill)
	s.stroke(bars, path{lines: hatching(k.hatch, r), width: hatchWidth(k.hatch)}, k.stroke)
	if r.width() > 1 {
		s.frame(bars, r, 0.5, k.stroke)
	}
}

func hatchWidth(h hatch) float64 {
	if h == dotted {
		return 1
	}
	return 0.45
}

// hatching returns the strokes of a pattern inside a rectangle. Patterns are
// tied to the sheet, so that those of neighbours meet.
func hatching(h hatch, r rect) [][]point {
	switch h {
	case rising:
		return slanted(r, 4, 1)
	case falling:
		return slanted(r, 6.5, -1)
	case crossed:
		return append(slanted(r, 4, 1), slanted(r, 4, -1)...)
	case upright:
		var lines [][]point
		for x := float64(math.Ceil(r.x0/3.6) * 3.6); x < r.x1; x += 3.6 {
			lines = append(lines, []point{{x, r.y0}, {x, r.y1}})
		}
		return lines
	case dotted:
		var lines [][]point
		for i, y := 0, r.y0+2.5; y < r.y1-1; i, y = i+1, y+3.4 {
			shift := float64(float64(i%2) * 2.4)
			for x := float64(math.Ceil(r.x0/4.8)*4.8) + shift; x+1 < r.x1; x += 4.8 {
				lines = append(lines, []point{{x, y}, {x + 1, y}})
			}
		}
		return lines
	}
	return nil
}

// slanted returns strokes at 45 degrees, step apart along x: rising to the
// right when up is 1, falling when it is -1.
func slanted(r rect, step, up float64) [][]point {
	var lines [][]point
	h := r.height()
	// A stroke is x = c - up*(y - y0) for y from y0 to y1; c runs from where
	// its last end comes into the rectangle to where its first one leaves it.
	low, high := r.x0, r.x1+h
	if up < 0 {
		low, high = r.x0-h, r.x1
	}
	phase := float64(up * r.y0) // ties the pattern to the sheet
	for c := float64(math.Ceil((low+phase)/step)*step) - phase; c < high; c += step {
		t0, t1 := float64((c-r.x1)*up), float64((c-r.x0)*up) // where it meets the sides
		if up < 0 {
			t0, t1 = t1, t0
		}
		t0, t1 = max(t0, 0), min(t1, h)
		if t1-t0 > 0.2 {
			lines = append(lines, []point{{c - float64(up*t0), r.y0 + t0}, {c - float64(up*t1), r.y0 + t1}})
		}
	}
	return lines
}
