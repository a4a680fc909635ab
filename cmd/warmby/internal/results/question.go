package results

import (
	"fmt"
	"strings"

	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios"
)

// Question is what a batch is asked for, as the flags give it.
type Question struct {
	Orders    []string // by name; none is all
	Vary, Set []string // "KEY=VALUES"
	WhatIf    string   // by name; "" for none
	How       string   // [Grid] or [OneAtATime]
	Design    string   // path of a CSV file; "" for none
	Precision string
	Seed      uint64
	Runs      int    // 0 for as many as there are given draws for
	Given     string // path of a file of draws to play; "" for none
	Tasks     bool   // which tables are wanted beside that of runs
	People    bool
	Cold      bool
	Fuel      bool
	Draws     bool
	Skip      bool   // leave out points that can never finish
	Format    string // [CSV] or [Parquet]
	CSV       string // [Plain] or [ExcelEU]
	Version   string // of the program
}

// Without --runs, so many runs are played, or with --precision at most.
const (
	UsualRuns = 10_000
	MostRuns  = 1_000_000
)

// Check refuses what cannot be played, and makes what is set a key with one
// value.
func (q *Question) Check() error {
	if err := q.setIsVaried(); err != nil {
		return err
	}
	if q.Runs < 0 || q.Runs == 0 && q.Given == "" || q.Runs > 1_000_000_000 {
		return &mistake.Usage{What: fmt.Sprintf("--runs expects a whole number from 1 to 1000000000, got %d", q.Runs), Cure: "10000 are played unless you say otherwise"}
	}
	for _, c := range []struct {
		flag, value string
		known       []string
	}{
		{"vary-how", q.How, []string{Grid, OneAtATime}},
		{"format", q.Format, []string{CSV, Parquet}},
		{"csv", q.CSV, []string{Plain, ExcelEU}},
	} {
		if err := OneOf(c.flag, c.value, c.known); err != nil {
			return err
		}
	}
	switch {
	case q.Given != "" && q.Precision != "":
		return &mistake.Usage{What: "--play-draws and --precision do not go together", Cure: "the file settles how many runs there are"}
	case q.Design != "" && len(q.Vary) > 0:
		return &mistake.Usage{What: "--design and --vary do not go together", Cure: "add a column to the design file"}
	case q.How == OneAtATime && len(q.Vary) < 2:
		return &mistake.Usage{What: "--vary-how says how several --vary go together, and there are not several", Cure: "such as --vary people=4..6 --vary tools.shovel=2..4"}
	}
	return nil
}

// setIsVaried makes what is set a key with one value.
func (q *Question) setIsVaried() error {
	for _, one := range q.Set {
		key, value, ok := strings.Cut(one, "=")
		if !ok || strings.TrimSpace(key) == "" || strings.TrimSpace(value) == "" {
			return &mistake.Usage{What: fmt.Sprintf("--set expects KEY=VALUE, got %q", one), Cure: "such as --set \"weather.air=-28 C\" or --set people=5"}
		}
		if q.Design != "" {
			return &mistake.Usage{What: "--design and --set do not go together", Cure: "add a column to the design file"}
		}
		if list, err := scenarios.Values(value); err == nil && len(list) != 1 {
			return &mistake.Usage{What: fmt.Sprintf("--set %s expects one value, got %d", strings.TrimSpace(key), len(list)), Cure: "--vary takes several"}
		}
	}
	q.Vary = append(q.Vary, q.Set...)
	return nil
}

// OneOf refuses a value of a flag that is none of those known; "" may be one.
func OneOf(flag, value string, known []string) error {
	var named []string
	for _, k := range known {
		if k == value {
			return nil
		}
		if k != "" {
			named = append(named, k)
		}
	}
	err := &mistake.Usage{What: fmt.Sprintf("--%s expects %s, got %q", flag, strings.Join(named, " or "), value), Cure: "\"warmby batch --help\" tells what each is"}
	if near := mistake.Nearest(value, named); len(near) > 0 {
		err.Cure = "did you mean " + mistake.Quoted(near) + "?"
	}
	return err
}
