package paper

import "warmby/cmd/warmby/internal/cards"

// Print lays sheets out on a kind of paper.
func Print(s *cards.Sheets, size Size) (*Document, error) {
	c := newCanvas(s.Title, size)
	var faces []face
	for _, card := range s.Cards {
		faces = append(faces, c.deal(card, inside(quarter(size, 0)), s.Part)...)
	}
	for i, f := range faces {
		if i%quarters == 0 {
			c.newPage(size)
			c.cutMarks(size)
		}
		c.draw(f, quarter(size, i%quarters), s.Part)
	}
	if s.Wall != nil {
		c.wall(s.Wall, size.across())
	}
	if s.Sketch != nil {
		c.sketch(s.Sketch, size)
	}
	if s.Timing != nil {
		c.timing(s.Timing, size)
	}
	data, err := c.bytes()
	if err != nil {
		return nil, err
	}
	return &Document{data, c.page, len(faces), c.boxes}, nil
}

// quarters is how many cards a sheet has.
const quarters = 4

func quarter(size Size, i int) Rect {
	w, h := size.Width/2, size.Height/2
	x, y := float64(i%2)*w, float64(i/2)*h
	return Rect{x, y, x + w, y + h}
}

// cutMarks show where to cut: at the edges and in the middle.
func (c *canvas) cutMarks(size Size) {
	const long = 6 * mm
	w, h := size.Width, size.Height
	for _, l := range [][4]float64{
		{w / 2, 0, w / 2, long}, {w / 2, h - long, w / 2, h}, {0, h / 2, long, h / 2}, {w - long, h / 2, w, h / 2},
		{w/2 - long/2, h / 2, w/2 + long/2, h / 2}, {w / 2, h/2 - long/2, w / 2, h/2 + long/2},
	} {
		c.line(l[0], l[1], l[2], l[3], 0.5)
	}
}
