package batch

import (
	"context"
	"sync"
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
	type result struct {
		job   int
		value T
		err   error
	}
	inner, stop := context.WithCancel(ctx)
	workers = max(1, min(workers, n))
	room := make(chan struct{}, ahead*workers)
	results := make(chan result, ahead*workers) // never full: no more are under way
	var mu sync.Mutex
	next := 0
	var wait sync.WaitGroup
	defer wait.Wait()
	defer stop()
	for range workers {
		wait.Go(func() {
			do := begin()
			for {
				select {
				case room <- struct{}{}:
				case <-inner.Done():
					return
				}
				mu.Lock()
				job := next
				next++
				mu.Unlock()
				if job >= n || inner.Err() != nil {
					return
				}
				value, err := do(job)
				results <- result{job, value, err}
			}
		})
	}
	waiting := map[int]result{}
	for at := 0; at < n; {
		var r result
		select {
		case r = <-results:
		case <-ctx.Done():
			return ctx.Err()
		}
		waiting[r.job] = r
		for more := true; more; {
			select {
			case r = <-results:
				waiting[r.job] = r
			default:
				more = false
			}
		}
		var ready []T
		var failed error
		for r, ok := waiting[at]; ok; r, ok = waiting[at] {
			if failed = r.err; failed != nil {
				break
			}
			ready = append(ready, r.value)
			delete(waiting, at)
			at++
		}
		if len(ready) > 0 {
			if err := take(ready); err != nil {
				return err
			}
			for range ready {
				<-room
			}
		}
		if failed != nil {
			return failed
		}
	}
	return nil
}
