package split_test

import (
	"context"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/checker"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/internal/drills"
	"warmby/sim/split"
)

var ctx = context.Background()

// camp is two threads that have nothing to do with each other, of so many
// minutes each: dig 10, pitch 20 after it; fetch 10, boil 20 after it, which
// needs the one skill there is. One person each. The box lies over the tent.
func camp(people int) *sim.Drill {
	d := &sim.Drill{
		Spots:  []sim.Spot{{Name: "centre", In: -1}},
		Skills: []string{"stove"},
		Tools:  []sim.Tool{{Name: "shovel", Count: 1}},
		Loads:  []sim.Load{{Name: "pulk", Crew: sim.Crew{Min: 1, Max: 1}}},
		Items:  []sim.Item{{Name: "box"}, {Name: "tent"}},
	}
	for i := range people {
		p := sim.Person{Name: string(rune('A' + i)), Pace: 1000}
		if i == people-1 {
			p.Skills = p.Skills.With(0)
		}
		d.People = append(d.People, p)
	}
	task := func(name string, length float64, after ...int) *sim.Task {
		t := sim.Task{Name: name, Kind: sim.Takes, Amount: drills.Fixed(length * 60000), Crew: sim.Crew{Min: 1, Max: 1}, Item: -1}
		for _, a := range after {
			t.After = append(t.After, sim.After{Task: a})
		}
		d.Tasks = append(d.Tasks, t)
		return &d.Tasks[len(d.Tasks)-1]
	}
	task("unpack box", 5).Item = 0
	task("unpack tent", 5).Item = 1
	task("dig", 10)
	task("pitch", 20, 2).Needs = []int{1}
	task("fetch", 10)
	task("boil", 20, 4).Roles = []sim.Role{{Skill: 0, Count: 1}}
	d.Milestones = []sim.Milestone{
		{Name: "shelter up", When: []int{3}, By: sim.Never},
		{Name: sim.FinishName, When: []int{0, 1, 2, 3, 4, 5}, By: sim.Never},
	}
	return d.Under(sim.Order{Name: "as it comes"})
}

// usual plays a drill with usual values.
func usual(t *testing.T, d *sim.Drill) *sim.Timeline {
	t.Helper()
	p := fast.Compile(d)
	tl := p.Worker().Timeline(draw.Usual(d))
	return tl
}

func TestTeamIsTheFirstOfTheRoster(t *testing.T) {
	d := camp(3)
	d.Lookouts = []sim.Lookout{{Name: "all", Who: []int{0, 1, 2}}, {Name: "last", Who: []int{2}}}
	d.Groups = []sim.Group{{Name: "one", People: []int{0, 2}}, {Name: "two", People: []int{1}}}
	two := split.Team(d, 2)
	if len(two.People) != 2 || two.People[1].Name != "B" {
		t.Errorf("people %+v, want A and B", two.People)
	}
	if diff := cmp.Diff([][]int{{0}, {1}}, [][]int{two.Groups[0].People, two.Groups[1].People}); diff != "" {
		t.Errorf("groups:\n%s", diff)
	}
	if len(two.Lookouts) != 1 || len(two.Lookouts[0].Who) != 2 {
		t.Errorf("lookouts %+v, want one that two stand", two.Lookouts)
	}
	five := split.Team(d, 5)
	if p := five.People[4]; len(five.People) != 5 || p.Name != "Person 5" || p.Skills != 0 {
		t.Errorf("people %+v, want two copies of the last without skills", five.People)
	}
	if diff := cmp.Diff([]int{0, 2, 3, 4}, five.Groups[0].People); diff != "" {
		t.Errorf("first group:\n%s", diff)
	}
	if diff := cmp.Diff([]int{0, 1, 2, 3, 4}, five.Lookouts[0].Who); diff != "" {
		t.Errorf("who stands everywhere:\n%s", diff)
	}
	if len(d.People) != 3 || len(d.Lookouts) != 2 || len(d.Groups[0].People) != 2 {
		t.Error("the drill itself was changed")
	}
}

// By hand: with the tent on top it is there at 5 rather than at 10 min.
func TestAnItemOnTopComesOffFirst(t *testing.T) {
	d := camp(2)
	if got := usual(t, d).Tasks[1].End; got != 10*sim.Minute {
		t.Fatalf("tent there at %s, want 10 min", sim.Clock(got))
	}
	top := split.OnTop(d, 1)
	if top.Items[0].Name != "tent" || top.Tasks[0].Name != "unpack tent" || top.Tasks[0].Item != 0 {
		t.Fatalf("on top: %q by %q of item %d", top.Items[0].Name, top.Tasks[0].Name, top.Tasks[0].Item)
	}
	if got := usual(t, top).Tasks[0].End; got != 5*sim.Minute {
		t.Errorf("tent on top there at %s, want 5 min", sim.Clock(got))
	}
	if need := top.Tasks[3].Needs; len(need) != 1 || top.Items[need[0]].Name != "tent" {
		t.Errorf("pitching needs %v, want the tent still", need)
	}
	if d.Items[0].Name != "box" || d.Tasks[3].Needs[0] != 1 {
		t.Error("the drill itself was changed")
	}
}

// An order in turn that unloads only when it must does so still: what is on top
// comes off first, and the rest where it was.
func TestAnOrderInTurnUnloadsWhatIsOnTop(t *testing.T) {
	d := camp(2)
	d = d.Under(sim.Order{Groups: []sim.Group{{Sequence: []int{2, 0, 4, 1, 3, 5}, InTurn: true}}})
	top := split.OnTop(d, 1)
	var got []string
	for _, t := range top.Groups[0].Sequence {
		got = append(got, top.Tasks[t].Name)
	}
	if diff := cmp.Diff([]string{"dig", "unpack tent", "unpack box", "fetch", "pitch", "boil"}, got); diff != "" {
		t.Errorf("sequence:\n%s", diff)
	}
	if usual(t, top).Finish() == sim.Never {
		t.Error("it never finishes")
	}
}

// A load packed otherwise is a sound drill still: every rule is kept when it is
// played, and putting things on top from the bottom up gives the load back.
func TestPackingOtherwiseKeepsEveryRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Any(t)
		if len(d.Items) == 0 {
			return
		}
		top := split.OnTop(d, rapid.IntRange(0, len(d.Items)-1).Draw(t, "item"))
		if tl := fast.Compile(top).Worker().Timeline(draw.Usual(top)); tl.Stops == nil {
			if broken := checker.Check(tl); len(broken) > 0 {
				t.Errorf("rules broken: %v", broken)
			}
		}
		last := 0 // of the first load
		for last+1 < len(d.Items) && d.Items[last+1].Load == d.Items[0].Load {
			last++
		}
		back := d
		for range last + 1 {
			back = split.OnTop(back, last)
		}
		if diff := cmp.Diff(names(d), names(back)); diff != "" {
			t.Errorf("after all were on top once:\n%s", diff)
		}
	})
}

// names are those of tasks, and what they come after and need.
func names(d *sim.Drill) [][]string {
	var out [][]string
	for _, task := range d.Tasks {
		row := []string{task.Name}
		for _, a := range task.After {
			row = append(row, "after "+d.Tasks[a.Task].Name)
		}
		for _, n := range task.Needs {
			row = append(row, "needs "+d.Items[n].Name)
		}
		out = append(out, row)
	}
	return out
}

func TestOneMoreComesWithItsKind(t *testing.T) {
	d := camp(2)
	if got := split.OneMoreTool(d, 0); got.Tools[0].Count != 2 || d.Tools[0].Count != 1 {
		t.Errorf("%d shovels by hand, want 2 (and the drill as it was)", got.Tools[0].Count)
	}
	d.Items[0].Brings = []sim.Bring{{Tool: 0, Stove: -1, Count: 3}}
	if got := split.OneMoreTool(d, 0); got.Tools[0].Count != 1 || got.Items[0].Brings[0].Count != 4 || d.Items[0].Brings[0].Count != 3 {
		t.Errorf("%+v, want four shovels in the box", got.Items[0].Brings)
	}
	d.Stoves = []sim.Stove{{Name: "burner", Count: 2, Brought: true}}
	d.Items[1].Brings = []sim.Bring{{Tool: -1, Stove: 0, Count: 2}}
	if got := split.OneMoreStove(d, 0); got.Stoves[0].Count != 3 || got.Items[1].Brings[0].Count != 3 {
		t.Errorf("%d burners work and %d come, want 3", got.Stoves[0].Count, got.Items[1].Brings[0].Count)
	}
}

// In file order the first person unpacks for 10 min and one digs meanwhile:
// pitching ends at 30 min at the soonest whatever the split, by the chain of
// dig and pitch. With one person it takes all tasks before it, 10 + 10 + 20.
func TestTheBestSplitIsFound(t *testing.T) {
	for _, c := range []struct {
		people int
		want   sim.Time
	}{{1, 40 * sim.Minute}, {2, 30 * sim.Minute}, {3, 30 * sim.Minute}} {
		d := camp(3)
		for i := range d.People {
			d.People[i].Skills = d.People[i].Skills.With(0)
		}
		g := split.Game{Bare: d.Under(sim.Order{}), Orders: []*sim.Drill{d}, Milestone: 0, Seed: 1, Runs: 20, Workers: 2}
		size, err := g.Size(ctx, c.people, nil)
		if err != nil {
			t.Fatal(err)
		}
		if size.Best < 0 {
			t.Fatalf("%d people: nothing plays: %v", c.people, size.Why)
		}
		if got := size.Splits[size.Best].Times[0][0]; got != c.want {
			t.Errorf("%d people: shelter up at %s, want %s", c.people, sim.Clock(got), sim.Clock(c.want))
		}
	}
}

// What a smaller team does is a start for a larger one, which so finds no worse
// split on the runs of the search unless one more person is in the way.
func TestALargerTeamStartsFromASmaller(t *testing.T) {
	d := camp(4)
	for i := range d.People {
		d.People[i].Skills = d.People[i].Skills.With(0)
	}
	g := split.Game{Bare: d.Under(sim.Order{}), Orders: []*sim.Drill{d}, Milestone: 1, Seed: 1, Runs: 20, Workers: 2}
	var smaller *split.Size
	for n := 1; n <= 4; n++ {
		size, err := g.Size(ctx, n, smaller)
		if err != nil {
			t.Fatal(err)
		}
		alone, err := g.Size(ctx, n, nil)
		if err != nil {
			t.Fatal(err)
		}
		if size.Tried < alone.Tried || n > 1 && size.Tried == alone.Tried {
			t.Errorf("%d people: %d splits tried after a smaller team, %d without", n, size.Tried, alone.Tried)
		}
		if got, want := size.Splits[size.Best].Times[1][0], alone.Splits[alone.Best].Times[1][0]; got > want {
			t.Errorf("%d people: finish at %s after a smaller team, %s without", n, sim.Clock(got), sim.Clock(want))
		}
		smaller = size
	}
}

func TestASizeThatCannotPlaySaysWhy(t *testing.T) {
	d := camp(3) // only the third may light a stove
	g := split.Game{Bare: d.Under(sim.Order{}), Orders: []*sim.Drill{d}, Milestone: 0, Seed: 1, Runs: 20, Workers: 1}
	size, err := g.Size(ctx, 2, nil)
	if err != nil {
		t.Fatal(err)
	}
	if size.Best >= 0 || size.Why == nil {
		t.Errorf("best %d, why %v; want none, and that nobody has the skill", size.Best, size.Why)
	}
}

// With everybody in one group three would dig with one shovel: that is no split,
// and none has one person more. With one person a group it can be done.
func TestACrewOfAllWithTooFewToolsIsNoSplit(t *testing.T) {
	bare := camp(3)
	bare.Tasks[2].Everybody, bare.Tasks[2].Tools = true, []sim.ToolNeed{{Tool: 0, Each: true}}
	d := bare.Under(sim.Order{Name: "apart", Groups: []sim.Group{
		{Name: "tent", People: []int{0}, Sequence: []int{0, 1, 2, 3}}, {Name: "water", People: []int{1, 2}, Sequence: []int{4, 5}}}})
	g := split.Game{Bare: bare.Under(sim.Order{}), Orders: []*sim.Drill{d}, Milestone: 1, Seed: 1, Runs: 20, Workers: 1}
	size, err := g.Size(ctx, 3, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range size.Splits {
		if len(s.Drill.Groups) < 2 {
			t.Errorf("a split into %d group is told", len(s.Drill.Groups))
		}
	}
	one := &split.Split{Order: "apart", Played: size.Splits[len(size.Splits)-1].Played}
	worth, err := g.Worth(ctx, one, &split.Size{People: 3, Splits: []*split.Split{one}})
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range worth {
		if w.Kind == split.Person && w.Where == "tent" {
			t.Error("a second in the group that digs with one shovel is worth something")
		}
	}
}

// Every split found plays by the rules, names everybody and everything once.
func TestSplitsFoundKeepEveryRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Any(t)
		g := split.Game{Bare: d.Under(sim.Order{}), Orders: []*sim.Drill{d}, Milestone: len(d.Milestones) - 1, Seed: 3, Runs: 5, Workers: 1, Evaluations: 1500}
		size, err := g.Size(ctx, len(d.People), nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range size.Splits {
			if s.Order != "" {
				continue
			}
			people, tasks := 0, map[int]int{}
			for _, group := range s.Drill.Groups {
				people += len(group.People)
				for _, task := range group.Sequence[group.Lead:] {
					tasks[task]++
				}
			}
			if people != len(d.People) {
				t.Errorf("%d people in groups, want %d", people, len(d.People))
			}
			for task, n := range tasks {
				if n < 1 {
					t.Errorf("task %q stands in %d groups", d.Tasks[task].Name, n)
				}
			}
			if tl := fast.Compile(s.Drill).Worker().Timeline(draw.Usual(s.Drill)); tl.Stops == nil {
				if broken := checker.Check(tl); len(broken) > 0 {
					t.Errorf("rules broken: %v", broken)
				}
			}
		}
	})
}

func TestSplitsAreTheSameOnAnyNumberOfWorkers(t *testing.T) {
	type result struct {
		Best  int
		Times [][][]sim.Time
		Worth []string
	}
	of := func(workers int) result {
		d := camp(3)
		d.Tasks[2].Amount, d.Tasks[4].Amount = drills.Even(10*60000), drills.Even(10*60000)
		g := split.Game{Bare: d.Under(sim.Order{}), Orders: []*sim.Drill{d}, Milestone: 1, Seed: 1, Runs: 40, Workers: workers}
		size, err := g.Size(ctx, 3, nil)
		if err != nil {
			t.Fatal(err)
		}
		r := result{Best: size.Best}
		for _, s := range size.Splits {
			r.Times = append(r.Times, s.Times)
		}
		worth, err := g.Worth(ctx, size.BestSplit(), size)
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range worth {
			r.Worth = append(r.Worth, string(w.Kind)+" "+w.What+" "+w.Where)
		}
		return r
	}
	want := of(1)
	if diff := cmp.Diff(want, of(3)); diff != "" {
		t.Errorf("3 workers differ from one:\n%s", diff)
	}
	list := []string{"order  ", "person  ", "skilled stove ", "skill stove ", "tool shovel ", "packing tent pulk"}
	if len(want.Worth) != len(list) {
		t.Fatalf("worth %q, want one for each of %q", want.Worth, list)
	}
	for i := range list {
		if got := want.Worth[i]; !strings.HasPrefix(got, list[i]) {
			t.Errorf("worth %d is %q, want it to begin with %q", i, got, list[i])
		}
	}
}
