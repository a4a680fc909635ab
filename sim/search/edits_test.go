package search

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/bound"
	"warmby/sim/internal/drills"
)

// All the changes from one plan to another give the other, none give the one, and
// those that move tasks are as few as they can be: what stays, stays in its sequence.
func TestEditsMakeOnePlanOfAnother(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Draw(t)
		if sim.Possible(d) != nil {
			return
		}
		random := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		m := newMover(d, bound.New(d), random)
		g := &game{d: d}
		list := random.Perm(len(d.Tasks))
		from := newPlan(d, list, false)
		to := from.clone()
		for range rapid.IntRange(0, 30).Draw(t, "changes") {
			m.change(to)
		}
		edits := g.edits(from, to)
		behind := rapid.Bool().Draw(t, "behind")
		if p := combine(from, to, edits, behind); !p.equal(to) {
			t.Fatalf("all of %+v make %+v, want %+v", edits, p, to)
		}
		if p := combine(from, to, nil, behind); !p.equal(from) {
			t.Fatalf("none make %+v, want %+v", p, from)
		}
		if from.equal(to) != (len(edits) == 0) {
			t.Fatalf("changes %+v from %+v to %+v", edits, from, to)
		}
		for k := range edits {
			p := combine(from, to, without(edits, k), behind)
			if sorted := slices.Sorted(slices.Values(p.list)); len(slices.Compact(sorted)) != len(d.Tasks) {
				t.Fatalf("a task is lost or doubled: %v", p.list)
			}
		}
	})
}

// plainCamp is one person and six tasks of ten minutes, the last of which is the drink.
func plainCamp() *sim.Drill {
	d := &sim.Drill{Spots: []sim.Spot{{In: -1}}, People: []sim.Person{{Name: "Aila", Pace: 1000}}}
	var all []int
	for k := range 6 {
		d.Tasks = append(d.Tasks, sim.Task{Name: string(rune('a' + k)), Kind: sim.Takes, Amount: drills.Fixed(600_000), Item: -1, Crew: sim.Crew{Min: 1, Max: 1}})
		all = append(all, k)
	}
	d.Milestones = []sim.Milestone{{Name: "drink", When: []int{5}, By: sim.Never}, {Name: sim.FinishName, When: all, By: sim.Never}}
	return d
}

// By hand: the drink first wins 50 min, and nothing else has to change, although
// 120 sequences of the rest are as good. It now comes before the five others, which
// the one order there was has the other way round: of these pairs only the one with
// the neighbour is told, the others follow.
func TestFoundOrderStaysNearTheOneThereWas(t *testing.T) {
	d := plainCamp()
	own := sim.Order{Name: "own", Groups: []sim.Group{{Sequence: []int{2, 0, 1, 4, 3, 5}}}}
	r, err := Improve(ctx, d, Options{Orders: []sim.Order{own}, Aims: []Aim{{Milestone: 0}}, Evaluations: 3000, Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	best := r.Orders[0]
	if best.Value[0] != 600_000 || best.Burden != (Burden{Moved: 1, Turned: 5}) {
		t.Errorf("drink at %v ms with %+v, want 10 min with one task moved past five: %+v", best.Value[0], best.Burden, best.Order)
	}
	if want := [][]int{{5, 2, 0, 1, 4, 3}}; !slices.EqualFunc(best.People, want, slices.Equal) {
		t.Errorf("Aila does %v, want %v", best.People, want)
	}
	if want := []Pair{{5, 2}}; !slices.Equal(best.Turned, want) {
		t.Errorf("turned %v, want %v", best.Turned, want)
	}
	if len(r.Wins) != 1 || r.Wins[0].Gain.Value != 3_000_000 || r.WinsOn != "own" {
		t.Fatalf("wins %+v on %q, want one of 50 min on own", r.Wins, r.WinsOn)
	}
	if want := []Edit{{Kind: Moves, Task: 5, Anchor: 2}}; !slices.Equal(r.Wins[0].Edits, want) {
		t.Errorf("it is %+v, want %+v", r.Wins[0].Edits, want)
	}
	if len(r.Orders) > 1 {
		t.Errorf("%d orders that are nearly one", len(r.Orders))
	}
}

// By hand: unloading that is named in its place is no other group, and a task that
// moves is told by what it has passed, rather by what all do than by somebody's part.
func TestChangesAreToldByWhatPeopleKnow(t *testing.T) {
	d := plainCamp() // a to f
	d.Items, d.Loads = []sim.Item{{Name: "tent"}}, []sim.Load{{Name: "pulk"}}
	d.Tasks[0].Item = 0
	d.Tasks[3].Each, d.Tasks[3].Who = "eat", []int{0}
	g := &game{d: d}
	unnamed := newPlan(d, []int{0, 1, 2, 3, 4, 5}, false)
	for _, c := range []struct {
		what     string
		from, to []int
		fromHas  uint16
		toHas    uint16
		want     []Edit
	}{
		{"named where it stands", []int{0, 1, 2, 3, 4, 5}, []int{0, 1, 2, 3, 4, 5}, 0, 1, []Edit{{Kind: Moves, Task: 0, Anchor: 1}}},
		{"named no longer", []int{0, 1, 2, 3, 4, 5}, []int{0, 1, 2, 3, 4, 5}, 1, 0, []Edit{{Kind: Moves, Task: 0, Anchor: -1, After: true}}},
		{"f past d and e", []int{0, 1, 2, 3, 4, 5}, []int{0, 1, 2, 5, 3, 4}, 0, 0, []Edit{{Kind: Moves, Task: 5, Anchor: 4}}},
		{"c past d and e", []int{0, 1, 2, 3, 4, 5}, []int{0, 1, 3, 4, 2, 5}, 0, 0, []Edit{{Kind: Moves, Task: 2, Anchor: 4, After: true}}},
		{"c past d alone", []int{0, 1, 2, 3, 4, 5}, []int{0, 1, 3, 2, 4, 5}, 0, 0, []Edit{{Kind: Moves, Task: 2, Anchor: 3, After: true}}},
	} {
		from, to := unnamed.clone(), unnamed.clone()
		from.list, to.list, from.has[0], to.has[0] = c.from, c.to, c.fromHas, c.toHas
		if got := g.edits(from, to); !slices.Equal(got, c.want) {
			t.Errorf("%s: %+v, want %+v", c.what, got, c.want)
		}
		if p := combine(from, to, c.want, false); !p.equal(to) {
			t.Errorf("%s: the changes make %+v, want %+v", c.what, p, to)
		}
	}
}

// People and tasks are told by the groups they are in now, where groups are the same.
func TestWhatIsInAnotherGroupIsTold(t *testing.T) {
	g := &game{d: plainCamp()}
	two := func(who int, has ...uint16) *plan {
		return &plan{of: []int{0, who}, has: has, groups: []squad{{name: "fire"}, {name: "water"}}}
	}
	from, to := two(0, 1, 1, 1, 2, 2, 2), two(1, 1, 2, 3, 2, 2, 2)
	want := []Regroup{{1, -1, []string{"water"}}, {-1, 1, []string{"water"}}, {-1, 2, []string{"fire", "water"}}}
	if diff := cmp.Diff(want, g.regroups(from, to)); diff != "" {
		t.Errorf("regroups:\n%s", diff)
	}
	to.groups[0].name = "tents"
	if got := g.regroups(from, to); got != nil {
		t.Errorf("regroups %v of other groups, want none", got)
	}
}
