package ifthen

import (
	"context"
	"fmt"
	"slices"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/fast"
	"warmby/sim/stats"
)

// leastRuns is how many runs must be in a trouble for it to be told.
const leastRuns = 60

// mostNotYet is how many lines on milestones not reached there are.
const mostNotYet = 3

// notYet returns lines on milestones that are not reached by a moment: what to
// leave then, or what is lost. The moments are whole five minutes since arrival
// from when the milestone usually comes, and nightfall.
func (w *work) notYet(ctx context.Context) ([]Line, error) {
	chosen := w.base[w.Chosen]
	d := chosen.Drill
	begun, err := starts(ctx, d, w.batch)
	if err != nil {
		return nil, err
	}
	var lines []Line
	for _, m := range targets(d) {
		line, ok, err := w.notYetOf(ctx, m, begun)
		if err != nil {
			return nil, err
		}
		if ok {
			lines = append(lines, line)
		}
	}
	slices.SortStableFunc(lines, func(a, b Line) int { return rank(a) - rank(b) })
	return lines[:min(mostNotYet, len(lines))], nil
}

// rank puts lines that say what to leave first.
func rank(l Line) int {
	if len(l.Leave) > 0 {
		return 0
	}
	return 1
}

// notYetOf is the line of one milestone: at the first moment at which leaving tasks
// wins, else at the first at which something is lost.
func (w *work) notYetOf(ctx context.Context, m int, begun map[int][]sim.Time) (Line, bool, error) {
	var lost *Line
	for _, at := range w.moments(m) {
		line, ok, err := w.leaving(ctx, m, at, begun)
		if err != nil || ok {
			return line, ok, err
		}
		if line, ok := w.lostAt(m, at); ok && lost == nil {
			lost = &line
		}
	}
	if lost != nil {
		return *lost, true, nil
	}
	return Line{}, false, nil
}

// moments are those at which a milestone is looked at: nightfall where it is
// wanted by then, and four from when it usually comes to when it seldom has not.
func (w *work) moments(m int) (list []sim.Time) {
	chosen := w.base[w.Chosen]
	times := stats.SortedOf(chosen.Times[m])
	for _, p := range []float64{0.5, 0.65, 0.8, 0.9} {
		at := stats.QuantileOf(times, p).Value
		if at == sim.Never {
			break
		}
		if at = sim.ByMinute(at); !slices.Contains(list, at) {
			list = append(list, at)
		}
	}
	if milestone := chosen.Drill.Milestones[m]; milestone.ByText == "dark" && milestone.By > 0 {
		list = append([]sim.Time{milestone.By}, list...)
	}
	return list
}

// after reports whether a milestone is not reached at a moment of a run.
func after(p *compare.Played, m int, at sim.Time) func(run int) bool {
	return func(run int) bool { return p.Times[m][run] > at }
}

func (w *work) notYetLine(m int, at sim.Time) Line {
	d := w.base[w.Chosen].Drill
	l := Line{Kind: NotYet, Names: []string{d.Milestones[m].Name}, Size: at, Take: w.Chosen, Usual: sim.Never, Else: sim.Never}
	if d.Milestones[m].ByText == "dark" && d.Milestones[m].By == at {
		l.Kind = NotDark
	}
	return l
}

// leaving plays the chosen order without what can wait and has not begun, and says
// at which later target that wins.
func (w *work) leaving(ctx context.Context, m int, at sim.Time, begun map[int][]sim.Time) (Line, bool, error) {
	chosen := w.base[w.Chosen]
	in := after(chosen, m, at)
	line := w.notYetLine(m, at)
	line.Leave = unbegun(begun, at, in, w.batch.Runs)
	if len(line.Leave) == 0 {
		return line, false, nil
	}
	played, err := w.without(ctx, line.Leave)
	if err != nil || played == nil {
		return line, false, err
	}
	most := 0.0
	for _, target := range targets(chosen.Drill) {
		p := held(played, chosen, target, in)
		if !w.comesLater(target, m, at) || p.runs < leastRuns || !p.better() || p.gain() <= most || len(played.Drill.Milestones[target].When) == 0 {
			continue
		}
		most, line.Milestone = p.gain(), target
		line.With, line.Without = p.shares()
	}
	return line, most > 0, nil
}

// without plays the chosen order without some tasks; nil where it cannot be.
func (w *work) without(ctx context.Context, tasks []int) (*compare.Played, error) {
	key := fmt.Sprint(tasks)
	if p, known := w.left[key]; known {
		return p, nil
	}
	played, err := playable(ctx, []*sim.Drill{w.base[w.Chosen].Drill.WithoutAll(tasks)}, w.batch)
	if err != nil {
		return nil, err
	}
	w.left[key] = played[0]
	return played[0], nil
}

// comesLater reports whether a target is still to come, usually later than a
// milestone that is not reached at a moment.
func (w *work) comesLater(target, m int, at sim.Time) bool {
	chosen := w.base[w.Chosen]
	return target != m && chosen.Drill.Milestones[target].By > at && median(chosen.Times[target]) > median(chosen.Times[m])
}

// unbegun lists the tasks that in nearly all of the runs in question begin after a
// moment.
func unbegun(begun map[int][]sim.Time, at sim.Time, in func(int) bool, runs int) (list []int) {
	for task, start := range begun {
		n, before := 0, 0
		for run := range runs {
			if in(run) {
				n++
				if start[run] <= at {
					before++
				}
			}
		}
		if n >= leastRuns && before*50 <= n {
			list = append(list, task)
		}
	}
	slices.Sort(list)
	return list
}

// lostAt says which later target is nearly always missed when a milestone is not
// reached at a moment, and met in most runs when it is.
func (w *work) lostAt(m int, at sim.Time) (Line, bool) {
	chosen := w.base[w.Chosen]
	line, in := w.notYetLine(m, at), after(chosen, m, at)
	most := 0.5
	for _, target := range targets(chosen.Drill) {
		late := held(chosen, chosen, target, in)
		early := held(chosen, chosen, target, func(run int) bool { return !in(run) })
		if !w.comesLater(target, m, at) || late.runs < leastRuns || early.runs < leastRuns {
			continue
		}
		with, _ := late.shares()
		without, _ := early.shares()
		if gap := without.Value - with.Value; gap > most && with.High < 0.35 && without.Low > 0.5 {
			most, line.Milestone, line.With, line.Without = gap, target, with, without
		}
	}
	return line, most > 0.5
}

// starts returns when work on each task that can wait begins, run by run.
func starts(ctx context.Context, d *sim.Drill, b compare.Batch) (map[int][]sim.Time, error) {
	begun := map[int][]sim.Time{}
	for i := range d.Tasks {
		if d.Tasks[i].CanWait && !d.Tasks[i].Unloads() {
			begun[i] = make([]sim.Time, b.Runs)
		}
	}
	if len(begun) == 0 {
		return begun, nil
	}
	w, r := fast.Compile(d).Worker(), fast.Result{}
	for run := range b.Runs {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		w.Run(b.Seed, run, &r)
		for task := range begun {
			begun[task][run] = r.Start[task]
		}
	}
	return begun, nil
}
