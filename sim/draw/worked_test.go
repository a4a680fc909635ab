package draw

import (
	"math"
	"strings"
	"testing"

	"warmby/sim"
)

// network is a project network of textbook kind: tasks in an order in which
// each comes after all that it waits for.
type network []struct {
	name               string
	quick, usual, slow float64
	after              string // one letter each
}

// Hillier and Lieberman, Introduction to Operations Research, chapter on
// project management (the table from memory; its sums were worked again).
var house = network{
	{"A", 1, 2, 3, ""}, {"B", 2, 3.5, 8, "A"}, {"C", 6, 9, 18, "B"}, {"D", 4, 5.5, 10, "C"},
	{"E", 1, 4.5, 5, "C"}, {"F", 4, 4, 10, "E"}, {"G", 5, 6.5, 11, "D"}, {"H", 5, 8, 17, "EG"},
	{"I", 3, 7.5, 9, "C"}, {"J", 3, 9, 9, "FI"}, {"K", 4, 4, 4, "J"}, {"L", 1, 5.5, 7, "J"},
	{"M", 1, 2, 3, "H"}, {"N", 5, 5.5, 9, "KL"},
}

// A posted exercise of textbook kind (justaaa.com, 460263).
var exercise = network{
	{"A", 8, 10, 15, ""}, {"B", 7, 8, 9, ""}, {"C", 5, 6, 10, "A"}, {"D", 3, 3, 3, "A"},
	{"E", 1, 5, 9, "BD"}, {"F", 4, 7, 10, "BD"}, {"G", 3, 8, 10, "C"}, {"H", 5, 7, 9, "E"},
	{"I", 4, 5, 8, "E"}, {"J", 2, 5, 8, "F"}, {"K", 1, 3, 6, "HI"},
}

type threeValueLaw func(quick, usual, slow float64) (sim.Distribution, error)

// play returns the length of each of n runs.
func (w network) play(law threeValueLaw, n int) []float64 {
	laws, keys := make([]sim.Distribution, len(w)), make([]Key, len(w))
	for i, t := range w {
		laws[i], keys[i] = must(law(t.quick, t.usual, t.slow)), KeyOf(t.name, ForWork)
	}
	lengths, end := make([]float64, n), make([]float64, len(w))
	for run := range lengths {
		from := StartOf(17, uint64(run))
		for i, t := range w {
			start := 0.0
			for j := range i {
				if strings.Contains(t.after, w[j].name) {
					start = max(start, end[j])
				}
			}
			end[i] = start + laws[i].Quantile(from.Uniform(keys[i], 0))
			lengths[run] = max(lengths[run], end[i])
		}
	}
	return lengths
}

// Means, deviations and odds as found by others with 200,000 runs. The
// tolerances hold both samples' errors; the odds of the triangular house are
// the farthest off (0.594 by PCG numbers of the standard library too).
func TestTextbookNetworks(t *testing.T) {
	for _, c := range []struct {
		name               string
		network            network
		law                threeValueLaw
		mean, sd, by, odds float64
	}{
		{"house, PERT", house, PERT, 44.32, 2.935, 47, 0.8156},
		{"house, triangular", house, Triangular, 46.26, 3.694, 47, 0.590},
		{"exercise, PERT", exercise, PERT, 28.837, 0, 35, 0.9971},
	} {
		const n = 100000
		sum, squares, met := 0.0, 0.0, 0.0
		for _, x := range c.network.play(c.law, n) {
			sum, squares = sum+x, squares+x*x
			if x <= c.by {
				met++
			}
		}
		mean := sum / n
		sd := math.Sqrt(squares/n - mean*mean)
		if math.Abs(mean-c.mean) > 0.05 {
			t.Errorf("%s: mean %.3f, want %v", c.name, mean, c.mean)
		}
		if c.sd > 0 && math.Abs(sd-c.sd) > 0.03 {
			t.Errorf("%s: deviation %.3f, want %v", c.name, sd, c.sd)
		}
		if math.Abs(met/n-c.odds) > 0.008 {
			t.Errorf("%s: done by %v in %.4f, want %v", c.name, c.by, met/n, c.odds)
		}
	}
}

// The mean of a beta-PERT is (quick + 4 usual + slow)/6; of the house's tasks
// by the textbook 2, 4, 10, 6, 4, 5, 7, 9, 7, 8, 4, 5, 2, 6. Means come from
// the quantiles, evenly spaced.
func TestPERTMeansOfTheTextbook(t *testing.T) {
	for i, want := range []float64{2, 4, 10, 6, 4, 5, 7, 9, 7, 8, 4, 5, 2, 6} {
		task := house[i]
		d := must(PERT(task.quick, task.usual, task.slow))
		const n = 20000
		sum := 0.0
		for k := range n {
			sum += d.Quantile((float64(k) + 0.5) / n)
		}
		if math.Abs(sum/n-want) > 1e-4 {
			t.Errorf("%s: mean %.5f, want %v", task.name, sum/n, want)
		}
	}
}

// The mean of the largest of n equal draws: exact values. For the normal law
// the constants are k of mu + k sigma; ours is the logarithm of a lognormal.
func TestLargestOfSeveralDraws(t *testing.T) {
	same := func(x float64) float64 { return x }
	for _, c := range []struct {
		name string
		law  sim.Distribution
		of   func(float64) float64
		want map[int]float64
	}{
		{"normal", must(LogNormal(1, math.E)), math.Log, map[int]float64{
			2: .56419, 3: .84628, 4: 1.02938, 5: 1.16296, 8: 1.42360, 10: 1.53875}},
		{"exponential", must(Exponential(1)), same, map[int]float64{
			2: 3. / 2, 3: 11. / 6, 4: 25. / 12, 5: 137. / 60, 10: 7381. / 2520}},
		{"uniform", must(Uniform(0, 1)), same, map[int]float64{2: 2. / 3, 5: 5. / 6, 10: 10. / 11}},
		{"triangular", must(Triangular(2, 4, 9)), same, map[int]float64{
			1: 5, 2: 5.838095, 3: 6.294461, 4: 6.595817}},
	} {
		for n, want := range c.want {
			const runs = 50000
			sum, squares := 0.0, 0.0
			for run := range runs {
				from, largest := StartOf(23, uint64(run)), math.Inf(-1)
				for i := range n {
					largest = max(largest, c.of(c.law.Quantile(from.Uniform(KeyOf(c.name, ForWork), i))))
				}
				sum, squares = sum+largest, squares+largest*largest
			}
			mean := sum / runs
			se := math.Sqrt((squares/runs - mean*mean) / runs)
			if math.Abs(mean-want) > 3.5*se {
				t.Errorf("largest of %d, %s: mean %.4f, want %.4f within %.4f", n, c.name, mean, want, 3.5*se)
			}
		}
	}
}

// The bridge of five exponential tasks: mean 83/24, variance 1663/576.
func TestExponentialBridge(t *testing.T) {
	const n = 200000
	d := must(Exponential(1))
	var keys [5]Key
	for i := range keys {
		keys[i] = KeyOf(string(rune('a'+i)), ForWork)
	}
	sum, squares := 0.0, 0.0
	for run := range n {
		from := StartOf(29, uint64(run))
		var x [5]float64
		for i := range x {
			x[i] = d.Quantile(from.Uniform(keys[i], 0))
		}
		end := max(x[0]+x[3], x[1]+x[4], x[0]+x[2]+x[4])
		sum, squares = sum+end, squares+end*end
	}
	mean := sum / n
	variance := squares/n - mean*mean
	if want := 83.0 / 24; math.Abs(mean-want) > 3.5*math.Sqrt(1663.0/576/n) {
		t.Errorf("mean %.5f, want %.5f", mean, want)
	}
	if want := 1663.0 / 576; math.Abs(variance-want) > 0.05 {
		t.Errorf("variance %.4f, want %.4f", variance, want)
	}
}
