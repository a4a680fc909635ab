package batch

import (
	"errors"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// Chunk is what some runs of one point gave.
type Chunk struct {
	Span
	Orders []OrderRuns
}

// OrderRuns is the part of a chunk that was played under one order.
type OrderRuns struct {
	// Milestones holds when milestones were reached, run by run; sim.Never
	// when they were not. Milestone m of the r-th run of the chunk is at
	// r * number of milestones + m.
	Milestones []sim.Time
	// Start and End hold when work on each task began and when it ended, in
	// the same way; nil unless the plan keeps tasks.
	Start, End []sim.Time
	// Called holds when the crew of each task was called, in the same way, and
	// Critical of which milestones the task is on the critical sequence: bit m
	// for milestone m, of the first 64. Crew holds who was there, [CrewWords] a
	// task. All nil unless the plan keeps tasks.
	Called         []sim.Time
	Critical, Crew []uint64
	// Spent holds how long each person was about each [sim.Activity], person by
	// person; nil unless the plan keeps people.
	Spent []sim.Time
	// Fuel holds what each kind of stove burned; nil unless the plan keeps it.
	Fuel []Burnt
	// Cold holds the account of cold of each person, in roster order, in the
	// same way; nil unless the plan keeps it.
	Cold []Chill
	// Stopped is how many runs came to a stop that no warm-up is to blame for;
	// what they did not reach is sim.Never. FirstStop is the first of them.
	Stopped, FirstStop int
}

// player plays chunks; it belongs to one goroutine.
type player struct {
	p        *Plan
	programs *programs
	point    int
	workers  []*fast.Worker
	drills   []*sim.Drill
	result   fast.Result
	sampler  *draw.Sampler // nil unless the plan has a luck of its own
	luck     sim.Luck

	// For the account of cold:
	meters   []*cold.Meter
	timeline sim.Timeline
	peaks    []cold.Peak
}

func (pl *player) play(s Span) (*Chunk, error) {
	if pl.workers == nil || pl.point != s.Point {
		set, err := pl.programs.of(s.Point)
		if err != nil {
			return nil, err
		}
		pl.point, pl.workers, pl.meters, pl.drills, pl.sampler = s.Point, nil, nil, set.drills, set.luck
		for _, program := range set.list {
			pl.workers = append(pl.workers, program.Worker())
		}
		for i := 0; pl.p.Cold && i < len(set.drills); i++ {
			pl.meters = append(pl.meters, cold.NewMeter(set.drills[i]))
		}
	}
	c := &Chunk{Span: s, Orders: make([]OrderRuns, len(pl.workers))}
	for i := range c.Orders {
		if err := pl.playOrder(s, i, &c.Orders[i]); err != nil {
			return nil, err
		}
	}
	return c, nil
}

func (pl *player) playOrder(s Span, order int, o *OrderRuns) error {
	d, w, r := pl.drills[order], pl.workers[order], &pl.result
	o.Milestones = make([]sim.Time, 0, s.Runs()*len(d.Milestones))
	if pl.p.Tasks {
		o.Start = make([]sim.Time, 0, s.Runs()*len(d.Tasks))
		o.End = make([]sim.Time, 0, s.Runs()*len(d.Tasks))
	}
	if pl.p.Cold {
		o.Cold = make([]Chill, 0, s.Runs()*len(d.People))
	}
	for run := s.From; run < s.To; run++ {
		r.Milestones, r.Start, r.End = r.Milestones[:0], r.Start[:0], r.End[:0]
		if err := pl.run(run, w, r); err != nil {
			var never *sim.NeverError
			if !errors.As(err, &never) {
				return err
			}
			if o.Stopped++; o.Stopped == 1 {
				o.FirstStop = run
			}
		}
		o.Milestones = appendTimes(o.Milestones, r.Milestones, len(d.Milestones))
		if pl.p.Tasks {
			o.Start = appendTimes(o.Start, r.Start, len(d.Tasks))
			o.End = appendTimes(o.End, r.End, len(d.Tasks))
		}
		if pl.p.timelines() {
			pl.tell(o, order, run)
		}
	}
	return nil
}

// tell plays a run of an order once more, with all that people do, and appends
// what the plan keeps of that.
func (pl *player) tell(o *OrderRuns, order, run int) {
	tl, d := &pl.timeline, pl.drills[order]
	tl.Milestones = tl.Milestones[:0]
	err := pl.record(run, pl.workers[order])
	if pl.p.Cold {
		o.Cold = pl.chill(o.Cold, order, err)
	}
	if len(tl.Milestones) == 0 {
		o.tellNothing(pl.p, d)
		return
	}
	if pl.p.Tasks {
		o.tellTasks(tl)
	}
	if pl.p.People {
		o.tellPeople(tl)
	}
	if pl.p.Fuel {
		o.tellFuel(tl)
	}
}

// run plays a run.
func (pl *player) run(run int, w *fast.Worker, r *fast.Result) error {
	if pl.sampler == nil {
		return w.Run(pl.p.Seed, run, r)
	}
	pl.p.Luck(pl.point, run, pl.sampler, &pl.luck)
	return w.Play(&pl.luck, r)
}

// record is run with all that people do.
func (pl *player) record(run int, w *fast.Worker) error {
	if pl.sampler == nil {
		return w.Record(pl.p.Seed, run, &pl.timeline)
	}
	pl.p.Luck(pl.point, run, pl.sampler, &pl.luck)
	return w.Replay(&pl.luck, &pl.timeline)
}

// appendTimes appends n times; a run that stopped before it had any result
// reached nothing.
func appendTimes(to, times []sim.Time, n int) []sim.Time {
	if len(times) == n {
		return append(to, times...)
	}
	for range n {
		to = append(to, sim.Never)
	}
	return to
}
