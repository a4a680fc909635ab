package main

import (
	"encoding/json"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"warmby/cmd/warmby/internal/ask"
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// boutOf is a bout of orders whose times at one milestone are given, run by run.
func boutOf(by sim.Time, times ...[]sim.Time) *bout {
	w := &bout{}
	for i, row := range times {
		w.orders = append(w.orders, []string{"shelter first", "drink first", "two groups"}[i])
		w.played = append(w.played, &compare.Played{
			Drill: &sim.Drill{Milestones: []sim.Milestone{{Name: "heated", By: by}}},
			Times: [][]sim.Time{row},
		})
	}
	w.Standing = compare.Stand(w.played, []int{0})
	return w
}

// row gives a moment for each of n runs.
func row(n int, at func(run int) sim.Time) []sim.Time {
	var times []sim.Time
	for run := range n {
		times = append(times, at(run))
	}
	return times
}

func TestSentencesSayHowSureTheyAre(t *testing.T) {
	shelter := row(200, func(run int) sim.Time { return sim.Hour + sim.Time(run)*sim.Second })
	check := func(name string, w *bout, want ...string) {
		t.Helper()
		got := w.sentences(0)
		for _, part := range want {
			if !strings.Contains(got, part) {
				t.Errorf("%s: %q does not say %q", name, got, part)
			}
		}
	}
	// Nine of ten of 0 to 199 s is the 180th, 179 s.
	check("ahead in every run", boutOf(sim.Hour+99*sim.Second, shelter, row(200, func(run int) sim.Time { return shelter[run] + 5*sim.Minute })),
		"Heated: in 9 of 10 runs by 1 h 02 min 59 s after arrival (", ") under shelter first.",
		"On time, by 1 h 01 min 39 s, in 50 of 100 runs (43 to 57 %).",
		"On average shelter first is ahead of drink first by 5 min (5 min to 5 min); sooner in 200 of 200 runs (98.2 to 100.0 %).")
	// Odd runs 60 s later, even runs 60 s sooner.
	check("no telling", boutOf(sim.Never, shelter, row(200, func(run int) sim.Time { return shelter[run] + sim.Time(run%2*2-1)*sim.Minute })),
		"There is no telling whether shelter first or drink first is ahead: 0 s on average (8 s later to 8 s sooner); shelter first is sooner in 50 of 100 runs (43 to 57 %).")
	check("few runs", boutOf(sim.Never, shelter[:20], row(20, func(run int) sim.Time { return 2 * sim.Hour })),
		"Too few runs to say whether shelter first or drink first is ahead (shelter first sooner in 20 of 20 runs (83 to 100 %)).")
	check("never in some runs", boutOf(sim.Never, shelter, row(200, func(run int) sim.Time {
		if run < 100 {
			return sim.Never
		}
		return sim.Minute
	})),
		"in 9 of 10 runs by 1 h 02 min 59 s", "under shelter first",
		"Shelter first comes before drink first in 50 of 100 runs (43 to 57 %); there is no mean difference: never reached in 0 runs of the one and 100 of the other, of 200.")
	check("the same", boutOf(sim.Never, shelter, shelter), "Shelter first and drink first get there at the same moment in every run.")
	check("never at all", boutOf(sim.Hour, row(200, func(int) sim.Time { return sim.Never })),
		"9 of 10 runs cannot be had: never reached in 200 of 200 runs (98.2 to 100.0 %).", "in 0 of 200 runs (0.0 to 1.8 %)")
}

// What only Holm's procedure finds is told as such: of three differences two
// are plain, and the third has a p value between 0.05/3 and 0.05.
func TestWhatOnlyHolmFindsIsMarked(t *testing.T) {
	base := row(200, func(run int) sim.Time { return 2*sim.Hour + sim.Time(run)*sim.Second })
	alittle := row(200, func(run int) sim.Time { // 9 s on average, sd 60 s: t = 2.1
		return base[run] + 9*sim.Second + sim.Time(run%2*2-1)*sim.Minute
	})
	far := row(200, func(run int) sim.Time { return base[run] + sim.Hour })
	w := boutOf(sim.Never, base, alittle, far)
	p := w.Between(0, 0, 1)
	if p.Diff.Ahead() != -1 || p.Diff.Mean.High <= 0 {
		t.Fatalf("difference %+v, want one found by Holm's procedure and not by its interval", p.Diff)
	}
	if got := w.sentences(0); !strings.Contains(got, "ahead of drink first, but by how little is not settled: 9 s (") {
		t.Errorf("%q does not say that it is not settled", got)
	}
	if got := aheadWord(p.Diff); got != "ahead of?" {
		t.Errorf("the table says %q, want %q", got, "ahead of?")
	}
}

// No figure stands alone: every share of runs has its interval, every table of
// figures a row of intervals, and the page its runs and seed.
func TestNoFigureStandsAlone(t *testing.T) {
	c := played(t, "kestrel-fell", compareFlags{runs: 300, seed: 4, workers: 2, whatIfs: []string{"one burner dead"}})
	text := c.text(100_000)
	shares := regexp.MustCompile(`in (\d+) of (\d+) (runs|evenings)`)
	found := 0
	for _, at := range shares.FindAllStringIndex(text, -1) {
		share := text[at[0]:at[1]]
		if strings.HasPrefix(share, "in 9 of 10 ") {
			continue // what is told is the moment; its interval follows that
		}
		found++
		if rest := text[at[1]:]; !regexp.MustCompile(`^ \(\d+(\.\d)? to \d+(\.\d)? %\)`).MatchString(rest) {
			t.Errorf("%q has no interval: %.60q", share, rest)
		}
	}
	for _, after := range regexp.MustCompile(`in 9 of 10 evenings by [^.]*`).FindAllString(text, -1) {
		found++
		if !regexp.MustCompile(`by \d\d:\d\d \(\d\d:\d\d to \d\d:\d\d\), \d.* after arrival`).MatchString(after) {
			t.Errorf("%q has no interval", after)
		}
	}
	if found < 20 {
		t.Errorf("only %d figures found in sentences", found)
	}
	if want := "4 orders under the same luck; 300 runs each, seed 4; arrival "; !strings.Contains(text, want) {
		t.Errorf("the page does not say %q", want)
	}
	if !strings.Contains(text, "\nPlayed by: warmby compare --what-if 'one burner dead' --runs 300 --seed 4\n") {
		t.Error("the page does not end with the command that repeats it")
	}
	if !strings.Contains(text, "\nCautions\n  Carbon monoxide") {
		t.Error("the page has no cautions")
	}
	if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
		t.Error("the page has numbers that are none")
	}
}

// played compares a shipped scenario.
func played(t testing.TB, name string, f compareFlags) *comparison {
	t.Helper()
	e := &environment{}
	src, err := e.load(name)
	if err != nil {
		t.Fatal(err)
	}
	c, err := newComparison(src, f)
	if err != nil {
		t.Fatal(err)
	}
	if err := c.play(t.Context(), src.Scenario); err != nil {
		t.Fatal(err)
	}
	return c
}

// Every shipped scenario can be compared, with every what-if.
func TestShippedScenariosCompare(t *testing.T) {
	for _, name := range []string{"kestrel-fell", "ravengill", "lake-ossamer", "harl-plateau", "harl-plateau-morning"} {
		c := played(t, name, compareFlags{runs: 100, seed: 1, workers: 2, whatIfs: []string{ask.AllWhatIfs}, json: true})
		if w := c.warnings(); len(w) > 0 {
			t.Errorf("%s: warnings %q, want none", name, w)
		}
		doc, err := json.Marshal(c.document())
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		var back compareDoc
		if err := json.Unmarshal(doc, &back); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		n := len(c.asIs.orders)
		if got, want := len(back.Orders), n*(1+len(c.whatIfs)); got != want {
			t.Errorf("%s: %d orders in JSON, want %d", name, got, want)
		}
		pairs := n * (n - 1) / 2
		if got, want := len(back.Differences), pairs*len(c.d.Milestones)*(1+len(c.whatIfs)); got != want {
			t.Errorf("%s: %d differences in JSON, want %d", name, got, want)
		}
		for _, d := range back.Differences {
			if d.Exploratory == slices.Contains(back.Primary, d.Milestone) {
				t.Errorf("%s: difference at %q exploratory: %v; primary are %q", name, d.Milestone, d.Exploratory, back.Primary)
			}
		}
	}
}

// compareDoc is what the test reads of the JSON.
type compareDoc struct {
	Primary []string `json:"primary"`
	Orders  []struct {
		Order string `json:"order"`
	} `json:"orders"`
	Differences []struct {
		Milestone   string `json:"milestone"`
		Exploratory bool   `json:"exploratory"`
	} `json:"differences"`
}

// Primary are the milestones asked for, else those with a target, else all that
// are named, else the finish.
func TestPrimaryMilestones(t *testing.T) {
	milestone := func(name string, by sim.Time) sim.Milestone { return sim.Milestone{Name: name, By: by} }
	finish := milestone(sim.FinishName, sim.Never)
	for _, c := range []struct {
		what       string
		milestones []sim.Milestone
		asked      []string
		want       []int
	}{
		{"asked", []sim.Milestone{milestone("a", sim.Hour), milestone("b", sim.Never), finish}, []string{"finish", "b", "b"}, []int{1, 2}},
		{"with a target", []sim.Milestone{milestone("a", sim.Never), milestone("b", sim.Hour), finish}, nil, []int{1}},
		{"all that are named", []sim.Milestone{milestone("a", sim.Never), milestone("b", sim.Never), finish}, nil, []int{0, 1}},
		{"the finish", []sim.Milestone{finish}, nil, []int{0}},
	} {
		got := &comparison{d: &sim.Drill{Milestones: c.milestones}}
		if err := got.settlePrimary(c.asked, "mine.yaml"); err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(got.primary, c.want) {
			t.Errorf("%s: primary %v, want %v", c.what, got.primary, c.want)
		}
	}
}

func TestWordsForShares(t *testing.T) {
	for _, c := range []struct {
		count, runs int64
		want        string
	}{
		{1660, 2000, "in 83 of 100 evenings (81 to 85 %)"},
		{0, 2000, "in 0 of 2000 evenings (0.0 to 0.2 %)"},          // never "0 of 100"
		{1999, 2000, "in 1999 of 2000 evenings (99.7 to 100.0 %)"}, // never "100 of 100"
		{3, 10, "in 3 of 10 evenings (7 to 65 %)"},
	} {
		if got := inHundred(stats.ShareOf(c.count, c.runs), "evenings"); got != c.want {
			t.Errorf("%d of %d: %q, want %q", c.count, c.runs, got, c.want)
		}
	}
}

func TestWordsForLengths(t *testing.T) {
	for want, ms := range map[string]sim.Time{"0:00": 0, "-1:30": -90_000, "1:30": 90_000, "0:01": 1_400, "-0:01": -500} {
		if got := signed(ms); got != want {
			t.Errorf("signed(%d) = %q, want %q", ms, got, want)
		}
	}
	if got := shortRange(stats.Mean{Low: math.Inf(-1), High: math.Inf(1)}); got != "cannot be told" {
		t.Errorf("interval of one run: %q", got)
	}
}

// A moment "by" which something has come is rounded up, to the second as it is
// shown.
func TestClockOfByIsRoundedUp(t *testing.T) {
	d := &sim.Drill{Site: sim.Site{Arrival: time.Date(2027, 1, 16, 14, 55, 0, 0, time.UTC)}}
	for at, want := range map[sim.Time]string{sim.Hour: "15:55", sim.Hour + 499: "15:55", sim.Hour + 500: "15:56", sim.Never: "never"} {
		if got := clockUp(d, at); got != want {
			t.Errorf("clockUp(%d) = %q, want %q", at, got, want)
		}
	}
	if got := occasions(d); got != "evenings" {
		t.Errorf("occasions = %q, want evenings", got)
	}
}

// What is promised: three orders, 10,000 runs each, under a second on two cores
// (one op is one comparison with its text).
func BenchmarkCompareThreeOrders(b *testing.B) {
	f := compareFlags{runs: 10_000, seed: 1, workers: 2, orders: []string{"shelter first", "drink first", "two groups"}}
	for b.Loop() {
		if text := played(b, "kestrel-fell", f).text(paper); len(text) == 0 {
			b.Fatal("no text")
		}
	}
}
