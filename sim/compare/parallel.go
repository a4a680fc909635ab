package compare

import (
	"context"
	"sync"
	"sync/atomic"
)

// each does jobs 0 to n-1, each once, on some workers, and returns the error of
// the first job that has one. Jobs must not depend on each other and write only
// what is their own; then the outcome is the same for any number of workers.
func each(ctx context.Context, workers, n int, do func(job int) error) error {
	errs := make([]error, n)
	var next atomic.Int64
	var wait sync.WaitGroup
	for range max(1, min(workers, n)) {
		wait.Go(func() {
			for {
				job := int(next.Add(1)) - 1
				if job >= n || ctx.Err() != nil {
					return
				}
				errs[job] = do(job)
			}
		})
	}
	wait.Wait()
	if err := ctx.Err(); err != nil {
		return err
	}
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
