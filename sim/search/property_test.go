package search

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/internal/drills"
	"warmby/sim/reference"
)

// Whatever the drill: what is found is no worse than what was there, is no
// better than the bound, and gives what is said of it when the reference engine
// plays it.
func TestWhatIsFoundIsWhatIsPlayed(t *testing.T) {
	better := 0
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Any(t)
		runs := rapid.SampledFrom([]int{0, 40}).Draw(t, "runs")
		aim := rapid.IntRange(0, len(d.Milestones)-1).Draw(t, "aim")
		o := sim.Order{Name: "own", Groups: slices.Clone(d.Groups)}
		for k := range o.Groups { // as a file writes it
			det := &o.Groups[k]
			det.Sequence, det.Lead = det.Sequence[det.Lead:], 0
		}
		r, err := Improve(ctx, d, Options{Orders: []sim.Order{o}, Aims: []Aim{{Milestone: aim}}, Evaluations: 300, Runs: runs, Seed: 1, Workers: 2})
		if err != nil {
			return
		}
		for _, f := range append(r.Orders, r.Before) {
			tl := reference.Play(d.Under(f.Order), draw.Usual(d))
			if !slices.Equal(tl.Milestones, f.Milestones) {
				t.Fatalf("milestones %v, played by the reference engine %v", f.Milestones, tl.Milestones)
			}
			if f.Value[0] < r.Bound[0] {
				t.Errorf("an order takes %.0f ms, the bound is %.0f", f.Value[0], r.Bound[0])
			}
		}
		if runs == 0 && r.Orders[0].Value[0] > r.Before.Value[0] {
			t.Errorf("found %.0f ms, there was %.0f", r.Orders[0].Value[0], r.Before.Value[0])
		}
		if r.Orders[0].Value[0] < r.Before.Value[0] {
			better++
		}
	})
	if better == 0 {
		t.Error("nothing better was ever found: the test says nothing")
	}
}
