package search

import (
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/bound"
	"warmby/sim/draw"
	"warmby/sim/internal/drills"
)

// By hand, c after b after a: c to the front takes a and b along, a to the back takes
// b and c along, and what it need not pass stays where it is.
func TestAChainOfTasksMovesAsAWhole(t *testing.T) {
	d := plainCamp() // a to f
	d.Tasks[1].After, d.Tasks[2].After = []sim.After{{Task: 0}}, []sim.After{{Task: 1}}
	m := newMover(d, bound.New(d), nil)
	for _, c := range []struct {
		list, tasks []int
		to          int
		want        []int
	}{
		{[]int{3, 0, 4, 1, 5, 2}, []int{2}, 0, []int{0, 1, 2, 3, 4, 5}},
		{[]int{3, 0, 4, 1, 5, 2}, []int{2}, 2, []int{3, 0, 1, 2, 4, 5}},
		{[]int{3, 0, 4, 1, 5, 2}, []int{0}, 4, []int{3, 4, 5, 0, 1, 2}},
		{[]int{3, 0, 4, 1, 5, 2}, []int{0}, 5, []int{3, 4, 5, 0, 1, 2}},
		{[]int{3, 0, 4, 1, 5, 2}, []int{5}, 4, []int{3, 0, 4, 1, 5, 2}},
		{[]int{3, 0, 4, 1, 5, 2}, []int{4, 5}, 0, []int{4, 5, 3, 0, 1, 2}},
		{[]int{3, 0, 4, 1, 5, 2}, []int{3, 5}, 5, []int{0, 4, 1, 2, 3, 5}},
	} {
		if got := m.shifted(c.list, c.tasks, c.to); !slices.Equal(got, c.want) {
			t.Errorf("%v of %v to place %d: %v, want %v", c.tasks, c.list, c.to, got, c.want)
		}
	}
}

// However often a list is changed, every task stands in it once, after all that it
// comes after.
func TestChangesKeepWhatComesAfterWhat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Draw(t)
		if sim.Possible(d) != nil {
			return
		}
		b := bound.New(d)
		m := newMover(d, b, rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1)))
		p := newPlan(d, ruleList(b, ruleLST, draw.Usual(d), len(d.Milestones)-1), false)
		for range rapid.IntRange(1, 40).Draw(t, "changes") {
			m.change(p)
		}
		at := places(p.list)
		if sorted := slices.Sorted(slices.Values(p.list)); len(slices.Compact(sorted)) != len(d.Tasks) {
			t.Fatalf("a task is lost or doubled: %v", p.list)
		}
		for _, l := range b.Links() {
			if at[l.From] > at[l.To] {
				t.Fatalf("%s stands before %s, which it comes after", d.Tasks[l.To].Name, d.Tasks[l.From].Name)
			}
		}
	})
}
