package stats

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"warmby/internal/thorough"
	"warmby/sim"
)

// The margin of the asymptotic confidence sequence written out: after 4,000 runs,
// first looked at after 1,000, rho^2 is (5.9915 + ln 5.9915 + 1)/4000 = 0.0021954,
// so n rho^2 + 1 = 9.7818 and the margin is sqrt(2 * 9.7818/8.7818 *
// ln(sqrt(9.7818)/0.05)) = 3.0354 standard errors.
func TestTheMarginOfLooking(t *testing.T) {
	level := Looks{First: 1000}.Level(0.95, 4000)
	const want = 1 - 0.002402 // of the normal distribution, from 3.0354
	if math.Abs(level-want) > 2e-6 {
		t.Errorf("level %.7f, want %.7f", level, want)
	}
	if p := (Looks{First: 1000}).P(1-level, 4000); math.Abs(p-0.05) > 1e-6 {
		t.Errorf("p of an end at 0 is %v, want 0.05", p)
	}
	if got := (Looks{}).Level(0.9, 50); got != 0.9 {
		t.Errorf("one look: level %v, want 0.9", got)
	}
	if got := (Looks{}).P(0.3, 50); got != 0.3 {
		t.Errorf("one look: p %v, want 0.3", got)
	}
	if got := (Looks{First: 1}).Level(1-1e-300, 5); !(got < 1) {
		t.Errorf("level %v, want one that has an interval", got)
	}
}

// Two orders that are equal, looked at after 500 runs and each time they are twice
// as many, up to 32,000: an interval of one look puts one of them ahead in far
// over 5 % of the studies. A sequence must hold at all looks in 95 %; so must
// those of quantiles and of shares.
func TestLookingAgainAndAgainHolds(t *testing.T) {
	studies := thorough.Cases(60, 1000)
	const first, last = 500, 32_000
	looks := Looks{First: first}
	for _, law := range []string{"nothing in common", "most in common"} {
		i := slices.IndexFunc(pairLaws, func(l struct {
			name string
			draw func(r *rand.Rand) (a, b float64)
		}) bool {
			return l.name == law
		})
		r := rand.New(rand.NewPCG(3, uint64(i)))
		median := trueMedian(pairLaws[i].draw)
		var once, mean, quiet, share, quantile covers
		for range studies {
			var p Paired
			var a []sim.Time
			met, held := int64(0), [5]bool{true, true, true, true, true}
			for n := int64(first); n <= last; n *= 2 {
				for int64(len(a)) < n {
					x, y := pairsOf(r, pairLaws[i].draw, 1)
					p.Add(x[0], y[0])
					a = append(a, x[0])
					if x[0] <= median {
						met++
					}
				}
				level := looks.Level(Level, n)
				s, q := ShareAt(met, n, level), QuantileAt(SortedOf(a), 0.5, level)
				d := looks.Difference(&p)
				for k, ok := range []bool{p.Difference().Ahead() == 0, d.Mean.Low <= 0 && 0 <= d.Mean.High, d.Ahead() == 0,
					s.Low <= 0.5 && 0.5 <= s.High, q.Low <= median && median <= q.High} {
					held[k] = held[k] && ok
				}
			}
			for k, c := range []*covers{&once, &mean, &quiet, &share, &quantile} {
				c.add(held[k])
			}
		}
		once.check(t, law+": intervals of one look, at all of seven", 0, 0.90)
		for what, c := range map[string]*covers{"means": &mean, "nobody ahead": &quiet, "shares": &share, "quantiles": &quantile} {
			c.check(t, fmt.Sprintf("%s: a sequence of %s", law, what), 0.95, 1)
		}
	}
}

func trueMedian(draw func(*rand.Rand) (a, b float64)) sim.Time {
	a, _ := pairsOf(rand.New(rand.NewPCG(9, 9)), draw, 1_000_000)
	slices.Sort(a)
	return a[len(a)/2-1]
}
