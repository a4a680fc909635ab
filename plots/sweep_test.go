package plots

import (
	"strings"
	"testing"
)

// A mean may be missing though most runs get there: that is not "never".
func TestSweepWithoutAMeanDoesNotSayNever(t *testing.T) {
	for name, in := range map[string]SweepInput{"lines": winterSweep(), "map": winterMap()} {
		if !strings.Contains(strings.ToLower(shown(Sweep(in))), "never") {
			t.Fatalf("%s: the example has no missing estimate", name)
		}
		in.Partly = true
		text := strings.ReplaceAll(strings.ToLower(shown(Sweep(in))), "\n", " ")
		if strings.Contains(text, "never") || !strings.Contains(text, "none") || !strings.Contains(text, "not reached in every run") {
			t.Errorf("%s: shows %q, want none and why", name, text)
		}
	}
}
