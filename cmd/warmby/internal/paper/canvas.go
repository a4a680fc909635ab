package paper

import (
	"bytes"
	"fmt"
	"strings"
	"time"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"

	"warmby/plots"
)

// Document is what was laid out.
type Document struct {
	Bytes []byte // the PDF
	Pages int
	Cards int // how many cards stand on them
	Boxes []Box
}

// Box is a text as it stands on a page, and the part of the page that it must not
// leave: a card or a sheet within its margins.
type Box struct {
	Page int // from 1
	Rect
	Size   float64 // of the type
	Text   string
	Within Rect
}

// canvas draws on the pages of one document.
type canvas struct {
	doc    *fpdf.Fpdf
	page   int
	within Rect // what texts must not leave
	boxes  []Box
	widths [2]map[rune]float64 // of letters in shares of the type: regular, bold
}

// epoch dates every file, so that the bytes repeat.
var epoch = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

const family = "Liberation Sans"

func newCanvas(title string, size Size) *canvas {
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: size.Width, Ht: size.Height}})
	doc.SetCreationDate(epoch)
	doc.SetModificationDate(epoch)
	doc.SetCatalogSort(true)
	doc.SetTitle(plots.Clean(title), true)
	doc.SetAutoPageBreak(false, 0)
	doc.AddUTF8FontFromBytes(family, "", liberationsansregular.TTF)
	doc.AddUTF8FontFromBytes(family, "B", liberationsansbold.TTF)
	return &canvas{doc: doc, widths: [2]map[rune]float64{{}, {}}}
}

// newPage begins a page of a size.
func (c *canvas) newPage(size Size) {
	c.doc.AddPageFormat("P", fpdf.SizeType{Wd: size.Width, Ht: size.Height})
	c.page++
	c.doc.SetDrawColor(0, 0, 0)
	c.doc.SetTextColor(0, 0, 0)
}

func (c *canvas) bytes() ([]byte, error) {
	var b bytes.Buffer
	if err := c.doc.Output(&b); err != nil {
		return nil, fmt.Errorf("pdf: %w", err)
	}
	return b.Bytes(), nil
}

func weight(bold bool) (style string, index int) {
	if bold {
		return "B", 1
	}
	return "", 0
}

// width is how wide a text is.
func (c *canvas) width(text string, size float64, bold bool) float64 {
	style, i := weight(bold)
	sum := 0.0
	for _, r := range text {
		w, known := c.widths[i][r]
		if !known {
			c.doc.SetFont(family, style, 1000)
			w = c.doc.GetStringWidth(string(r)) / 1000
			c.widths[i][r] = w
		}
		sum += w
	}
	return sum * size
}

// wrap breaks a text into lines no wider than a width: between words, and within
// one that is wider than a line.
func (c *canvas) wrap(text string, size float64, bold bool, wide float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(plots.Clean(text)) {
		for {
			candidate := strings.TrimSpace(line + " " + word)
			if c.width(candidate, size, bold) <= wide {
				line = candidate
				break
			}
			if line != "" {
				lines, line = append(lines, line), ""
				continue
			}
			head := c.fits(word, size, bold, wide)
			lines, word = append(lines, head), word[len(head):]
		}
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// fits returns as much of the beginning of a word as a line holds, one letter at
// least.
func (c *canvas) fits(word string, size float64, bold bool, wide float64) string {
	sum, end := 0.0, 0
	for i, r := range word {
		sum += c.width(string(r), size, bold)
		if sum > wide && i > 0 {
			break
		}
		end = i + len(string(r))
	}
	return word[:end]
}

// text sets a line with its foot at y, and remembers where it stands.
func (c *canvas) text(x, y float64, text string, size float64, bold bool) {
	if text == "" {
		return
	}
	style, _ := weight(bold)
	c.doc.SetFont(family, style, size)
	c.doc.Text(x, y, text)
	c.boxes = append(c.boxes, Box{c.page, Rect{x, y - ascent*size, x + c.width(text, size, bold), y + descent*size}, size, text, c.within})
}

// right sets a line that ends at x.
func (c *canvas) right(x, y float64, text string, size float64, bold bool) {
	c.text(x-c.width(text, size, bold), y, text, size, bold)
}

// line draws a line of a width.
func (c *canvas) line(x0, y0, x1, y1, wide float64) {
	c.doc.SetLineWidth(wide)
	c.doc.Line(x0, y0, x1, y1)
}

// frame draws the outline of a rectangle.
func (c *canvas) frame(r Rect, wide float64) {
	c.doc.SetLineWidth(wide)
	c.doc.Rect(r.X0, r.Y0, r.width(), r.height(), "D")
}

// shade fills a rectangle with a light grey, behind what is drawn later: 255 is
// white.
func (c *canvas) shade(r Rect, grey int) {
	c.doc.SetFillColor(grey, grey, grey)
	c.doc.Rect(r.X0, r.Y0, r.width(), r.height(), "F")
}
