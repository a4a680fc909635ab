package played

import (
	"errors"
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/reference"
)

// Both engines tell the same story of every shipped scenario under every
// order, and the checker finds nothing in it: without a seed and in 200 runs,
// or 1,000 with WARMBY_LONG=1.
func TestShippedScenariosAreToldAlike(t *testing.T) {
	const seed = 20261
	runs := 200
	if os.Getenv("WARMBY_LONG") == "1" {
		runs = 1000
	}
	for _, name := range library.Names() {
		src, _ := library.Read(name)
		s, err := scenarios.Read(name+".yaml", src)
		if err != nil {
			t.Fatal(err)
		}
		for _, order := range s.Orders() {
			t.Run(name+"/"+order, func(t *testing.T) {
				t.Parallel()
				d := drill(t, name, string(src), order)
				p, err := fast.Compile(d)
				if err != nil {
					t.Fatal(err)
				}
				w := p.Worker()
				for run := -1; run < runs && !t.Failed(); run++ {
					luck := draw.Usual(d)
					if run >= 0 {
						luck = draw.Run(d, seed, run)
					}
					alike(t, w, d, luck, run)
				}
			})
		}
	}
}

// alike plays one run with both engines and the checker.
func alike(t *testing.T, w *fast.Worker, d *sim.Drill, luck *sim.Luck, run int) {
	t.Helper()
	want, wantErr := reference.Play(d, luck)
	got, gotErr := w.Timeline(luck)
	var never *sim.NeverError
	switch {
	case (wantErr == nil) != (gotErr == nil):
		t.Fatalf("run %d: reference %v, fast %v", run, wantErr, gotErr)
	case wantErr != nil && errors.As(wantErr, &never):
		t.Fatalf("run %d: a shipped drill can never finish: %v", run, wantErr)
	case wantErr != nil:
		t.Fatal(wantErr)
	}
	if diff := cmp.Diff(want, got, cmpopts.IgnoreFields(sim.Timeline{}, "Drill", "Luck")); diff != "" {
		t.Fatalf("run %d: the engines differ (-reference +fast):\n%s", run, diff)
	}
	clean(t, want)
	if t.Failed() {
		t.Fatalf("run %d", run)
	}
}
