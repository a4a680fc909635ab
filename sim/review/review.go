package review

import (
	"cmp"
	"slices"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/fit"
	"warmby/sim/timed"
)

// Review is what is to be said of one drill.
type Review struct {
	Evening timed.Evening
	// Plan is the evening with the lengths foretold, AsTimed that with those of
	// the log.
	Plan, AsTimed *sim.Timeline
	Milestones    []Milestone
	Over          []Over   // what cost most first; in file order where nothing did
	Waits         []Wait   // longest first
	Idle          []Idle   // in roster order
	Orders        []Other  // as the scenario has them
	Changes       []Change // two at most, what gains most first
	// NotDone holds the tasks that the log does not have, and Off those whose
	// times the scenario cannot play: by it they could not have begun before they
	// ended.
	NotDone, Off []int
}

// Milestone is one milestone of the drill.
type Milestone struct {
	Milestone int
	Came      sim.Time // by the log; Never when it was not reached or not timed
	Played    sim.Time // by the replay
	Usual     sim.Time // the middle of what was foretold
	Low, High sim.Time // foretold to lie between with 8 in 10
}

// Over is a task whose length was another than foretold.
type Over struct {
	Task        int
	Took, Usual sim.Time   // from start to end, in the replay and as it would have been
	Milestones  []sim.Time // how much later it made each milestone; negative is sooner
	Cost        sim.Time   // of them that count: see aims
}

// Wait is how long a task stood ready for what was short.
type Wait struct {
	Task   int
	For    sim.Time
	Reason sim.Reason
}

// Idle is how long somebody had nothing to do before the drill ended, and waited
// at a task for others.
type Idle struct {
	Person      int
	Free, Ready sim.Time
}

// Other is an order with the works as timed.
type Other struct {
	Order      string
	Milestones []sim.Time
	Played     bool     // it is the order that was followed
	Gain       sim.Time // of the milestones that count, against the order followed
}

// ChangeKind is a kind of change.
type ChangeKind int

// The kinds of change.
const (
	TakeOrder  ChangeKind = iota // another order
	Shorten                      // a task that ran over: drill it, or help it
	Supply                       // what a task stood waiting for
	PlanLonger                   // a task ran over and cost nothing: plan with more
)

// Change is something worth changing.
type Change struct {
	Kind  ChangeKind
	Task  int // -1 for an order
	Order string
	Gain  sim.Time
	Why   sim.Reason // of Supply
}

// Given is what a review is made of.
type Given struct {
	Evening timed.Evening
	// Orders are all orders of the scenario under the conditions of the evening.
	Orders []*sim.Drill
	// Expect is the luck that was foretold; nil is what is usual by the file.
	Expect *sim.Luck
	// Range is when milestones were foretold; nil is by the file.
	Range *fit.Foretold
}

// rangeRuns is how many runs the file's range of milestones is made of.
const rangeRuns = 1000

// Of reviews an evening.
func Of(g Given) *Review {
	d := g.Evening.Drill
	if g.Expect == nil {
		g.Expect = draw.Usual(d)
	}
	if g.Range == nil {
		g.Range = fit.ByFile(d, rangeRuns, 1)
	}
	played := fit.Replay(g.Evening, g.Expect)
	w := &work{given: g, played: played, r: &Review{Evening: g.Evening, AsTimed: played.Timeline}}
	w.r.Plan = timeline(d, g.Expect)
	w.undone()
	w.milestones()
	w.over()
	w.waits()
	w.idle()
	w.orders()
	w.changes()
	return w.r
}

// work is a review under way.
type work struct {
	given  Given
	played *fit.Replayed
	r      *Review
}

func timeline(d *sim.Drill, l *sim.Luck) *sim.Timeline {
	return fast.Compile(d).Worker().Timeline(l)
}

func (w *work) undone() {
	t := w.given.Evening.Timed
	for i := range w.given.Evening.Drill.Tasks {
		if _, ok := t.Job(i); !ok {
			w.r.NotDone = append(w.r.NotDone, i)
		}
	}
	for _, k := range w.played.Off {
		w.r.Off = append(w.r.Off, t.Jobs[k].Task)
	}
}

func (w *work) milestones() {
	d := w.given.Evening.Drill
	for m := range d.Milestones {
		one := Milestone{Milestone: m, Came: sim.Never, Played: w.r.AsTimed.Milestones[m]}
		if at, known := w.given.Evening.Timed.Milestone(d, m); known {
			one.Came = at
		}
		told := w.given.Range.Milestones[m]
		n := int64(len(told))
		one.Low, one.Usual, one.High = told.At(max(1, n/10)), told.At(max(1, n/2)), told.At(n-n/10)
		w.r.Milestones = append(w.r.Milestones, one)
	}
}

// aims returns the milestones that count: those with a target, else all but
// finish, else finish.
func aims(d *sim.Drill) []int {
	var targets, named []int
	for m := range d.Milestones {
		if d.Milestones[m].By != sim.Never {
			targets = append(targets, m)
		}
		if m < len(d.Milestones)-1 {
			named = append(named, m)
		}
	}
	switch {
	case len(targets) > 0:
		return targets
	case len(named) > 0:
		return named
	}
	return []int{len(d.Milestones) - 1}
}

// later returns by how much milestones of one timeline are later than of
// another: each, and those that count on average.
func later(d *sim.Drill, a, b []sim.Time) (each []sim.Time, mean sim.Time) {
	for m := range a {
		each = append(each, min(a[m], sim.Horizon)-min(b[m], sim.Horizon))
	}
	of := aims(d)
	for _, m := range of {
		mean += each[m]
	}
	return each, mean / sim.Time(len(of))
}

// over plays the evening again for each task that was timed, with that task as
// foretold and all else as it was.
func (w *work) over() {
	d, worker := w.given.Evening.Drill, fast.Compile(w.played.Drill).Worker()
	for _, j := range w.given.Evening.Timed.Jobs {
		luck := *w.played.Luck
		luck.Amount, luck.Mishap = slices.Clone(luck.Amount), slices.Clone(luck.Mishap)
		luck.MishapThen = nil // an evening that was timed met what it met
		luck.Amount[j.Task], luck.Mishap[j.Task] = w.given.Expect.Amount[j.Task], w.given.Expect.Mishap[j.Task]
		if k := d.Tasks[j.Task].Kind; k == sim.Melt || k == sim.Warm { // its stove may burn hotter here than foretold
			t := w.r.AsTimed.Tasks[j.Task]
			luck.Mishap[j.Task] = max(0, length(w.r.Plan.Tasks[j.Task])-(t.Worked-t.Start))
		}
		tl := worker.Timeline(&luck)
		o := Over{Task: j.Task, Took: length(w.r.AsTimed.Tasks[j.Task]), Usual: length(tl.Tasks[j.Task])}
		o.Milestones, o.Cost = later(d, w.r.AsTimed.Milestones, tl.Milestones)
		w.r.Over = append(w.r.Over, o)
	}
	slices.SortStableFunc(w.r.Over, func(a, b Over) int { return cmp.Compare(b.Cost, a.Cost) })
}

func length(t sim.TaskTimes) sim.Time {
	if t.End == sim.Never {
		return 0
	}
	return t.End - t.Start
}

// leastWait is from when on waiting is worth a line.
const leastWait = 2 * sim.Minute

// waits goes through what decided each milestone that counts and gathers what
// stood ready and had to wait for people, tools, stoves or its turn.
func (w *work) waits() {
	seen := map[int]bool{}
	for _, m := range aims(w.given.Evening.Drill) {
		for _, link := range w.r.AsTimed.HeldUp(m) {
			long := link.Why.At - link.Why.Ready
			if !short(link.Why.Kind) || long < leastWait || seen[link.Task] {
				continue
			}
			seen[link.Task] = true
			w.r.Waits = append(w.r.Waits, Wait{link.Task, long, link.Why})
		}
	}
	slices.SortStableFunc(w.r.Waits, func(a, b Wait) int { return cmp.Compare(b.For, a.For) })
}

// short reports whether a reason is that something was short.
func short(k sim.ReasonKind) bool {
	return k == sim.ToolShort || k == sim.StoveShort || k == sim.PeopleShort || k == sim.BehindInTurn || k == sim.NotLent
}

func (w *work) idle() {
	for who, stretches := range w.r.AsTimed.People {
		one := Idle{Person: who}
		for _, s := range stretches {
			switch s.What {
			case sim.Free:
				one.Free += s.To - s.From
			case sim.Ready:
				one.Ready += s.To - s.From
			}
		}
		w.r.Idle = append(w.r.Idle, one)
	}
}

// orders plays the other orders with the works as timed.
func (w *work) orders() {
	own := w.given.Evening.Drill
	for _, d := range w.given.Orders {
		hot := *d
		hot.Stoves = w.played.Drill.Stoves
		tl := timeline(&hot, w.played.Luck)
		o := Other{Order: d.Order, Milestones: slices.Clone(tl.Milestones), Played: d.Order == own.Order}
		_, o.Gain = later(own, w.r.AsTimed.Milestones, tl.Milestones)
		w.r.Orders = append(w.r.Orders, o)
	}
}

// worthIt is what a change must gain, on average over the milestones that count.
const worthIt = sim.Minute

// changes picks two things to change: an order or a task by what they gain, then
// what was waited for longest, then what to plan longer.
func (w *work) changes() {
	var all []Change
	best := Change{Kind: TakeOrder, Task: -1}
	for _, o := range w.r.Orders {
		if !o.Played && o.Gain > best.Gain {
			best.Order, best.Gain = o.Order, o.Gain
		}
	}
	all = append(all, best)
	for _, o := range w.r.Over {
		all = append(all, Change{Kind: Shorten, Task: o.Task, Gain: o.Cost})
	}
	all = slices.DeleteFunc(all, func(c Change) bool { return c.Gain < worthIt })
	slices.SortStableFunc(all, func(a, b Change) int { return cmp.Compare(b.Gain, a.Gain) })
	for _, x := range w.r.Waits { // what they would gain is not known, so they come after
		all = append(all, Change{Kind: Supply, Task: x.Task, Gain: x.For, Why: x.Reason})
	}
	w.r.Changes = all[:min(2, len(all))]
	longest := slices.Clone(w.r.Over)
	slices.SortStableFunc(longest, func(a, b Over) int { return cmp.Compare(b.Took-b.Usual, a.Took-a.Usual) })
	for _, o := range longest {
		named := slices.ContainsFunc(w.r.Changes, func(c Change) bool { return c.Task == o.Task })
		if len(w.r.Changes) < 2 && !named && o.Took-o.Usual >= 2*sim.Minute {
			w.r.Changes = append(w.r.Changes, Change{Kind: PlanLonger, Task: o.Task, Gain: o.Took - o.Usual})
		}
	}
}
