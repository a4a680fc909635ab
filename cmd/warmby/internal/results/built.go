package results

import (
	"sync"

	"warmby/sim"
)

// built keeps drills by point, so that those of a point are not built anew to check
// them, to play them and to tell of them. It keeps the first points up to a bound,
// and those after them not at all: points come in sequence, each time from the
// first on.
type built struct {
	mu    sync.Mutex
	by    map[int][]*sim.Drill
	tasks int // of all drills that are kept
}

// mostTasks is how many tasks all drills that are kept may have together: some 60
// MB of memory, 450 points of a scenario of 70 tasks and three orders.
const mostTasks = 100_000

// of returns the drills of a point, as they are kept or as build makes them.
func (b *built) of(point int, build func(point int) ([]*sim.Drill, error)) ([]*sim.Drill, error) {
	b.mu.Lock()
	list, there := b.by[point]
	b.mu.Unlock()
	if there {
		return list, nil
	}
	list, err := build(point)
	if err != nil {
		return nil, err
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if tasks := len(list) * len(list[0].Tasks); b.tasks+tasks <= mostTasks {
		if b.by == nil {
			b.by = map[int][]*sim.Drill{}
		}
		if _, there := b.by[point]; !there {
			b.tasks += tasks
		}
		b.by[point] = list
	}
	return list, nil
}
