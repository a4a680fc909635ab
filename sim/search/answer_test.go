package search

import (
	"slices"
	"testing"

	"warmby/sim"
	"warmby/sim/draw"
)

func TestBestAtOneAim(t *testing.T) {
	r := &Result{Bound: []float64{100, 0}, Orders: []Found{{Known: "a", Value: []float64{120, 9}}, {Known: "b", Value: []float64{150, 7}}, {Known: "c", Value: []float64{120, 7}}}}
	if got := r.BestAt(0); got.Known != "a" {
		t.Errorf("best at the first aim %q, want a, the first of equals", got.Known)
	}
	if got := r.BestAt(1); got.Known != "b" {
		t.Errorf("best at the second aim %q, want b", got.Known)
	}
	if got := r.PercentAbove(r.Orders[0], 0); got != 20 {
		t.Errorf("120 is %v %% above 100, want 20", got)
	}
	if got := r.PercentAbove(r.Orders[0], 1); got != 900 {
		t.Errorf("9 is %v %% above nothing, want 900", got)
	}
}

func TestCasesLeftOutAreNotJudged(t *testing.T) {
	r := &Result{Cases: []CaseResult{{}, {Why: "never"}, {}}}
	if got := r.CasesJudged(); got != 2 {
		t.Errorf("%d cases judged, want 2", got)
	}
}

func TestNothingBetterThanWhatThereWas(t *testing.T) {
	r := &Result{Before: Found{Known: "own", Value: []float64{50}}}
	found := func(known string, value float64, g Gain) Found {
		return Found{Known: known, Value: []float64{value}, Gain: []Gain{g}}
	}
	for name, c := range map[string]struct {
		f    Found
		want bool
	}{
		"the order to beat":  {found("own", 50, Gain{}), true},
		"one as good":        {found("", 50, Gain{}), true},
		"one that is better": {found("", 40, Gain{Value: 10}), false},
		"no telling":         {found("own", 50, Gain{Why: "never"}), false},
		"another of theirs":  {found("other", 50, Gain{}), false},
	} {
		if got := r.NothingBetter(c.f, 0); got != c.want {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// Tasks that a milestone names come before others, and unpacking does not count.
func TestMainChangesAreThoseThatMilestonesName(t *testing.T) {
	d := &sim.Drill{Spots: []sim.Spot{{In: -1}}, People: []sim.Person{{Name: "Aila", Pace: 1000}}, Items: []sim.Item{{Name: "box"}}, Loads: []sim.Load{{Name: "pulk"}}}
	for i, name := range []string{"unpack box", "dig", "pitch", "boil"} {
		item := -1
		if i == 0 {
			item = 0
		}
		d.Tasks = append(d.Tasks, sim.Task{Name: name, Kind: sim.Takes, Amount: draw.Fixed(60000), Crew: sim.Crew{Min: 1, Max: 1}, Item: item})
	}
	d.Milestones = []sim.Milestone{{Name: "shelter up", When: []int{2}, By: sim.Never}, {Name: sim.FinishName, When: []int{0, 1, 2, 3}, By: sim.Never}}
	at := func(minutes ...sim.Time) Found {
		var starts []sim.Time
		for _, m := range minutes {
			starts = append(starts, m*sim.Minute)
		}
		return Found{Start: starts, End: starts}
	}
	r := &Result{Drill: d, Before: at(0, 10, 20, 30)}
	var got []int
	for _, c := range r.MainChanges(at(30, 20, 10, 0)) {
		got = append(got, c.Task)
	}
	if len(got) == 0 || got[0] != 2 || slices.Contains(got, 0) {
		t.Errorf("changes of tasks %v, want the one that a milestone names first and no unpacking", got)
	}
}
