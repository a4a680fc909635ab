package results

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"

	"warmby/cmd/warmby/internal/mistake"
)

func TestPointsGoTogether(t *testing.T) {
	for _, c := range []struct {
		how  string
		want string
	}{
		{Grid, "[[4 a] [4 b] [5 a] [5 b]]"},
		{OneAtATime, "[[ ] [4 ] [5 ] [ a] [ b]]"},
	} {
		keys, points, err := (&Question{Vary: []string{"people=4..5", "site.lights=a,b"}, How: c.how}).points()
		if err != nil {
			t.Fatal(err)
		}
		if got := fmt.Sprint(points); got != c.want || fmt.Sprint(keys) != "[people site.lights]" {
			t.Errorf("%s: %v %s, want %s", c.how, keys, got, c.want)
		}
	}
}

// A design that is too large is refused: read up to a limit, it would be played
// in part, and nobody would know.
func TestADesignThatIsTooLargeIsRefused(t *testing.T) {
	t.Chdir(t.TempDir())
	write := func(points int) {
		t.Helper()
		if err := os.WriteFile("design.csv", []byte("people\n"+strings.Repeat("5\n", points)), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	write(MostPoints)
	if _, points, err := readDesign("design.csv"); err != nil || len(points) != MostPoints {
		t.Errorf("a design of %d points has %d and error %v", MostPoints, len(points), err)
	}
	write(MostPoints + 1)
	var input *mistake.Input
	if _, _, err := readDesign("design.csv"); !errors.As(err, &input) || !strings.Contains(input.What, "design.csv:250002: more than 250000 points") {
		t.Errorf("one of a point more is answered by %v", err)
	}
}

func TestAFileThatIsTooLargeIsRefused(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("a.csv", make([]byte, 3<<20), 0o666); err != nil {
		t.Fatal(err)
	}
	if data, err := readAtMost("a.csv", 3<<20, "a design"); err != nil || len(data) != 3<<20 {
		t.Errorf("a file as large as may be has %d bytes and error %v", len(data), err)
	}
	var input *mistake.Input
	if _, err := readAtMost("a.csv", 2<<20, "a design"); !errors.As(err, &input) || !strings.Contains(input.What, "a.csv: over 2 MiB") {
		t.Errorf("a larger one is answered by %v", err)
	}
}
