package plots

import (
	"fmt"
	"image"
	"image/color"
	"strings"
	"testing"

	"warmby/sim"
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

// In grey, colours are gone: dash and mark must do.
func TestLinesDifferInMark(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range lineLooks {
		mark := fmt.Sprint(k.shape, k.hollow)
		if seen[mark] {
			t.Errorf("mark %s twice", mark)
		}
		seen[mark] = true
	}
}

func TestRowsOverTwelveAreCounted(t *testing.T) {
	in := OddsInput{Title: "t", Milestones: []OddsMilestone{{Name: "heated", By: sim.Never}}}
	group := DifferenceGroup{Name: "heated"}
	for k := range 15 {
		in.Milestones[0].Orders = append(in.Milestones[0].Orders, OddsOrder{fmt.Sprintf("order %02d", k), []sim.Time{at(float64(60 - k))}})
		group.Rows = append(group.Rows, Difference{A: fmt.Sprintf("first %02d", k), B: "b", Mean: -1, Low: -2, High: -0.5})
	}
	text := shown(Odds(in))
	for name, want := range map[string]bool{"and 3 more, later than these": true, "order 14": true, "order 00": false} {
		if strings.Contains(text, name) != want {
			t.Errorf("odds: %q shown: %v, want %v", name, !want, want)
		}
	}
	text = shown(Differences(DifferencesInput{Title: "t", Groups: []DifferenceGroup{group}}))
	if !strings.Contains(text, "and 3 more") || strings.Contains(text, "first 12") {
		t.Errorf("differences show more than twelve rows:\n%s", text)
	}
}
