package compare_test

import (
	"testing"

	"warmby/sim"
)

// In time in 90 and 88 of 100 runs and in 10; the second is in time wherever the
// first is but for two runs.
func TestNearTheBestByHowOftenInTime(t *testing.T) {
	upTo := func(n int) [][]sim.Time {
		return row(100, func(run int) sim.Time {
			if run < n {
				return sim.Hour
			}
			return 2 * sim.Hour
		})
	}
	b := standing(sim.Hour, upTo(90), upTo(88), upTo(10)).BestAt(0)
	if b == nil || b.Means != nil || b.Shares[0].Count != 90 {
		t.Fatalf("%+v, want shares", b)
	}
	for i, may := range []bool{true, true, false} {
		if b.Within[i].MayBe != may {
			t.Errorf("drill %d may be the best: %v", i, !may)
		}
	}
	if first, second, third := b.Within[0].AtMost, b.Within[1].AtMost, b.Within[2].AtMost; !(first >= 0 && first < second && second > 0.02 && second < 0.1 && third > 0.8) {
		t.Errorf("behind the best at most by %v, %v, %v", first, second, third)
	}
	if b.IsClear(0) || b.IsClear(2) {
		t.Error("none of two that may be the best is clear")
	}
}

// The first comes a minute sooner than the second in every run; a third does not
// always come, and then nothing is said.
func TestNearTheBestOnAverage(t *testing.T) {
	at := func(shift sim.Time) [][]sim.Time {
		return row(100, func(run int) sim.Time { return sim.Hour + shift + sim.Time(run)*sim.Second })
	}
	s := standing(sim.Never, at(0), at(sim.Minute))
	b := s.BestAt(0)
	if b == nil || !b.IsClear(0) || b.Doubt != "" {
		t.Fatalf("%+v, want the first to be the best", b)
	}
	if late, ok := b.AtMost(1); !ok || late != sim.Minute {
		t.Errorf("the second is %v behind at most, want a minute", late)
	}
	if late, _ := b.AtMost(0); late != 0 {
		t.Errorf("the first is %v behind at most, want 0", late)
	}
	if plain := s.Odds[0][0].Mean; !(b.Means[0].Low < plain.Low && b.Means[0].High > plain.High) {
		t.Errorf("though chosen %+v, not wider than %+v", b.Means[0], plain)
	}
	never := at(0)
	never[0][7] = sim.Never
	if got := standing(sim.Never, at(0), never).BestAt(0); got != nil {
		t.Errorf("one that does not always come: %+v, want nothing", got)
	}
	if got := standing(sim.Never, at(0)).BestAt(0); got != nil {
		t.Errorf("one drill: %+v, want nothing", got)
	}
	if got := standing(sim.Never, short(at(0)), short(at(sim.Minute))).BestAt(0); got == nil {
		t.Error("two runs: want an answer")
	}
}

func short(times [][]sim.Time) [][]sim.Time { return [][]sim.Time{times[0][:2]} }
