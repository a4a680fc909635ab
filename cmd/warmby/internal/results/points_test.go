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
	design := func(size int) {
		t.Helper()
		row := "5" + strings.Repeat(" ", 1998) + "\n"
		text := strings.Repeat(row, (size-len("people\n"))/len(row))
		text = "people\n" + strings.TrimSuffix(text, "\n")
		text += strings.Repeat(" ", size-len(text)-1) + "\n" // the last row takes the rest
		if err := os.WriteFile("design.csv", []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	design(maxDesign)
	if _, points, err := readDesign("design.csv"); err != nil || len(points) != maxDesign/2000 {
		t.Errorf("a design of 16 MiB has %d points and error %v, want %d and none", len(points), err, maxDesign/2000)
	}
	design(maxDesign + 1)
	_, _, err := readDesign("design.csv")
	var input *mistake.Input
	if !errors.As(err, &input) || !strings.Contains(input.What, "design.csv: over 16 MiB") {
		t.Errorf("one of a byte more is answered by %v", err)
	}
}
