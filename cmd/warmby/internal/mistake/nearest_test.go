package mistake

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestNearestFindsMisspeltNames(t *testing.T) {
	names := []string{"rehearse", "check", "compare", "completion", "help"}
	for word, want := range map[string][]string{
		"reherse":  {"rehearse"},
		"REHEARSE": {"rehearse"},
		"chekc":    {"check"},
		"comp":     {"compare", "completion"}, // begins both, near neither
		"zzzzz":    nil,
		"":         nil,
	} {
		if diff := cmp.Diff(want, Nearest(word, names)); diff != "" {
			t.Errorf("Nearest(%q) (-want +got):\n%s", word, diff)
		}
	}
}

func TestDistanceCountsEdits(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"", "abc", 3}, {"abc", "", 3}, {"abc", "abc", 0},
		{"abc", "abd", 1},                // changed
		{"abc", "ab", 1},                 // left out
		{"ab", "abc", 1},                 // put in
		{"abc", "acb", 1},                // neighbours swapped
		{"kitten", "sitting", 3},         // the textbook's example
		{"æøå", "æøå", 0}, {"æ", "a", 1}, // letters, not bytes
	} {
		if got := distance(c.a, c.b); got != c.want {
			t.Errorf("distance(%q, %q) = %d, want %d", c.a, c.b, got, c.want)
		}
	}
}
