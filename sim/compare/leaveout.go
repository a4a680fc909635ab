package compare

import (
	"context"

	"warmby/sim"
	"warmby/sim/stats"
)

// In how many runs of one drill tasks are left out: so many at most without each,
// and with many tasks fewer, so that all of them together take no more than
// leftOutInAll.
const (
	leftOutRuns  = 1000
	leftOutLeast = 100
	leftOutInAll = 12_000
)

// LeftOut is what leaving out one task does.
type LeftOut struct {
	Task string
	Runs int
	// Wins holds, by milestone, the drill without the task (a) against the
	// drill with it (b): a negative mean is won. Nil where the milestone asks
	// for nothing but the task.
	Wins []*stats.Difference
}

// LeaveOut plays each drill without each of its tasks that can wait, under the
// luck of the batch that it was played with: by drill, then by task.
func LeaveOut(ctx context.Context, played []*Played, b Batch) ([][]LeftOut, error) {
	out := make([][]LeftOut, len(played))
	for i, p := range played {
		tasks := waiting(p.Drill)
		runs := min(leftOutRuns, max(leftOutLeast, leftOutInAll/max(1, len(tasks))))
		for _, task := range tasks {
			l, err := p.leaveOut(ctx, task, b.first(runs))
			if err != nil {
				return nil, err
			}
			out[i] = append(out[i], l)
		}
	}
	return out, nil
}

// waiting lists the tasks of a drill that can wait, of those that each person does
// for himself the first for all.
func waiting(d *sim.Drill) (tasks []int) {
	for task := range d.Tasks {
		if d.Tasks[task].CanWait && !d.Tasks[task].Unloads() && d.Parts(task)[0] == task {
			tasks = append(tasks, task)
		}
	}
	return tasks
}

func (p *Played) leaveOut(ctx context.Context, task int, b Batch) (LeftOut, error) {
	l := LeftOut{Task: p.Drill.Tasks[task].Name, Runs: b.Runs}
	if each := p.Drill.Tasks[task].Each; each != "" {
		l.Task = each
	}
	d := p.Drill.WithoutAll(p.Drill.Parts(task))
	without, err := Play(ctx, []*sim.Drill{d}, b)
	if err != nil {
		return l, err
	}
	for m := range d.Milestones {
		if len(d.Milestones[m].When) == 0 {
			l.Wins = append(l.Wins, nil)
			continue
		}
		win := p.Looks.Difference(Pair(without[0].Times[m], p.Times[m][:b.Runs]))
		l.Wins = append(l.Wins, &win)
	}
	return l, nil
}

// Pair holds two rows of moments against each other, run by run.
func Pair(a, b []sim.Time) *stats.Paired {
	var p stats.Paired
	for run := range a {
		p.Add(a[run], b[run])
	}
	return &p
}
