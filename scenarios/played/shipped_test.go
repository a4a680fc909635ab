package played

import (
	"testing"

	"warmby/internal/thorough"
	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// Both engines tell the same story of every shipped scenario under every
// order, and the checker finds nothing in it: without a seed and in 40 runs,
// or with WARMBY_LONG=1 in 1,000 of each file, shared out over its orders.
func TestShippedScenariosAreToldAlike(t *testing.T) {
	const seed = 20261
	for _, name := range library.Names() {
		src, _ := library.Read(name)
		s, err := scenarios.Read(name+".yaml", src)
		if err != nil {
			t.Fatal(err)
		}
		runs := thorough.Cases(40, 1000/len(s.Orders())+1)
		for _, order := range s.Orders() {
			t.Run(name+"/"+order, func(t *testing.T) {
				t.Parallel()
				d := drill(t, name, string(src), order)
				p := fast.Compile(d)
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
