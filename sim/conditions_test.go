package sim_test

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
)

// Factors multiply exactly and the product is rounded once: hand-worked products
// that fit a word, that do not, and any, against fractions.
func TestFactorsThatSlowMultiplyExactly(t *testing.T) {
	slowed := func(factors ...*big.Rat) int64 {
		var task sim.Task
		for _, f := range factors {
			task.Slowed = append(task.Slowed, sim.Slowdown{When: sim.Condition{Kind: sim.Dark}, To: f})
		}
		return task.Slowed1000(&sim.Site{}, sim.Step{Dark: true})
	}
	third := big.NewRat(1, 3)
	for _, c := range []struct {
		factors []*big.Rat
		want    int64
	}{
		{nil, 1000},
		{[]*big.Rat{big.NewRat(5, 4), big.NewRat(6, 5)}, 1500},
		{[]*big.Rat{third, third}, 111},                           // 111.1
		{[]*big.Rat{big.NewRat(10005, 10000)}, 1001},              // 1000.5, half away from zero
		{[]*big.Rat{big.NewRat(1, 1e15)}, 1},                      // never below 1
		{[]*big.Rat{big.NewRat(1e15, 1), big.NewRat(2, 1)}, 1e12}, // never over 10^12
		{[]*big.Rat{big.NewRat(1e18, 1), big.NewRat(1, 1e18), big.NewRat(3, 2)}, 1500},
	} {
		if got := slowed(c.factors...); got != c.want {
			t.Errorf("%v slow to %d thousandths, want %d", c.factors, got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		var factors []*big.Rat
		product := big.NewRat(1000, 1)
		for range rapid.IntRange(1, 6).Draw(t, "factors") {
			den := rapid.Int64Range(1, 1_000_000).Draw(t, "denominator")
			f := big.NewRat(rapid.Int64Range(1, 1_000_000).Draw(t, "numerator"), den)
			factors = append(factors, f)
			product.Mul(product, f)
		}
		product.Add(product, big.NewRat(1, 2))
		want := new(big.Int).Quo(product.Num(), product.Denom())
		if want.Sign() == 0 {
			want.SetInt64(1)
		}
		if limit := big.NewInt(1e12); want.Cmp(limit) > 0 {
			want = limit
		}
		if got := slowed(factors...); got != want.Int64() {
			t.Fatalf("%v slow to %d thousandths, want %v", factors, got, want)
		}
	})
}
