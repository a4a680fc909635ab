package batch

import (
	"sync"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// programs compiles the drills of a point when its first chunk is played, and
// forgets them after its last, so that many points take no more memory than a
// few.
type programs struct {
	p  *Plan
	mu sync.Mutex
	by map[int]*programSet
}

type programSet struct {
	once   sync.Once
	drills []*sim.Drill
	list   []*fast.Program
	luck   *draw.Sampler // nil unless the plan has a luck of its own
	err    error
}

func (ps *programs) of(point int) (*programSet, error) {
	ps.mu.Lock()
	set := ps.by[point]
	if set == nil {
		set = new(programSet)
		ps.by[point] = set
	}
	ps.mu.Unlock()
	set.once.Do(func() { set.compile(ps.p, point) })
	return set, set.err
}

func (set *programSet) compile(p *Plan, point int) {
	if set.drills, set.err = p.Drills(point); set.err != nil {
		return
	}
	if p.Luck != nil {
		set.luck = draw.NewSampler(set.drills[0])
	}
	for _, d := range set.drills {
		set.list = append(set.list, fast.Compile(d))
	}
}

// forget drops the points before one.
func (ps *programs) forget(before int) {
	ps.mu.Lock()
	defer ps.mu.Unlock()
	for point := range ps.by {
		if point < before {
			delete(ps.by, point)
		}
	}
}
