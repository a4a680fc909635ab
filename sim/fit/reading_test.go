package fit_test

import (
	"testing"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/fit"
	"warmby/sim/fit/invent"
	"warmby/sim/stats"
)

// TestReadingsForetellAsTheFitDoes: drills with numbers that the log leaves open,
// played in turns, give the ranges that [fit.Fitted.Foretell] gives, whose
// coverage is measured; settled ones those of luck alone.
func TestReadingsForetellAsTheFitDoes(t *testing.T) {
	for name, text := range map[string]string{"small": small, "a mishap by the wind": windy} {
		t.Run(name, func(t *testing.T) { readingsForetell(t, drillOf(t, text)) })
	}
}

func readingsForetell(t *testing.T, d *sim.Drill) {
	f := fit.Fit(d, logOf(t, d, invent.TruthOf(d, invent.Usually, 11), invent.Habits{Missed: 0.3}, 11, 3), fit.Options{Effort: fit.Quick, Seed: 1})
	const runs = 4000
	l := f.Learnt(400)
	play := func(as func(*sim.Drill) []*sim.Drill) *compare.Played {
		played, err := compare.Play(t.Context(), []*sim.Drill{l.Settle(d)}, compare.Batch{Seed: 5, Runs: runs, Workers: 1, ReadAs: as})
		if err != nil {
			t.Fatal(err)
		}
		return played[0]
	}
	for name, c := range map[string]struct {
		got  *compare.Played
		want *fit.Foretold
	}{
		"numbers": {play(l.Readings), f.Foretell(d, f.Coming(), runs, 5)},
		"luck":    {play(nil), f.Certain().Foretell(d, f.Coming(), runs, 5)},
	} {
		for m := range d.Milestones {
			got, want := stats.SortedOf(c.got.Times[m]), c.want.Milestones[m]
			for _, q := range []int64{runs / 10, runs / 2, runs - runs/10} {
				// two samples of 4000, and 400 of the parameters: about 2 % of the moment
				if off := (got.At(q) - want.At(q)).Minutes(); off > 0.03*want.At(q).Minutes() || off < -0.03*want.At(q).Minutes() {
					t.Errorf("%s, %s, %d of %d: %.1f min, want %.1f", name, d.Milestones[m].Name, q, runs, got.At(q).Minutes(), want.At(q).Minutes())
				}
			}
		}
	}
}

// TestAWhatIfKeepsItsOwnLength: where a what-if has another length than the file,
// the log of the file does not replace it.
func TestAWhatIfKeepsItsOwnLength(t *testing.T) {
	s, err := scenarios.Read("test.yaml", []byte(small+"what if:\n  deep: {tasks: {tramp: {work: 90 min}}}\n"))
	if err != nil {
		t.Fatal(err)
	}
	d, _ := s.Drill("")
	f := fit.Fit(d, logOf(t, d, invent.TruthOf(d, invent.Usually, 3), invent.Habits{}, 3, 3), fit.Options{Effort: fit.Quick, Seed: 1})
	learnt := s.Learning(f.Learnt(2).Settle)
	deep, err := learnt.WhatIf("deep")
	if err != nil {
		t.Fatal(err)
	}
	usual := func(s *scenarios.Scenario, task string) float64 {
		d, err := s.Drill("")
		if err != nil {
			t.Fatal(err)
		}
		for i := range d.Tasks {
			if d.Tasks[i].Name == task {
				return d.Tasks[i].Amount.Usual()
			}
		}
		t.Fatalf("no task %q", task)
		return 0
	}
	if got := usual(deep, "tramp"); got != float64(90*sim.Minute) {
		t.Errorf("tramp takes %.1f min, want 90", got/float64(sim.Minute))
	}
	if got, want, file := usual(deep, "pitch"), usual(learnt, "pitch"), usual(s, "pitch"); got != want || want == file {
		t.Errorf("pitch takes %.0f ms, want %.0f as the log has it, and not %.0f as the file", got, want, file)
	}
}
