package plots

// keyItem is a fill or a line with its word.
type keyItem struct {
	word string
	draw func(s *sheet, r rect)
}

var keyStyle = style{size: 7.2, ink: black}

// drawKey draws a key in as many lines as it takes and returns its height.
func drawKey(s *sheet, items []keyItem, right, top float64) float64 {
	const swatch, high, line = 17.0, 8.0, 12.5
	x, y := margin, top
	for _, it := range items {
		wide := swatch + 4 + s.width(it.word, keyStyle)
		if x > margin && x+wide > right {
			x, y = margin, y+line
		}
		it.draw(s, rect{x, y, x + swatch, y + high})
		if x == margin && x+wide > right {
			y += s.paragraph(x+swatch+4, y+high-1.5-float64(ascent*keyStyle.size), it.word, keyStyle, right-x-swatch-4) + line - float64(leading*keyStyle.size)
			continue
		}
		s.text(x+swatch+4, y+high-1.5, it.word, keyStyle)
		x += wide + 10
	}
	return y + line - top
}

func (k *look) key() keyItem { return keyItem{k.word, k.draw} }

var (
	keyCritical = keyItem{"heavy edge: held the finish up", func(s *sheet, r rect) {
		lookWork.draw(s, rect{r.x0, r.y0, r.x1, r.y1 - 2.6})
		s.fill(onBars, rect{r.x0, r.y1 - 2.6, r.x1, r.y1}, black)
	}}
	keyMilestone = keyItem{"milestone", func(s *sheet, r rect) {
		x := (r.x0 + r.x1) / 2
		s.line(grid, point{x, r.y0}, point{x, r.y1}, 1.1, reached)
	}}
	keyTarget = keyItem{"target", func(s *sheet, r rect) {
		x := (r.x0 + r.x1) / 2
		s.line(grid, point{x, r.y0}, point{x, r.y1}, 1, aim, 4, 2)
	}}
	keyDark = keyItem{"dark", func(s *sheet, r rect) {
		s.fill(behind, r, night)
		s.frame(behind, r, 0.4, pale)
	}}
	keyWind = keyItem{"wind", func(s *sheet, r rect) {
		s.wind(behind, r, 7)
		s.frame(behind, r, 0.4, pale)
	}}
	keyNumber = keyItem{"see the list", func(s *sheet, r rect) {
		s.fill(onBars, rect{r.x0 + 4, r.y0, r.x1 - 4, r.y1}, paper)
		s.frame(onBars, rect{r.x0 + 4, r.y0, r.x1 - 4, r.y1}, 0.4, soft)
		s.text((r.x0+r.x1-s.width("n", tagStyle))/2, r.y1-2, "n", tagStyle)
	}}
)

var noteStyle = style{size: 7.2, ink: black}

// drawNotes draws the numbered list in columns, read across, and returns its
// height.
func drawNotes(s *sheet, right, top float64) float64 {
	const number, apart = 15.0, 10.0
	texts := s.notes.texts
	if len(texts) == 0 {
		return 0
	}
	column := 90.0
	for _, t := range texts {
		column = max(column, number+s.width(t, noteStyle)+apart)
	}
	columns := max(1, int((right-margin)/min(column, (right-margin)/4)))
	column = (right - margin) / float64(columns)
	y := top
	for i := 0; i < len(texts); i += columns {
		high := 0.0
		for j := i; j < min(i+columns, len(texts)); j++ {
			x := margin + float64(float64(j-i)*column)
			s.tag(j+1, x+s.tagWidth(j+1)/2, y)
			high = max(high, s.paragraph(x+number, y+0.4, texts[j], noteStyle, column-number-apart))
		}
		y += max(high, tagHeight) + 2
	}
	return y - top
}
