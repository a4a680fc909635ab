package batch

import "context"

// Play plays what a course has still to come on some workers, and hands over
// the chunks in sequence, as many at a time as are ready; each has been added
// to the course. It ends when the course is done, at the first error, or with
// that of the context, after a whole chunk.
func Play(ctx context.Context, c *Course, workers int, take func([]*Chunk) error) error {
	compiled := &PerPoint[*programs]{Make: c.p.compile}
	for {
		n, at := c.Stretch()
		if n == 0 {
			return nil
		}
		err := InOrder(ctx, workers, n,
			func() func(int) (*Chunk, error) {
				pl := &player{p: c.p, compiled: compiled}
				return func(i int) (*Chunk, error) { return pl.play(at(i)) }
			},
			func(ready []*Chunk) error {
				for _, chunk := range ready {
					if err := c.Add(chunk); err != nil {
						return err
					}
				}
				compiled.Forget(ready[len(ready)-1].Point)
				return take(ready)
			})
		if err != nil {
			return err
		}
	}
}
