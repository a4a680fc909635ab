package main

import (
	"encoding/json"
	"math"
	"slices"
	"testing"
	"time"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/terminal"
	"warmby/sim"
	"warmby/sim/stats"
)

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
	for _, name := range toldOf() {
		c := played(t, name, compareFlags{runs: 250, seed: 1, workers: 2, whatIfs: []string{ask.AllWhatIfs}, Answer: ask.Answer{JSON: true}})
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
		if text := terminal.Print(played(b, "kestrel-fell", f).told().Report(), terminal.Options{Width: paper}); len(text) == 0 {
			b.Fatal("no text")
		}
	}
}
