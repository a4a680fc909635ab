package main

import (
	"encoding/json"
	"slices"
	"testing"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/terminal"
	"warmby/sim"
)

// played compares a shipped scenario.
func played(t testing.TB, name string, f ordersAsked) *comparison {
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
	for _, name := range scenariosRead() {
		c := played(t, name, ordersAsked{runs: 800, seed: 1, workers: 2, whatIfs: []string{ask.AllWhatIfs}, allMoves: true, luck: true})
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

// What is promised: three orders, 10,000 runs each, under a second on two cores
// (one op is one comparison with its text).
func BenchmarkCompareThreeOrders(b *testing.B) {
	f := ordersAsked{runs: 10_000, seed: 1, workers: 2, orders: []string{"shelter first", "drink first", "two groups"}}
	for b.Loop() {
		if text := terminal.Print(played(b, "kestrel-fell", f).told().Report(), terminal.Options{Width: paper}); len(text) == 0 {
			b.Fatal("no text")
		}
	}
}
