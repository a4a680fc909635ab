package compare

import (
	"cmp"
	"context"
	"slices"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/stats"
)

// How many runs at most the three questions of [WhatMoves] are asked of.
const (
	toldRuns   = 200  // told from timelines
	againRuns  = 300  // played again with one task shorter
	rankedRuns = 2000 // ranked
)

// Which tasks are played again for a milestone: those most often on its critical
// sequence, so many at most, and none that is there in fewer than this share of
// the runs told. So it does not grow with the number of tasks.
const (
	shortened = 12
	seldom    = 0.05
)

// shorter is by how much a task is made shorter, in its own measure: a
// person-minute of work, a minute of what takes clock time.
const shorter = sim.Minute

// Moves is what moves the milestones of one drill.
type Moves struct {
	Told, Again, Ranked int       // runs behind each column
	Milestones          [][]Mover // by milestone asked for, then by task
}

// Mover is what one task has to do with one milestone.
type Mover struct {
	Task int
	// Critical is the share of runs in which the task is on the critical
	// sequence of the milestone.
	Critical stats.Share
	// Rank is the rank correlation of the task's drawn length, mishaps apart,
	// with the milestone.
	Rank stats.Correlation
	// PerMinute is how much sooner the milestone is for each minute by which
	// the task is shorter, all else and the luck equal. Absent for tasks whose
	// length is worked out and those seldom seen on a critical sequence.
	PerMinute stats.Ratio
}

// TopMovers returns the n tasks most often on the critical sequence, and of
// equals those with which most is won. Tasks never seen on it are left out.
func TopMovers(movers []Mover, n int) []Mover {
	var seen []Mover
	for _, v := range movers {
		if v.Critical.Count > 0 {
			seen = append(seen, v)
		}
	}
	won := func(v Mover) float64 {
		if v.PerMinute.OK() {
			return v.PerMinute.Value
		}
		return 0
	}
	slices.SortStableFunc(seen, func(a, b Mover) int {
		return cmp.Or(cmp.Compare(b.Critical.Count, a.Critical.Count), cmp.Compare(won(b), won(a)))
	})
	return seen[:min(len(seen), n)]
}

// WhatMoves tells what moves some milestones of each drill that was played.
func WhatMoves(ctx context.Context, played []*Played, milestones []int, b Batch) ([]*Moves, error) {
	out := make([]*Moves, len(played))
	for i, p := range played {
		m := &mover{Played: p, milestones: milestones, b: b}
		if err := m.work(ctx); err != nil {
			return nil, err
		}
		out[i] = m.moves()
	}
	return out, nil
}

// mover works out the moves of one drill.
type mover struct {
	*Played
	milestones   []int
	b            Batch
	program      *fast.Program
	critical     [][][]bool      // by run told, then milestone asked for, then task
	mostCritical []bool          // by task: whether it is played again
	amounts      [][]sim.Time    // by task, then run: drawn lengths
	ranks        [][]float64     // of the amounts; nil for those always the same
	perMinute    [][]stats.Ratio // by task, then milestone asked for
	lucks        []*sim.Luck     // of the runs played again
}

func (m *mover) work(ctx context.Context) error {
	m.program = fast.Compile(m.Drill)
	m.critical = make([][][]bool, m.b.first(toldRuns).Runs)
	if err := each(ctx, m.b.Workers, len(m.critical), m.tell); err != nil {
		return err
	}
	tasks := len(m.Drill.Tasks)
	m.drawLengths()
	m.settleMostCritical()
	m.ranks = make([][]float64, tasks)
	m.perMinute = make([][]stats.Ratio, tasks)
	return each(ctx, m.b.Workers, tasks, func(task int) {
		m.ranks[task] = stats.Ranks(m.amounts[task])
		m.playShorter(task)
	})
}

// tell marks what is critical in one run.
func (m *mover) tell(run int) {
	m.critical[run] = make([][]bool, len(m.milestones))
	tl := m.program.Worker().Timeline(draw.Run(m.Drill, m.b.Seed, run))
	for k, milestone := range m.milestones {
		m.critical[run][k] = tl.Critical(milestone)
	}
}

func (m *mover) drawLengths() {
	m.amounts = make([][]sim.Time, len(m.Drill.Tasks))
	sampler, again := draw.NewSampler(m.Drill), m.b.first(againRuns).Runs
	var luck *sim.Luck
	for run := range m.b.first(rankedRuns).Runs {
		if run <= again { // those played again are kept, the rest share one
			luck = new(sim.Luck)
		}
		sampler.Run(m.b.Seed, run, luck)
		for task, amount := range luck.Amount {
			m.amounts[task] = append(m.amounts[task], amount)
		}
		if run < again {
			m.lucks = append(m.lucks, luck)
		}
	}
}

// criticalIn returns in how many runs told a task is critical for a milestone,
// and in how many of them the milestone is reached.
func (m *mover) criticalIn(task, k int) (count, of int64) {
	for _, run := range m.critical {
		if reached := run[k] != nil && anyOf(run[k]); !reached {
			continue
		}
		of++
		if run[k][task] {
			count++
		}
	}
	return count, of
}

func anyOf(marks []bool) bool {
	for _, mark := range marks {
		if mark {
			return true
		}
	}
	return false
}

// settleMostCritical settles which tasks are played again.
func (m *mover) settleMostCritical() {
	m.mostCritical = make([]bool, len(m.Drill.Tasks))
	for k := range m.milestones {
		var seen []int
		counts := make([]int64, len(m.Drill.Tasks))
		for task := range m.Drill.Tasks {
			count, of := m.criticalIn(task, k)
			if counts[task] = count; count > 0 && float64(count) >= seldom*float64(of) && m.Drill.Tasks[task].Amount != nil {
				seen = append(seen, task)
			}
		}
		slices.SortStableFunc(seen, func(a, b int) int { return cmp.Compare(counts[b], counts[a]) })
		for _, task := range seen[:min(shortened, len(seen))] {
			m.mostCritical[task] = true
		}
	}
}

// playShorter plays runs again with one task shorter.
func (m *mover) playShorter(task int) {
	m.perMinute[task] = make([]stats.Ratio, len(m.milestones))
	for k := range m.milestones {
		m.perMinute[task][k].Why = "too seldom to play again"
	}
	if m.Drill.Tasks[task].Amount == nil {
		for k := range m.milestones {
			m.perMinute[task][k].Why = "worked out, not given"
		}
		return
	}
	if !m.mostCritical[task] {
		return
	}
	w := m.program.Worker()
	var r fast.Result
	won := make([][]sim.Time, len(m.milestones))
	given := make([]sim.Time, len(m.lucks))
	for run := range m.lucks {
		luck := *m.lucks[run]
		luck.Amount = append([]sim.Time(nil), luck.Amount...)
		given[run] = min(shorter, luck.Amount[task])
		luck.Amount[task] -= given[run]
		w.Play(&luck, &r)
		for k, milestone := range m.milestones {
			win, before := sim.Never, m.Times[milestone][run]
			if r.Milestones[milestone] != sim.Never && before != sim.Never {
				win = before - r.Milestones[milestone]
			}
			won[k] = append(won[k], win)
		}
	}
	for k := range m.milestones {
		m.perMinute[task][k] = stats.RatioOf(won[k], given)
	}
}

func (m *mover) moves() *Moves {
	out := &Moves{Told: len(m.critical), Again: len(m.lucks), Ranked: m.b.first(rankedRuns).Runs}
	for k, milestone := range m.milestones {
		reached := stats.Ranks(m.Times[milestone][:out.Ranked])
		var movers []Mover
		for task := range m.Drill.Tasks {
			v := Mover{Task: task, PerMinute: m.perMinute[task][k]}
			if count, of := m.criticalIn(task, k); of > 0 {
				v.Critical = stats.ShareOf(count, of)
			}
			v.Rank = stats.Spearman(m.ranks[task], reached)
			movers = append(movers, v)
		}
		out.Milestones = append(out.Milestones, movers)
	}
	return out
}
