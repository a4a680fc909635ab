package plots

import (
	"bytes"
	"fmt"
	"image"
	"image/png"

	"git.sr.ht/~sbinet/gg"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"
)

// Picture is a finished drawing. It is not changed once made and may be
// written any number of times, also at once.
type Picture struct {
	Title         string
	Width, Height float64 // points of 1/72 inch
	marks         []mark  // bottom first

	// What the marks were made from, to be checked.
	rows   []row
	labels []label
	notes  []string
}

// Formats are what [Picture.Bytes] writes.
var Formats = []string{"svg", "png", "pdf"}

// A sheet of A4 across, in points. A picture is as wide as one and as high as
// it needs to be.
const (
	sheetWidth  = 841.89
	sheetHeight = 595.28
)

// dotsPerInch of a PNG: 1754 dots across.
const dotsPerInch = 150

// Bytes returns the picture as "svg", "png" or "pdf". The bytes are the same
// each time. A PDF has one page: A4 across, or higher when the picture is.
func (p *Picture) Bytes(format string) ([]byte, error) {
	switch format {
	case "svg":
		return p.svg()
	case "png":
		return p.png()
	case "pdf":
		return p.pdf()
	}
	return nil, fmt.Errorf("picture: format must be svg, png or pdf, got %q", format)
}

func (p *Picture) svg() ([]byte, error) {
	c := vgsvg.New(vg.Length(p.Width), vg.Length(p.Height))
	c.SetColor(paper.color()) // a viewer may have a dark page
	c.Fill(vg.Rectangle{Max: vg.Point{X: vg.Length(p.Width), Y: vg.Length(p.Height)}}.Path())
	p.paint(c)
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return nil, err
	}
	// Liberation Sans has the widths of Arial and Helvetica.
	named := bytes.ReplaceAll(b.Bytes(), []byte(`style="font-family:Liberation Sans;font-variant:normal;`),
		[]byte(`style="font-family:'Liberation Sans',Arial,Helvetica,sans-serif;`))
	return p.fitted(named), nil
}

// fitted tells a viewer of an SVG how wide each text is: one that has none of
// the fonts draws another to that width, so that no text lies on another.
func (p *Picture) fitted(svg []byte) []byte {
	const opens = "<text "
	parts := bytes.Split(svg, []byte(opens))
	b := bytes.NewBuffer(parts[0])
	i := 1
	for _, m := range p.marks {
		if m.words == nil || m.words.text == "" || i == len(parts) {
			continue
		}
		fmt.Fprintf(b, "%stextLength=\"%.5g\" lengthAdjust=\"spacingAndGlyphs\" ", opens, m.words.wide)
		b.Write(parts[i])
		i++
	}
	return b.Bytes()
}

func (p *Picture) png() ([]byte, error) {
	// The canvas would make dots of its own, copied one by one.
	across := func(points float64) int { return int(float64(points/72*dotsPerInch) + 0.5) }
	dots := image.NewRGBA(image.Rect(0, 0, across(float64(p.Width)), across(float64(p.Height))))
	pen := gg.NewContextForRGBA(dots)
	pen.SetLineCapButt()
	pen.InvertY()
	p.paint(vgimg.NewWith(vgimg.UseDPI(dotsPerInch), vgimg.UseImageWithContext(dots, pen)))
	var b bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := encoder.Encode(&b, paletted(dots)); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

func (p *Picture) pdf() ([]byte, error) {
	c := newPDF(p.Title, p.Width, max(p.Height, sheetHeight))
	p.paint(c)
	return c.bytes()
}

// paint puts the marks on a canvas, at its top.
func (p *Picture) paint(c vg.CanvasSizer) {
	_, h := c.Size()
	flip := func(q point) vg.Point { return vg.Point{X: vg.Length(q.x), Y: h - vg.Length(q.y)} }
	for _, m := range p.marks {
		c.SetColor(m.ink.color())
		switch {
		case m.area != nil:
			c.Fill(outline(flip, *m.area))
		case m.shape != nil:
			c.Fill(figure(flip, m.shape...))
		case m.path != nil:
			var v vg.Path
			for _, line := range m.path.lines {
				for i, q := range line {
					if i == 0 {
						v.Move(flip(q))
					} else {
						v.Line(flip(q))
					}
				}
			}
			dash := make([]vg.Length, len(m.path.dash))
			for i, d := range m.path.dash {
				dash[i] = vg.Length(d)
			}
			c.SetLineWidth(vg.Length(m.path.width))
			c.SetLineDash(dash, 0)
			c.Stroke(v)
		case m.words != nil:
			c.FillString(m.words.set.face(), flip(m.words.at), m.words.text)
		}
	}
}

func outline(flip func(point) vg.Point, r rect) vg.Path {
	return figure(flip, point{r.x0, r.y0}, point{r.x1, r.y0}, point{r.x1, r.y1}, point{r.x0, r.y1})
}

func figure(flip func(point) vg.Point, corners ...point) vg.Path {
	var v vg.Path
	v.Move(flip(corners[0]))
	for _, q := range corners[1:] {
		v.Line(flip(q))
	}
	v.Close()
	return v
}
