package report

import (
	"testing"

	"warmby/sim"
	"warmby/sim/stats"
)

func TestOrdersAreCountedOverAllPoints(t *testing.T) {
	mean := func(minutes float64, runs int64) stats.Difference {
		at := minutes * float64(sim.Minute)
		return stats.Difference{Mean: stats.Mean{Value: at, Low: at - 1, High: at + 1, Runs: runs}}
	}
	rare := mean(-5, 500)
	rare.Doubt = stats.WhyRare
	chance := mean(1, 500)
	chance.P = 0.5
	var got BatchOver
	for _, d := range []stats.Difference{mean(-3, 500), mean(-2, 500), mean(4, 500), mean(4, 2), rare, chance, {Mean: stats.Mean{Why: "never"}, P: 1}} {
		got.Add(d)
	}
	want := BatchOver{ASooner: 2, BSooner: 1, Level: 3, Never: 1, Least: -5 * float64(sim.Minute), Most: 4 * float64(sim.Minute)}
	if got != want {
		t.Errorf("counted %+v, want %+v", got, want)
	}
}
