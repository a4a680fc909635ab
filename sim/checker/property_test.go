package checker_test

import (
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/checker"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/internal/drills"
	"warmby/sim/reference"
)

// TestDrawnDrillsObey walks what both engines make of the drills on which they
// are compared with each other, where many more of them are walked.
func TestDrawnDrillsObey(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Any(t)
		luck := draw.Run(d, rapid.Uint64().Draw(t, "seed"), 0)
		for _, engine := range engines {
			tl := engine.play(d, luck)
			for _, v := range checker.Check(tl) {
				t.Errorf("%s: %v", engine.name, v)
			}
			if t.Failed() {
				t.Fatalf("%s:\n%s", engine.name, show(tl))
			}
		}
	})
}

// engines are the two that play drills.
var engines = []struct {
	name string
	play func(*sim.Drill, *sim.Luck) *sim.Timeline
}{{"reference", reference.Play}, {"fast", playFast}}

func playFast(d *sim.Drill, luck *sim.Luck) *sim.Timeline {
	return fast.Compile(d).Worker().Timeline(luck)
}
