package search

import (
	"os"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/internal/drills"
)

// long reports whether the long tests are asked for.
func long() bool { return os.Getenv("WARMBY_LONG") != "" }

// No bound may lie above a known optimum: PSPLIB j30 and MSPSP set 1a. The
// longest chain and the work alone leave 7.66 % on average on the former, by a
// separate program.
func TestBoundsAreNeverAboveAnOptimum(t *testing.T) {
	for _, c := range []struct {
		name string
		list []project
		most float64 // mean gap, percent
	}{{"PSPLIB j30", projects(t), 7.66}, {"MSPSP 1a", skilledProjects(t), 100}} {
		gap, tight := 0.0, 0
		for _, p := range c.list {
			at := NewBounds(p.d).Of(draw.Usual(p.d), nil)[0]
			if at > p.best {
				t.Errorf("%s: bound %s, the optimum is %s", p.name, sim.Clock(at), sim.Clock(p.best))
			}
			if at == p.best {
				tight++
			}
			gap += 100 * float64(p.best-at) / float64(p.best)
		}
		if gap /= float64(len(c.list)); gap > c.most {
			t.Errorf("%s: bounds %.2f %% below the optimum on average, want at most %.2f", c.name, gap, c.most)
		}
		t.Logf("%s: %d problems, bounds %.2f %% below the best known on average, tight on %d", c.name, len(c.list), gap, tight)
	}
}

// On any drill, with any luck, no milestone comes before its bound.
func TestBoundsHoldOnAnyDrill(t *testing.T) {
	tight := 0
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Draw(t)
		p, err := fast.Compile(d)
		if err != nil {
			return
		}
		w, b := p.Worker(), NewBounds(d)
		var r fast.Result
		var at []sim.Time
		for run := range 4 {
			luck := draw.Run(d, 3, run)
			if run == 0 {
				luck = draw.Usual(d)
			}
			if err := w.Play(luck, &r); err != nil {
				continue
			}
			at = b.Of(luck, at)
			for m := range at {
				if at[m] > r.Milestones[m] {
					t.Errorf("run %d: %s at %s, before its bound %s", run, d.Milestones[m].Name, sim.Clock(r.Milestones[m]), sim.Clock(at[m]))
				}
				if at[m] == r.Milestones[m] && at[m] > 0 {
					tight++
				}
			}
		}
	})
	if tight == 0 {
		t.Error("no bound was ever reached: the test says nothing")
	}
}
