package fast_test

import (
	"testing"

	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/fast"
)

// What is read off many runs is the account that is told of one, to the bit.
func TestMeterReadsTheAccountOfCold(t *testing.T) {
	over := 0
	for _, name := range library.Names() {
		d := shipped(t, name)
		p := fast.Compile(d)
		w, m := p.Worker(), cold.NewMeter(d)
		var tl sim.Timeline
		var peaks []cold.Peak
		for run := range 200 {
			w.Record(1, run, &tl)
			peaks = m.Peaks(&tl, peaks[:0])
			for i, want := range cold.Account(&tl) {
				if got := peaks[i]; got != (cold.Peak{Debt: want.Peak, At: want.PeakAt, PassedAt: want.PassedAt, Known: want.Why == ""}) {
					t.Fatalf("%s, run %d: %s has %+v, want %v at %v, over the limit at %v", name, run, want.Name, got, want.Peak, want.PeakAt, want.PassedAt)
				}
				if want.PassedAt != sim.Never {
					over++
				}
			}
		}
		run := 0
		if n := testing.AllocsPerRun(200, func() {
			w.Record(1, run%200, &tl)
			peaks = m.Peaks(&tl, peaks[:0])
			run++
		}); n > 0 {
			t.Errorf("%s: %v allocations a run, want none", name, n)
		}
	}
	if over == 0 {
		t.Error("nobody ever passed the limit")
	}
}

// One op is one run of a shipped scenario, everything on, draws and the account
// of cold included.
func BenchmarkShippedWithCold(b *testing.B) {
	for _, name := range library.Names() {
		b.Run(name, func(b *testing.B) {
			d := shipped(b, name)
			p := fast.Compile(d)
			w, m := p.Worker(), cold.NewMeter(d)
			var tl sim.Timeline
			var peaks []cold.Peak
			var r fast.Result
			events := 0
			for run := range 200 { // warm up, and count events
				w.Run(1, run, &r)
				events += r.Events
				w.Record(1, run, &tl)
				peaks = m.Peaks(&tl, peaks[:0])
			}
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				w.Record(1, i%200, &tl)
				peaks = m.Peaks(&tl, peaks[:0])
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/(float64(events)/200), "ns/event")
		})
	}
}
