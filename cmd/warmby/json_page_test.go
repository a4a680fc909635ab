package main

import (
	"cmp"
	"encoding/json"
	"slices"
	"testing"

	"warmby/cmd/warmby/internal/document"
	"warmby/sim/cold"
)

// A name that nobody explains is no contract: every field that a command may
// print stands in help json.
func TestEveryFieldIsTold(t *testing.T) {
	used := map[string]bool{"crews": true, "rule": true, "files": true, "scenario": true} // as the file has them
	for _, d := range documents {
		names := document.Names(d.document)
		if len(names) < 5 {
			t.Errorf("%s: only %d names", d.command, len(names))
		}
		for _, name := range names {
			used[name] = true
			if f, ok := document.FieldNamed(name); !ok || f.Meaning == "" {
				t.Errorf("%s --json has %q, which help json does not tell", d.command, name)
			}
		}
	}
	for _, f := range document.Fields {
		if !used[f.Name] {
			t.Errorf("help json tells %q, which no command prints", f.Name)
		}
	}
	if !slices.IsSortedFunc(document.Fields, func(a, b document.Field) int { return cmp.Compare(a.Name, b.Name) }) {
		t.Error("the fields do not stand by the alphabet")
	}
}

// By hand from what the page says: the debt of every line follows from the line.
func TestAccountOfColdFollowsFromTheDocument(t *testing.T) {
	for _, scenario := range []string{"kestrel-fell", "ravengill", "harl-plateau"} {
		var doc document.Rehearsal
		if err := json.Unmarshal([]byte(answer(t, "warmby", "rehearse", scenario, "--runs", "0", "--json")), &doc); err != nil {
			t.Fatal(err)
		}
		lines := 0
		for _, p := range doc.People {
			if p.Cold == nil {
				continue
			}
			debt, peak := 0.0, 0.0
			for i, e := range p.Cold.Account {
				if i > 0 && e.From != p.Cold.Account[i-1].To {
					t.Errorf("%s, %s: a line begins at %v ms, the one before ends at %v", scenario, p.Name, e.From, p.Cold.Account[i-1].To)
				}
				hours := float64(e.To-e.From) / 3_600_000
				debt = max(0, debt-e.Stored*hours)
				peak = max(peak, debt)
				if d := debt - e.Debt; d > 1e-4 || d < -1e-4 { // the figures have six document.Decimals, lines are under a hundred
					t.Errorf("%s, %s: %.6f Wh/m2 at %v ms, the document says %.6f", scenario, p.Name, debt, e.To, e.Debt)
				}
				if s := balanceOf(e); s-e.Stored > 1e-3 || e.Stored-s > 1e-3 {
					t.Errorf("%s, %s: S = %.6f W/m2 from %v ms on, the document says %.6f", scenario, p.Name, s, e.From, e.Stored)
				}
				lines++
			}
			if d := peak - p.Cold.Peak; d > 1e-4 || d < -1e-4 {
				t.Errorf("%s, %s: at most %.6f Wh/m2, the document says %.6f", scenario, p.Name, peak, p.Cold.Peak)
			}
		}
		if lines < 50 {
			t.Errorf("%s: only %d lines of account", scenario, lines)
		}
	}
}

// balanceOf works S out again from what a line says.
func balanceOf(e document.Entry) float64 {
	return cold.Balance(cold.Body{M: e.Rate}, cold.Clothing{Clo: e.Clo},
		cold.Ambient{Air: e.Air, Radiant: e.Air, Wind: e.Wind, Humidity: e.Humidity})
}
