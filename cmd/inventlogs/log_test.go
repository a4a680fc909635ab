package main

import (
	"testing"

	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/scenarios/stopwatch"
	"warmby/sim/fit"
)

// TestShippedLogsAreWhatTheProgramWrites: run "go generate ./scenarios/library"
// where they are not.
func TestShippedLogsAreWhatTheProgramWrites(t *testing.T) {
	for _, name := range library.Names() {
		src, _ := library.Read(name)
		s, err := scenarios.Read(name, src)
		if err != nil {
			t.Fatal(err)
		}
		want, err := logOf(name, s)
		if err != nil {
			t.Fatal(err)
		}
		got, ok := library.Log(name)
		if !ok || string(got) != string(want) {
			t.Errorf("%s.csv is not what the program writes", name)
		}
		log, err := stopwatch.Read(s, stopwatch.Source{Name: name + ".csv", Text: want})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if len(log.Evenings) != drills {
			t.Errorf("%s: %d drills, want %d", name, len(log.Evenings), drills)
		}
		var d = log.Evenings[0].Drill
		f := fit.Fit(d, log.Evenings, fit.Options{Effort: fit.Quick, Seed: 1})
		off := 0
		for i := range log.Evenings {
			off += len(f.Unused(i))
		}
		if len(f.Data) < 5*drills || off > len(f.Data)/5 {
			t.Errorf("%s: %d rows, %d of them cannot be played", name, len(f.Data), off)
		}
	}
}
