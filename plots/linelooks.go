package plots

// lineLook is how a line is drawn.
type lineLook struct {
	stroke ink
	width  float64
	dash   []float64
	shape  shape // of the marks on it
	hollow bool
}

// lineLooks tell lines apart, by dash and by mark as well as by colour: no two
// have the same dash, and none the same mark.
var lineLooks = []lineLook{
	{0x084f80, 1.6, nil, disc, false},
	{0x7d3400, 1.6, []float64{5, 1.6}, square, false},
	{0x165339, 1.6, []float64{1.6, 1.4}, triangle, false},
	{0x752f5e, 1.6, []float64{7, 1.5, 1.5, 1.5}, diamond, false},
	{0x554a00, 1.6, []float64{3, 3}, pennant, false},
	{0x3d4652, 1.6, []float64{10, 2.5}, bowtie, false},
	{0x084f80, 1.3, []float64{1.2, 3}, disc, true},
	{0x7d3400, 1.3, []float64{7, 1.5, 1.5, 1.5, 1.5, 1.5}, square, true},
	{0x165339, 1.3, []float64{6, 4}, triangle, true},
	{0x752f5e, 1.3, []float64{3, 1.1}, diamond, true},
	{0x554a00, 1.3, []float64{10, 2, 3, 2}, pennant, true},
	{0x3d4652, 1.3, []float64{2, 1.2, 2, 4}, bowtie, true},
}

// draw strokes lines in the look.
func (k lineLook) draw(s *sheet, lines ...[]point) {
	s.stroke(bars, path{lines: lines, width: k.width, dash: k.dash}, k.stroke)
}

// style is how a text about the line is set.
func (k lineLook) style() style { return style{size: 7.4, bold: true, ink: k.stroke} }

// key explains the line in words.
func (k lineLook) key(word string) keyItem {
	return keyItem{word, func(s *sheet, r rect) {
		y := (r.y0 + r.y1) / 2
		k.draw(s, []point{{r.x0, y}, {r.x1, y}})
		if k.shape != disc || k.hollow {
			k.mark(s, point{(r.x0 + r.x1) / 2, y}, 2.4)
		}
	}}
}
