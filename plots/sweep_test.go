package plots

import (
	"strings"
	"testing"

	"warmby/sim"
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

// A point that was left out was not reached by nobody: it was not played.
func TestSweepTellsNotPlayedFromNever(t *testing.T) {
	in := winterSweep()
	for i := range in.Lines {
		for k, e := range in.Lines[i].Estimates {
			in.Lines[i].Estimates[k].NotPlayed = e.Value == sim.Never
		}
	}
	text := strings.ReplaceAll(strings.ToLower(shown(Sweep(in))), "\n", " ")
	if strings.Contains(text, "never") || !strings.Contains(text, "not played with") {
		t.Errorf("shows %q, want what was not played, and no never", text)
	}
}

// Usual values have neither odds nor hatching.
func TestHaltOddsOfUsualValuesSpeaksOfNoInterval(t *testing.T) {
	in := winterHalt()
	in.Usual = true
	if text := shown(HaltOdds(in)); strings.Contains(text, "hatching") || !strings.Contains(text, "usual values") {
		t.Errorf("shows %q, want usual values and no hatching", text)
	}
}
