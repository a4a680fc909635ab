package plots

import (
	"cmp"
	"encoding/binary"
	"image"
	"image/color"
	"maps"
	"slices"
)

// paletted returns an image with the 256 commonest colours of another, every
// other dot in the nearest of them. A picture has some thirty inks; what is
// lost are shades of a letter's edge. The file is a third as long for it, and
// written in half the time.
func paletted(img *image.RGBA) *image.Paletted {
	counts := map[uint32]int{}
	runs(img, func(c uint32, _, n int) { counts[c] += n })
	common := slices.SortedFunc(maps.Keys(counts), func(a, b uint32) int {
		return cmp.Or(cmp.Compare(counts[b], counts[a]), cmp.Compare(a, b))
	})
	var palette color.Palette
	for _, c := range common[:min(len(common), 256)] {
		palette = append(palette, rgba(c))
	}
	index := make(map[uint32]uint8, len(common))
	for _, c := range common {
		index[c] = uint8(nearest(palette, rgba(c)))
	}
	out := image.NewPaletted(img.Rect, palette)
	runs(img, func(c uint32, from, n int) {
		i := index[c]
		for k := range out.Pix[from : from+n] {
			out.Pix[from+k] = i
		}
	})
	return out
}

// runs calls f for each run of dots of one colour in a row: the colour, where
// the run begins counted in dots from the first, and its length.
func runs(img *image.RGBA, f func(c uint32, from, n int)) {
	wide := img.Rect.Dx()
	for y := range img.Rect.Dy() {
		row := img.Pix[y*img.Stride:][:4*wide]
		for x := 0; x < wide; {
			c, from := binary.LittleEndian.Uint32(row[4*x:]), x
			for x++; x < wide && binary.LittleEndian.Uint32(row[4*x:]) == c; x++ {
			}
			f(c, y*wide+from, x-from)
		}
	}
}

func rgba(c uint32) color.RGBA {
	return color.RGBA{uint8(c), uint8(c >> 8), uint8(c >> 16), uint8(c >> 24)}
}

func nearest(p color.Palette, c color.RGBA) int {
	best, least := 0, 1<<30
	for i, q := range p {
		r := q.(color.RGBA)
		dr, dg, db := int(r.R)-int(c.R), int(r.G)-int(c.G), int(r.B)-int(c.B)
		if d := dr*dr + dg*dg + db*db; d < least {
			best, least = i, d
		}
	}
	return best
}
