package search

import (
	"math/rand/v2"
	"sync"
	"testing"

	"warmby/internal/thorough"
	"warmby/sim"
	"warmby/sim/bound"
	"warmby/sim/draw"
)

// searched searches problems for the soonest finish and returns how far above
// the best known they come out, in percent, as the engine plays the orders found.
// None may beat a proved optimum.
func searched(t *testing.T, list []project, schedules int) (mean, worst float64, optimal int) {
	above := make([]float64, len(list))
	var wait sync.WaitGroup
	for k := range 2 {
		wait.Go(func() {
			for i := k; i < len(list); i += 2 {
				p := list[i]
				r, err := Improve(ctx, p.d, Options{Evaluations: schedules, Seed: 1, Workers: 1})
				if err != nil {
					t.Errorf("%s: %v", p.name, err)
					continue
				}
				if r.Evaluations > schedules {
					t.Errorf("%s: %d evaluations, %d allowed", p.name, r.Evaluations, schedules)
				}
				got := r.Orders[0].Milestones[0]
				if got < r.UsualBound[0] {
					t.Errorf("%s: finish %s, the bound is %s", p.name, sim.Clock(got), sim.Clock(r.UsualBound[0]))
				}
				if p.proved && got < p.best {
					t.Errorf("%s: finish %s, the optimum is %s", p.name, sim.Clock(got), sim.Clock(p.best))
				}
				above[i] = 100 * float64(got-p.best) / float64(p.best)
			}
		})
	}
	wait.Wait()
	for _, a := range above {
		mean += a / float64(len(list))
		worst = max(worst, a)
		if a == 0 {
			optimal++
		}
	}
	return mean, worst, optimal
}

// every returns one in k of some problems.
func every(k int, list []project) (some []project) {
	for i := 0; i < len(list); i += k {
		some = append(some, list[i])
	}
	return some
}

// What the search finds on problems whose optima are known. The published best
// methods are 0.04 to 0.2 % above the optimum of PSPLIB j30 with 5,000
// schedules, 0.00 to 0.02 % with 50,000 (Kolisch and Hartmann 2006, EJOR
// 174:23-37; from memory). A sample, unless the long tests are asked for; of j30
// with 50,000 schedules one in three then too, for on all 480 the mean is 0.007 %.
func TestQualityOfWhatIsFound(t *testing.T) {
	j30, skilled := projects(t), skilledProjects(t)
	for _, c := range []struct {
		name        string
		list        []project
		sample      int // one in so many; 0 for the long tests only
		long        int // the same in these
		schedules   int
		mean, worst float64 // percent, at most
	}{
		{"PSPLIB j30", j30, 16, 1, 5_000, 0.20, 100},
		{"PSPLIB j30", j30, 0, 3, 50_000, 0.05, 3},
		{"MSPSP 1a", skilled, 14, 1, 5_000, 1.0, 100},
		{"MSPSP 1a", skilled, 0, 1, 50_000, 0.3, 100},
	} {
		stride := c.sample
		if thorough.Asked() {
			stride = c.long
		}
		if stride == 0 {
			continue
		}
		list := every(stride, c.list)
		mean, worst, optimal := searched(t, list, c.schedules)
		t.Logf("%s, %d schedules: %d problems, %.3f %% above the best known on average, %.2f %% at worst, %d as good",
			c.name, c.schedules, len(list), mean, worst, optimal)
		if !thorough.Asked() {
			c.mean *= 2 // the mean of some twenty problems scatters
		}
		if mean > c.mean || worst > c.worst {
			t.Errorf("%s, %d schedules: %.3f %% above the best known on average and %.2f %% at worst, want at most %.2f and %.0f",
				c.name, c.schedules, mean, worst, c.mean, c.worst)
		}
	}
}

// One pass of each scheme with each priority rule, of equals the first job, over all of
// PSPLIB j30: the means above the optimum, and how many are optimal, that a separate
// program found.
func TestPriorityRulesGiveWhatTheyAreKnownToGive(t *testing.T) {
	list := projects(t)
	type known struct {
		above   float64
		optimal int
	}
	for rule, want := range map[int][2]known{ // by the serial scheme, by the parallel one
		ruleLFT:  {{5.58, 240}, {4.393, 206}},
		ruleLST:  {{4.92, 246}, {4.53, 213}},
		ruleMTS:  {{6.56, 213}, {5.00, -1}},
		ruleGRPW: {{5.28, -1}, {4.65, -1}},
	} {
		var got [2]known
		for _, p := range list {
			b, luck := bound.New(p.d), draw.Usual(p.d)
			jobs := newPlain(p.d, luck, b.Begun(0))
			var seq []int32
			for _, i := range ruleList(b, rule, luck, 0) {
				seq = append(seq, int32(i))
			}
			s := newScheduler(jobs)
			parallel, _ := s.parallelWithin(jobs, seq, unset)
			for k, units := range []int32{s.serial(jobs, seq), parallel} {
				span := sim.Time(units) * jobs.unit
				got[k].above += 100 * float64(span-p.best) / float64(p.best) / float64(len(list))
				if span == p.best {
					got[k].optimal++
				}
			}
		}
		for k, scheme := range []string{"serial", "parallel"} {
			got, want := got[k], want[k]
			if got.above < want.above-0.005 || got.above > want.above+0.005 || want.optimal >= 0 && got.optimal != want.optimal {
				t.Errorf("rule %d, %s: %.3f %% above the optimum, %d optimal, want %.2f and %d", rule, scheme, got.above, got.optimal, want.above, want.optimal)
			}
		}
	}
}

// One op is 5,000 schedules of a problem of 30 tasks whose optimum is not met
// on the way.
func BenchmarkFiveThousandSchedules(b *testing.B) {
	for _, p := range projects(b) {
		if p.name != "j3013_1" {
			continue
		}
		bounds, luck := bound.New(p.d), draw.Usual(p.d)
		for b.Loop() {
			if _, made := inTurnList(ctx, p.d, bounds, luck, 0, 5_000, rand.New(rand.NewPCG(1, 2))); made < 4_990 || made > 5_000 {
				b.Fatalf("%d schedules made", made)
			}
		}
	}
}
