package batch

import (
	"context"
	"sync"
	"sync/atomic"
)

// ahead is how many jobs for each worker may be under way or wait for one
// before them.
const ahead = 16

// InOrder does jobs 0 to n - 1 on some workers and hands their results over in
// order, from the calling goroutine: as many at a time as are ready. Each
// worker does its jobs with a function of its own that begin returns. At most a
// few results for each worker are held back.
//
// It ends at the first error of take, at that of the first job that has one
// once all before it are handed over, or when the context is done.
func InOrder[T any](ctx context.Context, workers, n int, begin func() func(job int) (T, error), take func(ready []T) error) error {
	inner, stop := context.WithCancel(ctx)
	workers = max(1, min(workers, n))
	p := &pool[T]{jobs: n, room: make(chan struct{}, ahead*workers), results: make(chan result[T], ahead*workers)}
	var wait sync.WaitGroup
	defer wait.Wait()
	defer stop()
	for range workers {
		wait.Go(func() { p.work(inner, begin()) })
	}
	waiting := line[T]{at: map[int]result[T]{}}
	for waiting.next < n {
		if err := p.collect(ctx, waiting.at); err != nil {
			return err
		}
		ready, failed := waiting.ready()
		if len(ready) > 0 {
			if err := take(ready); err != nil {
				return err
			}
			p.freeRoom(len(ready))
		}
		if failed != nil {
			return failed
		}
	}
	return nil
}

// result is what a job came to.
type result[T any] struct {
	job   int
	value T
	err   error
}

// pool is the jobs that workers share.
type pool[T any] struct {
	jobs    int
	begun   atomic.Int64
	room    chan struct{}  // one for each job under way or held back
	results chan result[T] // as large as room, so that nobody waits to hand one in
}

// work does one job after the other, until there are none or the context is done.
func (p *pool[T]) work(ctx context.Context, do func(job int) (T, error)) {
	for {
		select {
		case p.room <- struct{}{}:
		case <-ctx.Done():
			return
		}
		job := int(p.begun.Add(1)) - 1
		if job >= p.jobs || ctx.Err() != nil {
			return
		}
		value, err := do(job)
		p.results <- result[T]{job, value, err}
	}
}

// collect waits for a result, and puts it and all others that are there where
// they belong.
func (p *pool[T]) collect(ctx context.Context, into map[int]result[T]) error {
	select {
	case r := <-p.results:
		into[r.job] = r
	case <-ctx.Done():
		return ctx.Err()
	}
	for {
		select {
		case r := <-p.results:
			into[r.job] = r
		default:
			return nil
		}
	}
}

// freeRoom makes room for as many jobs more.
func (p *pool[T]) freeRoom(jobs int) {
	for range jobs {
		<-p.room
	}
}

// line is where results wait for those before them.
type line[T any] struct {
	next int // the first job whose result was not handed over
	at   map[int]result[T]
}

// ready takes the results whose turn it is out of the line; it stops before a
// job that failed, with its error.
func (l *line[T]) ready() (values []T, failed error) {
	for {
		r, ok := l.at[l.next]
		if !ok || r.err != nil {
			return values, r.err
		}
		values = append(values, r.value)
		delete(l.at, l.next)
		l.next++
	}
}
