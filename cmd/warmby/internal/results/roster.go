package results

import (
	"sync"

	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/draw"
)

// roster is who and what there is at a point: people in roster order, tasks,
// of which those that each does for himself are as many as there are people,
// stoves, and what is drawn. It is the same under all orders.
type roster struct {
	people, tasks []string
	stoves        []sim.Stove
	sampler       *draw.Sampler
	factors       []draw.Factor
}

// rosters knows the roster of each point: the team may be what is varied. It is
// asked from several goroutines.
type rosters struct {
	drills func(point int) ([]*sim.Drill, error)
	mu     sync.Mutex
	by     map[int]*roster
}

// of returns the roster of a point.
func (r *rosters) of(point int) (*roster, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if there, ok := r.by[point]; ok {
		return there, nil
	}
	drills, err := r.drills(point)
	if err != nil {
		return nil, err
	}
	d := drills[0]
	there := &roster{stoves: d.Stoves, sampler: draw.NewSampler(d)}
	there.factors = there.sampler.Factors(d)
	for i := range d.People {
		there.people = append(there.people, d.People[i].Name)
	}
	for i := range d.Tasks {
		there.tasks = append(there.tasks, d.Tasks[i].Name)
	}
	if r.by == nil {
		r.by = map[int]*roster{}
	}
	r.by[point] = there
	return there, nil
}

// there is of, for a chunk that fits the batch: Results.fits has asked before.
func (r *rosters) there(c *batch.Chunk) *roster {
	there, err := r.of(c.Point)
	if err != nil {
		panic("a roster that was there is gone: " + err.Error())
	}
	return there
}

// forget drops the points before one, which are not asked for again.
func (r *rosters) forget(before int) {
	r.mu.Lock()
	defer r.mu.Unlock()
	for point := range r.by {
		if point < before {
			delete(r.by, point)
		}
	}
}
