package plots

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"gonum.org/v1/plot/vg"
)

func TestPDFCanvasTurnsShiftsAndRestores(t *testing.T) {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed (Debian: poppler-utils)")
	}
	c := newPDF("", 200, 100)
	face := style{size: 10}.face()
	c.Push()
	c.Translate(vg.Point{X: 50, Y: 20})
	c.Rotate(math.Pi / 2)
	c.Scale(1, 2)
	c.FillString(face, vg.Point{X: 10}, "upwards") // from 50, 30 up
	c.Pop()
	c.FillString(face, vg.Point{X: 100, Y: 10}, "level")
	b, err := c.bytes()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "turned.pdf")
	if err := os.WriteFile(file, b, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "-bbox", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	got := map[string][4]float64{} // xMin, yMin, xMax, yMax; y downwards
	for _, m := range regexp.MustCompile(`<word xMin="(.*)" yMin="(.*)" xMax="(.*)" yMax="(.*)">(.*)</word>`).FindAllSubmatch(out, -1) {
		var box [4]float64
		for i := range box {
			box[i], _ = strconv.ParseFloat(string(m[i+1]), 64)
		}
		got[string(m[5])] = box
	}
	long := newMeasure().width("upwards", style{size: 10})
	up := got["upwards"]
	// The foot of the letters is at x = 50; they rise to the left, twice as
	// high for the scale, and the word runs from y = 30 above the foot of the
	// page, which is 70 below its head.
	if math.Abs(up[3]-70) > 0.1 || math.Abs(up[3]-up[1]-long) > 0.1 || up[0] > 50-2*7 || up[2] < 50 || up[2] > 50+2*3 {
		t.Errorf("upwards is at %v", up)
	}
	level := got["level"]
	if math.Abs(level[0]-100) > 0.1 || level[1] > 90 || level[3] < 90 || level[3]-level[1] > 14 {
		t.Errorf("level is at %v", level)
	}
}
