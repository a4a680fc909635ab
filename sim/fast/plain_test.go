package fast

import (
	"errors"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/internal/drills"
)

// What is told in less than everything must be told the same: a plain drill
// played as one and as any other, with as many events.
func TestPlainDrillsPlayAsAnyOther(t *testing.T) {
	plain := 0
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Draw(t)
		p, err := Compile(d)
		if err != nil || p.plain == nil {
			return
		}
		plain++
		general := *p
		general.plain = nil
		quick, slow := p.Worker(), general.Worker()
		for run := range 4 {
			var got, want Result
			gotErr, wantErr := quick.Run(3, run, &got), slow.Run(3, run, &want)
			if never := new(sim.NeverError); errors.As(wantErr, &never) != errors.As(gotErr, &never) {
				t.Fatalf("run %d: as any other %v, as a plain one %v", run, wantErr, gotErr)
			}
			if wantErr != nil {
				continue
			}
			if !slices.Equal(got.Start, want.Start) || !slices.Equal(got.End, want.End) || !slices.Equal(got.Milestones, want.Milestones) || got.Events != want.Events {
				t.Fatalf("run %d of luck %v: as any other %+v\nas a plain one %+v", run, draw.Run(d, 3, run), want, got)
			}
		}
	})
	if plain == 0 {
		t.Error("no drill was plain")
	}
}
