package paper

// flow fills sheets from the top, one after the other.
type flow struct {
	*canvas
	size  Size
	inner Rect
	y     float64 // where the next thing goes
}

// newFlow begins a sheet with a title and a line under it.
func (c *canvas) newFlow(size Size, title, subtitle string) *flow {
	f := &flow{canvas: c, size: size, inner: Rect{0, 0, size.Width, size.Height}.inset(sheetMargin)}
	f.begin()
	f.paragraph(title, title18, true)
	f.paragraph(subtitle, normal, false)
	return f
}

// title18 is the type of the title of a sheet.
const title18 = 18.0

func (f *flow) begin() {
	f.newPage(f.size)
	f.within, f.y = f.inner, f.inner.Y0
}

// room begins a new sheet when so much does not fit on this one.
func (f *flow) room(high float64) {
	if f.y+high > f.inner.Y1 && f.y > f.inner.Y0 {
		f.begin()
	}
}

// paragraph sets a text over the whole width.
func (f *flow) paragraph(text string, size float64, bold bool) {
	if text == "" {
		return
	}
	for _, line := range f.wrap(text, size, bold, f.inner.width()) {
		f.room(size * leading)
		f.y += size * leading
		f.text(f.inner.X0, f.y-descent*size, line, size, bold)
	}
	f.y += 3
}

// column sets lines one under the other from a point, and returns where they end.
func (c *canvas) column(x, y float64, lines []string, size float64, bold bool) float64 {
	for _, line := range lines {
		y += size * leading
		c.text(x, y-descent*size, line, size, bold)
	}
	return y
}
