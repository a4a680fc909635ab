package main

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/cmd/warmby/internal/document"
)

// The whole team under an order of the file is what compare plays, and so its
// account of cold is the same.
func TestSplitAndCompareTellTheSameOfCold(t *testing.T) {
	var splits struct {
		Cold []struct {
			Order   *string            `json:"order"`
			Account document.OrderCold `json:"account"`
		} `json:"cold"`
	}
	var orders struct {
		Orders []struct {
			Order string              `json:"order"`
			Cold  *document.OrderCold `json:"cold"`
		} `json:"orders"`
	}
	line := []string{"harl-plateau", "--runs", "40", "--seed", "3"}
	ask := func(into any, words ...string) {
		if err := json.Unmarshal([]byte(answer(t, append(words, append(line, "--json")...)...)), into); err != nil {
			t.Fatal(err)
		}
	}
	ask(&splits, "warmby", "split", "--people", "4", "--evaluations", "3000")
	ask(&orders, "warmby", "compare")
	want := map[string]document.OrderCold{}
	for _, o := range orders.Orders {
		want[o.Order] = *o.Cold
	}
	seen := 0
	for _, s := range splits.Cold {
		if s.Order == nil {
			continue
		}
		seen++
		if diff := cmp.Diff(want[*s.Order], s.Account); diff != "" {
			t.Errorf("%s:\n%s", *s.Order, diff)
		}
	}
	if seen != len(want) || seen == 0 || len(splits.Cold) <= seen {
		t.Errorf("%d orders in the file, %d of them and %d splits in all are told of", len(want), seen, len(splits.Cold))
	}
}

func TestSplitTellsHowColdUnderTheBestSplit(t *testing.T) {
	line := []string{"warmby", "split", "harl-plateau", "--people", "4", "--evaluations", "3000"}
	text := answer(t, append(line, "--runs", "40", "--all")...)
	if !strings.Contains(text, "\nSomebody too cold with the best split of 4: ") || !strings.Contains(text, "\nCold, 4 people\n") {
		t.Errorf("nothing of cold:\n%s", text)
	}
	// Usual values only: nothing to count.
	if text := answer(t, append(line, "--runs", "0", "--all")...); strings.Contains(text, "too cold") || strings.Contains(text, "Cold, ") {
		t.Errorf("an account without runs:\n%s", text)
	}
}
