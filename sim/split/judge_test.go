package split_test

import (
	"slices"
	"testing"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/split"
	"warmby/sim/stats"
)

// cases is how many minutes the splits of a size take: by case, then split, the
// same in every one of ten runs; 0 for one that cannot be played.
func cases(minutes ...[]sim.Time) *split.Bend {
	size := &split.Size{}
	for range minutes[0] {
		size.Splits = append(size.Splits, &split.Split{})
	}
	var played [][]*compare.Played
	for _, row := range minutes {
		var splits []*compare.Played
		for _, m := range row {
			if m == 0 {
				splits = append(splits, nil)
				continue
			}
			splits = append(splits, &compare.Played{Drill: &sim.Drill{}, Times: [][]sim.Time{slices.Repeat([]sim.Time{m * sim.Minute}, 10)}})
		}
		played = append(played, splits)
	}
	return split.JudgeCases(size, played, 0)
}

// The split whose latest case is earliest bends least; cases in which no split
// gets there say nothing about any of them, and a split that does not get there
// where another does is out.
func TestWhichSplitBendsLeast(t *testing.T) {
	for name, c := range map[string]struct {
		bend  *split.Bend
		least int
		left  []int
		worst []int
	}{
		"as it stands the first, bent the second": {cases([]sim.Time{50, 60}, []sim.Time{90, 70}), 1, nil, []int{1, 1}},
		"the last of three cases decides":         {cases([]sim.Time{50, 60}, []sim.Time{50, 60}, []sim.Time{99, 98}), 1, nil, []int{2, 2}},
		"a case nobody gets through":              {cases([]sim.Time{50, 60}, []sim.Time{0, 0}, []sim.Time{70, 65}), 1, []int{1}, []int{2, 2}},
		"one does not get through":                {cases([]sim.Time{50, 60}, []sim.Time{0, 99}), 1, nil, []int{-1, 1}},
		"each fails somewhere":                    {cases([]sim.Time{50, 0}, []sim.Time{0, 99}), -1, nil, []int{-1, -1}},
		"equals":                                  {cases([]sim.Time{50, 50}, []sim.Time{70, 70}), 0, nil, []int{1, 1}},
	} {
		b := c.bend
		if b.Least != c.least || !slices.Equal(b.Left, c.left) || !slices.Equal(b.Worst, c.worst) {
			t.Errorf("%s: least %d, left out %v, worst %v; want %d, %v, %v", name, b.Least, b.Left, b.Worst, c.least, c.left, c.worst)
		}
	}
	b := cases([]sim.Time{50, 60}, []sim.Time{90, 0})
	if got := b.Latest(0); got != 90*sim.Minute {
		t.Errorf("latest %s, want 90 min", sim.Clock(got))
	}
	if got := b.Latest(1); got != sim.Never {
		t.Errorf("latest %s of a split that does not always get there, want never", sim.Clock(got))
	}
	if got := b.Against(1, 0).Mean.Value; got != float64(40*sim.Minute) {
		t.Errorf("the case is %v ms later, want 40 min", got)
	}
	if b.Against(1, 1).Mean.OK() {
		t.Error("a case that cannot be played is held against the scenario as it stands")
	}
}

// A case is held against the scenario as it stands by the rule that orders are held
// against each other by: what so few runs see too seldom may turn a small change round.
func TestARareMishapLeavesWhatACaseChangesInDoubt(t *testing.T) {
	size := &split.Size{Splits: []*split.Split{timed("", 50)}}
	change := func(minutes sim.Time) stats.Difference {
		case1 := timed("", minutes)
		for _, one := range []*split.Split{size.Splits[0], case1} {
			one.Drill.Tasks = []sim.Task{{Mishap: &sim.Mishap{Chance: 0.01, Adds: draw.Fixed(float64(3 * sim.Hour)), AtMost: 1}}}
		}
		return split.JudgeCases(size, [][]*compare.Played{{size.Splits[0].Played}, {case1.Played}}, 0).Against(1, 0)
	}
	if d := change(45); split.Ahead(d) != 0 || d.Doubt == "" {
		t.Errorf("a change of 5 min is told for sure, %q, with a mishap of 3 h expected in 2 of the runs", d.Doubt)
	}
	if d := change(20); split.Ahead(d) >= 0 {
		t.Errorf("a change of half an hour is in doubt, %q, which no such mishap can turn round", d.Doubt)
	}
}

// timed is a split whose milestone comes so many minutes after arrival, in 200
// runs, a little more or less.
func timed(order string, minutes sim.Time) *split.Split {
	one := &split.Split{Order: order, Played: &compare.Played{Drill: &sim.Drill{Groups: make([]sim.Group, 2)}}}
	one.Times = [][]sim.Time{nil}
	for run := range sim.Time(200) {
		one.Times[0] = append(one.Times[0], minutes*sim.Minute+run*minutes%7*sim.Second)
	}
	return one
}

// A thin search may choose what its own fresh runs tell to be later; of several
// that are sooner the soonest is named, and luck alone names none.
func TestSomethingSoonerThanTheChoiceIsFound(t *testing.T) {
	size := &split.Size{Splits: []*split.Split{timed("", 50), timed("", 45), timed("", 40), timed("", 60)}}
	if got := size.SoonerThanBest(0); got != size.Splits[2] {
		t.Errorf("split %p is named, want the soonest, %p", got, size.Splits[2])
	}
	size.Best = 2
	if got := size.SoonerThanBest(0); got != nil {
		t.Errorf("split %p is named beside the soonest", got)
	}
}

// What so few runs see too seldom may turn a small difference round, and no large one.
func TestARareMishapLeavesTheChoiceWhereItIsClose(t *testing.T) {
	size := &split.Size{Splits: []*split.Split{timed("", 50), timed("", 45)}}
	for _, one := range size.Splits {
		one.Drill.Tasks = []sim.Task{{Mishap: &sim.Mishap{Chance: 0.01, Adds: draw.Fixed(float64(3 * sim.Hour)), AtMost: 1}}}
	}
	if got := size.SoonerThanBest(0); got != nil {
		t.Error("a split that is 5 min sooner is named although a mishap of 3 h is expected in 2 of the runs")
	}
	size.Splits[1] = timed("", 20)
	if got := size.SoonerThanBest(0); got != size.Splits[1] {
		t.Error("a split that is half an hour sooner is not named, which no such mishap can turn round")
	}
}

// An order that happens to be called so is no split into two groups.
func TestFormsOfSplitAreToldApart(t *testing.T) {
	sizes := []*split.Size{
		{People: 3, Best: 1, Splits: []*split.Split{timed("2 groups", 50), timed("", 45)}},
		{People: 4, Best: 0, Splits: []*split.Split{timed("drink first", 40), timed("", 60)}},
	}
	want := []split.Form{{Groups: 2}, {Order: "2 groups"}, {Order: "drink first"}}
	if got := split.Forms(sizes); !slices.Equal(got, want) {
		t.Errorf("forms %v, want %v", got, want)
	}
	if got := sizes[0].Of(want[0]); got != sizes[0].Splits[1] {
		t.Error("the order called 2 groups is taken for a split into 2 groups")
	}
	if split.ChangeAt(sizes, 0, want[0], 0) != nil || split.ChangeAt(sizes, 1, want[2], 0) != nil {
		t.Error("there is a change without a smaller size, or without the order there")
	}
	c := split.ChangeAt(sizes, 1, want[0], 0)
	if !c.Later() || c.Fewer.People != 3 || c.Now.People != 4 {
		t.Errorf("change %+v, want four people 15 min later than three", c)
	}
	if best := split.ChangeAt(sizes, 1, split.Form{}, 0); best.Later() {
		t.Errorf("change %+v of the best of each, want sooner", best)
	}
}

func TestWorthIsToldOnlyBeyondLuck(t *testing.T) {
	worth := func(value, half float64, runs int64) *split.Worth {
		return &split.Worth{Change: stats.Difference{Mean: stats.Mean{Value: value, Low: value - half, High: value + half, Runs: runs}}}
	}
	list := []*split.Worth{worth(-9, 10, 500), worth(-3, 1, 500), worth(-5, 1, 500), worth(4, 1, 500), worth(-99, 1, 3)}
	for i, want := range []int{0, -1, -1, 1, 0} {
		if got := list[i].Told(); got != want {
			t.Errorf("%+v told %d, want %d", list[i].Change.Mean, got, want)
		}
	}
	if got := split.WorthMost(list); got != list[2] {
		t.Errorf("worth most %+v, want -5, which is beyond luck", got.Change.Mean)
	}
	if got := worth(-1, 0, 1).Told(); got != -1 {
		t.Errorf("usual values told %d, want what they are", got)
	}
}

func TestTheLeastColdSplit(t *testing.T) {
	size := &split.Size{Best: 1, Splits: []*split.Split{timed("a", 1), timed("b", 1), timed("c", 1)}}
	cold := func(over, runs int) *compare.Cold { return &compare.Cold{Over: over, Peaks: make([]float64, runs)} }
	accounts := map[*split.Split]*compare.Cold{size.Splits[0]: cold(30, 100), size.Splits[1]: cold(20, 50), size.Splits[2]: nil}
	if got := size.LeastOver(accounts); got != size.Splits[0] {
		t.Errorf("least over under %q, want a: 30 of 100 against 20 of 50", got.Order)
	}
	accounts[size.Splits[0]] = cold(40, 100)
	if got := size.LeastOver(accounts); got != size.Splits[1] {
		t.Errorf("least over under %q, want the best of equals", got.Order)
	}
}
