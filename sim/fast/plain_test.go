package fast

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim/draw"
	"warmby/sim/internal/drills"
)

// What is told in less than everything must be told the same: a plain drill
// played as one and as any other, with as many events.
func TestPlainDrillsPlayAsAnyOther(t *testing.T) {
	plain := 0
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Draw(t)
		p := Compile(d)
		if p.plain == nil {
			return
		}
		plain++
		general := *p
		general.plain = nil
		quick, slow := p.Worker(), general.Worker()
		for run := range 4 {
			var got, want Result
			quick.Run(3, run, &got)
			slow.Run(3, run, &want)
			if (got.Stops == nil) != (want.Stops == nil) || !slices.Equal(got.Start, want.Start) || !slices.Equal(got.End, want.End) || !slices.Equal(got.Milestones, want.Milestones) || got.Events != want.Events {
				t.Fatalf("run %d of luck %v: as any other %+v\nas a plain one %+v", run, draw.Run(d, 3, run), want, got)
			}
		}
	})
	if plain == 0 {
		t.Error("no drill was plain")
	}
}
