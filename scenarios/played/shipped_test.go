package played

import (
	"os"
	"testing"

	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim/draw"
	"warmby/sim/fast"
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
				for run := -1; run < runs; run++ {
					luck := draw.Usual(d)
					if run >= 0 {
						luck = draw.Run(d, seed, run)
					}
					if _, err := both(t, w, d, luck); err != nil {
						t.Fatal(err)
					}
					if t.Failed() {
						t.Fatalf("seed %d, run %d (-1: usual values)", seed, run)
					}
				}
			})
		}
	}
}
