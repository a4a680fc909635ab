package doubt_test

import (
	"testing"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/doubt"
	"warmby/sim/fit"
	"warmby/sim/fit/invent"
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

// doubts plays a drill either way; nil when there is nothing to doubt.
func doubts(t *testing.T, d *sim.Drill, n doubt.Numbers, runs int) []doubt.Doubt {
	t.Helper()
	if !n.Any(d) {
		return nil
	}
	b := compare.Batch{Seed: 1, Runs: runs, Workers: 1}
	var played []*compare.Played
	for _, b := range []compare.Batch{b, n.Batch(b)} {
		one, err := compare.Play(t.Context(), []*sim.Drill{d}, b)
		if err != nil {
			t.Fatal(err)
		}
		played = append(played, one[0])
	}
	return doubt.Of(played[0], played[1])
}

// TestQuickAndSlowAsEightInTen: of one task the range with 8 in 10 is then quick
// to slow, and that of luck alone lies within.
func TestQuickAndSlowAsEightInTen(t *testing.T) {
	open := doubts(t, drill(t, "[10 min, 20 min, 40 min]"), doubt.OfFile(), 2000)
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
		if open := doubts(t, drill(t, work), doubt.OfFile(), 10); open != nil {
			t.Errorf("%s: %v", work, open)
		}
	}
}

// TestLogLeavesLessOpenTheMoreDrillsItHas: with its numbers doubted a milestone is
// as open as luck has it after many drills, and more so after few.
func TestLogLeavesLessOpenTheMoreDrillsItHas(t *testing.T) {
	d := drill(t, "[10 min, 20 min, 40 min]")
	wider := func(n int) float64 {
		truth := invent.TruthOf(d, invent.Usually, 4)
		var log []fit.Evening
		for k := 1; k <= n; k++ {
			one, _ := invent.Drill(d, truth, invent.Habits{}, 4, k)
			log = append(log, fit.Evening{Timed: one, Drill: d})
		}
		l := fit.Fit(d, log, fit.Options{Effort: fit.Quick, Seed: 1}).Learnt(doubt.Readings)
		open := doubts(t, l.Settle(d), doubt.OfLog(l, n), 2000)[0]
		return float64(open.Numbers.High-open.Numbers.Low) / float64(open.Luck.High-open.Luck.Low)
	}
	few, many := wider(2), wider(60)
	if many > 1.1 || few < 1.15 {
		t.Errorf("the numbers make the range %.2f times as wide after 2 drills and %.2f times after 60; want more, and as wide", few, many)
	}
}
