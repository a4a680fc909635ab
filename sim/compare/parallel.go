package compare

import (
	"context"

	"warmby/sim/batch"
)

// each does jobs 0 to n-1, each once, on some workers, and returns the error of
// the first job that has one. Jobs must not depend on each other and write only
// what is their own; then the outcome is the same for any number of workers.
func each(ctx context.Context, workers, n int, do func(job int)) error {
	type done struct{}
	return batch.InOrder(ctx, workers, n,
		func() func(int) (done, error) {
			return func(job int) (done, error) { do(job); return done{}, nil }
		},
		func([]done) error { return nil })
}
