package halt_test

import (
	"context"
	"errors"
	"slices"
	"testing"
	"time"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/halt"
	"warmby/sim/internal/drills"
	"warmby/sim/stats"
)

// shares is an answer with so many of 100 runs in time at each arrival.
func shares(odds float64, counts ...int64) *halt.Answer {
	a := &halt.Answer{Asked: halt.Asked{Odds: odds}}
	for _, n := range counts {
		share := stats.ShareOf(n, 100)
		a.Points = append(a.Points, halt.Point{OnTime: []*stats.Share{&share}})
	}
	return a
}

func TestTheLatestArrivalKeepsTheOdds(t *testing.T) {
	// 90 of 100 are 90 %; the lower end of 99 of 100 is 94.6 %, that of 95 is
	// 88.8 %, and that of 90 is 82.6 %.
	a := shares(0.9, 99, 89, 95, 90, 89, 0)
	if got := a.Latest(); got != 3 {
		t.Errorf("latest arrival %d, want 3: 90 of 100", got)
	}
	if got := a.LatestSure(); got != 0 {
		t.Errorf("sure arrival %d, want 0: 99 of 100", got)
	}
	if got := a.MissedBefore(3); !slices.Equal(got, []int{1}) {
		t.Errorf("missed before at %v, want at 1", got)
	}
	b := shares(0.9, 20, 80, 80, 10)
	if b.Latest() != -1 || b.LatestSure() != -1 || b.Best() != 2 {
		t.Errorf("latest %d, sure %d, best %d; want none, none, 2: the later of equals", b.Latest(), b.LatestSure(), b.Best())
	}
}

// The odds must be kept in every case that can be played, at one arrival.
func TestEveryCaseCounts(t *testing.T) {
	never := &halt.Answer{Asked: halt.Asked{Odds: 0.9}}
	long := shares(0.9, 99, 99, 99, 99)
	for name, c := range map[string]struct {
		cases []*halt.Answer
		want  int
	}{
		"one case":          {[]*halt.Answer{long}, 3},
		"the worst is last": {[]*halt.Answer{long, shares(0.9, 99, 99, 50, 50)}, 1},
		"in the middle":     {[]*halt.Answer{long, shares(0.9, 99, 50, 50, 50), long}, 0},
		"never together":    {[]*halt.Answer{shares(0.9, 99, 50, 50, 50), shares(0.9, 50, 99, 99, 99)}, -1},
		"one cannot play":   {[]*halt.Answer{long, never, shares(0.9, 99, 99, 99, 50)}, 2},
		"none can play":     {[]*halt.Answer{never}, -1},
	} {
		if got := halt.LatestOfAll(c.cases); got != c.want {
			t.Errorf("%s: latest of all %d, want %d", name, got, c.want)
		}
	}
	got := halt.Ranking([][]*halt.Answer{{long, shares(0.9, 99, 0, 0, 0)}, {shares(0.9, 99, 99, 0, 0), long}, {shares(0.9, 0, 0, 0, 0)}})
	if !slices.Equal(got, []int{1, 0, 2}) {
		t.Errorf("ranking %v, want 1, 0, 2", got)
	}
}

// camp is one task that takes 0 to 60 min, even, with a target at the clock: an
// arrival so many minutes before it.
func camp(minutes sim.Time) *sim.Drill {
	d := &sim.Drill{Spots: []sim.Spot{{Name: "centre", In: -1}}, People: []sim.Person{{Name: "Aila", Pace: 1000}}}
	d.Site.Arrival = time.Date(2027, 1, 16, 15, 0, 0, 0, time.UTC).Add(-time.Duration(minutes) * time.Minute)
	d.Tasks = []sim.Task{{Name: "pitch", Kind: sim.Takes, Amount: drills.Even(30 * 60000), Crew: sim.Crew{Min: 1, Max: 1}, Item: -1}}
	d.Milestones = []sim.Milestone{
		{Name: "shelter up", When: []int{0}, By: minutes * sim.Minute, ByText: "15:00"},
		{Name: sim.FinishName, When: []int{0}, By: sim.Never},
	}
	return d.Under(sim.Order{Groups: []sim.Group{{Sequence: []int{0}}}})
}

// A length even from 0 to 60 min is in time so many minutes before the target in
// so many sixtieths of runs.
func TestPlayGivesTheOddsOfEachArrival(t *testing.T) {
	points, err := halt.Play(context.Background(), []*sim.Drill{camp(70), camp(45), camp(15), camp(-5)}, compare.Batch{Seed: 3, Runs: 2000, Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{1, 0.75, 0.25, 0} {
		share := points[i].OnTime[0]
		if share.Low > want || share.High < want {
			t.Errorf("arrival %d: in time in %.3f (%.3f to %.3f), want %v", i, share.Value, share.Low, share.High, want)
		}
		if points[i].OnTime[1] != nil {
			t.Errorf("arrival %d: the finish has no target, and odds", i)
		}
	}
	a := halt.Answer{Asked: halt.Asked{Odds: 0.7}, Points: points}
	if got := a.Latest(); got != 1 {
		t.Errorf("latest for 70 %%: %d, want 1", got)
	}
}

func TestUsualValuesAreInTimeOrNot(t *testing.T) {
	for minutes, want := range map[sim.Time]int64{30: 1, 29: 0} { // 30 min is the usual length
		points, err := halt.PlayUsual(t.Context(), []*sim.Drill{camp(minutes)}, 1)
		if err != nil {
			t.Fatal(err)
		}
		if got := points[0].OnTime[0]; got.Count != want || got.Runs != 1 {
			t.Errorf("%d min before: in time in %d of %d, want %d of 1", minutes, got.Count, got.Runs, want)
		}
	}
}

// A target that never comes, such as dark in summer, is none: there are no odds,
// and no arrival keeps them.
func TestATargetThatNeverComesIsNone(t *testing.T) {
	d := camp(10)
	d.Milestones[0].By = sim.Never
	points, err := halt.PlayUsual(t.Context(), []*sim.Drill{d}, 1)
	if err != nil {
		t.Fatal(err)
	}
	if points[0].OnTime[0] != nil {
		t.Errorf("in time %+v, want no target", points[0].OnTime[0])
	}
	a := &halt.Answer{Asked: halt.Asked{Odds: 0.9}, Points: points}
	if a.Latest() != -1 || a.LatestSure() != -1 || a.Best() != 0 || a.MissedBefore(1) != nil {
		t.Errorf("latest %d, sure %d, best %d, missed %v; want none, none, 0, none", a.Latest(), a.LatestSure(), a.Best(), a.MissedBefore(1))
	}
}

// What is reached before a drill comes to a stop is in time or not as ever.
func TestADrillThatAlwaysStopsIsTold(t *testing.T) {
	d := camp(10)
	d.Tasks = append(d.Tasks, d.Tasks[0])
	d.People = append(d.People, sim.Person{Name: "Berend", Pace: 1000})
	d.Tasks[0].Name, d.Tasks[0].After = "dig", []sim.After{{Task: 1}}
	d.Tasks = append(d.Tasks, d.Tasks[1], d.Tasks[1])
	d.Tasks[3].After = []sim.After{{Task: 0}}
	d.Groups = []sim.Group{
		{Name: "one", People: []int{0}, Sequence: []int{2, 0}, InTurn: true},
		{Name: "two", People: []int{1}, Sequence: []int{3, 1}, InTurn: true},
	}
	points, err := halt.Play(context.Background(), []*sim.Drill{d}, compare.Batch{Seed: 3, Runs: 20, Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	var never *sim.NeverError
	if p := points[0]; p.Stopped != 20 || !errors.As(p.Stop, &never) || p.OnTime[0].Count != 0 {
		t.Errorf("%d of 20 runs stopped, at %v, and %d were in time; want all, why, and none", p.Stopped, p.Stop, p.OnTime[0].Count)
	}
}

// All well asks for every target and for nobody too cold; cold odds come on top
// of what is asked, and where there is no account they are never kept.
func TestAllWellAndColdOddsAreAsked(t *testing.T) {
	a := shares(0.9, 100, 100, 100, 20)
	for i, warm := range []int64{95, 90, 80, 100} {
		cool, well := stats.ShareOf(warm, 100), stats.ShareOf(warm-5, 100)
		a.Points[i].Well = compare.Well{NobodyCold: &cool, All: &well}
	}
	if got := a.Latest(); got != 2 {
		t.Errorf("in time alone: latest %d, want 2", got)
	}
	if well, best := a.LatestWell(), a.BestWell(); well != 3 || best != 3 {
		t.Errorf("all well: latest %d, best %d; want 3, 3: 95 of 100", well, best)
	}
	a.ColdOdds = 0.9
	if latest, sure := a.Latest(), a.LatestSure(); latest != 1 || sure != -1 {
		t.Errorf("nobody cold in 90 %%: latest %d, sure %d; want 1, none: the lower end of 95 is 89 %%", latest, sure)
	}
	a.ColdOdds, a.AllWell = 0, true
	if got := a.Latest(); got != 3 {
		t.Errorf("all well: latest %d, want 3", got)
	}
	a.AllWell, a.ColdOdds, a.Points[0].Well, a.Points[1].Well = false, 0.5, compare.Well{}, compare.Well{}
	if got := a.MissedBefore(2); !slices.Equal(got, []int{0, 1}) {
		t.Errorf("without an account: missed at %v, want 0 and 1", got)
	}
}

// two is a camp of two tasks for one person, of which the target asks for the one
// that the order has last: the other way round one may halt as much later as it
// takes.
func two(minutes sim.Time) *sim.Drill {
	d := camp(minutes)
	dig := d.Tasks[0]
	dig.Name, dig.Amount = "dig", drills.Even(20*60000)
	d.Tasks = append(d.Tasks, dig)
	d.Milestones[1].When = []int{0, 1}
	return d
}

func TestABetterOrderLetsOneHaltLater(t *testing.T) {
	var arrivals, played []*sim.Drill
	digFirst := sim.Order{Name: "dig first", Groups: []sim.Group{{Name: sim.Everyone, People: []int{0}, Sequence: []int{1, 0}}}}
	for _, minutes := range []sim.Time{110, 95, 80, 65, 50, 35} { // it takes 30 and 20, or twice that
		arrivals = append(arrivals, two(minutes))
		played = append(played, two(minutes).Under(digFirst))
	}
	b := compare.Batch{Seed: 3, Runs: 400, Workers: 2}
	points, err := halt.Play(t.Context(), played, b)
	if err != nil {
		t.Fatal(err)
	}
	before := &halt.Answer{Asked: halt.Asked{Odds: 0.99}, Points: points}
	if got := before.Latest(); got != 1 {
		t.Fatalf("dig first: latest %d, want 1: 95 min before, where 100 are needed at most and 99 of 100 are under 95", got)
	}
	found, err := halt.Later{Cases: [][]*sim.Drill{arrivals}, Orders: []sim.Order{digFirst}, From: 1, Asked: before.Asked, Batch: b, Evaluations: 400}.Improve(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if found.Order == nil || found.Order.Groups[0].Sequence[0] != 0 {
		t.Fatalf("found %+v, want pitch first", found.Order)
	}
	if got := found.Cases[0].Latest(); got != 3 {
		t.Errorf("pitch first: latest %d, want 3: 65 min before, where 60 are needed at most", got)
	}
	again, err := halt.Later{Cases: [][]*sim.Drill{arrivals}, Orders: []sim.Order{*found.Order}, From: 3, Asked: before.Asked, Batch: b, Evaluations: 400}.Improve(t.Context())
	if err != nil || again.Order != nil || !slices.Equal(again.Searched, []int{4}) {
		t.Errorf("found %+v, error %v; want none, after a search at the next arrival", again, err)
	}
}
