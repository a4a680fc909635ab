package split_test

import (
	"slices"
	"testing"

	"warmby/sim"
	"warmby/sim/fast"
	"warmby/sim/internal/drills"
	"warmby/sim/split"
)

// crossed is people for six tasks in three chains of two, of lengths that do not go
// into each other, of which the last two tasks need the one skill.
func crossed(people int) *sim.Drill {
	d := &sim.Drill{Spots: []sim.Spot{{Name: "centre", In: -1}}, Skills: []string{"stove"}}
	for i := range people {
		p := sim.Person{Name: string(rune('A' + i)), Pace: 1000}
		if i == 0 {
			p.Skills = p.Skills.With(0)
		}
		d.People = append(d.People, p)
	}
	var all []int
	for k, minutes := range []float64{7, 11, 5, 13, 17, 6} {
		t := sim.Task{Name: string(rune('a' + k)), Kind: sim.Takes, Amount: drills.Fixed(minutes * 60000), Crew: sim.Crew{Min: 1, Max: 1}, Item: -1}
		if k%2 == 1 {
			t.After = []sim.After{{Task: k - 1}}
		}
		if k >= 4 {
			t.Roles = []sim.Role{{Skill: 0, Count: 1}}
		}
		d.Tasks = append(d.Tasks, t)
		all = append(all, k)
	}
	d.Milestones = []sim.Milestone{{Name: sim.FinishName, When: all, By: sim.Never}}
	return d.Under(sim.Order{Name: "as it comes"})
}

// soonestOfAll plays every sequence of the tasks in one group by both rules, and
// every split of tasks and people into two groups in file order, and returns the
// soonest finish.
func soonestOfAll(t *testing.T, d *sim.Drill) sim.Time {
	t.Helper()
	program := fast.Compile(d.Under(sim.Order{}))
	trial, soonest := program.Trial(), sim.Never
	var r fast.Result
	play := func(groups ...sim.Group) {
		trial.Reorder(d.Under(sim.Order{Groups: groups}))
		if trial.Usual(&r); r.Stops == nil {
			soonest = min(soonest, r.Milestones[0])
		}
	}
	n := len(d.Tasks)
	var permute func(list []int, k int)
	permute = func(list []int, k int) {
		if k == n {
			play(sim.Group{Name: sim.Everyone, Sequence: slices.Clone(list)})
			play(sim.Group{Name: sim.Everyone, Sequence: slices.Clone(list), InTurn: true})
			return
		}
		for i := k; i < n; i++ {
			list[k], list[i] = list[i], list[k]
			permute(list, k+1)
			list[k], list[i] = list[i], list[k]
		}
	}
	permute([]int{0, 1, 2, 3, 4, 5}, 0)
	for who := 1; who < 1<<len(d.People)-1; who++ {
		for what := range 1 << n {
			two := []sim.Group{{Name: "one", Then: []int{1}}, {Name: "two", Then: []int{0}}}
			for p := range d.People {
				g := &two[who>>p&1]
				g.People = append(g.People, p)
			}
			for i := range d.Tasks {
				g := &two[what>>i&1]
				g.Sequence = append(g.Sequence, i)
			}
			play(two...)
		}
	}
	return soonest
}

// What is called the best is as soon as anything that trying everything finds, and
// no order that there is beats it.
func TestNothingThatCanBeTriedIsSoonerThanTheBest(t *testing.T) {
	for people := 1; people <= 3; people++ {
		d := crossed(people)
		want := soonestOfAll(t, d)
		g := split.Game{Bare: d.Under(sim.Order{}), Orders: []*sim.Drill{d}, Seed: 1, Workers: 2}
		size, err := g.Size(ctx, people, nil)
		if err != nil {
			t.Fatal(err)
		}
		best := size.Splits[size.Best].Times[0][0]
		if best > want {
			t.Errorf("%d people: best at %s, trying everything finds %s", people, sim.Clock(best), sim.Clock(want))
		}
		for _, s := range size.Splits {
			if s.Times[0][0] < best {
				t.Errorf("%d people: the best at %s, %q at %s", people, sim.Clock(best), s.Order, sim.Clock(s.Times[0][0]))
			}
		}
	}
}

// A better order is worth what it wins, and under it the skill of the second person
// is worth something, too. The drill is played as it was in the first place.
func TestWorthIsMeasuredBetweenGoodOrders(t *testing.T) {
	d := crossed(2)
	d = d.Under(sim.Order{Name: "badly", Groups: []sim.Group{{Sequence: []int{0, 1, 2, 3, 4, 5}, InTurn: true}}})
	g := split.Game{Bare: d.Under(sim.Order{}), Orders: []*sim.Drill{d}, Workers: 2}
	size, err := g.Size(ctx, 2, nil)
	if err != nil {
		t.Fatal(err)
	}
	own := slices.IndexFunc(size.Splits, func(s *split.Split) bool { return s.Order == "badly" })
	base := size.Splits[own]
	worth, err := g.Worth(ctx, base, size)
	if err != nil {
		t.Fatal(err)
	}
	best := size.Splits[size.Best].Times[0][0]
	if w := worth[0]; w.Kind != split.Better || sim.Time(w.Change.Mean.Value) != best-base.Times[0][0] {
		t.Errorf("%s wins %v ms, want a better order to win %v", w.Kind, w.Change.Mean.Value, best-base.Times[0][0])
	}
	for _, w := range worth[1:] {
		if w.Change.Mean.Value > 0 {
			t.Errorf("%s %s makes it %v ms later under an order that is good with it", w.Kind, w.What, w.Change.Mean.Value)
		}
	}
}

// Who finds nothing to do but what stands in the way of the others is not made to do
// it: one person more is never worth less than nothing.
func TestOneMorePersonNeedNotGetInTheWay(t *testing.T) {
	minutes := func(n float64) sim.Task {
		return sim.Task{Kind: sim.Takes, Amount: drills.Fixed(n * 60000), Crew: sim.Crew{Min: 1, Max: 1}, Item: -1}
	}
	fetch, melt, dry := minutes(10), minutes(5), minutes(60)
	fetch.Name, melt.Name, dry.Name = "fetch snow", "melt", "dry mittens"
	melt.After = []sim.After{{Task: 0}}
	melt.Tools, dry.Tools = []sim.ToolNeed{{Tool: 0, Count: 1}}, []sim.ToolNeed{{Tool: 0, Count: 1}}
	d := &sim.Drill{
		Spots: []sim.Spot{{Name: "centre", In: -1}}, People: []sim.Person{{Name: "A", Pace: 1000}},
		Tools: []sim.Tool{{Name: "stove", Count: 1}}, Tasks: []sim.Task{fetch, melt, dry},
		Milestones: []sim.Milestone{{Name: "hot drink", When: []int{1}, By: sim.Never}, {Name: sim.FinishName, When: []int{0, 1, 2}, By: sim.Never}},
	}
	d = d.Under(sim.Order{Name: "as it comes"})
	g := split.Game{Bare: d.Under(sim.Order{}), Orders: []*sim.Drill{d}, Workers: 1, Evaluations: 20, Parts: 2}
	size, err := g.Size(ctx, 1, nil)
	if err != nil {
		t.Fatal(err)
	}
	worth, err := g.Worth(ctx, size.Splits[size.Best], size)
	if err != nil {
		t.Fatal(err)
	}
	one := worth[slices.IndexFunc(worth, func(w *split.Worth) bool { return w.Kind == split.Person })]
	if late := one.Change.Mean.Value; late > 0 {
		t.Errorf("one more person makes it %v ms later (group %q)", late, one.Where)
	}
}
