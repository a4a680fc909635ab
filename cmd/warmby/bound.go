package main

import (
	"slices"

	"warmby/sim"
	"warmby/sim/heat"
)

// quickChance is the chance with which a length or arrival falls below what
// [soonest] takes it for.
const quickChance = 0.001

// soonest returns for each task of a drill a moment before which it cannot
// end, under any order: every length as short as one in a thousand, every crew
// as large and quick as can be, nothing slowed, no walk, no mishap, nobody and
// nothing ever waited for, but for what the task comes after and what it
// needs. Tasks in a circle of after get 0.
func soonest(d *sim.Drill) []sim.Time {
	b := bound{d: d, start: make([]sim.Time, len(d.Tasks)), end: make([]sim.Time, len(d.Tasks)), seen: make([]bool, len(d.Tasks))}
	for i := range d.Tasks {
		b.visit(i)
	}
	return b.end
}

type bound struct {
	d          *sim.Drill
	start, end []sim.Time
	seen       []bool
}

func (b *bound) visit(i int) {
	if b.seen[i] {
		return
	}
	b.seen[i] = true
	t := &b.d.Tasks[i]
	from := sim.Time(0)
	after := func(task int, fromStart bool, lag sim.Time) {
		b.visit(task)
		at := b.end[task]
		if fromStart {
			at = b.start[task]
		}
		from = max(from, later(at, lag))
	}
	for _, a := range t.After {
		after(a.Task, a.FromStart, a.Lag)
	}
	for _, item := range t.Needs {
		after(item, false, 0) // the unloading of item i is task i
	}
	if t.Unloads() {
		load := b.d.Items[i].Load
		if law := b.d.Loads[load].Arrives; law != nil {
			from = max(from, sim.Milliseconds(law.Quantile(quickChance)))
		}
		if i > 0 && b.d.Items[i-1].Load == load {
			after(i-1, false, 0)
		}
	}
	b.start[i], b.end[i] = from, later(from, shortest(b.d, i))
}

// later adds a length to a moment; what comes after Never does not come.
func later(at, length sim.Time) sim.Time {
	if at == sim.Never || length == sim.Never {
		return sim.Never
	}
	return at + length
}

// shortest returns a length that a task does not fall below.
func shortest(d *sim.Drill, task int) sim.Time {
	t := &d.Tasks[task]
	switch t.Kind {
	case sim.Melt:
		return heat.Melt(&d.Site, &d.Stoves[t.Melt.Stove], t.Melt).Time
	case sim.Warm:
		return shortestWarmup(d, task)
	}
	quick := t.Amount.Quantile(quickChance)
	if t.Kind == sim.Work && d.Day != nil {
		quick *= d.Day.Quantile(quickChance)
	}
	length := sim.Milliseconds(quick)
	if !t.Worked() {
		return length
	}
	return t.Work(length).Takes(bestRate(d, t))
}

// bestRate returns the highest rate of any crew of a task.
func bestRate(d *sim.Drill, t *sim.Task) int64 {
	slowed := int64(1000)
	for w := range max(1, len(d.Weather)) {
		for _, step := range d.Steps(w) {
			if s := t.Slowed1000(&d.Site, step); w == 0 && step.At == 0 || s < slowed {
				slowed = s
			}
		}
	}
	var paces []int64
	for _, p := range d.People {
		paces = append(paces, p.Pace)
	}
	slices.Sort(paces)
	slices.Reverse(paces)
	_, high := t.CrewBounds()
	best, sum := int64(0), int64(0)
	for n := 1; n <= min(high, len(paces)); n++ {
		sum += paces[n-1]
		best = max(best, sim.Rate(n, t.Teamwork, sum, slowed))
	}
	return best
}

// shortestWarmup warms a shelter under the kindest of all weather; 0 when a
// task may make the shelter a better one, for then there is no telling.
func shortestWarmup(d *sim.Drill, task int) sim.Time {
	w := d.Tasks[task].Warm
	for i := range d.Tasks {
		for _, m := range d.Tasks[i].Makes {
			if m.Shelter == w.Shelter {
				return 0
			}
		}
	}
	least := sim.Never
	in := heat.Surroundings{Shelter: d.Shelters[w.Shelter], Power: heat.WarmPower(&d.Stoves[w.Stove], w.People, false)}
	for _, c := range d.Weather {
		for _, row := range c.Rows {
			in.Air = row.Air
			up := heat.Begin(0, in, w.To)
			least = min(least, up.Reaches())
		}
	}
	return least
}
