package fast_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"warmby/internal/thorough"
	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// shipped returns a shipped scenario as a drill under its first order.
func shipped(t testing.TB, name string) *sim.Drill {
	t.Helper()
	src, ok := library.Read(name)
	if !ok {
		t.Fatalf("no shipped scenario %q", name)
	}
	s, err := scenarios.Read(name, src)
	if err != nil {
		t.Fatal(err)
	}
	d, err := s.Drill("")
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestRunsDoNotAllocate(t *testing.T) {
	for _, name := range library.Names() {
		p := fast.Compile(shipped(t, name))
		w := p.Worker()
		var r fast.Result
		run := 0
		for ; run < 50; run++ { // tables of distributions are built when first drawn from
			w.Run(1, run, &r)
		}
		if n := testing.AllocsPerRun(200, func() { w.Run(1, run, &r); run++ }); n > 0 {
			t.Errorf("%s: %v allocations a run, want none", name, n)
		}
	}
}

// A timeline that is filled in again is the same as a new one, for no memory.
func TestRecordsReuseTheirTimeline(t *testing.T) {
	for _, name := range library.Names() {
		d := shipped(t, name)
		p := fast.Compile(d)
		w := p.Worker()
		var tl sim.Timeline
		run, most := 0, thorough.Cases(25, 100)
		for ; run < most; run++ {
			w.Record(1, run, &tl)
			want := p.Worker().Timeline(draw.Run(d, 1, run))
			if diff := cmp.Diff(want.Tasks, tl.Tasks, cmpopts.EquateEmpty()) + cmp.Diff(want.People, tl.People, cmpopts.EquateEmpty()) + cmp.Diff(want.Milestones, tl.Milestones); diff != "" {
				t.Fatalf("%s, run %d: new (-) and filled in again (+) differ:\n%s", name, run, diff)
			}
		}
		if n := testing.AllocsPerRun(200, func() { w.Record(1, run%most, &tl); run++ }); n > 0 {
			t.Errorf("%s: %v allocations a recorded run, want none", name, n)
		}
	}
}

// One op is one run of a shipped scenario, everything on, draws included.
func BenchmarkShipped(b *testing.B) {
	for _, name := range library.Names() {
		b.Run(name, func(b *testing.B) {
			p := fast.Compile(shipped(b, name))
			w := p.Worker()
			var r fast.Result
			for i := range 50 {
				w.Run(1, i, &r)
			}
			events := 0
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				w.Run(1, i, &r)
				events += r.Events
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(events), "ns/event")
			b.ReportMetric(float64(events)/float64(b.N), "events/op")
		})
	}
}

// People are bits of a word up to 64 of them, and of several words from there on:
// one person more is to cost no more than one person does.
func BenchmarkCrowd(b *testing.B) {
	for _, name := range []string{"kestrel-fell", "lake-ossamer"} {
		for _, people := range []string{"64", "65"} {
			b.Run(name+"/"+people, func(b *testing.B) {
				src, _ := library.Read(name)
				s, err := scenarios.Read(name, src)
				if err != nil {
					b.Fatal(err)
				}
				if s, err = s.Vary("people", people); err != nil {
					b.Fatal(err)
				}
				d, err := s.Drill("")
				if err != nil {
					b.Fatal(err)
				}
				w := fast.Compile(d).Worker()
				var r fast.Result
				for i := 0; b.Loop(); i++ {
					w.Run(1, i, &r)
				}
			})
		}
	}
}
