package search

import (
	"testing"

	"warmby/sim"
	"warmby/sim/bound"
	"warmby/sim/draw"
)

// No bound may lie above a known optimum: PSPLIB j30 and MSPSP set 1a. The
// longest chain and the work alone leave 7.66 % on average on the former, by a
// separate program. Without refuting moments ours leave 4.89 and 5.17 %, so that more
// than the limit says that it has been lost.
func TestBoundsAreNeverAboveAnOptimum(t *testing.T) {
	for _, c := range []struct {
		name string
		list []project
		most float64 // mean gap, percent
	}{{"PSPLIB j30", projects(t), 3.65}, {"MSPSP 1a", skilledProjects(t), 3.90}} {
		gap, tight := 0.0, 0
		for _, p := range c.list {
			at := bound.New(p.d).Sharp(draw.Usual(p.d), nil)[0]
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
