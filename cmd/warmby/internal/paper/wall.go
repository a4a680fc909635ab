package paper

import "warmby/cmd/warmby/internal/cards"

// The wall sheet stands on paper on its side, in columns by person, as many side
// by side as stay wide enough to read.
const (
	sheetMargin = 12 * mm
	mostColumns = 6
	timeColumn  = 62.0
	cellPad     = 3.0
)

// wall lays the wall sheet out: for each few people their columns, over as many
// pages as they need.
func (c *canvas) wall(w *cards.Wall, size Size) {
	inner := Rect{0, 0, size.Width, size.Height}.inset(sheetMargin)
	side := min(mostColumns, max(1, len(w.Columns)))
	for from := 0; from == 0 || from < len(w.Columns); from += side {
		to := min(from+side, len(w.Columns))
		s := wallSheet{canvas: c, of: w, size: size, inner: inner, from: from, to: to}
		s.wide = (inner.width() - timeColumn) / float64(max(1, to-from))
		s.print()
	}
}

// wallSheet is the columns of some people.
type wallSheet struct {
	*canvas
	of       *cards.Wall
	size     Size
	inner    Rect
	from, to int
	wide     float64 // of a column
	y        float64
}

func (s *wallSheet) print() {
	s.begin()
	for _, row := range s.of.Rows {
		cells := make([][]wallLine, s.to-s.from)
		for i := range cells {
			if row.Banner == "" {
				cells[i] = s.cell(row.Cells[s.from+i])
			}
		}
		s.row(row, cells)
	}
}

// begin begins a page: title, order, names.
func (s *wallSheet) begin() {
	s.newPage(s.size)
	s.within, s.y = s.inner, s.inner.Y0
	for _, text := range s.wrap(s.of.Title, normal, true, s.inner.width()) {
		s.y += normal * leading
		s.text(s.inner.X0, s.y-descent*normal, text, normal, true)
	}
	for _, text := range s.wrap(s.of.Subtitle, normal, false, s.inner.width()) {
		s.y += normal * leading
		s.text(s.inner.X0, s.y-descent*normal, text, normal, false)
	}
	s.y += 4
	top, deepest := s.y, s.y
	for i, name := range s.of.Columns[s.from:s.to] {
		y := top
		for _, text := range s.wrap(name, normal, true, s.wide-2*cellPad) {
			y += normal * leading
			s.text(s.left(i), y-descent*normal, text, normal, true)
		}
		deepest = max(deepest, y)
	}
	s.y = deepest + 2
	s.line(s.inner.X0, s.y, s.inner.X1, s.y, 1.2)
}

func (s *wallSheet) left(column int) float64 {
	return s.inner.X0 + timeColumn + float64(column)*s.wide + cellPad
}

// wallLine is one line of a cell.
type wallLine struct {
	at, text string
	lookout  bool
	first    bool
}

// wallType is how large the words in the cells are.
const wallType = small

func (s *wallSheet) cell(entries []cards.WallEntry) (lines []wallLine) {
	for _, e := range entries {
		for i, text := range s.wrap(e.Text, wallType, e.Lookout, s.wide-2*cellPad-s.stand()) {
			l := wallLine{text: text, lookout: e.Lookout, first: i == 0}
			if i == 0 {
				l.at = e.At
			}
			lines = append(lines, l)
		}
	}
	return lines
}

// stand is how far words stand in behind their minute.
func (s *wallSheet) stand() float64 { return s.width("0000 ", wallType, true) }

// row prints a row, on a new page where it does not fit, and over several where no
// page holds it.
func (s *wallSheet) row(row cards.WallRow, cells [][]wallLine) {
	const line = wallType * leading
	if row.Banner != "" {
		s.banner(row.Banner)
		return
	}
	first := true
	for {
		most := 2 // the moment takes two lines
		for _, c := range cells {
			most = max(most, len(c))
		}
		fits := int((s.inner.Y1 - s.y - 2*cellPad) / line)
		if fits < most && fits < int((s.inner.height()/2)/line) {
			s.begin()
			fits = int((s.inner.Y1 - s.y - 2*cellPad) / line)
		}
		n := max(1, min(most, fits))
		s.part(row, cells, n, first)
		first = false
		left := false
		for i := range cells {
			cells[i] = cells[i][min(n, len(cells[i])):]
			left = left || len(cells[i]) > 0
		}
		if !left {
			return
		}
	}
}

// part prints n lines of a row.
func (s *wallSheet) part(row cards.WallRow, cells [][]wallLine, n int, first bool) {
	const line = wallType * leading
	top := s.y
	if first {
		s.text(s.inner.X0, top+cellPad+line-descent*wallType, row.Since, normal, true)
		if n > 1 {
			s.text(s.inner.X0, top+cellPad+2*line-descent*wallType+2, row.Clock, wallType, false)
		}
	}
	for i, cell := range cells {
		for k, l := range cell[:min(n, len(cell))] {
			y := top + cellPad + float64(k+1)*line - descent*wallType
			if l.lookout {
				s.line(s.left(i)-1.2, y+descent*wallType-line, s.left(i)-1.2, y+descent*wallType, 2.4)
			}
			s.text(s.left(i)+2, y, l.at, wallType, true)
			s.text(s.left(i)+s.stand(), y, l.text, wallType, l.lookout)
		}
	}
	s.y = top + float64(n)*line + 2*cellPad
	s.line(s.inner.X0, s.y, s.inner.X1, s.y, 0.4)
}

// banner goes over the whole width.
func (s *wallSheet) banner(text string) {
	lines := s.wrap(text, normal, true, s.inner.width()-2*cellPad)
	high := float64(len(lines))*normal*leading + 2*cellPad
	if s.y+high > s.inner.Y1 {
		s.begin()
	}
	s.shade(Rect{s.inner.X0, s.y, s.inner.X1, s.y + high}, 225)
	y := s.y + cellPad
	for _, t := range lines {
		y += normal * leading
		s.text(s.inner.X0+cellPad, y-descent*normal, t, normal, true)
	}
	s.y += high
	s.line(s.inner.X0, s.y, s.inner.X1, s.y, 0.4)
}
