package draw

import (
	"math"
	"slices"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"warmby/sim"
)

// threeOf draws quick, usual and slow of any size, some of them equal.
func threeOf(t *rapid.T) (quick, usual, slow float64) {
	size := math.Pow(10, rapid.Float64Range(-3, 9).Draw(t, "size"))
	v := []float64{0, 0, 0}
	for i := range v {
		v[i] = size * rapid.OneOf(rapid.Float64Range(0, 1), rapid.SampledFrom([]float64{0, 1e-9, 0.5, 1})).Draw(t, "value")
	}
	slices.Sort(v)
	return v[0], v[1], v[2]
}

func TestThreeValuesBoundTheirDraws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		quick, usual, slow := threeOf(t)
		p, q := rapid.Float64Range(0, 1).Draw(t, "p"), rapid.Float64Range(0, 1).Draw(t, "q")
		p, q = min(p, q), max(p, q)
		for name, law := range map[string]threeValueLaw{"PERT": PERT, "triangular": Triangular} {
			d := must(law(quick, usual, slow))
			a, b := d.Quantile(p), d.Quantile(q)
			slack := 1e-12*slow + 1e-100 // rounding, and roots of almost nothing
			if !(quick-slack <= a && a <= b+slack && b <= slow+slack) || d.Usual() != usual {
				t.Fatalf("%s(%v, %v, %v): quantiles %v of %v and %v of %v", name, quick, usual, slow, a, p, b, q)
			}
		}
	})
}

func TestPERTCoveringMeetsAnyQuantiles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		quick, usual, slow := threeOf(t)
		covers := rapid.Float64Range(0.01, 1).Draw(t, "covers")
		if quick == 0 && quick != slow && covers < 1 {
			t.Skip("refused")
		}
		d := must(PERTCovering(quick, usual, slow, covers))
		tail := (1 - covers) / 2
		if tail < leastChance {
			return
		}
		// A part in 100,000 of the whole range, which is wider than slow - quick.
		tolerance := 1e-5*(d.Quantile(1-1e-9)-d.Quantile(1e-9)) + 1e-9*slow
		if a := d.Quantile(tail); math.Abs(a-quick) > tolerance {
			t.Fatalf("quantile %v is %v, want %v", tail, a, quick)
		}
		if b := d.Quantile(1 - tail); math.Abs(b-slow) > tolerance {
			t.Fatalf("quantile %v is %v, want %v", 1-tail, b, slow)
		}
	})
}

// Tables are made at the first draw, whoever makes it; run with -race.
func TestSamplerMayBeShared(t *testing.T) {
	d := camp()
	want := Run(camp(), 3, 5)
	s := NewSampler(d)
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			l := new(sim.Luck)
			s.Run(3, 5, l)
			if diff := cmp.Diff(want, l); diff != "" {
				t.Errorf("luck of a shared sampler (-want +got):\n%s", diff)
			}
		})
	}
	all.Wait()
}
