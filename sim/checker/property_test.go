package checker_test

import (
	"errors"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/checker"
	"warmby/sim/draw"
	"warmby/sim/internal/drills"
	"warmby/sim/reference"
)

// TestDrawnDrillsObey walks the drills on which the engines are compared with
// each other.
func TestDrawnDrillsObey(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Draw(t)
		luck := draw.Run(d, rapid.Uint64().Draw(t, "seed"), 0)
		tl, err := reference.Play(d, luck)
		if n := (*sim.NeverError)(nil); errors.As(err, &n) {
			t.Skip("refused")
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range checker.Check(tl) {
			t.Error(v)
		}
		if t.Failed() {
			t.Log("\n" + show(tl))
		}
	})
}
