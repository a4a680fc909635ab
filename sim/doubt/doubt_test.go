package doubt_test

import (
	"testing"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/doubt"
)

func drill(t *testing.T, work string) *sim.Drill {
	t.Helper()
	s, err := scenarios.Read("one.yaml", []byte("warmby: 1\ntitle: one\npeople: [{name: A}]\ntasks: {dig: {work: "+work+"}}\n"))
	if err != nil {
		t.Fatal(err)
	}
	d, err := s.Drill("")
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// TestQuickAndSlowAsEightInTen: of one task the range with 8 in 10 is then quick
// to slow, and that of luck alone lies within.
func TestQuickAndSlowAsEightInTen(t *testing.T) {
	open := doubt.Of(drill(t, "[10 min, 20 min, 40 min]"), 4000, 1)
	got := open[0].Numbers
	if d := got.Low - 10*sim.Minute; d < -sim.Minute || d > sim.Minute {
		t.Errorf("low %.1f min, want 10", got.Low.Minutes())
	}
	if d := got.High - 40*sim.Minute; d < -2*sim.Minute || d > 2*sim.Minute {
		t.Errorf("high %.1f min, want 40", got.High.Minutes())
	}
	if luck := open[0].Luck; luck.Low <= got.Low || luck.High >= got.High {
		t.Errorf("luck %.1f to %.1f min does not lie within", luck.Low.Minutes(), luck.High.Minutes())
	}
}

// TestFileWithoutThreeValuesLeavesNothingToDoubt: other laws are taken at their
// word.
func TestFileWithoutThreeValuesLeavesNothingToDoubt(t *testing.T) {
	for _, work := range []string{"20 min", "{lognormal: {median: 20 min, spread: 1.3}}", "{quick: 10 min, usual: 20 min, slow: 40 min, covers: 80 %}"} {
		if open := doubt.Of(drill(t, work), 10, 1); open != nil {
			t.Errorf("%s: %v", work, open)
		}
	}
}
