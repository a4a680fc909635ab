package fit

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/stat/distuv"

	"warmby/sim"
)

// Levels are the ranges whose coverage is asked for.
var Levels = []float64{0.5, 0.8, 0.9}

// Score is how one length or milestone of one drill was foretold from the
// others.
type Score struct {
	Drill     int
	Task      int     // -1 for a milestone
	Milestone int     // -1 for a task
	Below     float64 // chance that was foretold of coming sooner, 0 to 1
	CRPS      float64 // minutes: of what was foretold from the other drills
	FileCRPS  float64 // minutes: of what the file foretells
}

// Within reports whether what came lies in the central range of a level.
func (s Score) Within(level float64) bool {
	return s.Below >= (1-level)/2 && s.Below <= (1+level)/2
}

// Left is how well drills are foretold, each from all others.
type Left struct {
	Tasks, Milestones []Score
}

// mostLeft is how many drills are left out: of more, every second, third ..
const mostLeft = 40

// leftRuns is how many runs a drill that was left out is foretold with.
const leftRuns = 400

// Leave leaves out one drill after the other, all of it at once, and foretells
// it from the rest, with its own order and conditions. Called-off drills are not
// foretold: they ended for what went wrong.
func (f *Fitted) Leave() *Left { return f.leave(f.Without) }

// Forwards foretells each drill from those before it only, by date; nothing
// where a drill has no date.
func (f *Fitted) Forwards() *Left { return f.leave(f.Before) }

// Without returns the fit of all drills but one; not ok when nothing is left.
func (f *Fitted) Without(left int) (*Fitted, bool) {
	return f.only(left, func(other int) bool { return other != left })
}

// Before returns the fit of the drills before one, by date; not ok when there
// are none, or when a drill has no date.
func (f *Fitted) Before(left int) (*Fitted, bool) {
	_, inTime, ok := Attempts(f.Evenings)
	if !ok {
		return nil, false
	}
	place := make([]int, len(inTime))
	for k, i := range inTime {
		place[i] = k
	}
	return f.only(left, func(other int) bool { return place[other] < place[left] })
}

// only returns the fit of some drills, quickly; the stream of its chain is that
// of the drill that is foretold. Starts that follow from the drill are those of
// the fit of all.
func (f *Fitted) only(left int, uses func(int) bool) (*Fitted, bool) {
	var rows []Row
	for _, r := range f.Data {
		if uses(r.Drill) {
			rows = append(rows, r)
		}
	}
	if len(rows) == 0 {
		return nil, false
	}
	g := *f
	g.Posterior = Chain(f.model(), rows, Quick, f.options.Seed, 200+left)
	g.Chances = f.chances(uses)
	return &g, true
}

// leave foretells the drills side by side: none of them tells of another.
func (f *Fitted) leave(rest func(int) (*Fitted, bool)) *Left {
	each := (len(f.Evenings) + mostLeft - 1) / mostLeft
	lefts := make([]Left, len(f.Evenings))
	sideBySide(len(lefts), func(i int) {
		if f.Evenings[i].Timed.CalledOff || i%each != 0 {
			return
		}
		if g, ok := rest(i); ok {
			g.tasksLeft(i, &lefts[i])
			g.milestonesLeft(i, &lefts[i])
		}
	})
	out := &Left{}
	for _, one := range lefts {
		out.Tasks, out.Milestones = append(out.Tasks, one.Tasks...), append(out.Milestones, one.Milestones...)
	}
	return out
}

// tasksLeft scores the lengths of one drill.
func (f *Fitted) tasksLeft(left int, out *Left) {
	lawOf := f.Model.lawOf()
	for _, r := range f.Data {
		i, ok := lawOf[r.Task]
		if r.Drill != left || r.Kind != Exact || !ok {
			continue
		}
		next, l := f.Next(i, f.At(left)), f.Model.Laws[i]
		came := math.Exp(r.Log) / float64(sim.Minute)
		out.Tasks = append(out.Tasks, Score{
			Drill: left, Task: r.Task, Milestone: -1, Below: next.Chance(r.Log),
			CRPS:     CRPS(evenly(func(q float64) float64 { return next.Quantile(q) / float64(sim.Minute) }), came),
			FileCRPS: CRPS(evenly(func(q float64) float64 { return f.Drill.Tasks[l.Task].Amount.Quantile(q) / float64(sim.Minute) }), came),
		})
	}
}

// evenly returns a law as 50 values of equal chance.
func evenly(quantile func(float64) float64) []float64 {
	out := make([]float64, 50)
	for i := range out {
		out[i] = quantile((float64(i) + 0.5) / float64(len(out)))
	}
	return out
}

func (f *Fitted) milestonesLeft(left int, out *Left) {
	e := f.Evenings[left]
	told := f.Foretell(e.Drill, f.At(left), leftRuns, f.options.Seed)
	file := ByFile(e.Drill, leftRuns, f.options.Seed)
	for m := range e.Drill.Milestones {
		at, known := e.Timed.Milestone(e.Drill, m)
		if !known {
			continue
		}
		s := Score{Drill: left, Task: -1, Milestone: m, CRPS: crpsOf(told.Milestones[m], at), FileCRPS: crpsOf(file.Milestones[m], at)}
		s.Below = below(told.Milestones[m], at)
		out.Milestones = append(out.Milestones, s)
	}
}

// below returns the share of moments before one, ties halved.
func below(moments []sim.Time, at sim.Time) float64 {
	before, same := 0, 0
	for _, m := range moments {
		switch {
		case m < at:
			before++
		case m == at:
			same++
		}
	}
	return (float64(before) + float64(same)/2) / float64(len(moments))
}

func crpsOf(moments []sim.Time, at sim.Time) float64 {
	minutes := make([]float64, len(moments))
	for i, m := range moments {
		minutes[i] = min(m, sim.Horizon).Minutes()
	}
	return CRPS(minutes, at.Minutes())
}

// CRPS returns the continuous ranked probability score of a sample against what
// came: E|X - y| - E|X - X'|/2, in the sample's unit; for a single value that is
// foretold it is the absolute error (T. Gneiting and A. E. Raftery, J. Am. Stat.
// Assoc. 102 (2007) 359-378). The sample must not be empty.
func CRPS(sample []float64, came float64) float64 {
	x := append([]float64(nil), sample...)
	sort.Float64s(x)
	n := float64(len(x))
	var off, pairs float64
	for i, v := range x {
		off += math.Abs(v - came)
		pairs += v * (2*float64(i) + 1 - n) // sum over pairs of |x_i - x_j|, by ranks
	}
	return off/n - pairs/(n*n)
}

// Cover is how often ranges of a level held what came, with an interval that
// takes each drill as one cluster.
type Cover struct {
	Level            float64
	Value, Low, High float64
	Count            int // lengths or milestones
	Drills           int
}

// CoverOf counts how often ranges of a level held. The interval is Clopper and
// Pearson's for as many independent ones as the drills' own shares show the
// scores to be worth, adjusted for how few drills there are (E. L. Korn and B. I.
// Graubard, Survey Methodology 24 (1998) 193-201; from memory).
func CoverOf(scores []Score, level float64) Cover {
	in, of := map[int]float64{}, map[int]float64{}
	c := Cover{Level: level, Count: len(scores), High: 1}
	for _, s := range scores {
		of[s.Drill]++
		if s.Within(level) {
			in[s.Drill]++
			c.Value++
		}
	}
	c.Drills = len(of)
	if c.Count == 0 || c.Drills < 2 {
		c.Value /= math.Max(1, float64(c.Count))
		return c
	}
	n, k := float64(c.Count), float64(c.Drills)
	c.Value /= n
	c.Low, c.High = betaInterval(c.Value, worthOf(c.Value, n, k, in, of))
	return c
}

// worthOf returns how many independent scores the clustered ones are worth.
func worthOf(p, n, k float64, in, of map[int]float64) float64 {
	var between float64
	for d := range sortedKeys(of) {
		e := in[d] - p*of[d]
		between += e * e
	}
	between *= k / (k - 1) / (n * n)
	design := n / k // when all shares are the same by chance: each drill is one
	if simple := p * (1 - p) / n; simple > 0 && between > 0 {
		design = math.Max(1, between/simple)
	}
	t := func(f float64) float64 { return distuv.StudentsT{Sigma: 1, Nu: f}.Quantile(0.975) }
	adjust := t(math.Max(1, n-1)) / t(k-1)
	return math.Min(n, n/design*adjust*adjust)
}

// sortedKeys walks the drills in order, so that sums do not depend on a map's.
func sortedKeys(of map[int]float64) func(func(int) bool) {
	keys := make([]int, 0, len(of))
	for k := range of {
		keys = append(keys, k)
	}
	sort.Ints(keys)
	return func(yield func(int) bool) {
		for _, k := range keys {
			if !yield(k) {
				return
			}
		}
	}
}

// betaInterval is Clopper and Pearson's 95 % interval for a share of a number
// that need not be whole.
func betaInterval(p, n float64) (low, high float64) {
	x := p * n
	low, high = 0, 1
	if x > 0 {
		low = distuv.Beta{Alpha: x, Beta: n - x + 1}.Quantile(0.025)
	}
	if x < n {
		high = distuv.Beta{Alpha: x + 1, Beta: n - x}.Quantile(0.975)
	}
	return low, high
}

// MeanCRPS returns the mean score and that of the file, minutes.
func MeanCRPS(scores []Score) (fitted, file float64) {
	for _, s := range scores {
		fitted, file = fitted+s.CRPS, file+s.FileCRPS
	}
	n := math.Max(1, float64(len(scores)))
	return fitted / n, file / n
}
