package plots

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"time"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"
	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// pdfCanvas is a vg canvas on one PDF page. The plot library's own sets text
// in code page 1252, so that a degree sign or a Cyrillic name comes out
// wrong, and dates the file; this one sets any text and can be read back.
// Curves are drawn with straight lines.
type pdfCanvas struct {
	doc    *fpdf.Fpdf
	w, h   float64
	widths []vg.Length // pushed line widths, the current one last
	images int
}

// epoch dates every file, so that the bytes repeat.
var epoch = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

func newPDF(title string, w, h float64) *pdfCanvas {
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: w, Ht: h}})
	doc.SetCreationDate(epoch)
	doc.SetModificationDate(epoch)
	doc.SetCatalogSort(true)
	doc.SetTitle(title, true)
	doc.SetAutoPageBreak(false, 0)
	doc.AddUTF8FontFromBytes("Liberation Sans", "", liberationsansregular.TTF)
	doc.AddUTF8FontFromBytes("Liberation Sans", "B", liberationsansbold.TTF)
	doc.AddPageFormat("P", fpdf.SizeType{Wd: w, Ht: h})
	doc.TransformBegin() // so that a transform needs no Push before it
	c := &pdfCanvas{doc: doc, w: w, h: h, widths: make([]vg.Length, 1)}
	vg.Initialize(c)
	return c
}

// bytes ends the document and returns it; the canvas is then used up.
func (c *pdfCanvas) bytes() ([]byte, error) {
	c.doc.TransformEnd()
	var b bytes.Buffer
	if err := c.doc.Output(&b); err != nil {
		return nil, fmt.Errorf("pdf: %w", err)
	}
	return b.Bytes(), nil
}

func (c *pdfCanvas) Size() (w, h vg.Length) { return vg.Length(c.w), vg.Length(c.h) }

func (c *pdfCanvas) SetLineWidth(w vg.Length) {
	c.widths[len(c.widths)-1] = w
	c.doc.SetLineWidth(w.Points())
}

func (c *pdfCanvas) SetLineDash(pattern []vg.Length, offset vg.Length) {
	dash := make([]float64, len(pattern))
	for i, d := range pattern {
		dash[i] = d.Points()
	}
	c.doc.SetDashPattern(dash, offset.Points())
}

func (c *pdfCanvas) SetColor(col color.Color) {
	if col == nil {
		col = color.Black
	}
	n := color.NRGBAModel.Convert(col).(color.NRGBA)
	r, g, b := int(n.R), int(n.G), int(n.B)
	c.doc.SetFillColor(r, g, b)
	c.doc.SetDrawColor(r, g, b)
	c.doc.SetTextColor(r, g, b)
	c.doc.SetAlpha(float64(n.A)/255, "Normal")
}

// The origin of vg is at the bottom left, that of fpdf at the top left.

func (c *pdfCanvas) Rotate(rad float64) { c.doc.TransformRotate(rad*180/math.Pi, 0, c.h) }

func (c *pdfCanvas) Translate(p vg.Point) { c.doc.TransformTranslate(p.X.Points(), -p.Y.Points()) }

func (c *pdfCanvas) Scale(x, y float64) { c.doc.TransformScale(x*100, y*100, 0, c.h) }

func (c *pdfCanvas) Push() {
	c.widths = append(c.widths, c.widths[len(c.widths)-1])
	c.doc.TransformBegin()
}

func (c *pdfCanvas) Pop() {
	c.widths = c.widths[:len(c.widths)-1]
	c.doc.TransformEnd()
}

func (c *pdfCanvas) Stroke(p vg.Path) {
	if c.widths[len(c.widths)-1] > 0 {
		c.trace(p)
		c.doc.DrawPath("D")
	}
}

func (c *pdfCanvas) Fill(p vg.Path) {
	c.trace(p)
	c.doc.DrawPath("F")
}

func (c *pdfCanvas) trace(p vg.Path) {
	for _, comp := range p {
		x, y := comp.Pos.X.Points(), c.h-comp.Pos.Y.Points()
		switch comp.Type {
		case vg.MoveComp:
			c.doc.MoveTo(x, y)
		case vg.LineComp, vg.CurveComp:
			c.doc.LineTo(x, y)
		case vg.ArcComp:
			const pieces = 32
			for i := 0; i <= pieces; i++ {
				a, r := comp.Start+comp.Angle*float64(i)/pieces, comp.Radius.Points()
				c.doc.LineTo(x+float64(r*math.Cos(a)), y-float64(r*math.Sin(a)))
			}
		case vg.CloseComp:
			c.doc.ClosePath()
		}
	}
}

func (c *pdfCanvas) FillString(f font.Face, p vg.Point, text string) {
	if f.Font.Size == 0 {
		return
	}
	weight := ""
	if f.Font.Weight >= xfont.WeightBold {
		weight = "B"
	}
	c.doc.SetFont("Liberation Sans", weight, f.Font.Size.Points())
	c.doc.Text(p.X.Points(), c.h-p.Y.Points(), text)
}

func (c *pdfCanvas) DrawImage(r vg.Rectangle, img image.Image) {
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		c.doc.SetError(err)
		return
	}
	c.images++
	name := fmt.Sprint("image ", c.images)
	o := fpdf.ImageOptions{ImageType: "png"}
	c.doc.RegisterImageOptionsReader(name, o, &b)
	size := r.Size()
	c.doc.ImageOptions(name, r.Min.X.Points(), c.h-r.Max.Y.Points(), size.X.Points(), size.Y.Points(), false, o, 0, "")
}
