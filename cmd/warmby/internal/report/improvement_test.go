package report

import (
	"testing"

	"warmby/sim"
	"warmby/sim/search"
)

func TestAChangeOfGroupsSaysWhoDoesWhatNow(t *testing.T) {
	d := &sim.Drill{
		People: []sim.Person{{Name: "Nora"}},
		Tasks:  []sim.Task{{Name: "pitch tent three"}, {Name: "haul water"}},
	}
	m := Improvement{Result: &search.Result{Drill: d}}
	won := search.Win{
		Edits: []search.Edit{{Kind: search.Splits}, {Kind: search.Moves, Task: 1, Anchor: 0}},
		Regroups: []search.Regroup{
			{Person: 0, Task: -1, Groups: []string{"ice"}},
			{Person: -1, Task: 0, Groups: []string{"tents", "ice"}},
		},
	}
	want := `Nora in "ice", pitch tent three by "tents" or "ice" and haul water before pitch tent three`
	if got := m.winWords(won).Write(People); got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
