package plots

// chart is a sheet for results of many runs, filled from the top down.
type chart struct {
	*sheet
	title string
	y     float64 // where what comes next begins
	key   []keyItem
}

var (
	titleStyle = style{size: 14, bold: true, ink: black}
	leadStyle  = style{size: 9.4, ink: black}
	footStyle  = style{size: 7.2, ink: soft}
)

// right is where charts end.
const right = sheetWidth - margin

// newChart begins a chart with its title and what it shows in plain words,
// which may be empty.
func newChart(title, lead string) *chart {
	c := &chart{sheet: &sheet{measure: newMeasure()}, title: clean(title), y: margin - 6}
	c.y += c.paragraph(margin, c.y, c.title, titleStyle, right-margin) + 2
	c.say(lead, leadStyle)
	c.y += 4
	return c
}

// say sets a paragraph across the sheet.
func (c *chart) say(text string, st style) {
	if text = clean(text); text != "" {
		c.y += c.paragraph(margin, c.y, text, st, right-margin) + 2
	}
}

// explain adds lines to the key for which there was no room beside them.
func (c *chart) explain(k lineLook, name string) { c.key = append(c.key, k.key(name)) }

// finish sets the list of numbers, what is to be said at the foot and the key.
func (c *chart) finish(foot ...string) *Picture {
	c.y += 4
	c.y += drawNotes(c.sheet, right, c.y) + 2
	if len(c.notes.texts) > 0 {
		c.key = append(c.key, keyNumber)
	}
	if len(c.key) > 0 {
		c.y += drawKey(c.sheet, c.key, right, c.y) + 2
	}
	for _, text := range foot {
		c.say(text, footStyle)
	}
	return &Picture{Title: c.title, Width: sheetWidth, Height: c.y + margin - 8, marks: c.ordered(), notes: c.notes.texts}
}

// nameIn writes a name at the left of a rectangle, in the middle of its
// height, or a number when it does not fit.
func (s *sheet) nameIn(r rect, name string, styles ...style) {
	if name == "" {
		return
	}
	l, ok := s.fit(name, r.width(), r.height(), styles...)
	if !ok {
		n := s.notes.number(name)
		s.tag(n, r.x0+s.tagWidth(n)/2, (r.y0+r.y1-tagHeight)/2)
		return
	}
	y := (r.y0+r.y1-l.height())/2 + float64(ascent*l.set.size) + float64(0.08*l.set.size)
	for _, line := range l.lines {
		s.text(r.x0, y, line, l.set)
		y += float64(leading * l.set.size)
	}
}

// dot draws a round dot, or a ring when hollow.
func (s *sheet) dot(at point, radius float64, c ink, hollow bool) {
	disc := func(r float64, c ink) {
		s.marks = append(s.marks, mark{layer: onBars, ink: c, shape: circle(at, r)})
	}
	disc(radius, c)
	if hollow {
		disc(radius-1.1, paper)
	}
}
