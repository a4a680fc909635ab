package plots

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/font"
)

// style is how a text is set: size in points, ink, weight.
type style struct {
	size float64
	bold bool
	ink  ink
}

// Liberation Sans, in shares of the size.
const (
	ascent  = 0.75 // of capitals with an umlaut's dots left to the leading
	descent = 0.22
	leading = 1.14 // from line to line
)

// typefaces returns Liberation Sans, regular and bold. The fonts of the plot
// library's own cache are the same; these are parsed only when a picture is
// drawn, and only two of twelve.
var typefaces = sync.OnceValue(func() (f [2]*opentype.Font) {
	for i, ttf := range [][]byte{liberationsansregular.TTF, liberationsansbold.TTF} {
		parsed, err := opentype.Parse(ttf)
		if err != nil {
			panic("plots: the embedded font is broken: " + err.Error())
		}
		f[i] = parsed
	}
	return f
})

// face returns the font that a canvas needs to set a style.
func (st style) face() font.Face {
	weight, i := xfont.WeightNormal, 0
	if st.bold {
		weight, i = xfont.WeightBold, 1
	}
	return font.Face{
		Font: font.Font{Typeface: "Liberation", Variant: "Sans", Weight: weight, Size: font.Length(st.size)},
		Face: typefaces()[i],
	}
}

// measure knows how wide text is. It remembers each letter, and is not safe
// for concurrent use.
type measure struct {
	advance [2]map[rune]float64 // in shares of the size
	buffer  sfnt.Buffer
}

func newMeasure() *measure {
	return &measure{advance: [2]map[rune]float64{{}, {}}}
}

// width returns the width of a text in points. Kerning, which only some
// canvases do, is left out: it draws letters together. A letter that the font
// lacks counts as a full square, for a viewer may borrow it elsewhere.
func (m *measure) width(text string, st style) float64 {
	i := 0
	if st.bold {
		i = 1
	}
	sum := 0.0
	for _, r := range text {
		a, known := m.advance[i][r]
		if !known {
			a = m.letter(typefaces()[i], r)
			m.advance[i][r] = a
		}
		sum += a
	}
	return sum * st.size
}

func (m *measure) letter(f *opentype.Font, r rune) float64 {
	index, err := f.GlyphIndex(&m.buffer, r)
	if err != nil || index == 0 {
		return 1
	}
	em := fixed.Int26_6(f.UnitsPerEm())
	a, err := f.GlyphAdvance(&m.buffer, index, em, xfont.HintingNone)
	if err != nil {
		return 1
	}
	return float64(a) / float64(em)
}

// clean makes a name safe to set on one line in any format: control
// characters become spaces, runs of spaces one, and what is no letter of
// Unicode's first plane (beyond what the PDF fonts hold) a replacement mark.
func clean(text string) string {
	text = strings.Map(func(r rune) rune {
		switch {
		case r == utf8.RuneError || r > 0xFFFD || unicode.Is(unicode.Cs, r):
			return 0xFFFD
		case unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || unicode.IsSpace(r):
			return ' '
		}
		return r
	}, text)
	return strings.Join(strings.Fields(text), " ")
}

// Clean makes a name safe to set on one line in any format, as pictures do.
func Clean(text string) string { return clean(text) }
