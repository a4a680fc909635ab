package paper

import "warmby/cmd/warmby/internal/cards"

// A card is a quarter of a sheet: A6 on A4. Its margin keeps text off the cut, its
// foot stays empty for the thumb of a mitten.
const (
	cardMargin = 8 * mm
	thumb      = 10 * mm
	fieldHigh  = 11 * mm // of a blank to write in with a mitten on
	gap        = 4.0     // between paragraphs
)

// face is one card laid out.
type face struct {
	head  []string // its name, wrapped; none where that stands among the lines
	size  float64  // of the head
	lines []cardLine
	n, of int // which card of a name it is
}

// cardLine is one line of a card.
type cardLine struct {
	left, text   string
	size, indent float64
	above        float64 // room over it
	bold, rule   bool
	field        bool
	keep         bool // not the last of a card
}

func (l cardLine) high() float64 { return l.above + l.size*leading }

// deal lays a card out on as many as it needs.
func (c *canvas) deal(card cards.Card, inner Rect, part func(n, of int) string) []face {
	wide := inner.width() - c.width(part(88, 88)+" ", normal, true)
	head := face{head: c.wrap(card.Name, large, true, wide), size: large}
	lines := c.cardLines(card, inner.width())
	if head.high() > inner.height()/2 { // a name as long as a card flows like the rest
		lines = append(c.paragraph(cards.Line{Text: card.Name, Large: true}, 0, wide), lines...)
		head = face{}
	}
	var faces []face
	for len(lines) > 0 || len(faces) == 0 {
		n := fitting(lines, inner.height()-head.high())
		head.lines, lines = lines[:n], lines[n:]
		faces = append(faces, head)
		head = face{head: c.wrap(card.Name, normal, true, wide), size: normal}
	}
	for i := range faces {
		faces[i].n, faces[i].of = i+1, len(faces)
	}
	return faces
}

func (f face) high() float64 { return float64(len(f.head)) * f.size * leading }

// fitting is how many lines go on a card: as many as it holds, without parting
// what belongs together, and one at least.
func fitting(lines []cardLine, room float64) int {
	n, used := 0, 0.0
	for n < len(lines) && used+lines[n].high() <= room {
		used += lines[n].high()
		n++
	}
	if n == len(lines) {
		return n
	}
	cut := n
	for cut > 0 && lines[cut-1].keep {
		cut--
	}
	if cut == 0 { // what belongs together is longer than a card
		cut = max(n, 1)
	}
	return cut
}

// cardLines breaks the paragraphs of a card into lines.
func (c *canvas) cardLines(card cards.Card, wide float64) (out []cardLine) {
	column := 0.0
	for _, l := range card.Lines {
		if l.Left != "" && !l.Large {
			column = max(column, c.width(l.Left, normal, true)+7)
		}
	}
	for i, l := range card.Lines {
		out = append(out, c.paragraph(l, column, wide)...)
		out[len(out)-1].keep = i+1 < len(card.Lines) && card.Lines[i+1].Joins
	}
	return out
}

// paragraph breaks one paragraph into lines; column is how far those stand in that
// have something before them, or belong to one that has.
func (c *canvas) paragraph(l cards.Line, column, wide float64) (out []cardLine) {
	one := cardLine{size: normal, bold: l.Bold || l.Large}
	if l.Large {
		one.size = large
	}
	if l.Left != "" || l.Joins && !l.Flush {
		one.indent = max(column, c.width(l.Left, one.size, true)+7)
	}
	for _, text := range c.wrap(l.Text, one.size, one.bold, wide-one.indent) {
		line := one
		line.text, line.keep = text, true
		if len(out) == 0 {
			line.left, line.rule, line.field = l.Left, l.Rule, l.Field
			line.above = c.above(l)
		}
		out = append(out, line)
	}
	return out
}

func (c *canvas) above(l cards.Line) float64 {
	switch {
	case l.Field:
		return gap + fieldHigh - normal*leading
	case l.Joins && l.Flush:
		return gap / 2
	case l.Joins:
		return 0
	case l.Rule:
		return 2 * gap
	}
	return gap
}

// draw sets a card into a quarter of a sheet.
func (c *canvas) draw(f face, quarter Rect, part func(n, of int) string) {
	c.within = quarter.inset(cardMargin)
	inner := inside(quarter)
	y := inner.Y0
	for _, text := range f.head {
		y += f.size * leading
		c.text(inner.X0, y-descent*f.size, text, f.size, true)
	}
	if f.of > 1 {
		c.right(inner.X1, inner.Y0+normal*leading-descent*normal, part(f.n, f.of), normal, true)
	}
	for i, l := range f.lines {
		if l.rule && (i > 0 || len(f.head) > 0) {
			c.line(inner.X0, y+gap, inner.X1, y+gap, 0.6)
		}
		y += l.high()
		foot := y - descent*l.size
		if l.field {
			foot -= (fieldHigh - l.size*leading) / 2
		}
		c.text(inner.X0, foot, l.left, l.size, true)
		c.text(inner.X0+l.indent, foot, l.text, l.size, l.bold)
		if l.field {
			c.blank(Rect{inner.X0 + l.indent + c.width(l.text, l.size, l.bold) + 8, y - fieldHigh, inner.X1, y})
		}
	}
}

// blank is a field for a clock time, written with a mitten on.
func (c *canvas) blank(r Rect) {
	c.frame(r, 1)
	c.text((r.X0+r.X1)/2-c.width(":", large, true)/2, (r.Y0+r.Y1)/2+0.3*large, ":", large, true)
}

// inside is where the text of a card may stand.
func inside(quarter Rect) Rect {
	r := quarter.inset(cardMargin)
	r.Y1 = quarter.Y1 - max(cardMargin, thumb)
	return r
}
