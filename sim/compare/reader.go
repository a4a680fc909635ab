package compare

import (
	"sync"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/fast"
)

// readers plays the runs of one drill, on several goroutines.
type readers struct {
	of       reading
	programs []*fast.Program
	ifInTime bool      // see [Batch]
	pool     sync.Pool // of *reader: they learn the weather and the work of the drill as they go
}

func readersOf(of reading, ifInTime bool) *readers {
	return &readers{of: of, programs: of.programs(), ifInTime: ifInTime}
}

func (r *readers) get() *reader {
	if one, ok := r.pool.Get().(*reader); ok {
		return one
	}
	one := &reader{of: r.of, ifInTime: r.ifInTime, meters: make([]*cold.Meter, len(r.of.drills))}
	for _, p := range r.programs {
		one.workers = append(one.workers, p.Worker())
	}
	return one
}

func (r *readers) put(one *reader) { r.pool.Put(one) }

// reader plays runs of a drill, each as the reading that it is played as. It
// belongs to one goroutine at a time.
type reader struct {
	of       reading
	ifInTime bool
	workers  []*fast.Worker // by reading
	meters   []*cold.Meter  // by reading; nil until it is asked for
	result   fast.Result
	timeline sim.Timeline
	peaks    []cold.Peak
}

// run plays a run. It returns when each milestone was reached, until the next is
// played, and whether it came to a stop.
func (r *reader) run(seed uint64, run int) (at []sim.Time, stopped bool) {
	r.workers[r.of.of(run)].Run(seed, run, &r.result)
	return r.result.Milestones, r.result.Stops != nil
}

// record is run with the account of cold.
func (r *reader) record(seed uint64, run int, c *chill) (at []sim.Time, stopped bool) {
	k := r.of.of(run)
	if r.meters[k] == nil {
		r.meters[k] = cold.NewMeter(r.of.drills[k])
	}
	r.workers[k].Record(seed, run, &r.timeline)
	r.peaks = r.peaks[:0]
	if !r.ifInTime || allMet(r.of.drills[k], r.timeline.Milestones) {
		r.peaks = r.meters[k].Peaks(&r.timeline, r.peaks)
	}
	*c = chillOf(r.peaks)
	return r.timeline.Milestones, r.timeline.Stops != nil
}
