package batch

import "sync"

// PerPoint makes one thing for each point when it is first asked for, and keeps it
// until the point is forgotten, so that many points take no more memory than a few.
// Several goroutines may ask.
type PerPoint[T any] struct {
	// Make makes the thing of a point.
	Make func(point int) (T, error)

	mu sync.Mutex
	by map[int]func() (T, error)
}

// Of returns what there is for a point.
func (p *PerPoint[T]) Of(point int) (T, error) {
	p.mu.Lock()
	made, there := p.by[point]
	if !there {
		made = sync.OnceValues(func() (T, error) { return p.Make(point) })
		if p.by == nil {
			p.by = map[int]func() (T, error){}
		}
		p.by[point] = made
	}
	p.mu.Unlock()
	return made()
}

// Forget drops what is kept of the points before one.
func (p *PerPoint[T]) Forget(before int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for point := range p.by {
		if point < before {
			delete(p.by, point)
		}
	}
}
