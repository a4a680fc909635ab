package batch

import (
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
	compiled *PerPoint[*programs]
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
		set, err := pl.compiled.Of(s.Point)
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
		pl.playOrder(s, i, &c.Orders[i])
	}
	return c, nil
}

func (pl *player) playOrder(s Span, order int, o *OrderRuns) {
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
		stopped := false
		if pl.p.timelines() {
			stopped = pl.tell(o, order, run)
		} else {
			pl.run(run, w, r)
			o.Milestones = append(o.Milestones, r.Milestones...)
			stopped = r.Stops != nil
		}
		if stopped {
			if o.Stopped++; o.Stopped == 1 {
				o.FirstStop = run
			}
		}
	}
}

// tell plays a run of an order with all that people do, and appends what the
// plan keeps of that. It reports whether the run came to a stop.
func (pl *player) tell(o *OrderRuns, order, run int) (stopped bool) {
	tl := &pl.timeline
	pl.record(run, pl.workers[order])
	o.Milestones = append(o.Milestones, tl.Milestones...)
	if pl.p.Cold {
		o.Cold = pl.chill(o.Cold, order)
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
	return tl.Stops != nil
}

// run plays a run.
func (pl *player) run(run int, w *fast.Worker, r *fast.Result) {
	if pl.sampler == nil {
		w.Run(pl.p.Seed, run, r)
		return
	}
	pl.p.Luck(pl.point, run, pl.sampler, &pl.luck)
	w.Play(&pl.luck, r)
}

// record is run with all that people do.
func (pl *player) record(run int, w *fast.Worker) {
	if pl.sampler == nil {
		w.Record(pl.p.Seed, run, &pl.timeline)
		return
	}
	pl.p.Luck(pl.point, run, pl.sampler, &pl.luck)
	w.Replay(&pl.luck, &pl.timeline)
}
