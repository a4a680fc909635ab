package stats

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"warmby/sim"
)

// Coverage is counted on so many batches of so many runs each. Its standard
// error is 0.5 %, so that 94 to 96 % is two of them to each side, and one seed in
// twenty misses it. On 20,000 batches, counted once, all of the intervals below
// hold with 94.8 to 95.5 %.
const (
	batches = 2000
	runs    = 1000
)

// covers counts how often an interval holds the truth.
type covers struct{ n, held int }

func (c *covers) add(held bool) {
	c.n++
	if held {
		c.held++
	}
}

func (c *covers) check(t *testing.T, what string, low, high float64) {
	t.Helper()
	got := float64(c.held) / float64(c.n)
	t.Logf("%s: holds in %.2f %% of %d", what, 100*got, c.n)
	if got < low || got > high {
		t.Errorf("%s: the interval holds the truth in %.2f %% of %d batches, want %.1f to %.1f %%", what, 100*got, c.n, 100*low, 100*high)
	}
}

// arrival draws a moment whose law is known: an hour plus an exponential with a
// mean of 20 minutes.
func arrival(r *rand.Rand) sim.Time {
	return sim.Hour + sim.Milliseconds(-20*60000*math.Log(1-r.Float64()))
}

func arrivalQuantile(p float64) float64 { return 3.6e6 - 20*60000*math.Log(1-p) }

func TestIntervalsHoldTheTruthInNinetyFiveOfAHundredBatches(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	by := sim.Time(arrivalQuantile(0.7))
	var mean, share covers
	quantile := map[float64]*covers{0.5: {}, 0.8: {}, 0.9: {}, 0.95: {}}
	for range batches {
		var all Tally
		var moments []sim.Time
		met := int64(0)
		for range runs {
			at := arrival(r)
			all.Add(at)
			moments = append(moments, at)
			if at <= by {
				met++
			}
		}
		m := all.Mean()
		mean.add(m.Low <= 80*60000 && 80*60000 <= m.High)
		s := ShareOf(met, runs)
		share.add(s.Low <= 0.7 && 0.7 <= s.High)
		sorted := SortedOf(moments)
		for p, c := range quantile {
			q := QuantileOf(sorted, p)
			truth := arrivalQuantile(p)
			c.add(float64(q.Low) <= truth && truth <= float64(q.High))
		}
	}
	mean.check(t, "mean", 0.94, 0.96)
	share.check(t, "share", 0.94, 0.96)
	for _, p := range []float64{0.5, 0.8, 0.9, 0.95} {
		quantile[p].check(t, fmt.Sprintf("quantile %g", p), 0.94, 0.96)
	}
}

func TestPairedIntervalsHoldTheTruth(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	var mean, sooner, slope covers
	for range batches {
		var pair Paired
		var won, given []sim.Time
		for range runs {
			luck := arrival(r) // both orders meet it
			a := luck + sim.Time(r.IntN(600_001))
			b := luck + sim.Time(r.IntN(600_001)) + 30_000
			pair.Add(a, b)
			given = append(given, 60_000-sim.Time(r.IntN(30_001)))
			won = append(won, given[len(given)-1]/2+sim.Time(r.IntN(200_001))-100_000)
		}
		d := pair.Difference()
		mean.add(d.Mean.Low <= -30_000 && -30_000 <= d.Mean.High)
		// P(a < b) of two uniforms shifted by s of their width: 1 - (1-s)^2/2.
		truth := 1 - 0.95*0.95/2
		sooner.add(d.ASooner.Low <= truth && truth <= d.ASooner.High)
		q := RatioOf(won, given)
		slope.add(q.Low <= 0.5 && 0.5 <= q.High)
	}
	mean.check(t, "paired mean", 0.94, 0.96)
	sooner.check(t, "sooner share", 0.94, 0.96)
	slope.check(t, "ratio", 0.94, 0.96)
}

// Six pairs of four orders, all equally good: nothing may be found in more than
// 5 % of batches, and all intervals must hold together in 95 %.
func TestSimultaneousIntervalsHoldTogether(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	var together, quiet covers
	for range batches {
		var pairs [6]Paired
		for range 200 {
			var at [4]sim.Time
			for i := range at {
				at[i] = arrival(r)
			}
			k := 0
			for i := range at {
				for j := range i {
					pairs[k].Add(at[i], at[j])
					k++
				}
			}
		}
		var family []*Paired
		for i := range pairs {
			family = append(family, &pairs[i])
		}
		held, none := true, true
		for _, d := range Simultaneous(family) {
			held = held && d.Mean.Low <= 0 && 0 <= d.Mean.High
			none = none && d.Ahead() == 0
		}
		together.add(held)
		quiet.add(none)
	}
	// Bonferroni and Holm hold with at least 95 %; pairs that share an order
	// are correlated, so with somewhat more.
	together.check(t, "intervals of a family", 0.945, 0.98)
	quiet.check(t, "no false finding", 0.945, 0.98)
}

// Far from no difference, stepping the level down as Holm's p values do would
// hold together in 92.5 % only; ours must not.
func TestIntervalsOfRealDifferencesHoldTogether(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	var together covers
	found := 0
	for range batches {
		var one, two Paired
		for range 200 {
			one.Add(arrival(r), arrival(r)+sim.Hour)
			two.Add(arrival(r), arrival(r)+2*sim.Hour)
		}
		d := Simultaneous([]*Paired{&one, &two})
		if d[0].Ahead() == -1 && d[1].Ahead() == -1 {
			found++
		}
		together.add(d[0].Mean.Low <= -3.6e6 && -3.6e6 <= d[0].Mean.High &&
			d[1].Mean.Low <= -7.2e6 && -7.2e6 <= d[1].Mean.High)
	}
	together.check(t, "two real differences", 0.94, 0.96)
	if found != batches {
		t.Errorf("both differences of an hour and more found in %d of %d batches, want all", found, batches)
	}
}

// Wilson's and the exact interval at known shares, the whole binomial added up:
// no luck in the test.
func TestShareIntervalsHoldOverAllCounts(t *testing.T) {
	for _, n := range []int64{100, 500} {
		for _, p := range []float64{0.01, 0.05, 0.2, 0.5, 0.83, 0.97} {
			held := 0.0
			for k := int64(0); k <= n; k++ {
				if s := ShareOf(k, n); s.Low <= p && p <= s.High {
					held += distuv.Binomial{N: float64(n), P: p}.Prob(float64(k))
				}
			}
			if held < 0.93 || held > 0.995 {
				t.Errorf("share %g of %d runs: the interval holds with %.4f, want 0.93 to 0.995", p, n, held)
			}
		}
	}
}
