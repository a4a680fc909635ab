package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/cmd/warmby/internal/ask"
	"warmby/internal/thorough"
	"warmby/scenarios"
	"warmby/scenarios/library"
)

// fewTasks is a scenario with names that need quotes.
const fewTasks = `warmby: 1
title: "Names that YAML would take for something else"
people: [{name: Aila}, {name: "no"}, {name: "Caro: the second"}, {name: Dario}]
loads: {pulk: {pack: [{item: box, takes: 5 min}, {item: tent, takes: 2 min}]}}
tasks:
  dig: {work: [30 min, 40 min, 60 min], crew: 1-4}
  "pitch, quickly": {takes: 20 min, crew: 2, after: [dig], needs: [tent]}
  boil: {takes: [30 min, 40 min, 60 min], after: ["pitch, quickly"]}
  wall: {work: [90 min, 120 min, 180 min], crew: 1-4, joinable: false}
milestones: {hot drink: {when: [boil]}}
orders:
  wall first: {sequence: [unpack box, unpack tent, wall, dig, "pitch, quickly", boil]}
`

// What split prints to be pasted is the split that it played: pasted into the
// file, the order has the same mean to the millisecond.
func TestTheBestSplitCanBePasted(t *testing.T) {
	t.Chdir(t.TempDir())
	write := func(text string) {
		if err := os.WriteFile("mine.yaml", []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	write(fewTasks)
	line := []string{"warmby", "split", "mine.yaml", "--people", "4", "--runs", "100"}
	_, rest, found := strings.Cut(answer(t, append(line, "--all")...), "to paste under \"orders\"\n")
	yaml, _, _ := strings.Cut(rest, "\n\n")
	if !found {
		t.Fatal("the best split is an order of the file: nothing to paste")
	}
	var doc struct {
		Rows []struct {
			Milestone string
			Best      bool
			Mean      float64 `json:"mean_s"`
		}
	}
	if err := json.Unmarshal([]byte(answer(t, append(line, "--json")...)), &doc); err != nil {
		t.Fatal(err)
	}
	write(fewTasks + yaml + "\n")
	var pasted struct {
		Orders []struct {
			Milestones []struct {
				Name string
				Mean float64 `json:"mean_s"`
			}
		}
	}
	out := answer(t, "warmby", "compare", "mine.yaml", "--order", "best split", "--runs", "100", "--json")
	if err := json.Unmarshal([]byte(out), &pasted); err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, row := range doc.Rows {
		for _, m := range pasted.Orders[0].Milestones {
			if row.Best && m.Name == row.Milestone {
				if checked++; m.Mean != row.Mean {
					t.Errorf("%s: mean %.3f s as pasted, %.3f s as split found it", m.Name, m.Mean, row.Mean)
				}
			}
		}
	}
	if checked != 2 {
		t.Errorf("compared %d milestones, want 2", checked)
	}
}

// graham is Graham's case: more people take longer, so that it matters what the
// search for a size starts from.
const graham = `warmby: 1
title: Nine jobs for three machines
people: [{name: A}, {name: B}, {name: C}, {name: D}]
tasks:
  one: {takes: 3 min}
  two: {takes: 2 min}
  three: {takes: 2 min}
  four: {takes: 2 min}
  five: {takes: 4 min, after: [four]}
  six: {takes: 4 min, after: [four]}
  seven: {takes: 4 min, after: [four]}
  eight: {takes: 4 min, after: [four]}
  nine: {takes: 9 min, after: [one]}
orders:
  as listed: {sequence: [one, two, three, four, five, six, seven, eight, nine]}
`

// A size has the same answer whichever others are asked for, when the search is not
// cut short.
func TestASizeHasTheSameAnswerInEveryCompany(t *testing.T) {
	scenario := filepath.Join(t.TempDir(), "graham.yaml")
	if err := os.WriteFile(scenario, []byte(graham), 0o666); err != nil {
		t.Fatal(err)
	}
	if thorough.Asked() {
		scenario = "harl-plateau"
	}
	rows := func(people string) map[string]string {
		var doc struct{ Rows []map[string]any }
		out := answer(t, "warmby", "split", scenario, "--people", people, "--runs", "20", "--json")
		if err := json.Unmarshal([]byte(out), &doc); err != nil {
			t.Fatal(err)
		}
		got := map[string]string{}
		for _, row := range doc.Rows {
			if row["people"] == 4.0 {
				key, _ := json.Marshal([]any{row["groups"], row["order"], row["milestone"]})
				text, _ := json.Marshal(row)
				got[string(key)] = string(text)
			}
		}
		return got
	}
	if alone := rows("4"); len(alone) == 0 {
		t.Error("no rows for four people")
	} else if diff := cmp.Diff(alone, rows("3..5")); diff != "" {
		t.Errorf("four alone, and between three and five:\n%s", diff)
	}
}

// Eight people in up to 3 groups are to be split in under 10 s.
func BenchmarkSplitOfEight(b *testing.B) {
	data, _ := library.Read("lake-ossamer")
	scenario, err := scenarios.Read("lake-ossamer", data)
	if err != nil {
		b.Fatal(err)
	}
	s, err := newSplitting(&ask.Source{Name: "lake-ossamer", Scenario: scenario}, []*ask.Case{{Scenario: scenario}}, splitFlags{runs: 500, seed: 1})
	if err != nil {
		b.Fatal(err)
	}
	s.game.Workers = 1
	for b.Loop() {
		if _, err := s.game.Size(b.Context(), 8, nil); err != nil {
			b.Fatal(err)
		}
	}
}
