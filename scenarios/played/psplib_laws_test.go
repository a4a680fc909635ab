package played

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"warmby/internal/thorough"
	"warmby/sim"
	"warmby/sim/draw"
)

// The 480 instances of j30 under the dispatching of
// TestPSPLIBComesOutAsTheParallelScheme with drawn durations around d periods:
// how far the expected finish lies above the critical path of the given
// durations, in percent, on the average. The figures are those of a separate
// program with 1,000 runs of each instance, with the tolerance given for other
// random numbers (SCHEDULING-CHECKS 4b): uniform from d - sqrt(d) to d +
// sqrt(d), uniform from 0 to 2d, exponential. Two beta laws, with the variances
// of the uniform ones, stand there too; a PERT law has shape 4 and cannot have
// them. With fewer runs than 1,000 the standard error of our own figure is
// allowed for as well, three times.
func TestPSPLIBUnderDurationLaws(t *testing.T) {
	readOptima(t)
	runs := thorough.Cases(20, 1000)
	laws := []struct {
		name             string
		above, tolerance float64
		of               func(d float64) (sim.Distribution, error) // of a positive number of periods

		sum, variance float64 // filled in: over the instances
	}{
		{name: "as given", above: 19.05, tolerance: 0.005},
		{name: "U1", above: 21.58, tolerance: 0.15, of: func(d float64) (sim.Distribution, error) {
			return draw.Uniform(period*(d-math.Sqrt(d)), period*(d+math.Sqrt(d)))
		}},
		{name: "U2", above: 30.88, tolerance: 0.3, of: func(d float64) (sim.Distribution, error) { return draw.Uniform(0, 2*period*d) }},
		{name: "exponential", above: 46.38, tolerance: 0.5, of: func(d float64) (sim.Distribution, error) { return draw.Exponential(period * d) }},
	}
	n := 0.0
	for p := 1; p <= 48; p++ {
		for i := 1; i <= 10; i++ {
			name := fmt.Sprintf("j30%d_%d", p, i)
			src, err := os.ReadFile(filepath.Join(psplib, "j30", name+".sm"))
			if err != nil {
				t.Fatal(err)
			}
			project := readProject(t, string(src))
			given := drill(t, name, project.scenario(name), "")
			path := period * float64(slices.Max(project.latest()))
			n++
			for k := range laws {
				c, d, times := &laws[k], *given, runs
				if c.of == nil {
					times = 1
				} else {
					d.Tasks = drawn(t, given.Tasks, c.of)
				}
				// A seed for each instance: the jobs have the same names in all.
				mean := finish(many(t, &d, uint64(100*p+i), times)).Tally.Mean()
				c.sum += 100 * (mean.Value - path) / path
				if c.of != nil {
					c.variance += math.Pow(100*mean.SD/path, 2) / float64(runs)
				}
			}
		}
	}
	if n != 480 {
		t.Errorf("%g instances, want 480", n)
	}
	for _, c := range laws {
		tolerance := c.tolerance
		if runs < 1000 {
			tolerance += allowed * math.Sqrt(c.variance) / n
		}
		within(t, c.name+": percent above the critical path", c.sum/n, c.above, tolerance)
	}
}

// period is how long one period of an instance is played, in milliseconds.
const period = float64(sim.Minute)

// drawn returns tasks whose lengths follow a law; those of no length stay so.
func drawn(t testing.TB, tasks []sim.Task, law func(periods float64) (sim.Distribution, error)) []sim.Task {
	t.Helper()
	list := slices.Clone(tasks)
	for k := range list {
		if periods := list[k].Amount.Usual() / period; periods > 0 {
			var err error
			if list[k].Amount, err = law(periods); err != nil {
				t.Fatal(err)
			}
		}
	}
	return list
}
