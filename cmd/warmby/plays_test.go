package main

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/cmd/warmby/internal/ask"
	"warmby/sim/draw"
	"warmby/sim/reference"
)

// largeFile makes a scenario of so many tasks, orders and what-ifs; the last
// what-if can never finish.
func largeFile(tasks, orders, whatIfs int) string {
	r := rand.New(rand.NewPCG(1, 2))
	var b strings.Builder
	b.WriteString("warmby: 1\ntitle: A large file\npeople:\n")
	for i := range 12 {
		fmt.Fprintf(&b, "  - {name: P%d, pace: %g}\n", i+1, []float64{1, 0.875, 1.125}[i%3])
	}
	b.WriteString("tools: {shovel: 6, axe: 3}\ntasks:\n")
	name := func(i int) string { return fmt.Sprintf("thing number %d of the evening", i+1) }
	for i := range tasks {
		amount := fmt.Sprintf("work: [%d min, %d min, %d min], crew: 1-3, tools: {shovel: 1}", 2+i%5, 7+i%7, 19+i%11)
		if i%2 > 0 {
			amount = fmt.Sprintf("takes: [%d min, %d min, %d min], tools: {axe: 1}", 1+i%3, 4+i%7, 11+i%11)
		}
		after := ""
		if i > 0 && i%3 > 0 {
			after = name(max(0, i-1-r.IntN(40)))
		}
		fmt.Fprintf(&b, "  %s: {what: \"Do what has to be done here, and do it well enough\", %s, after: [%s]}\n", name(i), amount, after)
	}
	fmt.Fprintf(&b, "milestones:\n  half: {when: [%s], by: 20 min}\norders:\n", name(tasks/2))
	for k := range orders {
		var names []string
		for _, i := range r.Perm(tasks)[:tasks/2] {
			names = append(names, name(i))
		}
		fmt.Fprintf(&b, "  order %d: {sequence: [%s]}\n", k+1, strings.Join(names, ", "))
	}
	b.WriteString("what if:\n")
	for k := range whatIfs - 1 {
		fmt.Fprintf(&b, "  case %d: {people: {P%d: absent}, tasks: {%s: {crew: 1}}}\n", k+1, 1+k%12, name(2*k%tasks))
	}
	fmt.Fprintf(&b, "  no axes: {tools: {axe: 0}}\n")
	return b.String()
}

func loadLarge(t testing.TB, tasks, orders, whatIfs int) *ask.Source {
	t.Helper()
	path := filepath.Join(t.TempDir(), "large.yaml")
	if err := os.WriteFile(path, []byte(largeFile(tasks, orders, whatIfs)), 0o666); err != nil {
		t.Fatal(err)
	}
	s, err := quietly().load(path)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Whatever plays them, and however many at a time: every case is handed over
// once, in file order, and is what the reference engine makes of it.
func TestCasesArePlayedAsTheReferenceEnginePlaysThem(t *testing.T) {
	s := loadLarge(t, 60, 3, 5)
	orders, at := s.Scenario.Orders(), 0
	err := quietly().playCases(t.Context(), s, orders, func(i int, plays []usualPlay) error {
		if i != at || len(plays) != len(orders) {
			t.Fatalf("case %d with %d plays is handed over in place %d", i, len(plays), at)
		}
		scenario := s.Scenario
		if at > 0 {
			var err error
			if scenario, err = scenario.WhatIf(s.Scenario.WhatIfs()[at-1]); err != nil {
				return err
			}
		}
		at++
		for o, play := range plays {
			d, err := scenario.Drill(orders[o])
			if err != nil {
				return err
			}
			want := reference.Play(d, draw.Usual(d))
			if (play.stuck == nil) != (want.Stops == nil) || play.err != nil {
				t.Errorf("case %d, %s: %v %v, want %v", i, orders[o], play.stuck, play.err, want.Stops)
			}
			if i == 0 && !cmp.Equal(play.timeline.Milestones, want.Milestones) {
				t.Errorf("%s: milestones at %v, want %v", orders[o], play.timeline.Milestones, want.Milestones)
			}
		}
		return nil
	})
	if err != nil || at != 6 {
		t.Errorf("%d of 6 cases were played: %v", at, err)
	}
}

func TestInterruptedCheckNamesWhatWasNotTried(t *testing.T) {
	s := loadLarge(t, 20, 2, 30)
	var stderr bytes.Buffer
	ctx, cancel := context.WithCancel(t.Context())
	e := &environment{stderr: &stderr}
	err := e.playCases(ctx, s, s.Scenario.Orders(), func(at int, _ []usualPlay) error {
		if at == 1 {
			cancel()
		}
		return ctx.Err()
	})
	if exitCode(err) != exitInterrupted {
		t.Errorf("it ends with %v", err)
	}
	want := `large.yaml: not tried: what if "case 1", "case 2", "case 3" and 27 more`
	if !strings.Contains(stderr.String(), want) {
		t.Errorf("it says %q, want %q", &stderr, want)
	}
}

// BenchmarkCheckOfALargeFile is a file of some 150 kB, played 279 times.
func BenchmarkCheckOfALargeFile(b *testing.B) {
	s := loadLarge(b, 500, 9, 30)
	for b.Loop() {
		if found, _, err := quietly().tryOut(b.Context(), s); err == nil || len(found) == 0 {
			b.Fatalf("%d findings, %v; want some, and that there are no axes", len(found), err)
		}
	}
}

// What compare takes is to grow with the tasks as a run does.
func BenchmarkCompareOfALargeFile(b *testing.B) {
	for _, tasks := range []int{120, 500} {
		s := loadLarge(b, tasks, 3, 1)
		b.Run(fmt.Sprint(tasks), func(b *testing.B) {
			for b.Loop() {
				c, err := newComparison(s, ordersAsked{runs: 2000, seed: 1, workers: 1})
				if err == nil {
					err = c.play(b.Context(), s.Scenario)
				}
				if err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
