package fast_test

import (
	"flag"
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"warmby/internal/thorough"
	"warmby/sim"
	"warmby/sim/checker"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/internal/drills"
	"warmby/sim/reference"
)

// Both engines are written by the same rules in different ways: whatever the
// drill, they must tell the same story to the millisecond, and one in which the
// checker finds nothing. 300 drills of each kind and three runs of each; with
// WARMBY_LONG=1 10,000 that use all that an evening may have, and 3,000 plainer
// ones; or as many as -rapid.checks says.
func TestEnginesAgreeOnAnyDrill(t *testing.T) {
	drillsOf(t, 3000, agree)
	drillsOf(t, 10_000, agreeOnAnEvening)
}

// drillsOf checks a property on 300 drills, or so many with WARMBY_LONG=1.
func drillsOf(t *testing.T, long int, property func(*rapid.T)) {
	const checks = "rapid.checks"
	given := false
	flag.Visit(func(f *flag.Flag) { given = given || f.Name == checks })
	if !given {
		before := flag.Lookup(checks).Value.String()
		flag.Set(checks, strconv.Itoa(thorough.Cases(300, long)))
		defer flag.Set(checks, before)
	}
	rapid.Check(t, property)
}

// FuzzEnginesAgree goes on without end.
func FuzzEnginesAgree(f *testing.F) { f.Fuzz(rapid.MakeFuzz(agree)) }

func agree(t *rapid.T) { agreeOn(t, drills.Draw(t)) }

// agreeOnAnEvening is agree on a drill with all that an evening may have.
func agreeOnAnEvening(t *rapid.T) { agreeOn(t, drills.Whole(t)) }

func agreeOn(t *rapid.T, d *sim.Drill) {
	if rapid.IntRange(0, 9).Draw(t, "impossible") == 0 {
		d = drills.Impossible(t, d)
	}
	p := fast.Compile(d)
	w := p.Worker()
	var r fast.Result
	for run := range 3 {
		luck := draw.Run(d, 7, run)
		if run == 0 {
			luck = draw.Usual(d)
		}
		want, got := reference.Play(d, luck), w.Timeline(luck)
		if (want.Stops == nil) != (got.Stops == nil) {
			t.Fatalf("reference stops at %v, fast at %v", want.Stops, got.Stops)
		}
		if w.Play(luck, &r); (r.Stops == nil) != (want.Stops == nil) {
			t.Fatalf("reference stops at %v, fast without a timeline at %v", want.Stops, r.Stops)
		}
		if diff := cmp.Diff(want.Stopped(), w.Stopped(luck)); diff != "" {
			t.Fatalf("engines say otherwise why it stops (-reference +fast):\n%s", diff)
		}
		for _, v := range checker.Check(want) {
			t.Errorf("run %d: checker: %v", run, v)
		}
		if diff := cmp.Diff(want, got, cmp.FilterPath(func(p cmp.Path) bool {
			return p.String() == "Drill" || p.String() == "Luck" || p.String() == "Stops"
		}, cmp.Ignore())); diff != "" {
			t.Fatalf("timelines differ (-reference +fast):\n%s", diff)
		}
		if diff := cmp.Diff(want.Milestones, r.Milestones); diff != "" {
			t.Fatalf("milestones differ (-reference +fast):\n%s", diff)
		}
		for i := range r.End {
			if r.End[i] != want.Tasks[i].End || r.Start[i] != want.Tasks[i].Start {
				t.Fatalf("%s: fast %v to %v, reference %v to %v", d.Tasks[i].Name, r.Start[i], r.End[i], want.Tasks[i].Start, want.Tasks[i].End)
			}
		}
	}
}
