package report

import (
	"testing"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/split"
)

// Three people are soonest with a split that has somebody too cold in two evenings of
// ten; four with one that seldom has.
func TestMorePeopleAreLaterForTheSakeOfTheCold(t *testing.T) {
	d := &sim.Drill{Milestones: []sim.Milestone{{Name: "heated", By: sim.Never}}, Groups: make([]sim.Group, 1)}
	size := func(people int, heated sim.Time) *split.Size {
		times := runsOf(500, func(run int) sim.Time { return heated + sim.Time(run)*sim.Second })
		return &split.Size{People: people, Splits: []*split.Split{{Played: &compare.Played{Drill: d, Times: [][]sim.Time{times}}}}}
	}
	three, four := size(3, sim.Hour), size(4, sim.Hour+16*sim.Minute)
	says := func(overThree, overFour int) string {
		cold := func(over int) *compare.Cold { return &compare.Cold{Peaks: make([]float64, 500), Over: over} }
		s := Splits{Game: &split.Game{Runs: 500}, Drill: d, Answer: &split.Answer{Sizes: []*split.Size{three, four},
			Cold: map[*split.Split]*compare.Cold{three.BestSplit(): cold(overThree), four.BestSplit(): cold(overFour)}}}
		return s.laterShort().Write(People)
	}
	if got, want := says(100, 10), "More people, and later: 4 people by 16 min, too cold less often."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := says(100, 95), "More people, and later: 4 people by 16 min with the best split."; got != want {
		t.Errorf("as cold: %q, want %q", got, want)
	}
}
