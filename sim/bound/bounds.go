package bound

import (
	"cmp"
	"math"
	"slices"

	"warmby/sim"
)

// Bounds works out moments before which no milestone of a drill can be reached,
// whatever the order: whoever does what in whichever sequence, in whichever
// groups and with crews as small or large as the tasks allow. It keeps scratch
// space and is not safe for concurrent use.
//
// Four things are looked at, and the latest moment counts. What comes after
// what, with its lags and its loads, takes as long as the longest chain of it,
// each task at the best crew, the best light and the best weather there will
// be. The tasks that a milestone needs are so and so much work for the people,
// for those with any of some skills, for a kind of tool and for a kind of stove,
// and only so many are there. And of such work what cannot begin before some
// moment, or has something behind it that takes its time, adds that moment
// before and that time behind (head, work and tail). And what cannot go on beside
// the longest chain makes it longer (critical sequence).
type Bounds struct {
	d      *sim.Drill
	links  []Link // what comes after what
	order  []int  // tasks, none before one that it comes after
	cases  []lengths
	supply []supply
	aims   []need // by milestone

	length, head, tail, behind []sim.Time
	effort                     []float64 // person-milliseconds
	rows                       []row

	parts   bool   // whether the parts of tasks between two moments are looked at
	apart   []bool // by two tasks: they are never at work at one moment
	cores   []core // of the supply at hand
	chain   []int  // the longest chain of the milestone at hand
	onChain []bool // by task
}

// Link says that task To starts Lag after the end, or the start, of task From.
type Link struct {
	From, To  int
	FromStart bool
	Lag       sim.Time
}

// need is what a milestone needs: tasks that must have begun, and tasks that
// must have ended.
type need struct{ begun, ended []bool }

// row is a task in the reckoning of one supply.
type row struct {
	head, behind, length sim.Time
	work                 float64
	share                float64 // held all the time that it lasts
}

// withAnyGroup returns the drill with crews of everybody as small as a group may
// be: an order may give such a task to any.
func withAnyGroup(d *sim.Drill) *sim.Drill {
	out := *d
	out.Tasks = slices.Clone(d.Tasks)
	for i := range out.Tasks {
		if out.Tasks[i].Everybody {
			out.Tasks[i].Crew = sim.Crew{Min: 1, Max: max(1, len(d.People))}
		}
	}
	return &out
}

// New prepares the bounds of a drill. Tasks in a circle of after are
// refused by [sim.Possible], which must have been asked before.
func New(d *sim.Drill) *Bounds {
	d = withAnyGroup(d)
	n := len(d.Tasks)
	b := &Bounds{d: d, length: make([]sim.Time, n), head: make([]sim.Time, n), tail: make([]sim.Time, n),
		behind: make([]sim.Time, n), effort: make([]float64, n), onChain: make([]bool, n)}
	b.findLinks()
	b.sort()
	for weather := range max(1, len(d.Weather)) {
		b.cases = append(b.cases, lengthsOf(d, weather))
	}
	b.supply = supplies(d)
	b.findApart()
	for i := range d.Milestones {
		b.aims = append(b.aims, b.needOf(d.Milestones[i].When))
	}
	return b
}

func (b *Bounds) findLinks() {
	for i := range b.d.Tasks {
		t := &b.d.Tasks[i]
		for _, a := range t.After {
			b.links = append(b.links, Link{a.Task, i, a.FromStart, a.Lag})
		}
		for _, item := range t.Needs {
			b.links = append(b.links, Link{item, i, false, 0}) // the unloading of item i is task i
		}
		if above := t.Item - 1; above >= 0 && b.d.Items[above].Load == b.d.Items[t.Item].Load {
			b.links = append(b.links, Link{above, i, false, 0})
		}
	}
}

// sort puts tasks behind all that they come after, and links likewise.
func (b *Bounds) sort() {
	waits := make([]int, len(b.d.Tasks))
	for _, l := range b.links {
		waits[l.To]++
	}
	for i, n := range waits {
		if n == 0 {
			b.order = append(b.order, i)
		}
	}
	for k := 0; k < len(b.order); k++ {
		for _, l := range b.links {
			if l.From == b.order[k] {
				if waits[l.To]--; waits[l.To] == 0 {
					b.order = append(b.order, l.To)
				}
			}
		}
	}
	place := make([]int, len(b.d.Tasks))
	for k, i := range b.order {
		place[i] = k
	}
	slices.SortStableFunc(b.links, func(x, y Link) int { return cmp.Compare(place[x.From], place[y.From]) })
}

// needOf returns what must have begun, and ended, once some tasks have ended.
func (b *Bounds) needOf(when []int) need {
	n := need{make([]bool, len(b.d.Tasks)), make([]bool, len(b.d.Tasks))}
	for _, i := range when {
		n.begun[i], n.ended[i] = true, true
	}
	for k := len(b.links) - 1; k >= 0; k-- { // by falling place of from
		if l := b.links[k]; n.begun[l.To] {
			n.begun[l.From] = true
			n.ended[l.From] = n.ended[l.From] || !l.FromStart
		}
	}
	return n
}

// Of returns for each milestone the moment before which it cannot be reached
// with a luck, under any order; sim.Never for one that cannot be reached at all.
// The result is written to out, which is returned.
func (b *Bounds) Of(luck *sim.Luck, out []sim.Time) []sim.Time {
	b.measure(luck)
	out = out[:0]
	for m := range b.aims {
		out = append(out, b.milestone(m))
	}
	return out
}

// Sharp is Of with a closer look: at what has to be at work between any two moments, be
// it in part (energetic reasoning), and at whether the moment found can be kept at all,
// and the next (destructive improvement). It takes some ten times as long, and a hundred
// times where the second look finds more: it is meant for one luck, not for thousands.
// It is never less than Of.
func (b *Bounds) Sharp(luck *sim.Luck, out []sim.Time) []sim.Time {
	b.parts = true
	defer func() { b.parts = false }()
	return b.Of(luck, out)
}

// Links returns what comes after what, by rising place of From in an order in
// which no task stands before one that it comes after. It must not be changed.
func (b *Bounds) Links() []Link { return b.links }

// Begun tells for each task whether it must have begun before a milestone is
// reached. It must not be changed.
func (b *Bounds) Begun(milestone int) []bool { return b.aims[milestone].begun }

// Chains is how long the tasks of a drill and what comes after them take at
// least, by task.
type Chains struct {
	Length []sim.Time
	Tail   []sim.Time // from its start to the milestone
	Behind []sim.Time // from its end to the milestone
}

// Chains returns the chains to a milestone with a luck. They hold until the
// bounds are asked again.
func (b *Bounds) Chains(luck *sim.Luck, milestone int) Chains {
	b.measure(luck)
	b.milestone(milestone)
	return Chains{b.length, b.tail, b.behind}
}

// measure works out lengths, efforts and heads.
func (b *Bounds) measure(luck *sim.Luck) {
	c := b.lengths(luck)
	for i := range b.d.Tasks {
		b.length[i], b.effort[i] = c.of(&b.d.Tasks[i], i, luck)
	}
	for i := range b.d.Tasks {
		b.head[i] = c.release(b.d, i, luck)
	}
	b.forward()
}

// forward puts the head of each task behind all that it comes after.
func (b *Bounds) forward() {
	for _, l := range b.links { // by rising place of from: its head is settled
		at := b.head[l.From]
		if !l.FromStart {
			at = later(at, b.length[l.From])
		}
		b.head[l.To] = max(b.head[l.To], later(at, l.Lag))
	}
}

// backward puts the tail of each task before all that comes after it.
func (b *Bounds) backward(n *need) {
	for k := len(b.links) - 1; k >= 0; k-- { // the tail of to is settled
		l := b.links[k]
		if !n.begun[l.To] {
			continue
		}
		rest := later(l.Lag, b.tail[l.To])
		if l.FromStart {
			b.tail[l.From] = max(b.tail[l.From], rest)
			continue
		}
		b.behind[l.From] = max(b.behind[l.From], rest)
		b.tail[l.From] = max(b.tail[l.From], later(b.length[l.From], rest))
	}
}

// lengths returns how quickly tasks can be done with a luck.
func (b *Bounds) lengths(luck *sim.Luck) *lengths {
	weather := min(luck.Weather, len(b.cases)-1)
	if luck.Pace == nil {
		return &b.cases[weather]
	}
	d := *b.d
	d.People = slices.Clone(d.People)
	for i, pace := range luck.Pace {
		d.People[i].Pace = pace
	}
	c := lengthsOf(&d, weather)
	return &c
}

// later adds a length to a moment; what comes after Never does not come.
func later(at, length sim.Time) sim.Time {
	if at == sim.Never || length == sim.Never {
		return sim.Never
	}
	return at + length
}

func (b *Bounds) milestone(m int) sim.Time {
	n := &b.aims[m]
	longest := sim.Time(0)
	for i := range b.tail {
		b.tail[i], b.behind[i] = 0, 0
		if n.ended[i] {
			b.tail[i] = b.length[i]
		}
	}
	b.backward(n)
	for i := range b.tail {
		if n.begun[i] {
			longest = max(longest, later(b.head[i], b.tail[i]))
		}
	}
	if longest == sim.Never {
		return longest
	}
	longest = b.supplied(n, b.sequence(n, longest))
	if b.parts {
		longest = b.refute(n, longest)
	}
	return longest
}

// supplied returns how late a milestone is at least, given that it is no sooner than some
// moment, for the work that there is for each supply.
func (b *Bounds) supplied(n *need, longest sim.Time) sim.Time {
	for k := range b.supply {
		s := &b.supply[k]
		b.rows = b.rows[:0]
		for _, u := range s.users {
			if n.ended[u.task] {
				work := u.share * float64(b.length[u.task])
				if u.byEffort {
					work = max(work, b.effort[u.task])
				}
				b.rows = append(b.rows, row{b.head[u.task], b.behind[u.task], b.length[u.task], work, u.share})
			}
		}
		longest = max(longest, b.busy(float64(s.there), longest))
		if b.parts {
			longest = max(longest, b.between(float64(s.there), longest))
		}
	}
	return longest
}

// busy returns how long what is there in some number is busy at least with the
// rows: for any moment and any length, those that begin no sooner than the one
// and have no less than the other behind them.
func (b *Bounds) busy(there float64, least sim.Time) sim.Time {
	slices.SortFunc(b.rows, func(x, y row) int { return cmp.Compare(y.behind, x.behind) })
	sum := 0.0
	for k := range b.rows {
		sum += b.rows[k].work
	}
	for k := range b.rows {
		from, work := b.rows[k].head, 0.0
		if from+sim.Time(sum/there) <= least-b.rows[0].behind {
			continue // even all of it, with the most behind it, says no more
		}
		for _, r := range b.rows {
			if r.head < from || r.work == 0 {
				continue
			}
			work += r.work
			// Sums are of numbers far below 2^53; what a division loses is less
			// than the millionth of a millisecond taken off.
			least = max(least, from+sim.Time(math.Ceil(work/there-1e-6))+r.behind)
		}
	}
	return least
}

// between is busy with what is at work between two moments in part only: the first is
// some row's head, the second as long before the milestone as some row has behind it.
// Wherever a row lies, so much of it lies between them as it would if it began at its
// head, or ended at the last, or the time between them (energetic reasoning: J. Erschler,
// P. Lopez and C. Thuriot, Revue d'intelligence artificielle 5 (1991), 7-32).
func (b *Bounds) between(there float64, least sim.Time) sim.Time {
	whole := 0.0
	for _, r := range b.rows {
		whole += r.work
	}
	says := func(work float64, from, behind sim.Time) bool { return work > there*float64(least-behind-from) }
	for k, r := range b.rows {
		from := r.head
		if !says(whole, from, b.rows[0].behind) || slices.ContainsFunc(b.rows[:k], func(o row) bool { return o.head == from }) {
			continue
		}
		after := b.part(from, 0, sim.Horizon)
		for i := range b.rows { // by falling behind
			behind := b.rows[i].behind
			time := least - behind - from
			if !says(after, from, behind) {
				break // what has less behind it says less
			}
			if i > 0 && behind == b.rows[i-1].behind || time <= 0 {
				continue
			}
			if work := b.part(from, behind, time); says(work, from, behind) {
				least = max(least, from+sim.Time(math.Ceil(work/there-1e-6))+behind)
			}
		}
	}
	return least
}

// part returns how much work of all rows is done between two moments at least.
func (b *Bounds) part(from, behind, time sim.Time) (work float64) {
	for _, r := range b.rows {
		work += r.part(from, behind, time)
	}
	return work
}

// part returns how much work of a row is done at least between a moment and one so
// long before the milestone, with so much time between them.
func (r row) part(from, behind, time sim.Time) float64 {
	if r.head >= from && r.behind >= behind {
		return r.work
	}
	return r.share * float64(max(0, min(r.length, r.head+r.length-from, r.length+r.behind-behind, time)))
}
