package paper

import (
	"fmt"
	"math"

	"codeberg.org/go-pdf/fpdf"

	"warmby/cmd/warmby/internal/cards"
)

// sketch lays the camp sketch out: north up, rings of walks, spots by bearing and
// walk with their names beside them. A name for which there is no room becomes a
// number, told below.
func (c *canvas) sketch(s *cards.Sketch, size Size) {
	f := c.newFlow(size, s.Title, s.Wind)
	m := sketchMap{flow: f, of: s}
	side := min(f.inner.width(), f.inner.Y1-f.y-70)
	m.area = Rect{f.inner.X0, f.y + 4, f.inner.X1, f.y + 4 + side}
	m.x, m.y = (m.area.X0+m.area.X1)/2, (m.area.Y0+m.area.Y1)/2
	most := 1.0
	for _, r := range s.Rings {
		most = max(most, r.Walk)
	}
	for _, spot := range s.Spots {
		most = max(most, spot.Walk)
	}
	m.scale = (side/2 - 34) / most
	m.lee()
	m.rings()
	m.compass()
	m.spots()
	f.y = m.area.Y1 + 6
	for i, text := range m.numbered {
		f.paragraph(fmt.Sprintf("%d  %s", i+1, text), normal, false)
	}
	for _, note := range s.Note {
		f.paragraph(note, normal, false)
	}
}

// sketchMap is the round part of a sketch.
type sketchMap struct {
	*flow
	of       *cards.Sketch
	area     Rect
	x, y     float64 // the centre
	scale    float64 // points for a minute's walk
	taken    []Rect  // where something stands
	numbered []string
}

// at is the place at a bearing and a walk.
func (m *sketchMap) at(bearing, walk float64) (x, y float64) {
	rad := bearing * math.Pi / 180
	return m.x + walk*m.scale*math.Sin(rad), m.y - walk*m.scale*math.Cos(rad)
}

// lee shades where the wind takes things from the centre.
func (m *sketchMap) lee() {
	if m.of.From == nil {
		return
	}
	far := (m.area.height()/2 - 10) / m.scale
	corners := []fpdf.PointType{{X: m.x, Y: m.y}}
	for off := -30.0; off <= 30; off += 5 {
		x, y := m.at(*m.of.From+180+off, far)
		corners = append(corners, fpdf.PointType{X: x, Y: y})
	}
	m.doc.SetFillColor(228, 228, 228)
	m.doc.Polygon(corners, "F")
}

func (m *sketchMap) rings() {
	m.doc.SetLineWidth(0.5)
	m.doc.SetDashPattern([]float64{3, 3}, 0)
	for _, r := range m.of.Rings {
		m.doc.Circle(m.x, m.y, r.Walk*m.scale, "D")
	}
	m.doc.SetDashPattern(nil, 0)
	for _, r := range m.of.Rings {
		for _, bearing := range []float64{200, 250, 290, 340, 20, 160, 110} {
			x, y := m.at(bearing, r.Walk)
			if m.put(Rect{x - m.width(r.Text, small, false)/2, y - small, x + m.width(r.Text, small, false)/2, y + 3}, r.Text, small, false) {
				break
			}
		}
	}
}

// put sets a text in a rectangle where that is free and on the sheet.
func (m *sketchMap) put(r Rect, text string, size float64, bold bool) bool {
	if !m.free(r) {
		return false
	}
	m.taken = append(m.taken, r)
	m.text(r.X0, r.Y1-3, text, size, bold)
	return true
}

func (m *sketchMap) free(r Rect) bool {
	if r.X0 < m.area.X0 || r.X1 > m.area.X1 || r.Y0 < m.area.Y0 || r.Y1 > m.area.Y1 {
		return false
	}
	for _, o := range m.taken {
		if r.X0 < o.X1 && o.X0 < r.X1 && r.Y0 < o.Y1 && o.Y0 < r.Y1 {
			return false
		}
	}
	return true
}

// compass draws north, and an arrow with the wind.
func (m *sketchMap) compass() {
	x, top := m.area.X1-16, m.area.Y0+24
	m.line(x, top, x, top+44, 1.6)
	m.head(x, top, 0)
	m.text(x-m.width(m.of.North, normal, true)/2, top-6, m.of.North, normal, true)
	m.taken = append(m.taken, Rect{x - 12, m.area.Y0, m.area.X1, top + 48})
	if m.of.From == nil {
		return
	}
	far := (m.area.height()/2 - 6) / m.scale
	x0, y0 := m.at(*m.of.From, far)
	x1, y1 := m.at(*m.of.From, far-40/m.scale)
	m.line(x0, y0, x1, y1, 4)
	m.head(x1, y1, *m.of.From+180)
	m.taken = append(m.taken, Rect{min(x0, x1) - 8, min(y0, y1) - 8, max(x0, x1) + 8, max(y0, y1) + 8})
}

// head is the head of an arrow at its tip, flying at a bearing.
func (m *sketchMap) head(x, y, bearing float64) {
	var corners []fpdf.PointType
	for _, c := range [][2]float64{{0, 6}, {150, 9}, {210, 9}} {
		rad := (bearing + c[0]) * math.Pi / 180
		corners = append(corners, fpdf.PointType{X: x + c[1]*math.Sin(rad), Y: y - c[1]*math.Cos(rad)})
	}
	m.doc.SetFillColor(0, 0, 0)
	m.doc.Polygon(corners, "F")
}

// spots marks all spots before any of them is named.
func (m *sketchMap) spots() {
	m.dot(m.x, m.y, 5)
	for _, s := range m.of.Spots {
		x, y := m.at(s.Bearing, s.Walk)
		m.dot(x, y, 3.6)
	}
	m.label(m.x, m.y, m.of.Centre)
	for _, s := range m.of.Spots {
		x, y := m.at(s.Bearing, s.Walk)
		m.label(x, y, s.Text)
	}
}

func (m *sketchMap) dot(x, y, r float64) {
	m.doc.SetFillColor(0, 0, 0)
	m.doc.Circle(x, y, r, "F")
	m.taken = append(m.taken, Rect{x - r, y - r, x + r, y + r})
}

// labelWide is how wide a name beside a spot may be before it is broken.
const labelWide = 150.0

// label names a spot: beside it, or farther off with a line to it, or by a number.
func (m *sketchMap) label(x, y float64, text string) {
	if text == "" {
		return
	}
	lines := m.wrap(text, sheetType, true, labelWide)
	if len(lines) <= 4 && m.beside(x, y, lines) {
		return
	}
	m.numbered = append(m.numbered, text)
	m.beside(x, y, []string{fmt.Sprint(len(m.numbered))})
}

func (m *sketchMap) beside(x, y float64, lines []string) bool {
	wide := 0.0
	for _, line := range lines {
		wide = max(wide, m.width(line, sheetType, true))
	}
	high := float64(len(lines)) * sheetType * leading
	for away := 8.0; away < 90; away += 10 {
		for _, d := range [][2]float64{{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {0.7, 0.7}, {-0.7, 0.7}, {0.7, -0.7}, {-0.7, -0.7}} {
			cx, cy := x+d[0]*(away+wide/2), y+d[1]*(away+high/2)
			r := Rect{cx - wide/2 - 1, cy - high/2, cx + wide/2 + 1, cy + high/2}
			if !m.free(r) {
				continue
			}
			if away > 20 {
				m.line(x, y, x+d[0]*away, y+d[1]*away, 0.5)
			}
			m.taken = append(m.taken, r)
			m.shade(r, 255)
			m.column(r.X0+1, r.Y0, lines, sheetType, true)
			return true
		}
	}
	return false
}
