package search

import (
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"warmby/internal/thorough"
	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
)

// shippedDrill returns a shipped scenario without an order, and its orders.
func shippedDrill(t testing.TB, name string) (*sim.Drill, []sim.Order) {
	t.Helper()
	data, _ := library.Read(name)
	s, err := scenarios.Read(name, data)
	if err != nil {
		t.Fatal(err)
	}
	return s.Parts()
}

// explored searches and returns what is in the archive in the end.
func explored(t testing.TB, d *sim.Drill, o Options, evaluations int) *exploration {
	t.Helper()
	o.Evaluations, o.Runs, o.Workers = evaluations, 100, 2
	g, err := newGame(ctx, d, &o)
	if err != nil {
		t.Fatal(err)
	}
	g.prepare()
	players := g.players()
	before := g.before(players[0])
	own := g.ownOrders(players[0], before)
	x := g.explore(players, g.starts(players, own), own)
	x.exploreAll(laid)
	return x
}

// A search that may play twice as much has an answer that is no worse on its own
// runs: it begins with the same rounds and only goes on. What it is held against are
// the aims and, of each limit, by how much it is missed.
func TestLongerSearchIsNeverWorse(t *testing.T) {
	names, most := []string{"kestrel-fell"}, map[uint64]int{7: 4000}
	if thorough.Asked() { // 220 doublings
		names, most = library.Names(), map[uint64]int{7: 64000, 8: 8000}
	}
	for _, name := range names {
		d, orders := shippedDrill(t, name)
		last := len(d.Milestones) - 1
		for what, o := range map[string]Options{
			"finish":   {Aims: []Aim{{Milestone: last}}},
			"all well": {Aims: []Aim{{Goal: AllWell}}},
			"two aims": {Aims: []Aim{{Milestone: 0}, {Milestone: last}}},
			"limit":    {Aims: []Aim{{Milestone: last}}, AtLeast: []AtLeast{{AllTargets, 0.5}}},
		} {
			for seed, most := range most {
				o.Orders, o.Seed = orders, seed
				holdDoublings(t, fmt.Sprintf("%s, %s, seed %d", name, what, seed), d, o, most)
			}
		}
	}
}

// holdDoublings searches with 500 evaluations, then with twice as many each time.
func holdDoublings(t *testing.T, what string, d *sim.Drill, o Options, most int) {
	t.Helper()
	short := explored(t, d, o, 500)
	for n := 1000; n <= most; n *= 2 {
		more := explored(t, d, o, n)
		for _, h := range more.headings {
			c := short.archive.best(h)[0]
			more.players[0].run(c, more.archive.runs)
			h = more.strict(h, more.archive.runs)
			was, is := more.weigh(h, &c.evenings, more.archive.runs).value, more.weigh(h, &more.archive.best(h)[0].evenings, more.archive.runs).value
			if is > was+1e-9 {
				t.Errorf("%s: %d evaluations reach %.6f, half as many %.6f", what, n, is, was)
			}
		}
		short = more
	}
}

func TestAimsInAnySequenceGiveTheSame(t *testing.T) {
	d, orders := shippedDrill(t, "ravengill")
	last := len(d.Milestones) - 1
	search := func(aims ...Aim) *Result {
		r, err := Improve(ctx, d, Options{Orders: orders, Aims: aims, Evaluations: 3000, Runs: 200, Seed: 3, Workers: 2})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	want := search(Aim{Goal: AllWell}, Aim{Milestone: 0}, Aim{Milestone: last, Statistic: Quantile(0.8)})
	got := search(Aim{Milestone: last, Statistic: Quantile(0.8)}, Aim{Milestone: 0}, Aim{Goal: AllWell})
	if diff := cmp.Diff(want, got, cmpopts.EquateNaNs(), cmpopts.IgnoreUnexported(Found{}, Win{}), cmpopts.IgnoreFields(Result{}, "Drill")); diff != "" {
		t.Errorf("the sequence of aims makes a difference:\n%s", diff)
	}
	if len(want.Aims) != 3 || want.Aims[0].Goal != AllWell {
		t.Errorf("aims %+v, want all three, shares of evenings first", want.Aims)
	}
}

// What is said of the order found holds on 20,000 evenings that nobody has seen, and
// is better than the best of the scenario's own orders where these leave room.
func TestAllWellHoldsOnFreshEvenings(t *testing.T) {
	names, seeds := []string{"ravengill"}, uint64(1)
	if thorough.Asked() {
		names, seeds = library.Names(), 5
	}
	for _, name := range names {
		d, orders := shippedDrill(t, name)
		for seed := uint64(1); seed <= seeds; seed++ {
			o := Options{Orders: orders, Evaluations: 20000, Runs: 1000, Seed: seed, Workers: 2}
			if thorough.Asked() {
				o.Evaluations, o.Runs = DefaultEvaluations, 2000
			}
			r, err := Improve(ctx, d, o)
			if err != nil {
				t.Fatal(err)
			}
			if r.Aims[0].Goal != AllWell {
				t.Fatalf("without an aim it aims at %v, want all well", r.Aims)
			}
			best := r.Orders[0]
			again, err := Judge(ctx, d, []sim.Order{best.Order}, Options{Aims: r.Aims, Runs: 20000, Seed: 1_000_000 + seed, Workers: 2})
			if err != nil {
				t.Fatal(err)
			}
			said, held := best.Evenings.AllWell, again.Before.Evenings.AllWell
			// Four standard errors, of which one in 15,000 goes beyond.
			room := 4 * math.Sqrt(max(said*(1-said), 0.001)*(1/float64(r.Runs)+1.0/20000))
			t.Logf("%s, seed %d: all well in %.3f of evenings, %.3f on fresh ones; the best there was %.3f", name, seed, said, held, r.Known.Evenings.AllWell)
			if math.Abs(said-held) > room {
				t.Errorf("%s, seed %d: said to be well in %.3f of evenings, is in %.3f of 20,000 others", name, seed, said, held)
			}
			if best.Over[0].Value < 0 {
				t.Errorf("%s, seed %d: %.3f of evenings, one of its own orders has %.3f", name, seed, said, r.Known.Evenings.AllWell)
			}
		}
	}
}

// Four people, eight tasks of exponential length: what reaches one of them soonest
// lets the finish wait. A limit on the finish is kept on 20,000 other evenings, and is
// broken when nobody asks for it.
func TestLimitsHoldOnFreshEvenings(t *testing.T) {
	d := expDrill(t)
	d.Milestones = []sim.Milestone{{Name: "one", When: []int{0, 3, 6}, By: sim.Never}, d.Milestones[0]}
	d.Milestones[1].By = 42 * sim.Minute
	const odds = 0.6
	share := func(o Options) (said, held float64) {
		o.Aims, o.Evaluations, o.Runs, o.Seed, o.Workers = []Aim{{Milestone: 0}}, 15000, 2000, 2, 2
		r, err := Improve(ctx, d, o)
		if err != nil {
			t.Fatal(err)
		}
		again, err := Judge(ctx, d, []sim.Order{r.Orders[0].Order}, Options{Aims: r.Aims, Runs: 20000, Seed: 99, Workers: 2})
		if err != nil {
			t.Fatal(err)
		}
		return r.Orders[0].Evenings.InTime[1], again.Before.Evenings.InTime[1]
	}
	if said, held := share(Options{}); held > odds-0.02 {
		t.Fatalf("in time in %.4f of evenings without being asked (%.4f said): the test says nothing", held, said)
	}
	for name, o := range map[string]Options{
		"in time":     {InTime: []InTime{{Milestone: 1, By: 42 * sim.Minute, Odds: odds}}},
		"all targets": {AtLeast: []AtLeast{{AllTargets, odds}}},
	} {
		if said, held := share(o); held < odds-0.002 || said < odds {
			t.Errorf("%s: in time in %.4f of fresh evenings (%.4f said), asked for %v", name, held, said, odds)
		}
	}
}
