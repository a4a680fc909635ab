package report

import (
	"strings"
	"testing"

	"warmby/sim"
	"warmby/sim/compare"
)

// boutOf is a bout of orders whose times at one milestone are given, run by run.
func boutOf(by sim.Time, times ...[]sim.Time) Comparison {
	var played []*compare.Played
	for i, row := range times {
		d := &sim.Drill{Order: []string{"Shelter first", "Drink first", "Two groups"}[i], Milestones: []sim.Milestone{{Name: "heated", By: by}}}
		played = append(played, &compare.Played{Drill: d, Times: [][]sim.Time{row}})
	}
	w := &Bout{Standing: compare.Stand(played, []int{0}), Cold: make([]*compare.Cold, len(played))}
	w.Well = compare.HowWell(played, w.Cold)
	return Comparison{Drill: played[0].Drill, Runs: len(times[0]), Primary: []int{0}, AsIs: w}
}

// runsOf gives a moment for each of n runs.
func runsOf(n int, at func(run int) sim.Time) []sim.Time {
	var times []sim.Time
	for run := range n {
		times = append(times, at(run))
	}
	return times
}

func TestTakeSaysWhichOrderForWhat(t *testing.T) {
	shelter := runsOf(200, func(run int) sim.Time { return sim.Hour + sim.Time(run)*sim.Second })
	later := func(by sim.Time) []sim.Time { return runsOf(200, func(run int) sim.Time { return shelter[run] + by }) }
	check := func(name string, c Comparison, want string) {
		t.Helper()
		if got := c.take(c.AsIs).Write(People); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
	// By 99 s past the hour 100 of 200 come; one minute later 40 of them do.
	check("in time more often", boutOf(sim.Hour+99*sim.Second, shelter, later(sim.Minute)),
		`Take "Shelter first" for all in time, heated.`)
	check("soonest without a target", boutOf(sim.Never, later(sim.Minute), shelter), `Take "Drink first" for heated.`)
	check("never in time", boutOf(sim.Minute, shelter, later(sim.Minute)), `All in time in no run. Take "Shelter first" for heated.`)
	// Odd runs 60 s later, even runs 60 s sooner.
	uneven := runsOf(200, func(run int) sim.Time { return shelter[run] + sim.Time(run%2*2-1)*sim.Minute })
	check("all level", boutOf(sim.Never, shelter, uneven), `Level: "Shelter first" and "Drink first". These runs do not tell which to take.`)
	check("two level", boutOf(sim.Never, shelter, later(sim.Hour), uneven), `Take "Shelter first" for heated. Level: "Shelter first" and "Two groups".`)
	check("few runs", boutOf(sim.Never, shelter[:20], later(sim.Hour)[:20]), `Level: "Shelter first" and "Drink first". These runs do not tell which to take.`)
	// Where one does not always get there it has no mean, and is behind all the same.
	check("never in some runs", boutOf(sim.Never, shelter, runsOf(200, func(run int) sim.Time {
		if run < 100 {
			return sim.Never
		}
		return sim.Minute
	})), `Take "Shelter first" for heated.`)
}

// What only Holm's procedure finds is told as such: of three differences two
// are plain, and the third has a p value between 0.05/3 and 0.05.
func TestWhatOnlyHolmFindsIsMarked(t *testing.T) {
	base := runsOf(200, func(run int) sim.Time { return 2*sim.Hour + sim.Time(run)*sim.Second })
	alittle := runsOf(200, func(run int) sim.Time { // 9 s on average, sd 60 s: t = 2.1
		return base[run] + 9*sim.Second + sim.Time(run%2*2-1)*sim.Minute
	})
	far := runsOf(200, func(run int) sim.Time { return base[run] + sim.Hour })
	c := boutOf(sim.Never, base, alittle, far)
	p := c.AsIs.Between(0, 0, 1)
	if p.Diff.Ahead() != -1 || p.Diff.Mean.High <= 0 {
		t.Fatalf("difference %+v, want one found by Holm's procedure and not by its interval", p.Diff)
	}
	var text strings.Builder
	for _, row := range c.pairs(c.AsIs, 0).Rows {
		for _, cell := range row {
			text.WriteString(cell.Write(Full) + " ")
		}
		text.WriteString("\n")
	}
	for _, want := range []string{`"Shelter first" ahead of? "Drink first" 9 s sooner (`, `"Shelter first" ahead of "Two groups" 1 h 00 min sooner (1 h 00 min to 1 h 00 min)`} {
		if !strings.Contains(text.String(), want) {
			t.Errorf("the table does not say %q:\n%s", want, &text)
		}
	}
}
