package compare_test

import (
	"slices"
	"testing"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// standing is how drills stand whose times at one milestone, or at several, are
// given: by drill, milestone and run. The first milestone is the primary one.
func standing(by sim.Time, drills ...[][]sim.Time) *compare.Standing {
	var played []*compare.Played
	for _, times := range drills {
		d := &sim.Drill{}
		for range times {
			d.Milestones = append(d.Milestones, sim.Milestone{Name: "heated", By: by})
		}
		played = append(played, &compare.Played{Drill: d, Times: times})
	}
	return compare.Stand(played, []int{0})
}

// row gives a moment for each of n runs, as one milestone.
func row(n int, at func(run int) sim.Time) [][]sim.Time {
	var times []sim.Time
	for run := range n {
		times = append(times, at(run))
	}
	return [][]sim.Time{times}
}

// First are all drills that no other one is sooner than; never is nowhere.
func TestOddsOfOneMilestone(t *testing.T) {
	s := standing(sim.Hour,
		[][]sim.Time{{sim.Minute, 2 * sim.Minute, sim.Never, sim.Never}},
		[][]sim.Time{{sim.Minute, 3 * sim.Minute, 2 * sim.Hour, sim.Never}})
	a, b := s.Odds[0][0], s.Odds[0][1]
	if a.First.Count != 2 || b.First.Count != 2 {
		t.Errorf("first in %d and %d runs, want 2 (one of them shared) and 2", a.First.Count, b.First.Count)
	}
	if a.OnTime.Count != 2 || b.OnTime.Count != 2 {
		t.Errorf("on time in %d and %d runs, want 2 and 2: never is too late", a.OnTime.Count, b.OnTime.Count)
	}
	if a.Never.Count != 2 || b.Never.Count != 1 {
		t.Errorf("never in %d and %d runs, want 2 and 1", a.Never.Count, b.Never.Count)
	}
	if got := s.Ranking(0); !slices.Equal(got, []int{1, 0}) {
		t.Errorf("ranking without means %v, want the one that gets there more often first", got)
	}
}

func TestTurningAMatchKeepsWhatItSays(t *testing.T) {
	s := standing(sim.Never, row(200, func(run int) sim.Time { return sim.Hour + sim.Time(run%7)*sim.Second }),
		row(200, func(run int) sim.Time { return sim.Hour + sim.Minute }))
	ab, ba := s.Between(0, 0, 1), s.Between(0, 1, 0)
	if ab.Diff.Mean.Value != -ba.Diff.Mean.Value || ab.Diff.Mean.Low != -ba.Diff.Mean.High {
		t.Errorf("mean %+v turned into %+v", ab.Diff.Mean, ba.Diff.Mean)
	}
	if ab.Diff.Ahead() != -1 || ba.Diff.Ahead() != 1 || ab.Diff.ASooner != ba.Diff.BSooner {
		t.Errorf("%+v turned into %+v", ab.Diff, ba.Diff)
	}
}

// The first is soonest on average and in 9 of 10 runs, and is often late; the
// second keeps the target in all runs; the third is the first a little later or
// a little sooner, and nobody can tell them apart.
func TestWhoIsBestAtWhat(t *testing.T) {
	s := standing(sim.Hour,
		row(400, func(run int) sim.Time { return 50*sim.Minute + sim.Time(run%15)*sim.Minute }),
		row(400, func(run int) sim.Time { return sim.Hour }),
		row(400, func(run int) sim.Time {
			return 50*sim.Minute + sim.Time(run%15)*sim.Minute + sim.Time(run%2*2-1)*sim.Second
		}))
	if got := s.Ranking(0); got[2] != 1 {
		t.Errorf("ranking %v, want the second drill last: its mean is the latest", got)
	}
	if got := s.Soonest(0); got != 1 {
		t.Errorf("soonest in 9 of 10 runs is drill %d, want 1: 60 min against 63", got)
	}
	if got := s.LevelWith(0, 0); !slices.Equal(got, []int{2}) {
		t.Errorf("level with the first are %v, want the third", got)
	}
	if got := s.LevelWith(0, 1); got != nil {
		t.Errorf("level with the second are %v, want none", got)
	}
}

// Nine of ten runs of the quick drill are there by 61 min, and half of them in
// time; eight of ten of the other are in time, and the rest come at 65 min.
func TestTheSurestIsNotAlwaysTheSoonest(t *testing.T) {
	drill := func(n, many int, early, late sim.Time) [][]sim.Time {
		return row(n, func(run int) sim.Time {
			if run < many {
				return early
			}
			return late
		})
	}
	ask := func(n int) (soonest, surest int) {
		s := standing(sim.Hour, drill(n, n*4/5, 59*sim.Minute, 65*sim.Minute), drill(n, n/2, 58*sim.Minute, 61*sim.Minute))
		return s.Soonest(0), s.Surest(0)
	}
	if soonest, surest := ask(400); soonest != 1 || surest != 0 {
		t.Errorf("400 runs: soonest %d, surest %d; want 1 and 0", soonest, surest)
	}
	if soonest, surest := ask(10); soonest != 1 || surest != 1 {
		t.Errorf("10 runs: soonest %d, surest %d; want 1 for both, as 8 and 5 of 10 have overlapping intervals", soonest, surest)
	}
}

// Only what is primary is adjusted for the family: of three drills there are
// three differences, each with a third of the chance to miss.
func TestOnlyPrimaryMilestonesMakeAFamily(t *testing.T) {
	drill := func(shift sim.Time) [][]sim.Time {
		one := row(100, func(run int) sim.Time { return sim.Hour + shift*sim.Time(run%9) })[0]
		return [][]sim.Time{one, one}
	}
	s := standing(sim.Never, drill(sim.Second), drill(2*sim.Second), drill(4*sim.Second))
	for k := range s.Matches[0] {
		primary, other := s.Matches[0][k], s.Matches[1][k]
		if primary.Exploratory || !other.Exploratory {
			t.Errorf("match %d: exploratory %v and %v, want false and true", k, primary.Exploratory, other.Exploratory)
		}
		if !(primary.Diff.Mean.Low < other.Diff.Mean.Low && primary.Diff.Mean.High > other.Diff.Mean.High) {
			t.Errorf("match %d: interval of the family %+v is not wider than its own %+v", k, primary.Diff.Mean, other.Diff.Mean)
		}
	}
	if got := s.Same(1); got != 0 {
		t.Errorf("the second milestone is the same as %d, want 0", got)
	}
	if got := s.Same(0); got != -1 {
		t.Errorf("the first milestone is the same as %d, want none", got)
	}
}

func TestPrimaryMilestonesAreThoseWithATarget(t *testing.T) {
	d := &sim.Drill{Milestones: []sim.Milestone{{By: sim.Never}, {By: sim.Hour}, {By: sim.Never}}}
	if got := compare.Primary(d); !slices.Equal(got, []int{1}) {
		t.Errorf("primary %v, want the one with a target", got)
	}
	d.Milestones[1].By = sim.Never
	if got := compare.Primary(d); !slices.Equal(got, []int{0, 1}) {
		t.Errorf("primary %v, want all but the finish", got)
	}
	d.Milestones = d.Milestones[:1]
	if got := compare.Primary(d); !slices.Equal(got, []int{0}) {
		t.Errorf("primary %v, want the finish, which is all there is", got)
	}
}

func TestTopMoversAreThoseMostOftenCritical(t *testing.T) {
	movers := []compare.Mover{
		{Task: 0, Critical: stats.ShareOf(3, 10), PerMinute: stats.Ratio{Why: "seldom"}},
		{Task: 1, Critical: stats.ShareOf(0, 10)},
		{Task: 2, Critical: stats.ShareOf(3, 10), PerMinute: stats.Ratio{Value: 1}},
		{Task: 3, Critical: stats.ShareOf(9, 10)},
	}
	var got []int
	for _, v := range compare.TopMovers(movers, 2) {
		got = append(got, v.Task)
	}
	if !slices.Equal(got, []int{3, 2}) {
		t.Errorf("top movers %v, want 3, then 2, with which more is won than with 0", got)
	}
	if n := len(compare.TopMovers(movers, 9)); n != 3 {
		t.Errorf("%d movers, want 3: one is never critical", n)
	}
}

// Ranks of 40 runs: the median is the 20th; in 5 runs no end can be told.
func TestQuantilesOfHeat(t *testing.T) {
	c := &compare.Cold{Coldest: []int{1, 4, 4}}
	for i := range 40 {
		c.Peaks = append(c.Peaks, float64(i+1))
	}
	if q := c.Quantile(0.5); q.Value != 20 || q.Low == nil || q.High == nil || !(*q.Low < 20 && *q.High > 20) {
		t.Errorf("median %+v, want 20 between its ends", q)
	}
	c.Peaks = c.Peaks[:5]
	if q := c.Quantile(0.9); q.Value != 5 || q.High != nil {
		t.Errorf("9 of 10 in five runs %+v, want 5 without a high end", q)
	}
	if got := c.MostOften(); got != 1 {
		t.Errorf("coldest most often is %d, want 1, the first of equals", got)
	}
}

// The second is a minute later in every run but the last ten, in which it is in
// time and the first is not.
func TestApartInQuantilesAndOnTime(t *testing.T) {
	first := func(run int) sim.Time { return sim.Hour + sim.Time(run)*sim.Second }
	s := standing(sim.Hour+3*sim.Minute, row(200, first), row(200, func(run int) sim.Time {
		if run >= 190 {
			return sim.Hour
		}
		return first(run) + sim.Minute
	}))
	gap := s.Between(0, 0, 1).Apart
	if got := gap.Quantiles[compare.NineOfTen].Value; got != -50*sim.Second {
		t.Errorf("9 of 10: first less second is %v, want -50 s: run 179 against run 169 and a minute", got)
	}
	// In time are runs 0 to 180, and runs 0 to 120 with the last ten.
	if got := gap.OnTime; got == nil || got.Value != 0.25 || !(got.Low < 0.25 && got.Low > 0.15 && got.High > 0.25) || got.Runs != 200 {
		t.Errorf("on time: %+v, want 181 less 131 of 200", got)
	}
	if turned := s.Between(0, 1, 0).Apart; turned.OnTime.Value != -0.25 || turned.Quantiles[compare.NineOfTen].Value != 50*sim.Second {
		t.Errorf("turned: %+v", turned)
	}
}
