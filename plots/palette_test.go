package plots

import (
	"image"
	"image/color"
	"testing"
)

func TestPaletteKeepsCommonColoursAndMovesRareOnesLittle(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 100, 40))
	for i := range 100 * 40 {
		c := color.RGBA{200, 100, 50, 255}
		if i%5 == 0 { // 800 dots, no two alike
			k := i / 5
			c = color.RGBA{uint8(k % 100), uint8(k / 100), 7, 255}
		}
		img.SetRGBA(i%100, i/100, c)
	}
	out := paletted(img)
	if len(out.Palette) != 256 {
		t.Fatalf("%d colours, want 256", len(out.Palette))
	}
	for i := range 100 * 40 {
		want, got := img.RGBAAt(i%100, i/100), color.RGBAModel.Convert(out.At(i%100, i/100)).(color.RGBA)
		if i%5 != 0 && got != want {
			t.Fatalf("dot %d is %v, want %v", i, got, want)
		}
		// The rare ones fill a plane of 100 by 8 shades; those kept are the
		// ones of the lowest value, a plane of 100 by 2 and half of a third.
		if d := int(got.G) - int(want.G); i%5 == 0 && (d > 8 || d < -8) {
			t.Fatalf("dot %d is %v, want about %v", i, got, want)
		}
	}
}
