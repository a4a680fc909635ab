package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/cmd/warmby/internal/report"
	"warmby/cmd/warmby/internal/terminal"
	"warmby/scenarios/library"
)

// leads are the reports whose first ten lines stand in testdata/leads, a file for
// each command.
var leads = map[string]func(t *testing.T, scenario string) *report.Report{
	"compare": func(t *testing.T, scenario string) *report.Report {
		return played(t, scenario, compareFlags{runs: 500, seed: 1, workers: 2}).told().Report()
	},
}

// What a leader reads of each shipped scenario, at 80 and 100 columns; -update
// rewrites it.
func TestLeads(t *testing.T) {
	for command, of := range leads {
		t.Run(command, func(t *testing.T) {
			var got strings.Builder
			for _, name := range library.Names() {
				r := of(t, name)
				for _, width := range []int{80, 100} {
					lead := terminal.Lead(r, width)
					if n := strings.Count(lead, "\n"); n > 10 {
						t.Errorf("%s at %d columns: %d lines, want 10 at most:\n%s", name, width, n, lead)
					}
					fmt.Fprintf(&got, "-- %s, %d --\n%s", name, width, lead)
				}
			}
			file := filepath.Join("testdata", "leads", command+".txt")
			if *update {
				if err := os.WriteFile(file, []byte(got.String()), 0o666); err != nil {
					t.Fatal(err)
				}
			}
			if diff := cmp.Diff(text(t, file), got.String()); diff != "" {
				t.Errorf("%s (-kept +told); -update rewrites it:\n%s", file, diff)
			}
		})
	}
}
