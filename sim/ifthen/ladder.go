package ifthen

import (
	"context"
	"slices"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/stats"
)

// ladder returns the line of one trouble: from which size on another order is
// better, and so at every size above it; else from which on something is lost.
func (w *work) ladder(ctx context.Context, l Ladder, rungs [][]*compare.Played) (Line, bool, error) {
	from, take, err := w.takingFrom(ctx, l, rungs)
	if err != nil {
		return Line{}, false, err
	}
	for k, rung := range rungs {
		if stuck(rung) {
			break
		}
		if k == from {
			return w.taking(l, l.Rungs[from], rung, take), true, nil
		}
		if _, ok := w.losing(l, l.Rungs[k], rung); !ok {
			continue
		}
		if err := w.fully(ctx, rung, w.Chosen); err != nil {
			return Line{}, false, err
		}
		if line, ok := w.losing(l, l.Rungs[k], rung); ok {
			return line, true, nil
		}
	}
	return w.atLast(ctx, l, rungs)
}

// stuck reports whether no order can be finished.
func stuck(rung []*compare.Played) bool {
	return !slices.ContainsFunc(rung, func(p *compare.Played) bool { return p != nil && !hopeless(p) })
}

// takingFrom returns the rung from which on one other order is better, and which;
// -1 for none. Who is hurt is so in the middle of an order: another counts only
// where it has been the same until then.
func (w *work) takingFrom(ctx context.Context, l Ladder, rungs [][]*compare.Played) (from, take int, err error) {
	from, take = -1, -1
	for k := len(rungs) - 1; k >= 0; k-- {
		other := w.better(rungs[k])
		if other < 0 || take >= 0 && other != take {
			break
		}
		if l.Kind == Down && alike(rungs[k][other].Drill, rungs[k][w.Chosen].Drill) < l.Rungs[k].Size {
			break
		}
		from, take = k, other
	}
	for ; from >= 0 && from < len(rungs); from++ {
		if err := w.fully(ctx, rungs[from], w.Chosen, take); err != nil {
			return -1, -1, err
		}
		if _, _, ok := w.gain(rungs[from], take); ok {
			return from, take, nil
		}
	}
	return -1, -1, nil
}

// atLast is the line of a trouble in which no order can be finished, else of the
// largest: what comes later.
func (w *work) atLast(ctx context.Context, l Ladder, rungs [][]*compare.Played) (Line, bool, error) {
	last := len(rungs) - 1
	if last < 0 || w.Chosen >= len(rungs[last]) {
		return Line{}, false, nil
	}
	for k, rung := range rungs {
		if stuck(rung) {
			line := lineOf(l, l.Rungs[k])
			line.Take, line.Never = w.Chosen, slices.ContainsFunc(l.Rungs[k].Drills, func(d *sim.Drill) bool { return d != nil })
			return line, line.Never, nil
		}
	}
	if err := w.fully(ctx, rungs[last], w.Chosen); err != nil {
		return Line{}, false, err
	}
	line, ok := w.slower(l, l.Rungs[last], rungs[last])
	return line, ok, nil
}

func lineOf(l Ladder, r Rung) Line {
	return Line{Kind: l.Kind, Names: []string{l.Name}, Size: r.Size, Wind: r.Wind, Usual: sim.Never, Else: sim.Never}
}

// better returns the order that is better than the chosen one in a trouble, -1 for
// none: of several the one with most gained.
func (w *work) better(rung []*compare.Played) int {
	best, most := -1, 0.0
	for o := range rung {
		if _, gain, ok := w.gain(rung, o); ok && gain > most {
			best, most = o, gain
		}
	}
	return best
}

// gain says at which target, and by how much, an order gains on the chosen one in a
// trouble: clearly at all of them together, or at one that it then mostly meets and
// with none clearly lost; and by more than without the trouble.
func (w *work) gain(rung []*compare.Played, order int) (milestone int, gain float64, ok bool) {
	a, chosen := rung[order], rung[w.Chosen]
	if order == w.Chosen || a == nil || chosen == nil || w.base[order] == nil {
		return 0, 0, false
	}
	before := w.base[w.Chosen]
	for _, m := range append([]int{all}, targets(chosen.Drill)...) {
		p := held(a, chosen, m, nil)
		more := p.gain() - max(0, held(w.base[order], before, m, nil).gain())
		if !p.better() || more < least || more <= gain || m != all && float64(p.a) < float64(p.runs)/2 {
			continue
		}
		milestone, gain, ok = m, more, true
		if m == all {
			return milestone, gain, true
		}
	}
	if ok && slices.ContainsFunc(targets(chosen.Drill), func(m int) bool { return held(chosen, a, m, nil).better() }) {
		return 0, 0, false
	}
	return milestone, gain, ok
}

// taking is a line that takes another order.
func (w *work) taking(l Ladder, r Rung, rung []*compare.Played, take int) Line {
	line := lineOf(l, r)
	line.Take = take
	line.Milestone, _, _ = w.gain(rung, take)
	line.With, line.Without = held(rung[take], rung[w.Chosen], line.Milestone, nil).shares()
	line.Alike = alike(rung[take].Drill, rung[w.Chosen].Drill)
	return line
}

// losing is a line that keeps the chosen order and says which target is lost: one
// met in most runs without the trouble, and in few with it.
func (w *work) losing(l Ladder, r Rung, rung []*compare.Played) (Line, bool) {
	line := lineOf(l, r)
	line.Take = w.Chosen
	chosen, before := rung[w.Chosen], w.base[w.Chosen]
	if chosen == nil {
		return line, false
	}
	most := 0.25
	found := false
	for _, m := range targets(before.Drill) {
		p := held(before, chosen, m, nil)
		with, without := stats.ShareOf(p.b, p.runs), stats.ShareOf(p.a, p.runs)
		low, high := without.Low, with.High
		if p.runs <= screen {
			low, high = without.Value, with.Value
		}
		if low < 0.5 || high > 0.5 || p.gain() <= most {
			continue
		}
		most, found = p.gain(), true
		line.Milestone, line.With, line.Without = m, &with, &without
	}
	return line, found
}

// leastLater is by how much a milestone must come later to be told.
const leastLater = 3 * sim.Minute

// slower is a line that keeps the chosen order and says what comes later.
func (w *work) slower(l Ladder, r Rung, rung []*compare.Played) (Line, bool) {
	line := lineOf(l, r)
	line.Take = w.Chosen
	chosen, before := rung[w.Chosen], w.base[w.Chosen]
	if chosen == nil {
		return line, false
	}
	later := leastLater - 1
	for m := range before.Drill.Milestones {
		diff := compare.DifferenceAt(chosen, before, m)
		usual, other := median(chosen.Times[m]), median(before.Times[m])
		if usual == sim.Never || other == sim.Never || diff.Ahead() != 1 || usual-other <= later {
			continue
		}
		later, line.Milestone, line.Usual, line.Else = usual-other, m, usual, other
	}
	return line, later >= leastLater
}

func median(times []sim.Time) sim.Time { return stats.QuantileOf(stats.SortedOf(times), 0.5).Value }

// alike returns until when two drills call the same people to the same tasks, with
// usual values.
func alike(a, b *sim.Drill) sim.Time {
	x, y := usually(a), usually(b)
	if x == nil || y == nil {
		return 0
	}
	first := min(x.End, y.End)
	for i := range x.Tasks {
		p, q := x.Tasks[i], y.Tasks[i]
		if p.Called != q.Called {
			first = min(first, p.Called, q.Called)
		} else if p.Start != q.Start || !slices.Equal(p.People, q.People) {
			first = min(first, p.Called)
		}
	}
	return first
}

func usually(d *sim.Drill) *sim.Timeline {
	tl := fast.Compile(d).Worker().Timeline(draw.Usual(d))
	if tl.Stops != nil {
		return nil
	}
	return tl
}

// merged puts lines on people together that say the same: the same order to take,
// the same target lost, the same later. The gravest is said. What-ifs that are one
// of the other troubles are left out.
func merged(lines []Line) (out []Line) {
	for _, l := range lines {
		if l.Kind == WhatIf && slices.ContainsFunc(out, func(o Line) bool { return sameRuns(o, l) }) {
			continue
		}
		k := slices.IndexFunc(out, func(o Line) bool { return sameAdvice(o, l) })
		if k < 0 {
			out = append(out, l)
			continue
		}
		names := append(out[k].Names, l.Names...)
		if graver(l, out[k]) {
			out[k] = l
		}
		out[k].Names = names
	}
	return out
}

// sameRuns reports whether a what-if is one of the troubles before it by another
// name.
func sameRuns(a, b Line) bool {
	if a.Take != b.Take || a.Milestone != b.Milestone || a.Usual != b.Usual || a.Never != b.Never || (a.With == nil) != (b.With == nil) {
		return false
	}
	return a.With == nil || a.With.Count == b.With.Count && a.Without.Count == b.Without.Count
}

func sameAdvice(a, b Line) bool {
	if a.Never && b.Never {
		return a.Kind == Down && b.Kind == Down
	}
	if a.Kind != Down || b.Kind != Down || a.Take != b.Take || a.Never != b.Never || a.Milestone != b.Milestone || (a.With == nil) != (b.With == nil) {
		return false
	}
	const close, closeShare = 5 * sim.Minute, 0.08
	if a.With == nil {
		return a.Usual-b.Usual <= close && b.Usual-a.Usual <= close
	}
	return a.With.Value-b.With.Value <= closeShare && b.With.Value-a.With.Value <= closeShare
}

func graver(a, b Line) bool {
	if a.With == nil {
		return a.Usual > b.Usual
	}
	return a.With.Value < b.With.Value
}
