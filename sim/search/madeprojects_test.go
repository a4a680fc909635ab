package search

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"warmby/internal/thorough"
	"warmby/sim"
	"warmby/sim/bound"
	"warmby/sim/draw"
	"warmby/sim/internal/drills"
)

// network is a project being made, as PSPLIB's were (R. Kolisch, A. Sprecher and
// A. Drexl, Management Science 41 (1995), 1693-1703): three jobs come after nothing,
// nothing comes after three, and no job has more than three before or behind it.
type network struct {
	r          *rand.Rand
	n, arcs    int
	pred, succ [][]int
	behind     [][]bool // by two jobs: the second comes after the first, or is it
}

const atEnds, atMost = 3, 3

// makeNetwork returns a network with so many arcs for each job, the two jobs without
// length counted; nil when it comes to a dead end.
func makeNetwork(r *rand.Rand, n int, complexity float64) *network {
	w := &network{r: r, n: n, arcs: 2 * atEnds, pred: make([][]int, n), succ: make([][]int, n), behind: make([][]bool, n)}
	for i := range n {
		w.behind[i] = make([]bool, n)
		w.behind[i][i] = true
	}
	for j := atEnds; j < n; j++ {
		if !w.try(1000, func() (int, int) { return r.IntN(min(j, n-atEnds)), j }) {
			return nil
		}
	}
	onward := func(i int) int { return max(i+1, atEnds) + r.IntN(n-max(i+1, atEnds)) }
	for i := range n - atEnds {
		if len(w.succ[i]) == 0 && !w.try(1000, func() (int, int) { return i, onward(i) }) {
			return nil
		}
	}
	for w.arcs < int(complexity*float64(n+2)+0.5) {
		if !w.try(100_000, func() (int, int) { i := r.IntN(n - atEnds); return i, onward(i) }) {
			return nil
		}
	}
	return w
}

// try draws arcs until one may be added.
func (w *network) try(tries int, drawn func() (from, to int)) bool {
	for range tries {
		i, j := drawn()
		if len(w.succ[i]) < atMost && len(w.pred[j]) < atMost && !w.redundant(i, j) {
			w.add(i, j)
			return true
		}
	}
	return false
}

func (w *network) add(i, j int) {
	w.arcs++
	w.succ[i], w.pred[j] = append(w.succ[i], j), append(w.pred[j], i)
	for x := range i + 1 {
		for y := j; y < w.n && w.behind[x][i]; y++ {
			w.behind[x][y] = w.behind[x][y] || w.behind[j][y]
		}
	}
}

// redundant reports whether an arc says what others say already, or would make one
// of them say so.
func (w *network) redundant(i, j int) bool {
	for x := range i + 1 {
		for _, y := range w.succ[x] {
			if w.behind[x][i] && w.behind[j][y] {
				return true
			}
		}
	}
	return w.behind[i][j]
}

// makeProject returns a project of n jobs: lengths and requests of 1 to 10, a share of
// the requests for four resources at work, and of each resource as much as the strength
// says between the largest request and what all at their soonest would take.
func makeProject(r *rand.Rand, n int, complexity, share, strength float64) *sim.Drill {
	w := makeNetwork(r, n, complexity)
	for w == nil {
		w = makeNetwork(r, n, complexity)
	}
	length, need, at := make([]int, n), make([][4]int, n), make([]int, n)
	for j := range n {
		length[j], need[j][r.IntN(4)] = 1+r.IntN(10), 1+r.IntN(10)
		for _, p := range w.pred[j] {
			at[j] = max(at[j], at[p]+length[p])
		}
	}
	for cells := n; cells < int(share*float64(4*n)+0.5); {
		if j, k := r.IntN(n), r.IntN(4); need[j][k] == 0 {
			need[j][k] = 1 + r.IntN(10)
			cells++
		}
	}
	d := &sim.Drill{Spots: []sim.Spot{{In: -1}}, People: []sim.Person{{Name: "Ann", Pace: 1000}}}
	for k := range 4 {
		most, peak := 0, 0
		for i := range n { // the peak is reached where some job starts
			most = max(most, need[i][k])
			sum := 0
			for j := range n {
				if at[j] <= at[i] && at[i] < at[j]+length[j] {
					sum += need[j][k]
				}
			}
			peak = max(peak, sum)
		}
		d.Tools = append(d.Tools, sim.Tool{Name: fmt.Sprint("R", k+1), Count: most + int(strength*float64(peak-most)+0.5)})
	}
	finish := sim.Milestone{Name: sim.FinishName, By: sim.Never}
	for j := range n {
		task := sim.Task{Name: fmt.Sprint("job ", j+1), Kind: sim.Takes, Amount: drills.Fixed(60000 * length[j]), Item: -1}
		for k, count := range need[j] {
			if count > 0 {
				task.Tools = append(task.Tools, sim.ToolNeed{Tool: k, Count: count})
			}
		}
		for _, p := range w.pred[j] {
			task.After = append(task.After, sim.After{Task: p})
		}
		d.Tasks = append(d.Tasks, task)
		finish.When = append(finish.When, j)
	}
	d.Milestones = []sim.Milestone{finish}
	return d
}

// madeProjects makes so many projects for each set of parameters of PSPLIB j60 or j120.
func madeProjects(n, each int) (list []*sim.Drill) {
	r := rand.New(rand.NewPCG(uint64(n), 77))
	strengths := map[int][]float64{60: {0.2, 0.5, 0.7, 1}, 120: {0.1, 0.2, 0.3, 0.4, 0.5}}[n]
	for _, complexity := range []float64{1.5, 1.8, 2.1} {
		for _, share := range []float64{0.25, 0.5, 0.75, 1} {
			for _, strength := range strengths {
				for range each {
					list = append(list, makeProject(r, n, complexity, share, strength))
				}
			}
		}
	}
	return list
}

// aboveCriticalPath returns how far above the longest chain a list of all jobs, in a
// schedule of the serial scheme, is, in percent.
func aboveCriticalPath(p *plain, list []int) float64 {
	var jobs []int32
	chain := int32(0)
	for _, i := range list {
		jobs = append(jobs, int32(i))
		chain = max(chain, p.tail[i])
	}
	return 100 * (float64(newScheduler(p).serial(p, jobs))/float64(chain) - 1)
}

// The made projects are as hard as PSPLIB's: by the rule LFT the serial scheme is 18.13 %
// above the critical path on j60 and 48.11 % on j120, as a separate program found. Those
// sets scatter by a point or more.
func TestMadeProjectsAreAsHardAsThoseOfTheLibrary(t *testing.T) {
	for n, want := range map[int]float64{60: 18.13, 120: 48.11} {
		list, mean := madeProjects(n, 2), 0.0
		for _, d := range list {
			b, luck := bound.New(d), draw.Usual(d)
			mean += aboveCriticalPath(newPlain(d, luck, b.Begun(0)), ruleList(b, ruleLFT, luck, 0)) / float64(len(list))
		}
		if t.Logf("%d jobs: %.2f %%", n, mean); mean < want-3 || mean > want+3 {
			t.Errorf("%d jobs: %.2f %% above the critical path by the rule LFT, want %.2f, give or take 3", n, mean, want)
		}
	}
}

// What the search finds on projects of the size of PSPLIB j60 and j120. Of these
// projects no optimum is known; the limits are a tenth of a point above what was found.
func TestQualityOnLargerProjects(t *testing.T) {
	for _, c := range []struct {
		jobs, schedules int
		long            bool
		most            float64 // percent above the critical path
	}{{60, 5_000, false, 11.87}, {120, 5_000, false, 32.74}, {60, 50_000, true, 11.51}, {120, 50_000, true, 31.33}} {
		if c.long && !thorough.Asked() {
			continue
		}
		list, mean := madeProjects(c.jobs, 1), 0.0
		for _, d := range list {
			b, luck := bound.New(d), draw.Usual(d)
			found, made := inTurnList(ctx, d, b, luck, 0, c.schedules, rand.New(rand.NewPCG(1, 2)))
			if made > c.schedules {
				t.Errorf("%d schedules made, %d allowed", made, c.schedules)
			}
			mean += aboveCriticalPath(newPlain(d, luck, b.Begun(0)), found) / float64(len(list))
		}
		t.Logf("%d jobs, %d schedules: %d projects, %.3f %% above the critical path", c.jobs, c.schedules, len(list), mean)
		if mean > c.most {
			t.Errorf("%d jobs, %d schedules: %.2f %% above the critical path, want at most %.2f", c.jobs, c.schedules, mean, c.most)
		}
	}
}
