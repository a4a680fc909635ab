package main

import (
	"io"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/report"
	"warmby/cmd/warmby/internal/terminal"
)

// leads make the reports whose first lines are kept, each from a small search.
var leads = map[string]func(t *testing.T, scenario string) *report.Report{
	"check": func(t *testing.T, scenario string) *report.Report {
		files, err := quietly().checkAll(t.Context(), []string{scenario})
		sure(t, err)
		return checkTold([]string{scenario}, files).Report()
	},
	"compare": func(t *testing.T, scenario string) *report.Report {
		return played(t, scenario, ordersAsked{runs: 200, seed: 1, workers: 2, luck: true}).told().Report()
	},
	"fit": func(t *testing.T, scenario string) *report.Report {
		onlyLong(t) // logs are fitted in seconds, not in tenths
		drills, err := quietly().loadLogs([]string{scenario})
		sure(t, err)
		told, err := drills.fitted(fitFlags{seed: 1})
		sure(t, err)
		return told.Report()
	},
	"halt": func(t *testing.T, scenario string) *report.Report {
		g, err := quietly().haltings(t.Context(), []string{scenario},
			haltFlags{odds: "90 %", step: "20 min", runs: 200, seed: 1, workers: 2, orders: []string{ask.AllOrders}})
		sure(t, err)
		return g.told().Report()
	},
	"improve": func(t *testing.T, scenario string) *report.Report {
		m, _, err := quietly().seek(t.Context(), []string{scenario}, improveFlags{odds: "90 %", evaluations: 500, runs: 100, seed: 1})
		sure(t, err)
		told, err := m.told()
		sure(t, err)
		return told.Report()
	},
	"rehearse": func(t *testing.T, scenario string) *report.Report {
		src, err := quietly().load(scenario)
		sure(t, err)
		r, err := rehearsalOf(t.Context(), src, drillAsked{runs: 200, seed: 1, workers: 2})
		sure(t, err)
		return r.told().Report()
	},
	"split": func(t *testing.T, scenario string) *report.Report {
		s, err := quietly().splitting(t.Context(), []string{scenario}, splitFlags{evaluations: 600, runs: 100, seed: 1, workers: 2})
		sure(t, err)
		return s.told().Report()
	},
	"tonight": func(t *testing.T, scenario string) *report.Report {
		f := tonightFlags{Answer: ask.Answer{All: true}, runs: 100, seed: 1, workers: 2}
		f.facts.Air, f.facts.Wind = "-28 C", "8 m/s"
		evening, err := quietly().tonightOf(t.Context(), []string{scenario}, f)
		sure(t, err)
		return evening.report()
	},
}

func sure(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func quietly() *environment { return &environment{stdout: io.Discard, stderr: io.Discard} }

// The first lines of each answer are kept, at two widths: ten at most, without
// seconds and intervals. -update rewrites them.
func TestLeadsOfShippedScenarios(t *testing.T) {
	for command, made := range leads {
		for _, name := range scenariosRead() {
			t.Run(command+" "+name, func(t *testing.T) {
				told := made(t, name)
				for _, width := range []int{80, 100} {
					file := filepath.Join("testdata", "lead", command, name+"."+strconv.Itoa(width)+".txt")
					got := terminal.Lead(told, width)
					isALead(t, file, got)
					golden(t, file, got)
				}
			})
		}
	}
}

// golden compares with a file, or rewrites it.
func golden(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (-want +got); -update rewrites it:\n%s", file, diff)
	}
}
