package search

import (
	"context"
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/internal/drills"
)

var ctx = context.Background()

// expDrill is four people and eight tasks whose lengths are exponential: a case
// with a known answer.
func expDrill(t testing.TB) *sim.Drill {
	t.Helper()
	d := &sim.Drill{Spots: []sim.Spot{{In: -1}}}
	for _, name := range []string{"Aila", "Berend", "Caro", "Dario"} {
		d.People = append(d.People, sim.Person{Name: name, Pace: 1000})
	}
	means := []float64{5, 8, 12, 10, 6, 4, 3, 15}
	crews := []int{2, 1, 2, 2, 1, 1, 1, 2}
	after := map[int][]int{3: {1}, 4: {1, 2}, 5: {3}, 6: {4}, 7: {5, 6}, 8: {2}}
	finish := sim.Milestone{Name: sim.FinishName, By: sim.Never}
	for i, m := range means {
		law, err := draw.Exponential(60000 * m)
		if err != nil {
			t.Fatal(err)
		}
		task := sim.Task{Name: string(rune('1' + i)), Kind: sim.Takes, Amount: law, Item: -1, Crew: sim.Crew{Min: crews[i], Max: crews[i]}}
		for _, a := range after[i+1] {
			task.After = append(task.After, sim.After{Task: a - 1})
		}
		d.Tasks = append(d.Tasks, task)
		finish.When = append(finish.When, i)
	}
	d.Milestones = []sim.Milestone{finish}
	return d
}

// inFileOrder and longestFirst are the two orders whose mean finish is known
// exactly, from the Markov chain: 12057842409/308868560 = 39.038750 minutes and
// 12081117001/308868560 = 39.114104.
func inFileOrder() sim.Order {
	return sim.Order{Name: "in file order", Groups: []sim.Group{{Sequence: []int{0, 1, 2, 3, 4, 5, 6, 7}}}}
}

func longestFirst() sim.Order {
	return sim.Order{Name: "longest first", Groups: []sim.Group{{Sequence: []int{7, 0, 1, 2, 3, 4, 5, 6}}}}
}

// Two orders 0.19 % apart are not told apart in a thousand runs, and are in
// as many as it takes.
func TestOrdersAreToldApartOnlyWhenTheyCanBe(t *testing.T) {
	d := expDrill(t)
	judge := func(runs int) *Result {
		r, err := Judge(ctx, d, []sim.Order{inFileOrder(), longestFirst()}, Options{Runs: runs, Seed: 1, Workers: 2})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	if r := judge(1000); len(r.Orders) != 2 || r.Orders[1].Behind[0].Told {
		t.Errorf("1,000 runs: %d orders remain, want both", len(r.Orders))
	}
	const runs = 300_000
	r := judge(runs)
	if len(r.Orders) != 1 || r.Orders[0].Known != "in file order" {
		t.Fatalf("%d runs: %d orders remain, the best %q; want the one in file order alone", runs, len(r.Orders), r.Orders[0].Known)
	}
	// The standard deviation of one is 16.720044 minutes; five standard errors.
	exact, tolerance := 12057842409.0/308868560, 5*16.720044/math.Sqrt(runs)
	if got := r.Orders[0].Value[0] / 60000; math.Abs(got-exact) > tolerance {
		t.Errorf("mean finish %.4f min, want %.4f within %.4f", got, exact, tolerance)
	}
}

// The search, too, does not claim more than it knows.
func TestImproveNamesWhatItCannotTellApart(t *testing.T) {
	r, err := Improve(ctx, expDrill(t), Options{Orders: []sim.Order{longestFirst(), inFileOrder()}, Evaluations: 20_000, Runs: 1000, Seed: 3, Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{}
	for _, f := range r.Orders {
		known[f.Known] = true
	}
	if !known["in file order"] && !known["longest first"] {
		t.Errorf("neither of two orders 0.19 %% apart is among the %d that cannot be told from the best", len(r.Orders))
	}
	if r.Bound[0] > r.Orders[0].Value[0] {
		t.Errorf("the best finishes at %.0f ms, before the bound %.0f", r.Orders[0].Value[0], r.Bound[0])
	}
	for _, f := range r.Orders {
		t.Logf("%q: %.3f min, gain %.3f (%.3f to %.3f), behind %.3f", f.Known, f.Value[0]/60000, f.Gain[0].Value/60000, f.Gain[0].Low/60000, f.Gain[0].High/60000, f.Behind[0].Value/60000)
	}
}

// twoLines is two people with a stove and a shelter line: the drink is what is
// looked for, and the file's order does it last. All lengths are fixed.
func twoLines() *sim.Drill {
	d := &sim.Drill{Spots: []sim.Spot{{In: -1}}, People: []sim.Person{{Name: "Aila", Pace: 1000}, {Name: "Berend", Pace: 1000}}}
	task := func(name string, minutes float64, after ...sim.After) {
		d.Tasks = append(d.Tasks, sim.Task{Name: name, Kind: sim.Takes, Amount: drills.Fixed(60000 * minutes), Item: -1,
			Crew: sim.Crew{Min: 1, Max: 1}, After: after})
	}
	task("tramp", 10)
	task("pitch", 20, sim.After{Task: 0})
	task("wall", 30)
	task("dig", 5)
	task("melt", 15, sim.After{Task: 3})
	task("serve", 5, sim.After{Task: 4})
	d.Milestones = []sim.Milestone{
		{Name: "shelter up", When: []int{1}, By: sim.Never},
		{Name: "hot drink", When: []int{5}, By: sim.Never},
		{Name: sim.FinishName, When: []int{0, 1, 2, 3, 4, 5}, By: sim.Never},
	}
	return d
}

// By hand: in file order tramp and wall first, then pitch from 10 to 30, dig
// 30 to 35, melt to 50, serve to 55. Drink first: 25 minutes, the bound, with
// the shelter up at 30 at no cost. Both lines at once are 85 minutes for two.
func TestImproveFindsTheBestByHand(t *testing.T) {
	d := twoLines()
	r, err := Improve(ctx, d, Options{Aims: []Aim{{Milestone: 1}}, Evaluations: 2000, Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	best := r.Orders[0]
	if got := best.Milestones[1]; got != 25*sim.Minute || r.UsualBound[1] != got || r.Bound[0] != float64(got) {
		t.Errorf("hot drink at %s, bound %s, want both 25 min", sim.Clock(got), sim.Clock(r.UsualBound[1]))
	}
	if r.Before.Milestones[1] != 55*sim.Minute || best.Gain[0].Value != float64(30*sim.Minute) {
		t.Errorf("before %s, gain %v ms, want 55 min and 30 min", sim.Clock(r.Before.Milestones[1]), best.Gain[0].Value)
	}
	if best.Milestones[0] != 30*sim.Minute {
		t.Errorf("shelter up at %s, want 30 min: it costs the drink nothing", sim.Clock(best.Milestones[0]))
	}
	changes := r.Changes(best)
	if len(changes) == 0 {
		t.Fatal("nothing has changed")
	}
	for _, c := range changes {
		if d.Tasks[c.Task].Name == "serve" && c.Later != -30*sim.Minute {
			t.Errorf("serve ends %s later, want 30 min sooner", sim.Clock(c.Later))
		}
	}
}

func TestImproveWeighsSeveralAims(t *testing.T) {
	d := twoLines()
	// One person: the drink at 25 and the shelter at 55, or 30 and 55.
	d.People = d.People[:1]
	r, err := Improve(ctx, d, Options{Aims: []Aim{{Milestone: 0}, {Milestone: 1}}, Evaluations: 4000, Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	var got [][]float64
	for _, f := range r.Orders {
		got = append(got, []float64{f.Value[0] / 60000, f.Value[1] / 60000})
	}
	if diff := cmp.Diff([][]float64{{30, 55}, {55, 25}}, got); diff != "" {
		t.Errorf("shelter and drink, minutes (-want +got):\n%s", diff)
	}
}

func TestImproveSaysWhatCannotBeMet(t *testing.T) {
	d := twoLines()
	r, err := Improve(ctx, d, Options{Aims: []Aim{{Milestone: 2}}, Evaluations: 2000, Workers: 1,
		InTime: []InTime{{Milestone: 1, By: 20 * sim.Minute, Odds: 1}, {Milestone: 0, By: 30 * sim.Minute, Odds: 1}}})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Unmet) != 1 || r.Unmet[0].InTime.Milestone != 1 || r.Unmet[0].At != 25*sim.Minute || r.Unmet[0].Least != 25*sim.Minute {
		t.Errorf("unmet %+v, want the drink, at 25 min, with that its bound", r.Unmet)
	}
}

func TestImproveIsTheSameOnAnyNumberOfWorkers(t *testing.T) {
	search := func(workers int) *Result {
		r, err := Improve(ctx, expDrill(t), Options{Evaluations: 8000, Runs: 600, Seed: 5, Workers: workers})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	want := search(1)
	for _, workers := range []int{2, 3} {
		if diff := cmp.Diff(want, search(workers), cmpopts.EquateNaNs(), cmpopts.IgnoreUnexported(Found{}), cmpopts.IgnoreFields(Result{}, "Drill")); diff != "" {
			t.Errorf("%d workers differ from one:\n%s", workers, diff)
		}
	}
}

func TestImproveRefusesWhatCannotBeSearched(t *testing.T) {
	d := twoLines()
	one := *d
	one.Tasks, one.Milestones = d.Tasks[:1], []sim.Milestone{{Name: sim.FinishName, When: []int{0}}}
	if _, err := Improve(ctx, &one, Options{}); !errors.Is(err, ErrNothingToSearch) {
		t.Errorf("one task: %v, want ErrNothingToSearch", err)
	}
	d.Tasks[0].Crew = sim.Crew{Min: 5, Max: 5}
	var stop *sim.NeverError
	if _, err := Improve(ctx, d, Options{}); !errors.As(err, &stop) {
		t.Errorf("five people asked of two: %v, want a NeverError", err)
	}
}

// Two would dig with one shovel where they are in one group, under no order; each
// in a group of their own, one digs.
func TestImproveStartsFromTheGroupsThatThereAre(t *testing.T) {
	d := twoLines()
	d.Tools = []sim.Tool{{Name: "shovel", Count: 1}}
	d.Tasks[3].Everybody, d.Tasks[3].Tools = true, []sim.ToolNeed{{Tool: 0, Each: true}}
	apart := sim.Order{Name: "apart", Groups: []sim.Group{{Name: "tent", People: []int{0}, Sequence: []int{2, 0, 1}}, {Name: "water", People: []int{1}, Sequence: []int{3, 4, 5}}}}
	storm := d.Under(sim.Order{})
	r, err := Improve(ctx, d, Options{Aims: []Aim{{Milestone: 0}}, Orders: []sim.Order{apart}, Evaluations: 500, Workers: 1, Cases: []Case{{Name: "again", Drill: storm}}})
	if err != nil {
		t.Fatal(err)
	}
	if got := r.Orders[0].Milestones[0]; got != 30*sim.Minute {
		t.Errorf("shelter up at %s, want 30 min: tramp and pitch", sim.Clock(got))
	}
	for _, c := range r.Cases {
		if c.Why != "" {
			t.Errorf("case %q is left out: %s", c.Name, c.Why)
		}
	}
}

// Broken off at once, it still gives an order that has been judged.
func TestImproveGivesTheBestSoFarWhenBrokenOff(t *testing.T) {
	gone, cancel := context.WithCancel(ctx)
	cancel()
	r, err := Improve(gone, expDrill(t), Options{Orders: []sim.Order{inFileOrder()}, Runs: 1000, Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	if !r.Interrupted || len(r.Orders) == 0 || r.Orders[0].Known != "in file order" || r.Runs != hurried {
		t.Errorf("interrupted %v, %d orders on %d runs, want the one in file order", r.Interrupted, len(r.Orders), r.Runs)
	}
}

// No search plays more than it may, however little that is, and each has an
// answer no worse than the order there was.
// Orders that keep less to what is asked used to push those that keep more to it
// out of a front, and then were left out themselves: a front of none, on which
// callers stumbled.
func TestImproveOfSeveralAimsWithAnUnmetLimitHasAFront(t *testing.T) {
	alone := twoLines()
	alone.People = alone.People[:1]
	drawnAlone := twoLines()
	drawnAlone.People = drawnAlone.People[:1]
	drawnAlone.Tasks[2].Amount = expDrill(t).Tasks[0].Amount // the wall, which no limit is about
	for name, c := range map[string]struct {
		d    *sim.Drill
		aims []Aim
		in   InTime
		runs int
	}{
		"usual values": {alone, []Aim{{Milestone: 0}, {Milestone: 2}}, InTime{Milestone: 1, By: 20 * sim.Minute, Odds: 1}, 0},
		"drawn":        {drawnAlone, []Aim{{Milestone: 0}, {Milestone: 2}}, InTime{Milestone: 1, By: 20 * sim.Minute, Odds: 0.9}, 100},
	} {
		for _, n := range []int{1, 2, 5, 20, 100, 1000, 4000} {
			r, err := Improve(ctx, c.d, Options{Aims: c.aims, InTime: []InTime{c.in}, Runs: c.runs, Evaluations: n, Workers: 2})
			switch {
			case err != nil:
				t.Fatalf("%s, %d: %v", name, n, err)
			case len(r.Unmet) != 1:
				t.Fatalf("%s, %d: unmet %+v, want the limit that nobody can meet", name, n, r.Unmet)
			case len(r.Orders) == 0:
				t.Errorf("%s, %d evaluations: a front of none", name, n)
			}
		}
	}
}

func TestImproveKeepsToItsEvaluations(t *testing.T) {
	in := InTime{Milestone: 0, By: 20 * sim.Minute, Odds: 0.9}
	for name, c := range map[string]struct {
		d *sim.Drill
		o Options
	}{
		"usual values":     {twoLines(), Options{Aims: []Aim{{Milestone: 1}}}},
		"to be met":        {twoLines(), Options{InTime: []InTime{in}}},
		"cold":             {twoLines(), Options{ColdLimit: true}},
		"several":          {twoLines(), Options{Aims: []Aim{{Milestone: 0}, {Milestone: 1}}}},
		"drawn":            {expDrill(t), Options{Runs: 100}},
		"drawn, cold":      {expDrill(t), Options{Runs: 100, ColdLimit: true, InTime: []InTime{in}}},
		"drawn, several":   {expDrill(t), Options{Runs: 100, Aims: []Aim{{}, {Statistic: Quantile(0.8)}}}},
		"drawn, own order": {expDrill(t), Options{Runs: 100, Orders: []sim.Order{longestFirst(), inFileOrder()}}},
	} {
		for _, n := range []int{1, 2, 3, 10, 50, 300, 1000, 4000} {
			c.o.Evaluations, c.o.Workers = n, 2
			r, err := Improve(ctx, c.d, c.o)
			if err != nil {
				t.Fatalf("%s, %d: %v", name, n, err)
			}
			if r.Evaluations > n || r.Evaluations < min(n, 3)-1 {
				t.Errorf("%s: %d evaluations, %d allowed", name, r.Evaluations, n)
			}
			if len(r.Orders) == 0 {
				t.Errorf("%s, %d: no order", name, n)
			}
		}
	}
	// One order that is played is judged once.
	if r, err := Improve(ctx, expDrill(t), Options{Orders: []sim.Order{longestFirst()}, Evaluations: 1, Runs: 50}); err != nil || r.Judged != 1 || len(r.Orders) != 1 {
		t.Errorf("one evaluation: %d orders judged, want 1 (%v)", r.Judged, err)
	}
	// Ten are enough for the rules: the drink of twoLines comes first in one.
	r, err := Improve(ctx, twoLines(), Options{Aims: []Aim{{Milestone: 1}}, Evaluations: 10})
	if err != nil {
		t.Fatal(err)
	}
	if got := r.Orders[0].Milestones[1]; got != 25*sim.Minute {
		t.Errorf("with ten evaluations the drink is at %s, want 25 min", sim.Clock(got))
	}
}

// caseDrill is two people with three tasks, of which a milestone needs two.
func caseDrill(long, short float64) *sim.Drill {
	d := &sim.Drill{Spots: []sim.Spot{{In: -1}}, People: []sim.Person{{Name: "Aila", Pace: 1000}, {Name: "Berend", Pace: 1000}}}
	for k, minutes := range []float64{long, short, 20} {
		d.Tasks = append(d.Tasks, sim.Task{Name: string(rune('a' + k)), Kind: sim.Takes, Amount: drills.Fixed(60000 * minutes), Item: -1, Crew: sim.Crew{Min: 1, Max: 1}})
	}
	d.Milestones = []sim.Milestone{{Name: "both", When: []int{0, 1}, By: sim.Never}, {Name: sim.FinishName, When: []int{0, 1, 2}, By: sim.Never}}
	return d
}

// By hand. As it stands two people do "a" in 30 and "b" in 10 min, at 30 at the
// soonest. In the case one person does them, "a" in 12, at 22 when "c" comes
// last and at 42 when it comes first. So the latest case is 42 under "c first",
// and 30 at best, which is the bound. A case in which "a" cannot be done is left
// out.
func TestImproveFindsTheOrderThatBendsLeast(t *testing.T) {
	d, two, none := caseDrill(30, 10), caseDrill(12, 10), caseDrill(30, 10)
	two.People = two.People[:1]
	none.Tasks[0].Crew = sim.Crew{Min: 3, Max: 3}
	first := sim.Order{Name: "c first", Groups: []sim.Group{{People: []int{0, 1}, Sequence: []int{2, 0, 1}}}}
	for _, runs := range []int{0, 50} {
		r, err := Improve(ctx, d, Options{Orders: []sim.Order{first}, Aims: []Aim{{Milestone: 0}}, Evaluations: 500, Runs: runs, Workers: 2,
			Cases: []Case{{"Berend gone", two}, {"a for three", none}}})
		if err != nil {
			t.Fatal(err)
		}
		if r.Evaluations > 500 {
			t.Errorf("%d evaluations, 500 allowed", r.Evaluations)
		}
		if len(r.Cases) != 3 || r.Cases[1].Why != "" || r.Cases[2].Why == "" {
			t.Fatalf("cases %+v, want the last alone left out", r.Cases)
		}
		best, minute := r.Orders[0], float64(sim.Minute)
		if best.Value[0] != 30*minute || r.Before.Value[0] != 42*minute || r.Bound[0] != 30*minute {
			t.Errorf("latest %v instead of %v ms, bound %v; want 30, 42 and 30 min", best.Value[0], r.Before.Value[0], r.Bound[0])
		}
		if got := best.Cases[1]; got.Value[0] != 22*minute || got.Gain[0].Value != 20*minute || r.Cases[1].Bound[0] != 22*minute {
			t.Errorf("in the case %+v, bound %v; want 22 min, 20 min sooner, bound 22 min", got, r.Cases[1].Bound)
		}
	}
}
